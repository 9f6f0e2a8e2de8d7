"""Tying concrete walls to floors and roofs: ASCE 7 1.4.4 and 12.11, the same in the 2016 and 2022 editions."""

from engine.errors import BadInput
from engine.worksheet import Worksheet, clause


@clause(
    "ASCE 7",
    "1.4.4",
    title="Least tie of a wall, any seismic category",
    symbol="F",
    unit="lb",
    formula="max(0.2 * W_p, 5 * A_t)",
    provenance="memory",
)
def integrity_tie_lb(W_p_lb: float, A_t_ft2: float) -> float:
    """Strength-level force square to the wall's plane.

    Args: W_p_lb: weight of the wall that hangs on the tie. A_t_ft2: its area. Source: ASCE 7-16 1.4.4 (the floor of 5 psf).
    """
    return max(0.2 * W_p_lb, 5 * A_t_ft2)


@clause(
    "ASCE 7",
    "12.11.1",
    title="Force on the wall out of its plane",
    symbol="F_p",
    unit="lb",
    formula="max(0.4 * S_DS * I_e * W_p, 0.1 * W_p)",
    provenance="memory",
    note="Read in a textbook that quotes the 2005 edition.",
)
def out_of_plane_lb(S_DS: float, I_e: float, W_p_lb: float) -> float:
    """For the wall itself. Args: S_DS: [g]. I_e: importance factor. W_p_lb: weight of the wall. Source: ASCE 7-16 12.11.1."""
    return max(0.4 * S_DS * I_e * W_p_lb, 0.1 * W_p_lb)


@clause(
    "ASCE 7",
    "12.11.2.1",
    title="Flexible floor, amplification",
    symbol="k_a",
    formula="min(1 + L_f / 100, 2)",
    note="L_f is 0 for a rigid diaphragm. Read in FEMA P-1026 as quoted by engineers.",
)
def diaphragm_amplification(L_f_ft: float) -> float:
    """Args: L_f_ft: span of the flexible diaphragm that holds the wall, 0 if rigid [ft]. Source: ASCE 7-16 12.11.2.1."""
    return min(1 + L_f_ft / 100, 2.0)


@clause(
    "ASCE 7",
    "12.11.2.1",
    title="Wall anchorage force",
    symbol="F_p",
    unit="lb",
    formula="max(0.4 * S_DS * k_a * I_e * W_p, 0.2 * k_a * I_e * W_p)",
    provenance="memory",
    note="The reduction permitted below the roof where every diaphragm is rigid is not taken.",
)
def anchorage_lb(S_DS: float, k_a: float, I_e: float, W_p_lb: float) -> float:
    """Args: S_DS: [g]. k_a: amplification. I_e: importance. W_p_lb: wall weight on the anchor. Source: 12.11.2.1."""
    return max(0.4 * S_DS * k_a * I_e * W_p_lb, 0.2 * k_a * I_e * W_p_lb)


@clause(
    "ASCE 7",
    "12.11.2.2.2",
    title="Wall anchorage force on steel parts",
    symbol="F",
    unit="lb",
    formula="1.4 * F_p",
    provenance="memory",
    note="Categories C to F; anchor bolts and bars in concrete are not among these parts.",
)
def steel_part_force_lb(F_p_lb: float) -> float:
    """Straps, brackets and other steel of the tie. Args: F_p_lb: wall anchorage force [lb]. Source: 12.11.2.2.2."""
    return 1.4 * F_p_lb


@clause(
    "ASCE 7",
    "12.11.2.1",
    title="Wall spans between anchors",
    rule="where anchors stand more than 4 ft apart the wall is designed to span between them",
    provenance="memory",
)
def wall_spans_between_anchors(s_ft: float) -> bool:
    """Whether the wall must be designed for that. Args: s_ft: anchor spacing [ft]. Source: ASCE 7-16 12.11.2.1."""
    return s_ft > 4


