"""Lines about the veneer itself: how it bears, how high and heavy it may be, its ties, air, flashing and weeps. IRC R703.8."""

from engine.attachments.veneer_ledge.geometry import Ledge, kept
from engine.attachments.veneer_ledge.inputs import Inputs
from engine.attachments.veneer_ledge.load import Load, tallest_ft
from engine.attachments.veneer_ledge.shape import bearing_edge_in, wythe_back_in
from engine.clauses.us import irc_veneer as veneer
from engine.clauses.us.irc import irc_year
from engine.editions import Citation, Edition
from engine.errors import OutOfScope
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite, clause

FLASHING = Citation("IRC", "R703.8.5")
WIRES = ("W1.7", "W2.8")
JOINT_IN = 0.375  # common practice: a nominal wythe is its unit and one mortar joint


@clause(
    "common practice", "", title="Nominal thickness of a wythe", symbol="t_nom", unit="in", formula="t_w + 0.375",
    provenance="common practice", note="The unit and one mortar joint of 3/8 in.",
)  # fmt: skip
def nominal_wythe_in(t_w_in: float) -> float:
    """Nominal thickness of a wythe [in]. Args: t_w_in: as made [in]."""
    return t_w_in + JOINT_IN


def lines(
    sheet: Worksheet, i: Inputs, g: Ledge, load: Load, edition: Edition, placed: tuple[Step, ...]
) -> tuple[LimitState, ...]:
    """Bearing, limits of use, ties, water. Args: placed: the steps of geometry."""
    return (
        *_bearing(sheet, i, g, placed),
        *_limits(sheet, i, load),
        *_ties(sheet, i, edition, placed),
        *_water(sheet, i),
    )


def _bearing(sheet: Worksheet, i: Inputs, g: Ledge, placed: tuple[Step, ...]) -> tuple[LimitState, LimitState]:
    steps = kept(placed, wythe_back_in, bearing_edge_in)
    need = sheet.use(veneer.veneer_bearing_in, t_v_in=i.wythe_in)
    miss = max(-g.bearing, 0.0)
    bears = LimitState(
        "veneer-bearing", "Bearing of the veneer", cite(veneer.veneer_bearing_in), need, max(g.bearing, 0.0), "in",
        say="The veneer misses the ledge by {miss}; two thirds of its wythe, {demand}, are to bear."
        if miss
        else "The veneer bears {capacity}; two thirds of its wythe, {demand}, are needed.",
        facts={"miss": (miss, "in")}, spot="bearing", steps=steps + sheet.take(),
    )  # fmt: skip
    most = sheet.use(veneer.veneer_overhang_in, t_v_in=i.wythe_in)
    over = LimitState(
        "veneer-overhang", "Overhang of the veneer", cite(veneer.veneer_overhang_in), g.overhang, most, "in",
        say="The veneer stands {demand} past the lip; a third of its wythe, {capacity}, is the most.",
        spot="bearing", steps=sheet.take(),
    )  # fmt: skip
    return bears, over


def _limits(sheet: Worksheet, i: Inputs, load: Load) -> tuple[LimitState, ...]:
    """Height, thickness and weight of Table R703.8; veneer beyond them needs its own design."""
    source = cite(veneer.veneer_limits)
    category = i.seismic.partition("-")[0]
    try:
        most = sheet.use(veneer.veneer_limits, sdc=category, stories=i.stories, lower_10_ft_backed=i.backed)
    except OutOfScope as limit:
        say = "The table of anchored veneer has no row for this house."
        refer = f"{limit.rule}: {limit.why}"
        return (LimitState("veneer-limits", "Limits of the veneer", source, say=say, refer=refer, spot="veneer"),)
    table = sheet.take()
    nominal = sheet.use(nominal_wythe_in, t_w_in=i.wythe_in)
    peak = most.height_ft + most.gable_extra_ft
    return (
        LimitState(
            "veneer-height", "Height of the veneer", source, i.height_ft, most.height_ft, "ft", spot="veneer", steps=table,
            say="The veneer is {demand} high; {capacity} is the most.",
        ),
        LimitState(
            "veneer-gable", "Height of the veneer at the gable", source, tallest_ft(i), peak, "ft", spot="veneer", steps=table,
            say="With its gable the veneer is {demand} high; {capacity} is the most.",
        ),
        LimitState(
            "veneer-thickness", "Thickness of the veneer", source, nominal, most.thickness_in, "in", spot="veneer",
            say="The wythe is {demand} nominal; {capacity} is the most.", steps=table + sheet.take(),
        ),
        LimitState(
            "veneer-weight", "Weight of the veneer", source, load.q_psf, most.weight_psf, "psf", spot="veneer", steps=table,
            say="The veneer weighs {demand}; {capacity} is the most.",
        ),
    )  # fmt: skip


