"""What the veneer puts on a foot of ledge, factored, with the restraint force and the moment at the core."""

from typing import NamedTuple

from engine.attachments.veneer_ledge.geometry import Ledge
from engine.attachments.veneer_ledge.inputs import Inputs
from engine.clauses.us.concrete_corbels import corbel_moment_lb_in, restraint_force_lb
from engine.clauses.us.irc_veneer import veneer_line_load_plf
from engine.clauses.us.ledge_geometry import own_centroid_in, own_weight_lb
from engine.clauses.us.loads import Loads, governing_strength
from engine.editions import Edition
from engine.errors import BadInput
from engine.units import show
from engine.worksheet import Worksheet, clause

FOOT_IN = 12.0
CONCRETE_PCF = 150.0  # IRC 2021 Table R608.3: flat walls weigh 75 psf at 6 in, 100 psf at 8 in


class Load(NamedTuple):
    """A foot of ledge: weight by area [psf]; unfactored veneer and ledge [plf]; lever of the ledge's weight [in]; the factor of
    dead load and its combination; factored veneer, ledge and both [plf]; restraint force [plf]; moment at the core [lb-in/ft]."""

    q_psf: float
    veneer_plf: float
    own_plf: float
    x_W_in: float
    gamma: float
    label: str
    V_v_plf: float
    V_u_plf: float
    N_uc_plf: float
    M_u_lb_in: float


@clause("statics", "", title="Weight of the veneer by area", symbol="q", unit="psf", formula="w_v * t_w / 12",
        provenance="derived")  # fmt: skip
def veneer_weight_psf(w_v_pcf: float, t_w_in: float) -> float:
    """Weight of a wythe with its mortar. Args: w_v_pcf: density [pcf]. t_w_in: thickness [in]. Returns: [psf]."""
    return w_v_pcf * t_w_in / 12


@clause(
    "statics", "", title="Line load of veneer under a pier between openings", symbol="w_v", unit="plf",
    formula="q * (H - H_o + H_o * (b + L_p) / L_p)", provenance="derived",
    note="What stands over the opening comes down through the piers beside it.",
)  # fmt: skip
def pier_line_load_plf(q_psf: float, H_ft: float, H_o_ft: float, b_ft: float, L_p_ft: float) -> float:
    """Load on the ledge under the piers.

    Args: q_psf: weight by area [psf]. H_ft: height in all. H_o_ft: height over the opening's head. b_ft: its width. L_p_ft: width
    of the piers beside it, together [ft]. Returns: [plf].
    """
    return q_psf * (H_ft - H_o_ft + H_o_ft * (b_ft + L_p_ft) / L_p_ft)


@clause("ASCE 7", "2.3.1", title="Factored dead load", symbol="U", unit="plf", formula="gamma * D", provenance="memory")
def factored_dead_plf(gamma: float, D_plf: float) -> float:
    """Dead load with the factor of the governing combination. Args: D_plf [plf]. Returns: [plf]. Source: ASCE 7 2.3.1."""
    return gamma * D_plf


def tallest_ft(i: Inputs) -> float:
    """Veneer over the ledge at its tallest, under the peak of the gable [ft]."""
    return i.height_ft + i.gable_ft


def carried(sheet: Worksheet, i: Inputs, g: Ledge, edition: Edition) -> Load:
    """Loads and effects on a foot of ledge. Raises: BadInput where more veneer stands over an opening than in all."""
    q = i.veneer_psf
    if i.weight_by == "density":
        q = sheet.use(veneer_weight_psf, w_v_pcf=i.density_pcf, t_w_in=i.wythe_in)
    veneer = _line_load(sheet, i, q)
    own = sheet.use(own_weight_lb, w_c_pcf=CONCRETE_PCF, b_in=FOOT_IN, p_in=g.p, h_in=g.h, h_lip_in=g.h_lip)
    x_W = sheet.use(own_centroid_in, p_in=g.p, h_in=g.h, h_lip_in=g.h_lip)
    governs = governing_strength(edition, Loads(D=veneer + own))
    gamma = governs.demand / (veneer + own)
    V_v = sheet.use(factored_dead_plf, gamma=gamma, D_plf=veneer)
    W_u = sheet.use(factored_dead_plf, gamma=gamma, D_plf=own)
    N_uc = _restraint(sheet, i, veneer)
    M_u = sheet.use(
        corbel_moment_lb_in, V_u_lb=V_v, a_v_in=g.a_v, N_uc_lb=N_uc, h_in=g.h, d_in=g.d, W_u_lb=W_u, x_W_in=x_W
    )
    return Load(q, veneer, own, x_W, gamma, governs.label, V_v, V_v + W_u, N_uc, M_u)


def _line_load(sheet: Worksheet, i: Inputs, q: float) -> float:
    H = tallest_ft(i)
    if not i.openings:
        return sheet.use(veneer_line_load_plf, h_ft=H, q_psf=q)
    over = H if i.over_opening_ft is None else i.over_opening_ft
    if over > H:
        raise BadInput("over_opening_ft", f"The veneer is {show(H, 'ft')} high in all. Enter at most that.")
    return sheet.use(pier_line_load_plf, q_psf=q, H_ft=H, H_o_ft=over, b_ft=i.opening_ft, L_p_ft=i.pier_ft)


def _restraint(sheet: Worksheet, i: Inputs, veneer: float) -> float:
    """Pull along the bearing as shrinkage and heat move the veneer (reading 15): by the code, typed, or none on a slip sheet."""
    if i.restraint == "typed":
        return i.N_uc_plf
    return sheet.use(restraint_force_lb, R_lb=veneer) if i.restraint == "code" else 0.0
