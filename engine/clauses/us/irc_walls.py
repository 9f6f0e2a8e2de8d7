"""Section and concrete of flat ICF walls: thickness, weight, mix, cover, place of bars, openings. IRC R608.3 to R608.8, R402.2."""

from math import inf
from typing import Literal

from engine.clauses.us.irc import Category, Form
from engine.clauses.us.irc_sills import Window
from engine.errors import OutOfScope
from engine.tables.reading import SLACK, choose
from engine.worksheet import clause

Weathering = Literal["negligible", "moderate", "severe"]
Section = Literal["flat", "waffle", "screen"]

SEGMENT_AREA_IN2 = 30.0  # R608.7.2: a penetration of a required solid segment is smaller than this
SEGMENT_SIDE_IN = 6.25
SEGMENT_EDGE_IN = 6.0
DEPTH_OVER_OPENING_IN: dict[Section, float] = {"flat": 8.0, "waffle": 8.0, "screen": 12.0}
LINTEL_FROM_FT = 2.0  # R608.8.1: openings this wide need a lintel


@clause(
    "IRC",
    "Table R608.3",
    title="As-built thickness of a flat wall",
    unit="in",
    rule="Nominal less 1/2 in to nominal plus 1/4 in (note c).",
)
def as_built_thickness_in(t_nom_in: float) -> Window:
    """Least and greatest thickness of the cured core [in]. Args: t_nom_in: nominal [in]. Source: IRC Table R608.3 note c."""
    return Window(t_nom_in - 0.5, t_nom_in + 0.25)


@clause(
    "IRC",
    "Table R608.3",
    title="Weight of a flat wall",
    symbol="w",
    unit="psf",
    formula="w_c * t / 12",
)
def wall_weight_psf(w_c_pcf: float, t_in: float) -> float:
    """Weight of solid wall by area. Args: w_c_pcf: of concrete [pcf]. t_in: thickness [in]. Returns: [psf]. Source: derived."""
    return w_c_pcf * t_in / 12


@clause(
    "IRC",
    "R608.5.1.5",
    title="Least specified strength of concrete",
    symbol="f'c",
    unit="psi",
    rule="2,500 psi; 3,000 psi in walls exposed to moderate or severe weathering (Table R402.2, with 5 to 7 % air) and in "
    "foundation walls in SDC D0 to D2.",
)
def minimum_f_c_psi(
    weathering: Weathering, sdc: Category = "B", *, exposed: bool = True, foundation: bool = False
) -> float:
    """Least strength [psi]. Args: exposed: the concrete face meets the weather. Source: IRC R608.5.1.5, R402.2, R404.1.3.3.1."""
    weathered = exposed and weathering != "negligible"
    return 3000.0 if weathered or (foundation and sdc.startswith("D")) else 2500.0


@clause(
    "IRC",
    "R608.5.1.3",
    title="Largest aggregate between the forms",
    symbol="a_max",
    unit="in",
    formula="t / 5",
)
def aggregate_by_form_in(t_in: float) -> float:
    """Largest nominal aggregate by the clear width between forms. Args: t_in [in]. Source: IRC R608.5.1.3, R404.1.3.3.3."""
    return t_in / 5


@clause(
    "IRC",
    "R608.5.1.3",
    title="Largest aggregate beside bars",
    symbol="a_max",
    unit="in",
    formula="0.75 * c",
)
def aggregate_by_bars_in(c_in: float) -> float:
    """Largest nominal aggregate by the clear space between bars, or bar and form. Args: c_in [in]. Source: IRC R608.5.1.3."""
    return 0.75 * c_in


@clause(
    "IRC",
    "R608.5.1.4",
    title="Slump",
    rule="More than 6 in in stay-in-place forms, not more than 6 in in removable ones.",
    note="Placing guides for these forms ask for stiffer concrete in places; the two conflict.",
)
def slump_ok(slump_in: float, form: Form = "stay-in-place") -> bool:
    """Whether a slump suits the form. Args: slump_in [in]. Source: IRC R608.5.1.4, R404.1.3.3.4."""
    return slump_in > 6 + SLACK if form == "stay-in-place" else slump_in <= 6 + SLACK


@clause(
    "IRC",
    "R608.5.1.6",
    title="Vibration",
    rule="Internal vibration in stay-in-place forms, save for an approved self-consolidating mix of 8 in slump or more.",
    note="Rule read; clause number recalled.",
)
def vibration_required(slump_in: float, *, self_consolidating: bool) -> bool:
    """Whether the concrete must be vibrated. Args: slump_in [in]. Source: IRC R608.5.1.6."""
    return not (self_consolidating and slump_in >= 8 - SLACK)


@clause(
    "IRC",
    "R608.5.4.1",
    title="Cover in stay-in-place forms",
    symbol="c_min",
    unit="in",
    rule="3/4 in.",
)
def minimum_cover_in(form: Form = "stay-in-place") -> float:
    """Least cover of bars in a wall [in]. Raises: OutOfScope for removable forms. Source: IRC R608.5.4.1."""
    if form != "stay-in-place":
        raise OutOfScope(
            "IRC R608.5.4.1", "Walls in removable forms have other covers; take them from the clause itself."
        )
    return 0.75


@clause(
    "IRC",
    "R608.5.4.1",
    title="How much cover may fall short",
    symbol="c_tol",
    unit="in",
    formula="min(c / 3, 0.375)",
)
def cover_tolerance_in(c_in: float) -> float:
    """Minus tolerance of cover. Args: c_in: cover required [in]. Source: IRC R608.5.4.1."""
    return min(c_in / 3, 0.375)


@clause(
    "IRC",
    "R608.6.5",
    title="Vertical bar off the centre of the wall",
    symbol="e_max",
    unit="in",
    formula="max(0.1 * t, 0.375)",
)
def bar_offset_in(t_in: float) -> float:
    """How far bars may stand from the middle of the wall. Args: t_in: nominal wall [in]. Source: IRC R608.6.5."""
    return max(0.1 * t_in, 0.375)


@clause(
    "IRC",
    "R608.7.2",
    title="Opening in a required solid wall segment",
    rule="Smaller than 30 sq in, no side over 6 1/4 in, at least 6 in from the segment's edge.",
    note="The clause speaks of utilities; a blind beam pocket is judged by it too, on the cautious side.",
)
def opening_in_segment_allowed(a_in: float, b_in: float, edge_in: float) -> bool:
    """Whether a segment with this opening still counts. Args: sides of the opening and its distance to the edge [in].

    Source: IRC R608.7.2.
    """
    return (
        a_in * b_in < SEGMENT_AREA_IN2 - SLACK
        and max(a_in, b_in) <= SEGMENT_SIDE_IN + SLACK
        and edge_in >= SEGMENT_EDGE_IN - SLACK
    )


def segment_limits() -> str:
    """The limits of `opening_in_segment_allowed` in one phrase."""
    return f"area < {SEGMENT_AREA_IN2:g} sq in, no side > {SEGMENT_SIDE_IN:g} in, >= {SEGMENT_EDGE_IN:g} in from segment edge"


@clause(
    "IRC",
    "R608.8.1",
    title="Concrete over an opening",
    symbol="h_min",
    unit="in",
    rule="8 in in flat and waffle walls, 12 in in screen walls, over openings 2 ft wide and wider.",
)
def depth_over_opening_in(section: Section, opening_ft: float = inf) -> float:
    """Least depth of concrete over an opening [in]. Args: opening_ft: its width [ft]. Source: IRC R608.8.1."""
    return choose("section", DEPTH_OVER_OPENING_IN, section) if opening_ft >= LINTEL_FROM_FT else 0.0