def _ties(sheet: Worksheet, i: Inputs, edition: Edition, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    tie = sheet.use(veneer.veneer_tie)
    rule = sheet.take()
    air = LimitState(
        "air", "Air space", cite(veneer.veneer_tie), tie.air_space_in, i.air_in, "in", spot="veneer", steps=rule,
        say="There is {capacity} of air behind the veneer; {demand} is needed.",
    )  # fmt: skip
    mortar = LimitState(
        "tie-mortar", "Wythe thick enough for its ties", cite(veneer.veneer_tie), tie.embedment_in + tie.outside_cover_in,
        i.wythe_in, "in", spot="veneer-ties", steps=rule,
        say="The wythe is {capacity} thick; embedment and cover of its ties take {demand}.",
    )  # fmt: skip
    return air, mortar, _backing(sheet, i, edition, placed), *_tie_spacing(sheet, i)


def _backing(sheet: Worksheet, i: Inputs, edition: Edition, placed: tuple[Step, ...]) -> LimitState:
    """From the core's face, for foam is no backing."""
    key, title, source = "backing", "Core to veneer, across foam and air", cite(veneer.largest_backing_distance_in)
    distance = i.foam_outer_in + i.air_in
    if i.veneer_tie == "engineered":
        named = bool(i.veneer_tie_report.strip())
        return LimitState(
            key, title, source, holds=named, spot="veneer-ties", facts={"distance": (distance, "in")},
            unchecked="the ties' own design covers it" if named else "",
            say="The veneer stands {distance} from the core, on ties by their own design."
            if named
            else "The veneer stands {distance} from the core: name the design or report of the ties that span it.",
        )  # fmt: skip
    if i.veneer_tie not in WIRES:
        return LimitState(
            key, title, source, holds=False, spot="veneer-ties", facts={"distance": (distance, "in")},
            say="The veneer stands {distance} from the core and corrugated ties are listed on studs only: use wire ties fixed to "
            "the core, or ties by their own design.",
        )  # fmt: skip
    most = sheet.use(veneer.largest_backing_distance_in, wire=i.veneer_tie, year=irc_year(edition))
    return LimitState(
        key, title, source, distance, most, "in", spot="veneer-ties", steps=kept(placed, wythe_back_in) + sheet.take(),
        say=f"From the core to the back of the veneer are {{demand}}; {i.veneer_tie} ties span {{capacity}} at most.",
    )  # fmt: skip


def _tie_spacing(sheet: Worksheet, i: Inputs) -> tuple[LimitState, ...]:
    category, _, town = i.seismic.partition("-")
    most = sheet.use(veneer.tie_area_limit_ft2, sdc=category, wind_psf=i.wind_psf, townhouse=bool(town))
    area = sheet.use(veneer.tie_area_ft2, s_h_in=i.veneer_tie_h_in, s_v_in=i.veneer_tie_v_in)
    # R703.8.4.1 prints 2.67 for 2 2/3 sq ft, so 16 by 24 in is meant to hold
    holds = LimitState(
        "tie-area", "Veneer held by one tie", cite(veneer.tie_area_limit_ft2), area, most, "ft²", spot="veneer-ties",
        say="Each tie holds {demand} of veneer; {capacity} is the most here.", steps=sheet.take(),
    )  # fmt: skip
    sheet.use(veneer.tie_spacing_ok, s_h_in=i.veneer_tie_h_in, s_v_in=i.veneer_tie_v_in, A_max_ft2=most)
    steps = sheet.take()
    level = LimitState(
        "tie-level", "Veneer ties apart, level", cite(veneer.tie_spacing_ok), i.veneer_tie_h_in, veneer.TIE_HORIZONTAL_IN, "in",
        say="The ties stand {demand} apart along a course; {capacity} is the most.", spot="veneer-ties", steps=steps,
    )  # fmt: skip
    upright = LimitState(
        "tie-upright", "Veneer ties apart, upright", cite(veneer.tie_spacing_ok), i.veneer_tie_v_in, veneer.TIE_VERTICAL_IN, "in",
        say="The ties stand {demand} apart upward; {capacity} is the most.", spot="veneer-ties", steps=steps,
    )  # fmt: skip
    return holds, level, upright


def _water(sheet: Worksheet, i: Inputs) -> tuple[LimitState, LimitState]:
    flashing = LimitState(
        "flashing", "Flashing on the ledge", FLASHING, holds=i.flashing, spot="bearing",
        say="Flashing lies under the first course." if i.flashing else "Flashing is needed under the first course.",
    )  # fmt: skip
    least = sheet.use(veneer.weeps)
    weeps = LimitState(
        "weeps", "Weep holes", cite(veneer.weeps), i.weeps_in, least.spacing_in, "in", spot="bearing", steps=sheet.take(),
        say="Weeps stand {demand} apart just above the flashing; {capacity} is the most, each at least {diameter} wide.",
        facts={"diameter": (least.diameter_in, "in")},
    )  # fmt: skip
    return flashing, weeps