@clause(
    "IBC",
    "1604.8.2",
    title="Wall tie asked for",
    symbol="F",
    unit="lb",
    rule="category A: the least tie of 1.4.4; other categories: the larger of that and the wall anchorage force",
    provenance="memory",
)
def required_tie_lb(category: str, integrity_lb: float, seismic_lb: float) -> float:
    """Args: category: seismic design category, "A" to "F". integrity_lb, seismic_lb: as above [lb]. Source: IBC 1604.8.2."""
    return integrity_lb if category == "A" else max(integrity_lb, seismic_lb)


def tie_force_lb(
    sheet: Worksheet, category: str, w_psf: float, A_t_ft2: float, S_DS: float, I_e: float, L_f_ft: float
) -> float:
    """Strength-level out-of-plane force of one tie, worked on the sheet.

    Args: category: seismic design category. w_psf: wall weight. A_t_ft2: wall area on the tie. S_DS: [g], 0 is allowed in
    category A. I_e: importance. L_f_ft: flexible diaphragm span, 0 if rigid. Returns: [lb]. Raises: BadInput.
    """
    for name, value, least in (("w_psf", w_psf, 0), ("A_t_ft2", A_t_ft2, 0), ("S_DS", S_DS, 0), ("L_f_ft", L_f_ft, 0)):
        if not value >= least:
            raise BadInput(name, "Enter zero or more.")
    W_p = w_psf * A_t_ft2
    integrity = sheet.use(integrity_tie_lb, W_p_lb=W_p, A_t_ft2=A_t_ft2)
    k_a = sheet.use(diaphragm_amplification, L_f_ft=L_f_ft)
    seismic = sheet.use(anchorage_lb, S_DS=S_DS, k_a=k_a, I_e=I_e, W_p_lb=W_p)
    return sheet.use(required_tie_lb, category=category, integrity_lb=integrity, seismic_lb=seismic)


# The 2005 edition, superseded: only to recognise old drawings, used in no check.
OLD = "ASCE 7-05"
SUPERSEDED_FLOOR_PLF = 280.0


@clause(OLD, "12.11.1", title="Wall force, 2005", symbol="F_p", unit="plf", formula="0.4 * S_DS * I * w")
def superseded_wall_force_plf(S_DS: float, I: float, w_plf: float) -> float:  # noqa: E741  (the edition's own symbol)
    """Args: S_DS: [g]. I: importance. w_plf: wall weight on the tie per foot. Source: ASCE 7-05 12.11.1."""
    return 0.4 * S_DS * I * w_plf


@clause(OLD, "12.11.1", title="Least wall force, 2005", symbol="F_p,min", unit="plf", formula="0.1 * w")
def superseded_least_force_plf(w_plf: float) -> float:
    """Args: w_plf: wall weight on the tie per foot. Source: ASCE 7-05 12.11.1."""
    return 0.1 * w_plf


@clause(OLD, "12.11.2", title="Wall tie by length, 2005", symbol="F", unit="plf", formula="400 * S_DS * I")
def superseded_line_force_plf(S_DS: float, I: float) -> float:  # noqa: E741
    """Args: S_DS: [g]. I: importance. Source: ASCE 7-05 12.11.2."""
    return 400 * S_DS * I


@clause(
    OLD,
    "12.11.2",
    title="Wall tie, 2005",
    symbol="F",
    unit="plf",
    formula="max(0.4 * S_DS * I * w, 0.1 * w, 400 * S_DS * I, 280)",
)
def superseded_anchorage_plf(S_DS: float, I: float, w_plf: float) -> float:  # noqa: E741
    """What a wall tie needed, without the amplification of flexible diaphragms. Args: as above. Source: ASCE 7-05 12.11.2."""
    return max(
        superseded_wall_force_plf(S_DS, I, w_plf),
        superseded_least_force_plf(w_plf),
        superseded_line_force_plf(S_DS, I),
        SUPERSEDED_FLOOR_PLF,
    )
