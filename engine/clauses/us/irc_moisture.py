"""Decay, corrosion and termites where wood meets concrete. IRC R317 and R318 (2024: R304, R305); IBC 2304.10 and 2304.12."""

from typing import Literal

from engine.clauses.us.irc import Code
from engine.tables.reading import SLACK, choose
from engine.worksheet import clause

Member = Literal["joist", "girder", "column"]
Coating = Literal[
    "hot-dip galvanized", "mechanically galvanized", "stainless", "silicon bronze", "copper", "plain", "electroplated"
]
Fastener = Literal["bolt", "screw", "nail", "staple", "timber rivet"]

# IRC R317.1 item 1 (2024: R304.1 item 1): clear height above exposed ground in a crawl space; columns since 2021.
CRAWL_SPACE_IN: dict[Member, float] = {"joist": 18.0, "girder": 12.0, "column": 8.0}
NEAR_GROUND_IN = 8.0  # item 2, framing on an exterior foundation wall
AIR_SPACE_IN = 0.5  # item 4, girder ends; IBC 2304.12.2.1
EXEMPT_BOLT_IN = 0.5  # IRC R317.3.1 exception 1
MOVED_DECAY = {"US 2024": "R304.1"}


@clause(
    "IRC",
    "R317.1",
    moved=MOVED_DECAY,
    title="Crawl-space wood near the ground",
    rule="Treated or naturally durable: joists under 18 in, girders under 12 in, columns under 8 in above exposed ground.",
)
def crawl_space_needs_treatment(member: Member, height_in: float) -> bool:
    """Whether wood in a crawl space must resist decay. Args: height_in: above exposed ground [in].

    Raises: BadInput for another member. Source: IRC R317.1 item 1.
    """
    return height_in < choose("member", CRAWL_SPACE_IN, member) - SLACK


@clause(
    "IRC",
    "R317.1",
    moved=MOVED_DECAY,
    title="Framing on an exterior concrete wall near the ground",
    rule="Treated or naturally durable where it rests directly on the wall less than 8 in above exposed ground.",
)
def framing_on_wall_needs_treatment(height_in: float) -> bool:
    """Whether framing on an exterior foundation wall must resist decay. Args: height_in: above exposed ground [in].

    Source: IRC R317.1 item 2.
    """
    return height_in < NEAR_GROUND_IN - SLACK


@clause(
    "IRC",
    "R317.1",
    moved=MOVED_DECAY,
    title="Sill on a slab in contact with the ground",
    rule="Treated or naturally durable unless an impervious moisture barrier lies between.",
)
def slab_sill_needs_treatment(*, barrier: bool) -> bool:
    """Whether a sill on a ground slab must resist decay. Source: IRC R317.1 item 3."""
    return not barrier


@clause(
    "IRC",
    "R317.1",
    moved=MOVED_DECAY,
    title="Air space about a girder end in a pocket",
    symbol="g",
    unit="in",
    rule="1/2 in clear on top, sides and end of a wood girder in exterior concrete or masonry, or the wood resists decay.",
)
def beam_air_space_in() -> float:
    """Clear space on top, sides and end of an untreated wood beam in a pocket [in]. Source: IRC R317.1 item 4; IBC 2304.12.2.1."""
    return AIR_SPACE_IN


@clause(
    "IRC",
    "R317.1",
    moved=MOVED_DECAY,
    title="Wood girder end in exterior concrete",
    rule="Treated or naturally durable where less than 1/2 in is clear on top, sides or end.",
)
def girder_end_needs_treatment(clear_in: float) -> bool:
    """Whether a girder end must resist decay. Args: clear_in: the least of its clear spaces [in]. Source: IRC R317.1 item 4."""
    return clear_in < AIR_SPACE_IN - SLACK


@clause(
    "IRC",
    "R317.1",
    moved=MOVED_DECAY,
    title="Ledger or furring on the inside of exterior concrete below grade",
    rule="Treated or naturally durable; the IRC lets an approved vapor retarder between stand in, the IBC does not.",
)
def below_grade_ledger_needs_treatment(*, retarder: bool, code: Code = "IRC") -> bool:
    """Whether wood fixed to the inside of a basement wall must resist decay.

    Args: retarder: an approved vapor retarder lies between. Source: IRC R317.1 item 7; IBC 2304.12.1.3.
    """
    return not (retarder and code == "IRC")


