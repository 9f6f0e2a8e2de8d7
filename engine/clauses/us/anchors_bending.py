"""An anchor that crosses a gap bends: AISC 360-22 J3.8 for its steel, chapter 17 of ACI 318-19 having no rule for it.

The lever runs from the concrete's face to the middle of the plate; section modulus of a solid round section, plastic.
"""

from math import pi

from engine.clauses.us.anchors_line import PREFIX, Where, cite
from engine.clauses.us.anchors_model import AnchorGroup
from engine.errors import BadInput
from engine.result import LimitState
from engine.worksheet import Worksheet, clause

SOURCE = "AISC 360-22"  # as worked in Design Guide 1, 3rd ed. 2024, Example 4.7-6
PHI = 0.75


@clause(
    "geometry",
    "",
    title="Lever to the middle of the plate",
    symbol="l",
    unit="in",
    formula="gap + t / 2",
    provenance="geometry",
)
def stand_off_lever_in(gap_in: float, t_in: float) -> float:
    """Args: gap_in: clear from concrete to plate. t_in: plate [in]."""
    return gap_in + t_in / 2


@clause(SOURCE, "J3.7", title="Stress of one anchor", symbol="f", unit="psi", formula="F / A_b", provenance="memory")
def anchor_stress_psi(F_lb: float, A_b_in2: float) -> float:
    """Shear or tension over the nominal area. Args: F_lb: force of one anchor [lb]. A_b_in2: unthreaded area [in²]."""
    return F_lb / A_b_in2


@clause(
    "geometry",
    "",
    title="Plastic modulus of a round bar",
    symbol="Z",
    unit="in³",
    formula="d ** 3 / 6",
    provenance="geometry",
)
def plastic_modulus_in3(d_in: float) -> float:
    """Args: d_in: diameter [in]."""
    return d_in**3 / 6


@clause("statics", "", title="Bending stress", symbol="f_b", unit="psi", formula="V * l / Z", provenance="derived")
def bending_stress_psi(V_lb: float, l_in: float, Z_in3: float) -> float:
    """A cantilever from the concrete's face. Args: V_lb: shear of one anchor. l_in: lever. Z_in3: plastic modulus."""
    return V_lb * l_in / Z_in3


@clause(
    SOURCE,
    "J3.8",
    title="Tensile stress left beside shear",
    symbol="F'_nt",
    unit="psi",
    formula="min(1.3 * 0.75 * F_u - 0.75 * F_u / (0.75 * 0.45 * F_u) * f_v, 0.75 * F_u)",
    note="Threads in the shear plane; phi is 0.75.",
)
def tensile_stress_left_psi(F_u_psi: float, f_v_psi: float) -> float:
    """Nominal tensile stress with shear acting. Args: F_u_psi: tensile strength. f_v_psi: shear stress [psi]."""
    F_nt, F_nv = 0.75 * F_u_psi, 0.45 * F_u_psi
    return min(1.3 * F_nt - F_nt / (PHI * F_nv) * f_v_psi, F_nt)


@clause(SOURCE, "J3.8", title="Design stress left", symbol="phi F'_nt", unit="psi", formula="0.75 * F_nt")
def design_stress_psi(F_nt_psi: float) -> float:
    """Args: F_nt_psi: nominal tensile stress with shear acting [psi]."""
    return PHI * F_nt_psi


def stand_off_line(
    sheet: Worksheet,
    group: AnchorGroup,
    V_u_lb: float,
    N_u_lb: float,
    gap_in: float,
    t_in: float,
    where: Where = PREFIX,
) -> LimitState:
    """The most loaded anchor bent across a gap: tension and bending stress against what shear leaves.

    Args: V_u_lb, N_u_lb: factored shear and tension of that anchor. gap_in: concrete to plate. t_in: plate thickness.
    Raises: BadInput for a gap or plate that is not above zero.
    """
    for name, value in (("gap_in", gap_in), ("t_in", t_in)):
        if not value > 0:
            raise BadInput(name, "Enter a number above zero.")
    lever = sheet.use(stand_off_lever_in, gap_in=gap_in, t_in=t_in)
    stress, capacity = _stresses(sheet, group, V_u_lb, N_u_lb, lever)
    return where.line(
        sheet,
        "bending",
        "Anchor bent across the gap",
        cite(tensile_stress_left_psi),
        stress,
        capacity,
        "psi",
        say="Tension and bending over {lever} of lever stress the anchor to {demand}; beside its shear {capacity} is left.",
        facts={"lever": (lever, "in")},
    )


def _stresses(sheet: Worksheet, group: AnchorGroup, V_u: float, N_u: float, lever: float) -> tuple[float, float]:
    """Tension and bending together, and the design stress that shear leaves for them [psi]."""
    A_b = pi / 4 * group.d_a_in**2
    Z = sheet.use(plastic_modulus_in3, d_in=group.d_a_in)
    f_v = sheet.use(anchor_stress_psi, F_lb=V_u, A_b_in2=A_b)
    f_a = sheet.use(anchor_stress_psi, F_lb=N_u, A_b_in2=A_b)
    f_b = sheet.use(bending_stress_psi, V_lb=V_u, l_in=lever, Z_in3=Z)
    left = sheet.use(tensile_stress_left_psi, F_u_psi=group.steel.f_uta_psi, f_v_psi=f_v)
    return f_a + f_b, sheet.use(design_stress_psi, F_nt_psi=left)
