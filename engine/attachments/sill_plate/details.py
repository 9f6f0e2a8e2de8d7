"""Lines about the tie between floor or roof and a wall above ground: the prescriptive details, or a design."""

from engine.attachments.sill_plate.bolts import category
from engine.attachments.sill_plate.demand import Plate, tied_by_design
from engine.attachments.sill_plate.geometry import Sill
from engine.attachments.sill_plate.inputs import PLATES, Inputs
from engine.clauses.us import irc_connections as ties
from engine.clauses.us.irc_scope import Exposure, speed_column_mph
from engine.clauses.us.ledger_rules import cross_grain_barred
from engine.clauses.us.timber_materials import species
from engine.clauses.us.wall_anchorage import required_tie_lb
from engine.editions import Citation
from engine.errors import OutOfScope
from engine.result import LimitState
from engine.worksheet import Worksheet, cite

TITLE = "Prescriptive tie to the wall"
# Steel by its key -> how R608.9.1.1 names it; a threaded rod of Grade 36 is the clause's A36 rod.
GRADES = {"F1554-36": "F1554 Gr 36", "F1554-55": "F1554 Gr 55", "F1554-105": "F1554 Gr 105", "A307": "A307 Gr A"}
ROD_GRADES = {**GRADES, "F1554-36": "A36"}


def lines(sheet: Worksheet, i: Inputs, p: Sill, plate: Plate) -> tuple[LimitState, ...]:
    """The details' lines, or what a design asks; none under a light-frame wall. Args: plate: its loads."""
    if i.carries == "wall":
        return ()
    if i.foundation:
        why = "R608.9 ties walls above ground; a plate on a foundation wall is anchored by R403.1.6."
        return (LimitState("tie-row", TITLE, cite(ties.permitted), say=why, unchecked=why, spot="tie"),)
    if tied_by_design(i):
        return _designed(sheet, i, plate)
    return _table(sheet, i, p)


def _designed(sheet: Worksheet, i: Inputs, plate: Plate) -> tuple[LimitState, ...]:
    title = "Force across the wall"
    barred = sheet.use(cross_grain_barred, category=category(i))
    steps = sheet.take()
    if barred:
        return (
            LimitState(
                "tie-force", title, cite(cross_grain_barred), spot="tie", steps=steps,
                say="In this category no wood may tie a concrete wall across its grain.",
                refer="ASCE 7 12.11.2.2.3: bring the wall's weight, the floor and its ties to a licensed engineer, who ties "
                "joists to the concrete past the plate.",
            ),
        )  # fmt: skip
    typed = plate.across.W > 0
    return (
        LimitState(
            "tie-force", title, cite(required_tie_lb), holds=typed, spot="tie", steps=steps,
            say="Wind brings {wind} across the wall; the least tie between wall and floor is {least}."
            if typed
            else "Enter the wind across the wall, on the plate; the least tie of {least} alone is not enough.",
            facts={"wind": (plate.across.W, "plf"), "least": (plate.across.E, "plf")},
        ),
    )  # fmt: skip


def _missing(say: str, refer: str = "", table: Citation | None = None) -> tuple[LimitState, ...]:
    return (LimitState("tie-row", TITLE, table or cite(ties.permitted), holds=False, say=say, refer=refer, spot="tie"),)


def _table(sheet: Worksheet, i: Inputs, p: Sill) -> tuple[LimitState, ...]:
    if i.code == "IBC":
        return _missing("The building code has no such details: choose a design and enter its loads.")
    if i.stands_on == "ledge":
        return _missing(
            "The details show the top and the side of a wall; a ledge is neither.",
            "IRC R608.9: bring the ledge, the plate and the wind across the wall to a licensed engineer, or choose a design.",
        )
    if i.wind_mph is None:
        return _missing("Enter the basic wind speed: the prescriptive details go by it.")
    return _at_wind(sheet, i, p, i.wind_mph)


