"""Lines about the screws: their value by the yield limit, penetration, practice, and the wood and spacing around them."""

from engine.attachments.cast_in_plate.geometry import Plate
from engine.attachments.cast_in_plate.inputs import Inputs
from engine.attachments.cast_in_plate.steel import dowel_bearing_psi
from engine.clauses.us.loads import Loads, governing_allowable
from engine.clauses.us.timber_factors import C_M_connection, adjusted_Z_lb
from engine.clauses.us.timber_geometry import SmallItem, small_dowel_distance_in
from engine.clauses.us.timber_materials import species
from engine.clauses.us.timber_screws import least_penetration_in, screw_capacity
from engine.editions import Citation, Edition
from engine.result import LimitState
from engine.tables.reading import SLACK
from engine.worksheet import Step, Worksheet, cite, clause

PRACTICE = Citation("common practice")
USUAL_SCREWS, USUAL_GAUGE = 6, 10  # common practice: a joist's end on a cast-in part


@clause("NDS", "11.2.2", title="Screws together", symbol="n Z'", unit="lb", formula="n * Z", provenance="memory")
def together_lb(n: int, Z_lb: float) -> float:
    """Like fasteners in one joint. Args: n: how many. Z_lb: adjusted value of one [lb]. Source: NDS 2018 11.2.2."""
    return n * Z_lb


def specific_gravity(i: Inputs) -> float | None:
    """G of the wood the screws bite; None where composite lumber's is not typed."""
    return i.G if i.joist == "scl" else species(i.species).G


def _one(sheet: Worksheet, i: Inputs, p: Plate, G: float, C_D: float) -> tuple[float, str]:
    """Adjusted value of one screw [lb] and the mode that governs; nothing below 6 D in the wood."""
    if p.penetration < 6 * p.D - SLACK:
        return 0.0, ""
    F_es = dowel_bearing_psi(sheet, p.thickness, i.F_u_ksi * 1000)
    value = screw_capacity(sheet, i.gauge, G, p.thickness, p.penetration, F_es_psi=F_es, g_in=p.gap_built)
    wet = sheet.use(
        C_M_connection,
        made_wet=i.moisture == "green",
        wet_in_service=i.moisture == "wet",
        D_in=p.D,
        free_to_shrink=i.screws == 1,
    )
    factors = {"C_M": wet, "C_t": 1.0, "C_g": 1.0, "C_Delta": 1.0, "C_eg": 1.0}
    return sheet.use(adjusted_Z_lb, Z_lb=value.Z_lb, C_D=C_D, **factors), value.mode


def strength(
    sheet: Worksheet, i: Inputs, p: Plate, reaction: Loads, edition: Edition, placed: tuple[Step, ...]
) -> LimitState:
    """By the yield limit equations. Args: placed: the steps that placed everything."""
    load = governing_allowable(edition, reaction)
    G = specific_gravity(i)
    if G is None:
        return LimitState(
            "screws", "Screws, yield limit", cite(together_lb), holds=False, spot="screws",
            say="Enter the equivalent specific gravity for screws, from the member's evaluation report.",
        )  # fmt: skip
    one, mode = _one(sheet, i, p, G, load.C_D)
    capacity = sheet.use(together_lb, n=i.screws, Z_lb=one)
    say = f"The joist's end brings {{demand}}; {i.screws} screws at {{one}} (mode {mode}) carry {{capacity}}."
    if not mode:
        say = (
            "The joist's end brings {demand}; screws that reach less than 6 diameters into the wood count for nothing."
        )
    return LimitState(
        "screws", "Screws, yield limit", cite(together_lb), load.demand, capacity, "lb", say=say, facts={"one": (one, "lb")},
        combination=f"{load.label}, C_D {load.C_D:g}", spot="screws", steps=placed + sheet.take(),
    )  # fmt: skip


def penetration(sheet: Worksheet, p: Plate, placed: tuple[Step, ...]) -> LimitState:
    """Least 6 D; from 10 D on the whole length counts (reading 6)."""
    need = sheet.use(least_penetration_in, D_in=p.D)
    return LimitState(
        "penetration", "Screw in the wood", cite(least_penetration_in), need, max(p.penetration, 0.0), "in",
        say="The screws reach {capacity} into the wood; {demand} is the least, and from {full} on the point counts in full.",
        facts={"full": (10 * p.D, "in")}, spot="penetration", steps=placed + sheet.take(),
    )  # fmt: skip


def practice(i: Inputs) -> tuple[LimitState, ...]:
    """Usual count and gauge, advisory."""
    return (
        LimitState(
            "usual-count", "Screws, usual count", PRACTICE, float(USUAL_SCREWS), float(i.screws), "", advisory=True,
            say="The joist's end has {capacity} screws; {demand} are usual.", spot="screws",
        ),
        LimitState(
            "usual-gauge", "Screw gauge, usual", PRACTICE, float(USUAL_GAUGE), float(i.gauge), "", advisory=True,
            say="The screws are No. {capacity}; No. {demand} is the usual least.", spot="screws",
        ),
    )  # fmt: skip


def distances(sheet: Worksheet, i: Inputs, p: Plate, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    """Practice against splitting: the standard itself gives screws this small no figures."""
    across: SmallItem = "across staggered" if i.staggered else "across in line"
    asked: list[tuple[str, str, str, SmallItem, float, str]] = [
        (
            "end-distance",
            "end",
            "Wood to the joist's end",
            "end tension",
            p.end,
            "beside the screws toward the joist's end",
        ),
        ("top-edge", "edge-top", "Wood above the screws", "edge", p.top, "above the upper row"),
        ("bottom-edge", "edge-bottom", "Wood below the screws", "edge", p.bottom, "below the lowest row"),
    ]
    if p.columns > 1:
        asked.append(
            ("along", "along", "Spacing along the grain", "along", i.along_in, "from screw to screw along the grain")
        )
    if p.rows > 1:
        asked.append(("across", "across", "Spacing across the grain", across, i.across_in, "from row to row"))
    states = []
    for key, spot, title, item, there, where in asked:
        need = sheet.use(small_dowel_distance_in, item=item, D_in=p.D, steel_side=True, lead_hole=i.lead_holes)
        say = f"There is {{capacity}} of wood {where}; {{demand}} keeps it from splitting."
        if there < 0:
            say = "The rows do not fit: the outermost screws miss the wood by {miss}."
        states.append(
            LimitState(
                key, title, cite(small_dowel_distance_in), need, there, "in", say=say, facts={"miss": (max(-there, 0.0), "in")},
                spot=spot, steps=(placed if key == "bottom-edge" else ()) + sheet.take(),
            )
        )  # fmt: skip
    return tuple(states)


def edge_least_in(i: Inputs, p: Plate) -> float:
    """Least wood beside a screw across the grain [in]."""
    return small_dowel_distance_in("edge", p.D, True, i.lead_holes)
