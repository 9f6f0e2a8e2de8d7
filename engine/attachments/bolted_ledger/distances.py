"""Lines about where bolts may stand in the wood: NDS 12.5.1, the loaded edge being the top one."""

from itertools import pairwise

from engine.attachments.bolted_ledger.geometry import Ledger
from engine.attachments.bolted_ledger.inputs import Inputs
from engine.clauses.us import timber_geometry as least
from engine.clauses.us.timber_factors import C_Delta
from engine.clauses.us.timber_materials import species
from engine.result import LimitState
from engine.worksheet import Worksheet, cite


def closest_in(place: Ledger) -> float:
    """Least distance between two bolt stations along the ledger [in]."""
    return min(b - a for a, b in pairwise(place.places))


def _end(sheet: Worksheet, i: Inputs, place: Ledger) -> tuple[float, float]:
    """Least end distance and that for the full value; shear along the wall pushes toward the end."""
    full = sheet.use(least.end_full_in, D_in=place.D)
    if i.shear_wind_plf or i.shear_seismic_plf:
        full = sheet.use(least.end_tension_full_in, D_in=place.D, hardwood=species(i.species).hardwood)
    return sheet.use(least.end_least_in, a_full_in=full), full


def factors(sheet: Worksheet, i: Inputs, place: Ledger) -> tuple[float, ...]:
    """C_Delta of the end, of two bolts one above the other, and of the spacing along a shear."""
    low, full = _end(sheet, i, place)
    found = [sheet.use(C_Delta, a_in=i.end_in, a_min_in=low, a_full_in=full)]
    rows = [i.gauge_in] if place.at_a_place > 1 else []
    if i.shear_wind_plf or i.shear_seismic_plf:
        rows.append(closest_in(place))
    for a in rows:
        low = sheet.use(least.spacing_least_in, D_in=place.D)
        full = sheet.use(least.spacing_full_in, D_in=place.D)
        found.append(sheet.use(C_Delta, a_in=a, a_min_in=low, a_full_in=full))
    return tuple(found)


def edges(sheet: Worksheet, place: Ledger) -> tuple[LimitState, ...]:
    """Above and below the bolts."""
    return _top(sheet, place), _bottom(sheet, place)


def rows(sheet: Worksheet, i: Inputs, place: Ledger) -> tuple[LimitState, ...]:
    """Of two rows their distance."""
    return (_rows_apart(sheet, i, place), _rows_spread(sheet, i)) if i.rows == 2 else ()


def _top(sheet: Worksheet, place: Ledger) -> LimitState:
    need = sheet.use(least.loaded_edge_in, D_in=place.D)
    return LimitState(
        "edge-top", "Bolts below the top edge", cite(least.loaded_edge_in), need, place.rows[0], "in",
        say="Joists push the wood up against the bolts, so the top is the loaded edge: {capacity} to it, {demand} needed.",
        spot="edge-top", steps=sheet.take(),
    )  # fmt: skip


def _bottom(sheet: Worksheet, place: Ledger) -> LimitState:
    need = sheet.use(least.unloaded_edge_in, D_in=place.D)
    return LimitState(
        "edge-bottom", "Bolts above the lower edge", cite(least.unloaded_edge_in), need, place.d - place.rows[-1], "in",
        say="The lower bolts stand {capacity} above the ledger's lower edge; {demand} is needed.",
        spot="edge-bottom", steps=sheet.take(),
    )  # fmt: skip


def end(sheet: Worksheet, i: Inputs, place: Ledger) -> LimitState:
    """From a piece's end to its first bolt."""
    low, full = _end(sheet, i, place)
    factor = sheet.use(C_Delta, a_in=i.end_in, a_min_in=low, a_full_in=full)
    return LimitState(
        "end-distance", "Bolts from a piece's end", cite(least.end_least_in), low, i.end_in, "in",
        say="The end bolt stands {capacity} from its piece's end; {demand} is the least, {full} gives the full value. "
        "Here the factor is {factor}.",
        facts={"full": (full, "in"), "factor": (factor, "")}, spot="end", steps=sheet.take(),
    )  # fmt: skip


def spacing(sheet: Worksheet, place: Ledger) -> LimitState:
    """Neighbours along the ledger stand in rows of their own, the load being across the grain."""
    need = sheet.use(least.row_spacing_perpendicular_in, D_in=place.D, l_in=min(place.b, place.h_ef + place.pad))
    return LimitState(
        "spacing", "Bolts along the ledger", cite(least.row_spacing_perpendicular_in), need, closest_in(place), "in",
        say="The nearest two bolts along the ledger stand {capacity} apart; {demand} is needed.",
        spot="spacing", steps=sheet.take(),
    )  # fmt: skip


def _rows_apart(sheet: Worksheet, i: Inputs, place: Ledger) -> LimitState:
    need = sheet.use(least.spacing_least_in, D_in=place.D)
    return LimitState(
        "rows-apart", "Rows apart", cite(least.spacing_least_in), need, i.gauge_in, "in",
        say="The rows stand {capacity} apart; {demand} is needed.", spot="rows", steps=sheet.take(),
    )  # fmt: skip


def _rows_spread(sheet: Worksheet, i: Inputs) -> LimitState:
    most = sheet.use(least.outer_rows_limit_in, dry_glulam=False)
    return LimitState(
        "rows-spread", "Rows not too far apart", cite(least.outer_rows_limit_in), i.gauge_in, most, "in",
        say="Wood shrinks between rows held by concrete: {demand} between them, {capacity} at most.",
        spot="rows", steps=sheet.take(),
    )  # fmt: skip
