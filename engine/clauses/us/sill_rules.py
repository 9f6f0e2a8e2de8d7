"""Sill plates beside R403.1.6: room for bolts in plate and core, the exception for in-plane shear, studs on a plate."""

from typing import NamedTuple

from engine.clauses.us.irc_sills import Window
from engine.tables.reading import SLACK, above_zero
from engine.worksheet import clause

MOVED_1905 = {"US 2024": "1905"}
EXCEPTION_PLATES_IN = (2.0, 3.0)


@clause(
    "geometry", "", title="Length of plate the heavier bolt holds", symbol="l", unit="in", formula="max(s, s / 2 + e)",
    provenance="geometry", note="A bolt between others holds a spacing, the end bolt half of one and the end.",
)  # fmt: skip
def bolt_share_in(s_in: float, e_in: float) -> float:
    """Args: s_in: bolt spacing. e_in: end bolt from the end of its piece [in]. Returns: [in]."""
    return max(s_in, s_in / 2 + e_in)


@clause(
    "geometry", "", title="Share of the plate on concrete", symbol="r", formula="b_c / b", provenance="geometry",
    note="Foam carries nothing.",
)  # fmt: skip
def share_on_concrete(b_c_in: float, b_in: float) -> float:
    """Args: b_c_in: width on concrete. b_in: width of the plate [in]. Returns: 0 to 1."""
    above_zero(b_in=b_in)
    return b_c_in / b_in


@clause(
    "geometry", "", title="Bolt centre to a face of the core, the least", symbol="m", unit="in",
    formula="max(c + w / 2, 1.75 if excepted else 0)", provenance="geometry",
    note="Cover is clear to the steel; the 1 3/4 in of the sill plate exception are to the bolt's centre.",
)  # fmt: skip
def least_from_face_in(c_in: float, w_in: float, excepted: bool) -> float:
    """Args: c_in: clear cover. w_in: widest steel across the wall [in]. excepted: the exception is used. Returns: [in]."""
    return max(c_in + w_in / 2, 1.75 if excepted else 0.0)


@clause(
    "geometry", "", title="Where in the core a bolt may stand", unit="in", provenance="geometry",
    rule="At least the cover and half the steel from each face.",
)  # fmt: skip
def core_window_in(t_in: float, m_in: float) -> Window:
    """From the outer core face [in]; none where low is above high. Args: t_in: core. m_in: least from a face [in]."""
    return Window(m_in, t_in - m_in)


@clause(
    "geometry", "", title="How far the plate must move toward the room", symbol="Δx", unit="in", provenance="geometry",
    formula="c_low - p_high if p_high < c_low else c_high - p_low if p_low > c_high else 0",
    note="Below zero: toward the outer side.",
)  # fmt: skip
def plate_shift_in(p_low_in: float, p_high_in: float, c_low_in: float, c_high_in: float) -> float:
    """Least move that brings the plate's middle third over the part of the core where bolts may stand.

    Args: p_low_in, p_high_in: middle third. c_low_in, c_high_in: that part of the core, from its outer face [in].
    """
    if p_high_in < c_low_in:
        return c_low_in - p_high_in
    return c_high_in - p_low_in if p_low_in > c_high_in else 0.0


class SillException(NamedTuple):
    """What the exception asks [in]: thickest bolt, least embedment, least distance to the edge along the plate and to the end."""

    diameter_in: float
    embedment_in: float
    edge_in: float
    end_in: float


@clause(
    "IBC",
    "1905.1.8",
    moved=MOVED_1905,
    title="Sill plate exception, limits of the bolt",
    rule="Bolts to 5/8 in, 7 in or more into concrete, 1 3/4 in or more from its edge along the plate and 15 diameters from its "
    "edge across it: in-plane breakout and pryout need not be computed under earthquake, the wood value governs.",
    provenance="memory",
    note="It modifies ACI 318 17.10.6.2, so wind stays with chapter 17. The 2024 number of the subsection was not read.",
)
def sill_exception(D_in: float) -> SillException:
    """Limits for a bolt. Args: D_in: diameter [in]. Source: IBC 2021 1905.1.8, exception to ACI 318-19 17.10.6.2."""
    above_zero(D_in=D_in)
    return SillException(0.625, 7.0, 1.75, 15 * D_in)


@clause(
    "IBC",
    "1905.1.8",
    moved=MOVED_1905,
    title="Sill plate exception, the plate",
    rule="One plate of 2 in or 3 in nominal thickness.",
    provenance="memory",
)
def exception_plate_ok(t_nom_in: float, plies: int) -> bool:
    """Args: t_nom_in: nominal thickness of a ply [in]. plies. Source: IBC 2021 1905.1.8."""
    return plies == 1 and t_nom_in in EXCEPTION_PLATES_IN


@clause(
    "IBC",
    "1905.1.8",
    moved=MOVED_1905,
    title="Sill plate exception, where it holds",
    rule="Sill plates of light-frame walls on foundations and foundation stem walls.",
    provenance="memory",
)
def exception_covers(light_frame_wall: bool, foundation: bool) -> bool:
    """Whether the exception's words cover a plate. Args: it carries a light-frame wall; it lies on top of a foundation wall."""
    return light_frame_wall and foundation


@clause(
    "IRC",
    "R602.3.4",
    title="Plate under studs",
    rule="At least as wide as the studs, which bear on it fully.",
    provenance="memory",
)
def plate_under_studs_ok(b_in: float, stud_in: float) -> bool:
    """Args: widths of plate and studs [in]. Source: IRC R602.3.4."""
    return b_in >= stud_in - SLACK


@clause("IBC", "2304.3.1", title="Plate under studs", rule="At least as wide as the studs, which bear on it fully.")
def ibc_plate_under_studs_ok(b_in: float, stud_in: float) -> bool:
    """Args: widths of plate and studs [in]. Source: IBC 2304.3.1."""
    return plate_under_studs_ok(b_in, stud_in)
