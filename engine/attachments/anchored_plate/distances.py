"""Lines about where fasteners stand in the member. Bolts: NDS 12.5.1; the member hangs on them, so its top is the loaded edge."""

from collections.abc import Sequence

from engine.attachments.anchored_plate.demand import Effect, along_grain
from engine.attachments.anchored_plate.geometry import Bracket
from engine.attachments.anchored_plate.inputs import Inputs
from engine.clauses.us import timber_geometry as least
from engine.clauses.us.timber_factors import C_Delta
from engine.clauses.us.timber_geometry import SmallItem
from engine.clauses.us.timber_materials import species
from engine.result import LimitState
from engine.worksheet import Worksheet, cite


def lines(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> tuple[LimitState, ...]:
    """Edges, end, spacing, as far as effects lift the member or load it along the grain. Args: effects: at allowable stress."""
    lifts, along = any(e.V < 0 for e in effects), any(along_grain(i, e) for e in effects)
    if i.fastener == "screw":
        return _screws(sheet, i, p, along)
    states = [
        _edge(sheet, p.top, "top", "loaded", True, p.D),
        _edge(sheet, p.bottom, "bottom", "loaded" if lifts else "unloaded", lifts, p.D),
        _end(sheet, i, p, along),
    ]
    if i.f_rows > 1:
        states += [_rows_apart(sheet, i, p), _rows_spread(sheet, i)]
    if i.f_columns > 1:
        states.append(_columns_apart(sheet, i, p, along))
    return tuple(states)


def _hardwood(i: Inputs) -> bool:
    return i.wood == "sawn" and species(i.species).hardwood


def _end_limits(sheet: Worksheet, i: Inputs, p: Bracket, along: bool) -> tuple[float, float]:
    """Least end distance and that for the full value; a load along the grain may push toward the end."""
    full = sheet.use(least.end_full_in, D_in=p.D)
    if along:
        full = sheet.use(least.end_tension_full_in, D_in=p.D, hardwood=_hardwood(i))
    return sheet.use(least.end_least_in, a_full_in=full), full


def factor(sheet: Worksheet, i: Inputs, p: Bracket, along: bool) -> float:
    """C_Δ of the bolts: of the end distance, of rows across the grain, and of columns for a load along the grain."""
    low, full = _end_limits(sheet, i, p, along)
    found = [sheet.use(C_Delta, a_in=p.end, a_min_in=low, a_full_in=full)]
    if i.f_rows > 1:
        low = sheet.use(least.spacing_least_in, D_in=p.D)  # across the grain the steel decides, and asks for less
        found.append(sheet.use(C_Delta, a_in=i.f_row_spacing_in, a_min_in=low, a_full_in=low))
    if i.f_columns > 1 and along:
        low, full = sheet.use(least.spacing_least_in, D_in=p.D), sheet.use(least.spacing_full_in, D_in=p.D)
        found.append(sheet.use(C_Delta, a_in=i.f_column_spacing_in, a_min_in=low, a_full_in=full))
    return min(found)


def _edge(sheet: Worksheet, there: float, side: str, kind: str, loaded: bool, D: float) -> LimitState:
    rule = least.loaded_edge_in if loaded else least.unloaded_edge_in
    need = sheet.use(rule, D_in=D)
    say = f"The fasteners leave {{capacity}} to the member's {side}, its {kind} edge; {{demand}} is needed."
    if there < 0:
        say = f"The fasteners miss the member at its {side}; {{demand}} of wood is needed beside them."
    return LimitState(
        f"edge-{side}", f"Wood to the {side} edge", cite(rule), need, there, "in", say=say, spot=f"edge-{side}",
        steps=sheet.take(),
    )  # fmt: skip


def _end(sheet: Worksheet, i: Inputs, p: Bracket, along: bool) -> LimitState:
    low, full = _end_limits(sheet, i, p, along)
    found = sheet.use(C_Delta, a_in=p.end, a_min_in=low, a_full_in=full)
    return LimitState(
        "end-distance", "Wood to the member's end", cite(least.end_least_in), low, p.end, "in",
        say="The first fasteners stand {capacity} from the member's end; {demand} is the least, {full} gives the full value. "
        "Here the factor is {factor}.",
        facts={"full": (full, "in"), "factor": (found, "")}, spot="end", steps=sheet.take(),
    )  # fmt: skip


def _rows_apart(sheet: Worksheet, i: Inputs, p: Bracket) -> LimitState:
    need = sheet.use(least.spacing_least_in, D_in=p.D)
    return LimitState(
        "rows-apart", "Fasteners one above the other", cite(least.spacing_least_in), need, i.f_row_spacing_in, "in",
        say="Up the member the fasteners stand {capacity} apart; {demand} is needed.", spot="fasteners", steps=sheet.take(),
    )  # fmt: skip


def _rows_spread(sheet: Worksheet, i: Inputs) -> LimitState:
    dry = i.wood == "glulam" and i.moisture == "dry"
    most = sheet.use(least.outer_rows_limit_in, dry_glulam=dry)
    spread = (i.f_rows - 1) * i.f_row_spacing_in
    return LimitState(
        "rows-spread", "Fasteners not too far apart up the member", cite(least.outer_rows_limit_in), spread, most, "in",
        say="Wood shrinks between fasteners held by steel: {demand} from the upper to the lower ones, {capacity} at most.",
        spot="fasteners", steps=sheet.take(),
    )  # fmt: skip


def _columns_apart(sheet: Worksheet, i: Inputs, p: Bracket, along: bool) -> LimitState:
    """Across the grain each column is a row of its own; along it, the columns stand in one row."""
    thinnest = (i.b_in - p.slot) / 2 if i.form == "slot" else i.b_in
    need = sheet.use(least.row_spacing_perpendicular_in, D_in=p.D, l_in=min(max(thinnest, 1e-3), p.leg_thickness))
    source = cite(least.row_spacing_perpendicular_in)
    if along:
        need = max(need, sheet.use(least.spacing_least_in, D_in=p.D))
    return LimitState(
        "columns-apart", "Fasteners side by side", source, need, i.f_column_spacing_in, "in",
        say="Along the grain the fasteners stand {capacity} apart; {demand} is needed.", spot="fasteners", steps=sheet.take(),
    )  # fmt: skip


def _screws(sheet: Worksheet, i: Inputs, p: Bracket, along: bool) -> tuple[LimitState, ...]:
    """Practice against splitting: the standard itself gives screws this small no figures."""
    end: SmallItem = "end tension" if along else "end compression"
    asked: list[tuple[str, str, SmallItem, float, str]] = [
        ("edge-top", "Wood to the top edge", "edge", p.top, "above the upper screws"),
        ("edge-bottom", "Wood to the bottom edge", "edge", p.bottom, "below the lower screws"),
        ("end-distance", "Wood to the member's end", end, p.end, "to the member's end"),
    ]
    if i.f_rows > 1:
        up = "up from screw to screw"
        asked.append(("rows-apart", "Screws one above the other", "across in line", i.f_row_spacing_in, up))
    if i.f_columns > 1:
        beside = "along the grain from screw to screw"
        asked.append(("columns-apart", "Screws side by side", "along", i.f_column_spacing_in, beside))
    return tuple(_screw(sheet, i, p, *one) for one in asked)


def _screw(
    sheet: Worksheet, i: Inputs, p: Bracket, key: str, title: str, item: SmallItem, there: float, where: str
) -> LimitState:
    need = sheet.use(least.small_dowel_distance_in, item=item, D_in=p.D, steel_side=True, lead_hole=i.lead_holes)
    say = f"There is {{capacity}} of wood {where}; {{demand}} keeps it from splitting."
    if there < 0:
        say = "The outermost screws miss the wood; {demand} keeps it from splitting."
    source = cite(least.small_dowel_distance_in)
    return LimitState(key, title, source, need, there, "in", say=say, spot="fasteners", steps=sheet.take())
