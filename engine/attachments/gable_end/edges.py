"""Lines along the rakes: boards and ties on the cut edges, strongbacks, the plate and its bolts.

R403.1.6 speaks of sill plates on foundations. On a rake its figures are a habit of the trade, so these lines are advisory.
"""

from engine.attachments.gable_end.geometry import Gable
from engine.attachments.gable_end.inputs import Inputs
from engine.attachments.gable_end.placing import soft_ft
from engine.attachments.gable_end.rakes import edge_load_plf, tie_pull_lb
from engine.clauses.us.concrete_wall_steel import clear_cover_in
from engine.clauses.us.form_pressure import liquid_head_psf
from engine.clauses.us.gables import cut_length_ft
from engine.clauses.us.irc_sills import SPACING_IN, end_distance_window_in, sill_bolt
from engine.clauses.us.timber_materials import bolt
from engine.editions import Citation
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite, clause

PRACTICE = Citation("common practice")
STRONGBACK_FT = 6.0  # common practice: strongbacks on gables 4 to 6 ft apart


@clause(
    "geometry", "", title="Cover of a bolt in the middle of the core", symbol="c_c", unit="in", formula="(t - D) / 2",
    provenance="geometry",
)  # fmt: skip
def middle_cover_in(t_in: float, D_in: float) -> float:
    """Args: t_in: core [in]. D_in: bolt [in]. Returns: concrete on each side of the bolt [in]."""
    return (t_in - D_in) / 2


def lines(sheet: Worksheet, i: Inputs, g: Gable, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    """Ties and strongbacks, then the plate where there is one. Args: placed: the steps of geometry."""
    edge = (_ties(sheet, i, g, placed), _strongbacks(i))
    if i.plate == "none":
        return edge
    return (*edge, _spacing(g), _ends(sheet, i, g), _embedment(i), _cover(sheet, i))


def _ties(sheet: Worksheet, i: Inputs, g: Gable, placed: tuple[Step, ...]) -> LimitState:
    p = sheet.use(liquid_head_psf, w_pcf=i.w_pcf, h_ft=soft_ft(i, g))
    q = sheet.use(edge_load_plf, p_psf=p, s_in=i.web_spacing_in)
    pull = sheet.use(tie_pull_lb, q_plf=q, s_in=i.tie_spacing_in)
    known = i.tie_lb is not None
    held = "a tie may carry {capacity}" if known else "enter what a tie may carry, from its own data"
    return LimitState(
        "edge-ties", "Ties of the boards on the cut edges", cite(edge_load_plf), pull, i.tie_lb, "lb",
        holds=None if known else False, spot="edge",
        say=f"Fresh concrete presses the cut edge with {{load}}, so ties {{apart}} apart pull {{demand}}; {held}. Boards run "
        "{length} along both faces of both rakes.",
        facts={"load": (q, "plf"), "apart": (i.tie_spacing_in, "in"), "length": (g.cut_ft, "ft")},
        steps=tuple(step for step in placed if step.function is cut_length_ft) + sheet.take(),
    )  # fmt: skip


def _strongbacks(i: Inputs) -> LimitState:
    return LimitState(
        "strongbacks", "Strongbacks", PRACTICE, i.strongback_ft, STRONGBACK_FT, "ft", advisory=True, spot="gable",
        say="Strongbacks stand {demand} apart; 4 to 6 ft is usual while a gable stands free.",
    )  # fmt: skip


def _spacing(g: Gable) -> LimitState:
    apart = max(b - a for piece in g.pieces for a, b in zip(piece.bolts_in, piece.bolts_in[1:], strict=False))
    return LimitState(
        "bolt-spacing", "Bolts along the rake", PRACTICE, apart, SPACING_IN, "in", advisory=True, spot="plate",
        say=f"{len(g.pieces)} pieces of plate take {g.bolts} bolts, {{demand}} apart at most; {{capacity}} is the most for sill "
        "plates, taken over here.",
    )  # fmt: skip


def _ends(sheet: Worksheet, i: Inputs, g: Gable) -> LimitState:
    low, high = sheet.use(end_distance_window_in, D_in=bolt(i.bolt).D_in)
    end = min(min(p.bolts_in[0] - p.start_in, p.end_in - p.bolts_in[-1]) for p in g.pieces)
    return LimitState(
        "bolt-ends", "Bolts from the ends of a piece", PRACTICE, holds=low <= end <= high, advisory=True, spot="plate",
        say="The end bolts stand {end} from the ends of a piece; {low} to {high} is asked of sill plates, taken over here.",
        facts={"end": (end, "in"), "low": (low, "in"), "high": (high, "in")}, steps=sheet.take(),
    )  # fmt: skip


def _embedment(i: Inputs) -> LimitState:
    return LimitState(
        "bolt-embedment", "Bolt embedment", PRACTICE, sill_bolt().embedment_in, i.embedment_in, "in", advisory=True, spot="bolt",
        say="Bolts go {capacity} into the concrete; {demand} is asked of sill plates, taken over here.",
    )  # fmt: skip


def _cover(sheet: Worksheet, i: Inputs) -> LimitState:
    D = bolt(i.bolt).D_in
    least = sheet.use(clear_cover_in, exposure=i.exposure, d_b_in=D)
    have = sheet.use(middle_cover_in, t_in=i.core_in, D_in=D)
    return LimitState(
        "bolt-cover", "Cover beside the bolts", cite(clear_cover_in), least, have, "in", spot="bolt", steps=sheet.take(),
        say="In the middle of the core a bolt has {capacity} of concrete on each side; {demand} is needed. Foam is not cover.",
    )  # fmt: skip