@clause(
    "geometry",
    "",
    title="Width of a pocket about a wood beam",
    symbol="b_p",
    unit="in",
    formula="b + 2 * g",
    provenance="geometry",
)
def pocket_width_in(b_in: float, g_in: float) -> float:
    """Least pocket width. Args: b_in: beam width [in]. g_in: air space each side [in]. Returns: width [in]."""
    return b_in + 2 * g_in


@clause(
    "geometry",
    "",
    title="Height of a pocket about a wood beam",
    symbol="h_p",
    unit="in",
    formula="d + g",
    provenance="geometry",
    note="The beam's bottom bears, so it needs no gap.",
)
def pocket_height_in(d_in: float, g_in: float) -> float:
    """Least pocket height. Args: d_in: beam depth [in]. g_in: air space above [in]. Returns: height [in]."""
    return d_in + g_in


@clause(
    "geometry",
    "",
    title="Length of a pocket into the core",
    symbol="l_p",
    unit="in",
    formula="b_brg + g",
    provenance="geometry",
)
def pocket_length_in(b_brg_in: float, g_in: float) -> float:
    """Least pocket length. Args: b_brg_in: bearing length [in]. g_in: air space at the end [in]. Returns: length [in]."""
    return b_brg_in + g_in


@clause(
    "IRC",
    "R317.3.1",
    moved={"US 2024": "R304.3.1"},
    title="Plain steel bolt in treated wood",
    rule="The IRC lets steel bolts 1/2 in and larger go uncoated; the IBC (2304.10.6.1) has no such exception.",
)
def plain_bolt_allowed(D_in: float, code: Code = "IRC") -> bool:
    """Whether an uncoated steel bolt may stand in treated wood. Args: D_in: bolt diameter [in].

    Source: IRC R317.3.1 exception 1 (2024: R304.3.1); IBC 2304.10.6.1.
    """
    return code == "IRC" and D_in >= EXEMPT_BOLT_IN - SLACK


@clause(
    "IRC",
    "R317.3.1",
    moved={"US 2024": "R304.3.1"},
    title="Coating of a fastener in treated wood",
    rule="Hot-dip galvanized, stainless, silicon bronze or copper; mechanically galvanized too, save nails, staples and timber "
    "rivets; plain steel in borate-treated wood in a dry interior.",
)
def fastener_coating_ok(coating: Coating, fastener: Fastener = "screw", *, borate_dry: bool = False) -> bool:
    """Whether a fastener's coating suits treated wood; bolts have `plain_bolt_allowed` besides.

    Args: borate_dry: the wood is borate-treated and stays dry inside. Source: IRC R317.3.1 (2024: R304.3.1).
    """
    if coating in ("hot-dip galvanized", "stainless", "silicon bronze", "copper") or borate_dry:
        return True
    return coating == "mechanically galvanized" and fastener in ("bolt", "screw")


@clause(
    "IRC",
    "R318.4",
    moved={"US 2024": "R305.4"},
    title="Foam to ground where termites are very likely",
    symbol="c_foam",
    unit="in",
    rule="Very heavy probability: 6 in between foam and exposed earth, and no foam outside below grade or under the foundation, "
    "unless the structure is noncombustible or treated, protected by an approved method, or the foam is inside the wall.",
)
def foam_ground_clearance_in(*, very_heavy: bool) -> float:
    """Clear height of foam above exposed earth [in]; 0 where the probability is less. Source: IRC R318.4 (2024: R305.4)."""
    return 6.0 if very_heavy else 0.0


@clause(
    "IRC",
    "R318.4",
    moved={"US 2024": "R305.4"},
    title="Foam outside below grade where termites are very likely",
    rule="Not in the very heavy zone, except over an all noncombustible or treated structure or with approved protection.",
)
def foam_below_grade_allowed(*, very_heavy: bool, excepted: bool = False) -> bool:
    """Whether foam may cover the outside of a wall below grade. Args: excepted: one of the clause's exceptions holds.

    Source: IRC R318.4 (2024: R305.4); R404.1.3.3.6.1 item 4 sends ICF walls there.
    """
    return excepted or not very_heavy
