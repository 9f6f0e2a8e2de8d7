"""Lines of how the stirrups are bent, held and covered: ACI 318-19 16.5.2.3, 16.5.6, 20.5.1.3, 25.3 and 25.4.3."""

from engine.attachments.veneer_ledge.geometry import Ledge, kept
from engine.attachments.veneer_ledge.inputs import BENT_DOWN, STIRRUPS, Inputs
from engine.attachments.veneer_ledge.shape import hook_room_in, tip_bends_in, tip_leg_in
from engine.clauses.us import development
from engine.clauses.us.bars import main_bend_in, stirrup_bend_in
from engine.clauses.us.concrete_wall_steel import clear_cover_in
from engine.clauses.us.ledge_geometry import straight_end_from_lip_in
from engine.editions import Citation
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite

NAMES = dict(STIRRUPS)
TIP = Citation("ACI 318", "16.5.6.3")
GEOMETRY = Citation("geometry")


def lines(sheet: Worksheet, i: Inputs, g: Ledge, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    """Hook in the core, anchorage and room at the lip, covers. Args: placed: the steps of geometry."""
    states = [*_hook(sheet, i, g, placed), _tip(i, g), _bearing_end(i, g, placed), _fits(g, placed)]
    if i.bend_in is not None:
        states.append(_bend(sheet, i, g))
    return (*states, *_covers(sheet, i, g))


def _development_in(sheet: Worksheet, i: Inputs, g: Ledge, c_side_in: float) -> float:
    use, f_c = sheet.use, i.f_c_psi
    return use(
        development.hook_development_in,
        f_y_psi=i.f_y_ksi * 1000,
        f_c_psi=f_c,
        d_b_in=g.d_b,
        psi_e=use(development.hook_psi_e, coated=i.coated),
        psi_r=use(development.hook_psi_r, s_in=g.spacing, d_b_in=g.d_b),
        psi_o=use(development.hook_psi_o, c_side_in=c_side_in, d_b_in=g.d_b),
        psi_c=use(development.hook_psi_c, f_c_psi=f_c),
    )


def _hook(sheet: Worksheet, i: Inputs, g: Ledge, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    source = cite(development.hook_development_in)
    if i.hook == "closed":
        refer = (
            "ACI 318 25.4.3 develops hooks, not loops: bring the loop, the bars in its corners and a strut-and-tie check to a "
            "licensed engineer."
        )
        say = "The stirrup closes round the far bars instead of ending in a hook; how it yields at the core's face is not judged."
        return (LimitState("hook", "Stirrup held in the core", source, say=say, refer=refer, spot="hook"),)
    # away from ends and openings the next stirrup's place lies between, so its clear distance is the side cover there is
    side = i.side_cover_in if i.beside_end else g.spacing - g.d_b
    need = _development_in(sheet, i, g, side)
    say = f"A {NAMES[i.stirrup]} hook needs {{demand}} from the face of the core to its back; the core leaves {{capacity}}."
    room = kept(placed, hook_room_in)
    held = LimitState(
        "hook",
        "Stirrup held in the core",
        source,
        need,
        g.hook_back,
        "in",
        say=say,
        spot="hook",
        steps=room + sheet.take(),
    )
    return (held,) if i.beside_end else (held, _end_hook(sheet, i, g, room))


def _end_hook(sheet: Worksheet, i: Inputs, g: Ledge, room: tuple[Step, ...]) -> LimitState:
    """What the last stirrup needs, which has an end or an opening beside it (reading 15)."""
    need = _development_in(sheet, i, g, 0.0)
    return LimitState(
        "hook-end", "Last stirrup at a wall end or an opening", cite(development.hook_psi_o), need, g.hook_back, "in",
        say="Next to a wall end or an opening the hook needs {demand} unless {side} of concrete lies beside it; the core leaves "
        "{capacity}.",
        facts={"side": (6 * g.d_b, "in")}, advisory=True, spot="hook", steps=room + sheet.take(),
    )  # fmt: skip


def _enough_bar(g: Ledge) -> bool:
    """Whether the bar along the lip is at least the stirrup's size."""
    return g.tip_bar >= g.d_b


def _tip(i: Inputs, g: Ledge) -> LimitState:
    title = "Stirrup held at the lip"
    if i.tip in ("bar", "welded"):
        how = "bent round" if i.tip == "bar" else "welded to"
        return LimitState(
            "tip", title, TIP, g.d_b, g.tip_bar, "in", spot="tip",
            say=f"The stirrups, {{demand}} thick, are {how} a bar along the lip {{capacity}} thick; it is to be no thinner.",
        )  # fmt: skip
    looped = i.tip == "loop"
    return LimitState(
        "tip", title, TIP, holds=looped, spot="tip",
        say="The stirrups turn back in a level loop."
        if looped
        else "A bend alone does not hold the stirrup at the lip: put a bar in the outer corner, weld a cross bar, or bend the bars "
        "back as a level loop.",
    )  # fmt: skip


def _bearing_end(i: Inputs, g: Ledge, placed: tuple[Step, ...]) -> LimitState:
    """The bearing may not pass the straight part of the bars; a bar in the outer corner is the accepted way past that."""
    title, source = "Veneer on the straight part of the stirrups", cite(straight_end_from_lip_in)
    steps = kept(placed, straight_end_from_lip_in)
    if i.tip == "bar" and _enough_bar(g) and g.x_edge > g.x_straight:
        return LimitState(
            "tip-bearing", title, source, holds=True, spot="tip", steps=steps,
            say="The veneer bears to {edge} from the core and the stirrups are straight to {straight}. Past that the bar in the "
            "outer corner holds them, by the engineer's word.",
            facts={"edge": (g.x_edge, "in"), "straight": (g.x_straight, "in")},
        )  # fmt: skip
    what = "the cross bar begins at" if i.tip == "welded" else "the stirrups are straight to"
    return LimitState(
        "tip-bearing", title, source, g.x_edge, max(g.x_straight, 0.0), "in", spot="tip", steps=steps,
        say=f"The veneer bears to {{demand}} from the core; {what} {{capacity}}.",
    )  # fmt: skip


def _fits(g: Ledge, placed: tuple[Step, ...]) -> LimitState:
    over = max(g.leg_needed - g.leg, 0.0)
    say = "At the lip the stirrup's bends take {demand} of height; the covers leave {capacity}."
    return LimitState(
        "tip-fit", "Stirrup fits the lip", GEOMETRY, g.leg_needed, max(g.leg, 0.0), "in", spot="tip",
        say=say if not over else f"{say} It clashes by {{over}}: deepen the lip or use a smaller stirrup.",
        facts={"over": (over, "in")}, steps=kept(placed, tip_leg_in, tip_bends_in),
    )  # fmt: skip


def _bend(sheet: Worksheet, i: Inputs, g: Ledge) -> LimitState:
    standard = stirrup_bend_in if i.tip in BENT_DOWN else main_bend_in
    return LimitState(
        "bend", "Bend at the lip", cite(standard), sheet.use(standard, d_b_in=g.d_b), g.bend, "in", spot="tip",
        say="The stirrups are bent to {capacity} inside; {demand} is the least.", steps=sheet.take(),
    )  # fmt: skip


def _covers(sheet: Worksheet, i: Inputs, g: Ledge) -> tuple[LimitState, LimitState]:
    exposure = "weather or ground" if i.exposed else "not exposed"
    least = sheet.use(clear_cover_in, exposure=exposure, d_b_in=g.d_b)
    ledge = LimitState(
        "cover", "Cover in the ledge", cite(clear_cover_in), least,
        min(i.top_cover_in, i.lip_cover_in, i.soffit_cover_in), "in",
        say="The least cover of the stirrups in the ledge is {capacity}; {demand} is needed. Foam is not cover.",
        spot="stirrup", steps=sheet.take(),
    )  # fmt: skip
    least = sheet.use(clear_cover_in, exposure="not exposed", d_b_in=g.d_b)
    behind = LimitState(
        "hook-cover", "Cover behind the hook", cite(clear_cover_in), least, i.hook_cover_in, "in",
        say="Behind the hook, toward the room, {capacity} of concrete is left; {demand} is needed.",
        spot="hook", steps=sheet.take(),
    )  # fmt: skip
    return ledge, behind