def _at_wind(sheet: Worksheet, i: Inputs, p: Sill, speed_mph: float) -> tuple[LimitState, ...]:
    storey: ties.Storey = "roof" if i.carries == "roof" else "floor"
    number = ties.detail("wood", storey, "top", "perpendicular" if i.direction == "perpendicular" else "parallel")
    source = Citation("IRC", f"Table R608.9({number})")
    exposure: Exposure = i.wind_exposure  # type: ignore[assignment]
    try:
        sheet.use(speed_column_mph, speed_mph=speed_mph, exposure=exposure)
    except OutOfScope as limit:
        return _missing("The wind is off the table.", f"{limit.rule}: {limit.why}", source)
    try:
        bolt, tie = sheet.use(ties.printed_row, table=number, bolt_in=i.spacing_in, tie_in=i.tie_spacing_in)
        cell = sheet.use(ties.permitted, table=number, bolt_in=bolt, tie_in=tie, speed_mph=speed_mph, exposure=exposure)
    except OutOfScope:
        sheet.take()
        return _missing(
            "The table has no such row: bolts at 12, 16, 19.2 or 24 in at most, ties at a whole multiple, 48 in at most.",
            table=source,
        )
    return _row(sheet, i, p, cell, source)


def _row(sheet: Worksheet, i: Inputs, p: Sill, cell: ties.Connection, source: Citation) -> tuple[LimitState, ...]:
    size, steps = PLATES[i.plate], sheet.take()
    row = LimitState(
        "tie-row", TITLE, source, holds=cell.permitted, spot="tie", steps=steps,
        say=f"The table {'permits' if cell.permitted else 'does not permit'} bolts {{bolt}} and ties {{tie}} apart at this wind "
        "speed. It is a tie against wind and says nothing of weight.",
        facts={"bolt": (i.spacing_in, "in"), "tie": (i.tie_spacing_in, "in")},
    )  # fmt: skip
    if not cell.permitted:
        return (row, *_materials(sheet, i))
    large = not cell.sill_3x6 or (size.plies == 1 and size.t_nom_in >= 3 and size.b_nom_in >= 6)
    return (
        row,
        LimitState(
            "tie-wall", "Wall of the prescriptive tie", source, cell.wall_in, p.t, "in", spot="concrete", steps=steps,
            say="The row asks for a nominal wall of {demand}; the core is {capacity}.",
        ),
        LimitState(
            "tie-plate", "Plate of the prescriptive tie", source, holds=large, spot="plate", steps=steps,
            say="The row asks for no 3x6 plate." if not cell.sill_3x6
            else "The row asks for a nominal 3x6 plate, and this is one." if large
            else "Use a nominal 3x6 plate: the row asks for it.",
        ),
        LimitState(
            "tie-bolt", "Bolt of the prescriptive tie", source, 0.625 if cell.bolt_5_8 else 0.5, p.D, "in", spot="anchor",
            steps=steps,
            say="The row asks for {demand} bolts; these are {capacity}.",
        ),
        *_materials(sheet, i),
    )  # fmt: skip


def _materials(sheet: Worksheet, i: Inputs) -> tuple[LimitState, ...]:
    kind, grade = _kind(i)
    allowed = sheet.use(ties.bolt_kind_permitted, kind=kind, grade=grade)
    say = "Bolts of this kind and steel are those of the details."
    if not allowed:
        say = "Use headed bolts, or Grade 36 rods with a nut cast in: this kind and steel are not in the details."
    bolt = LimitState(
        "tie-bolt-kind", "Kind of bolt", cite(ties.bolt_kind_permitted), holds=allowed, say=say, spot="anchor",
        steps=sheet.take(),
    )  # fmt: skip
    G = species(i.species).G
    dense = sheet.use(ties.wood_permitted, G=G)
    wood = LimitState(
        "tie-wood", "Wood of the plate", cite(ties.wood_permitted), holds=dense, spot="plate", steps=sheet.take(),
        say="The wood's specific gravity is {G}; 0.42 or more is asked for.", facts={"G": (G, "")},
    )  # fmt: skip
    return bolt, wood


def _kind(i: Inputs) -> tuple[ties.BoltKind, str]:
    if i.head == "hook":
        return "L-hook", ""
    if i.head == "nut":
        return "threaded rod with embedded nut", ROD_GRADES[i.steel]
    return "headed", GRADES[i.steel]
