"""Lines about what ends the prescriptive rules and about the forms themselves; what to know or do beside the numbers."""

from collections.abc import Iterator

from engine.attachments.gable_end.cutting import CutList
from engine.attachments.gable_end.geometry import Gable
from engine.attachments.gable_end.inputs import Inputs
from engine.attachments.gable_end.outline import AS_IT_STANDS
from engine.clauses.us.gables import setback_in
from engine.clauses.us.irc_bars import vertical_bars
from engine.clauses.us.irc_scope import lintel_prescriptive, r608_limits_exceeded
from engine.clauses.us.irc_walls import slump_ok, vibration_required
from engine.editions import Citation
from engine.result import Caution, LimitState
from engine.tables.reading import SLACK
from engine.worksheet import Step, Worksheet, cite

PRACTICE = Citation("common practice")
TABLED_HEIGHT_IN = 120.0  # IRC Table R608.6(1): walls to 10 ft of unsupported height


def lines(sheet: Worksheet, i: Inputs, g: Gable, cut: CutList, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    """Limits, the cut list, the opening. Args: placed: the steps of geometry."""
    opening = (_lintel(sheet, g),) if g.opening else ()
    return (_limits(sheet, i), *opening, _forms(g, cut, placed), *_pieces(cut))


def _limits(sheet: Worksheet, i: Inputs) -> LimitState:
    category, _, town = i.seismic.partition("-")
    beyond = sheet.use(r608_limits_exceeded, sdc=category, building="townhouse" if town else "detached")
    return LimitState(
        "scope", "Within the prescriptive limits of the wall", cite(r608_limits_exceeded), holds=not beyond,
        say=f"Beyond the limits: {', '.join(beyond)}." if beyond else "The seismic category is within the limits.",
        refer="Beyond R608.2 the gable is designed: bring the loads and the seismic category to a licensed engineer."
        if beyond else "",
        spot="gable", steps=sheet.take(),
    )  # fmt: skip


def _lintel(sheet: Worksheet, g: Gable) -> LimitState:
    """The tables know level walls; what a rake brings to a lintel they don't."""
    sheet.use(lintel_prescriptive, concentrated=True)
    return LimitState(
        "lintel", "Lintel over the opening", cite(lintel_prescriptive), spot="opening", steps=sheet.take(),
        say="The concrete over the opening follows the rake and is not judged here.",
        refer="IRC R608.8: the lintel under a rake is designed. Bring the opening, the concrete over it and what the rake carries, "
        "a ridge beam above all, to a licensed engineer.",
    )  # fmt: skip


def _forms(g: Gable, cut: CutList, placed: tuple[Step, ...]) -> LimitState:
    """A count, not a judgement: it is advisory."""
    saved = cut.without - cut.with_reuse
    how = f"{len(cut.offcuts)} offcuts are used, which saves {{saved}}" if saved else "no offcut saves a form"
    setback = "{left} at each rake" if abs(g.c_L - g.c_R) < 1e-9 else "{left} at the left rake and {right} at the right"
    return LimitState(
        "forms", "Forms", Citation("geometry"), holds=True, advisory=True, spot="course",
        say=f"{{courses}} courses step back {setback}. {len(cut.pieces)} pieces come out of {{forms}} forms: {how}; by its face "
        "alone the gable takes {area}.",
        facts={"courses": (g.N, ""), "left": (g.c_L, "in"), "right": (g.c_R, "in"), "forms": (cut.with_reuse, ""),
               "saved": (saved, ""), "area": (cut.by_area, "")},
        steps=tuple(step for step in placed if step.function is setback_in),
    )  # fmt: skip


def _pieces(cut: CutList) -> Iterator[LimitState]:
    """What the crew must hold by hand: pieces without a web, joints over joints."""
    if cut.webless:
        which = ", ".join(str(number) for number in cut.webless[:6])
        yield LimitState(
            "webless", "Pieces without a web", PRACTICE, 0.0, float(len(cut.webless)), "", advisory=True, spot="course",
            say=f"{{capacity}} pieces hold no web (first {which}): tie their two panels to the boards on both faces.",
        )  # fmt: skip
    if cut.stacked:
        yield LimitState(
            "stacked", "Joints over joints", PRACTICE, 0.0, float(cut.stacked), "", advisory=True, spot="course",
            say="{capacity} upright joints stand over a joint of the course below: strap them on both faces.",
        )  # fmt: skip


def cautions(i: Inputs, g: Gable, cut: CutList) -> tuple[Caution, ...]:
    """What to know or do, in the order of the work."""
    return (*_cutting(i, cut), *_placing(i), *_plate(i), *_wall(g))


def _wall(g: Gable) -> Iterator[Caution]:
    """What the prescriptive walls ask of a gable that no line judges."""
    yield Caution(
        "The ceiling at the foot of a gable-end wall is a diaphragm too, and the wall is tied to it.",
        Citation("IRC", "R608.10"),
    )
    if g.H > TABLED_HEIGHT_IN + SLACK:
        yield Caution(
            "The table of upright bars ends at 10 ft between supports: bars of a higher gable are designed.",
            cite(vertical_bars),
        )


def _cutting(i: Inputs, cut: CutList) -> Iterator[Caution]:
    yield Caution(
        "A cut frees the foam up to the next web: no concrete before boards are tied along both faces of it.",
        practice=True,
    )
    if any(piece.turn.end != piece.turn.over for piece in cut.pieces):
        yield Caution(
            "A piece turned end for end or upside down shows its room-side panel outside: only where both panels are alike."
        )
    if any(piece.turn is not AS_IT_STANDS for piece in cut.pieces):
        yield Caution("Check that an offcut's webs stand over those below before it is fixed.", practice=True)
    if i.opening:
        yield Caution("The opening is cut out of the laid courses; the cut list has its forms whole.", practice=True)
    yield Caution("The gable stands free until the roof holds it: brace it against wind on both sides.", practice=True)


def _placing(i: Inputs) -> Iterator[Caution]:
    if not slump_ok(i.slump_in, "stay-in-place"):
        yield Caution(
            "The code asks for a slump of more than 6 in in stay-in-place forms; practice in gables is 3 to 5 in. The two "
            "conflict, and the building official decides.",
            cite(slump_ok),
        )
    yield Caution(
        "The code asks for internal vibration; near the peak keep the poker shallow.", cite(vibration_required)
    )
    yield Caution("Place from both eaves toward the ridge, so that neither rake is pushed over.", practice=True)
    yield Caution(
        "Boards that cap the rake are lifted by the head of fresh concrete above them: leave fill holes and tie them down.",
        practice=True,
    )


def _plate(i: Inputs) -> Iterator[Caution]:
    if i.plate == "none":
        return
    how = "square to the slope" if i.bolts_stand == "square" else "plumb, with bevelled washers on the slope"
    yield Caution(f"Bolts stand {how}: say so on the drawing.", practice=True)
    yield Caution("Judge the plate's wind uplift and shear as a sill plate; here only its place and bolts are set out.")
