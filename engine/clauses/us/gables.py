"""Geometry of a gable end built of courses: setback, pieces, areas, volumes of lifts. Core up to the rake, eaves at one level."""

from math import atan, ceil, degrees, sqrt

from engine.tables.reading import above_zero
from engine.worksheet import clause


@clause("geometry", "", title="Rise of a gable", symbol="H", unit="ft", formula="W / 2 * p / 12", provenance="geometry")
def rise_ft(W_ft: float, p_in: float) -> float:
    """Args: W_ft: base. p_in: pitch, inches in 12. Returns: [ft]."""
    above_zero(W_ft=W_ft, p_in=p_in)
    return W_ft / 2 * p_in / 12


@clause(
    "geometry",
    "",
    title="Length of one rake",
    symbol="l_r",
    unit="ft",
    formula="W / 2 * sqrt(1 + (p / 12) ** 2)",
    provenance="geometry",
)
def rake_ft(W_ft: float, p_in: float) -> float:
    """Args: W_ft: base. p_in: pitch, inches in 12. Returns: [ft]."""
    return W_ft / 2 * sqrt(1 + (p_in / 12) ** 2)


@clause(
    "geometry", "", title="Ridge from the left eave", symbol="x_r", unit="ft", formula="W * p_R / (p_L + p_R)",
    provenance="geometry",
)  # fmt: skip
def ridge_ft(W_ft: float, p_L_in: float, p_R_in: float) -> float:
    """Where two rakes of their own pitch meet. Args: W_ft: base. p_L_in, p_R_in: pitches, inches in 12. Returns: [ft]."""
    above_zero(p_L_in=p_L_in, p_R_in=p_R_in)
    return W_ft * p_R_in / (p_L_in + p_R_in)


@clause("geometry", "", title="Rise to the ridge", symbol="H", unit="ft", formula="x_r * p / 12", provenance="geometry")
def rise_to_ridge_ft(x_r_ft: float, p_in: float) -> float:
    """Args: x_r_ft: run from the eave to the ridge. p_in: pitch of that side, inches in 12. Returns: [ft]."""
    return x_r_ft * p_in / 12


@clause(
    "geometry", "", title="Length of a rake", symbol="l_r", unit="ft", formula="sqrt(x ** 2 + H ** 2)", provenance="geometry"
)  # fmt: skip
def rake_of_run_ft(x_ft: float, H_ft: float) -> float:
    """Args: x_ft: run from the eave to the ridge. H_ft: rise. Returns: [ft]."""
    return sqrt(x_ft**2 + H_ft**2)


@clause(
    "geometry", "", title="Cut edges of a gable", symbol="l_c", unit="ft", formula="2 * (l_L + l_R)", provenance="geometry",
    note="Both foam faces along both rakes.",
)  # fmt: skip
def cut_length_ft(l_L_ft: float, l_R_ft: float) -> float:
    """Args: l_L_ft, l_R_ft: length of each rake. Returns: [ft]."""
    return 2 * (l_L_ft + l_R_ft)


def slope_deg(p_in: float) -> float:
    """Angle of the rake [°]. Args: p_in: pitch, inches in 12."""
    return degrees(atan(p_in / 12))


@clause("geometry", "", title="Area of a gable", symbol="A", unit="ft²", formula="W * H / 2", provenance="geometry")
def gable_area_ft2(W_ft: float, H_ft: float) -> float:
    """Args: W_ft: base. H_ft: rise."""
    return W_ft * H_ft / 2


@clause("geometry", "", title="Courses", symbol="N", formula="ceil(12 * H / h_c - 1e-9)", provenance="geometry")
def courses(H_ft: float, h_c_in: float) -> int:
    """Args: H_ft: rise. h_c_in: course height."""
    above_zero(h_c_in=h_c_in)
    return ceil(12 * H_ft / h_c_in - 1e-9)


@clause(
    "geometry", "", title="Setback of a course", symbol="c", unit="in", formula="12 * h_c / p", provenance="geometry"
)
def setback_in(h_c_in: float, p_in: float) -> float:
    """How far each course's upper edge is shorter at one end [in]. Args: h_c_in: course. p_in: pitch, inches in 12."""
    above_zero(h_c_in=h_c_in, p_in=p_in)
    return 12 * h_c_in / p_in


def course_edges_in(W_ft: float, c_in: float, course: int) -> tuple[float, float]:
    """Lower and upper length of a course, counted from 1 [in]. Args: c_in: setback."""
    low = 12 * W_ft - 2 * (course - 1) * c_in
    return low, max(0.0, low - 2 * c_in)


def offcut_edges_in(block_in: float, c_in: float, long_in: float) -> tuple[float, float]:
    """Long and short edge of what is left when a piece with this long edge is cut from a block [in]."""
    return block_in - long_in + c_in, block_in - long_in


@clause(
    "geometry", "", title="Concrete of a lift in a gable", symbol="V", unit="yd³",
    formula="W * ((z_2 - z_1) - (z_2 ** 2 - z_1 ** 2) / (2 * H)) * t / 12 / 27", provenance="geometry",
)  # fmt: skip
def lift_volume_yd3(W_ft: float, H_ft: float, t_in: float, z_1_ft: float, z_2_ft: float) -> float:
    """Concrete between two heights of a gable [yd³]. Args: z_1_ft, z_2_ft: above the base, to H_ft."""
    area = W_ft * ((z_2_ft - z_1_ft) - (z_2_ft**2 - z_1_ft**2) / (2 * H_ft))
    return area * t_in / 12 / 27


@clause(
    "volume balance",
    "",
    title="Rate of rise in a gable",
    symbol="R",
    formula="27 * Q / (W * (1 - z / H) * t / 12)",
    provenance="derived",
)
def gable_rate_ft_per_h(Q: float, W_ft: float, z_ft: float, H_ft: float, t_in: float) -> float:
    """Rate at a height; the width shrinks, so it grows toward the peak. Args: Q [yd³/h]. z_ft: below H_ft."""
    above_zero(Q=Q, W_ft=W_ft, H_ft=H_ft, t_in=t_in, below_the_peak=H_ft - z_ft)
    return 27 * Q / (W_ft * (1 - z_ft / H_ft) * t_in / 12)
