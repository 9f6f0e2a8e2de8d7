"""What the steel of the plate carries at strength level: AISC 360-22, load and resistance factors. provenance: memory.

Plates and legs are 3/16 in or thicker, where these rules, not those for sheet, apply.
"""

from engine.tables.reading import above_zero
from engine.worksheet import Worksheet, clause

AISC = "AISC 360-22"
E_PSI = 29.0e6  # modulus of steel, AISC 360-22 list of symbols
HOLE_OVER_IN = 1 / 16  # AISC 360-22 Table J3.3: standard hole of rods below 1 in; from 1 in on 1/8
HOLE_COUNTS_IN = 1 / 16  # AISC 360-22 B4.3b: a hole counts 1/16 in wider than it is
LEAST_EDGES_IN = {0.5: 0.75, 0.625: 0.875, 0.75: 1.0, 0.875: 1.125, 1.0: 1.25}  # AISC 360-22 Table J3.4


@clause(
    AISC, "Table J3.4", title="Least steel beside a hole", symbol="l_e", unit="in",
    rule="3/4, 7/8, 1, 1 1/8 and 1 1/4 in for rods of 1/2 to 1 in; 1.25 d for screws", provenance="memory",
)  # fmt: skip
def least_steel_in(d_in: float) -> float:
    """From a hole's centre to the steel's edge [in]. Args: d_in: diameter. Source: AISC 360-22 Table J3.4 and its footnote."""
    above_zero(d_in=d_in)
    return LEAST_EDGES_IN.get(d_in, 1.25 * d_in)


def hole_in(d_in: float) -> float:
    """Hole as it counts in net sections [in]: standard hole and what punching spoils. Args: d_in: bolt or screw."""
    return d_in + (2 * HOLE_OVER_IN if d_in >= 1 else HOLE_OVER_IN) + HOLE_COUNTS_IN


@clause(
    "geometry",
    "",
    title="Distance to the leg",
    symbol="m",
    unit="in",
    formula="sqrt(x ** 2 + y ** 2)",
    provenance="geometry",
)
def to_leg_in(x_in: float, y_in: float) -> float:
    """Of an anchor x beside and y above or below the nearest leg [in]."""
    return float((x_in**2 + y_in**2) ** 0.5)


@clause(
    "Design Guide 1, 3rd ed. 2024",
    "4.3",
    title="Width of plate that bends for an anchor",
    symbol="b_e",
    unit="in",
    formula="min(m, a_1) + min(m, a_2)",
    provenance="memory",
    note="The force spreads at 45° on its way to the leg, no farther than half way to the next anchor or to the plate's edge.",
)
def bending_width_in(m_in: float, a_1_in: float, a_2_in: float) -> float:
    """Args: m_in: distance to the leg. a_1_in, a_2_in: room on either side of the anchor [in]. Returns: [in]."""
    return min(m_in, a_1_in) + min(m_in, a_2_in)


@clause(
    AISC, "F11", title="Bending of a flat plate", symbol="phi M_n", unit="lb-in", formula="0.9 * F_y * b * t ** 2 / 4",
    provenance="memory", note="φ is 0.90; plastic modulus, which is 1.5 times the elastic one.",
)  # fmt: skip
def flat_bending_lb_in(F_y_psi: float, b_in: float, t_in: float) -> float:
    """Across its thickness. Args: F_y_psi [psi]. b_in: width that bends. t_in: thickness [in]. Source: AISC 360-22 F11.1."""
    return 0.9 * F_y_psi * b_in * t_in**2 / 4


@clause(
    "statics",
    "",
    title="Moment of an anchor's pull in the plate",
    symbol="M",
    unit="lb-in",
    formula="T * m",
    provenance="derived",
)
def anchor_moment_lb_in(T_lb: float, m_in: float) -> float:
    """The plate as a cantilever from the leg. Args: T_lb: tension of one anchor. m_in: distance to the leg [in]."""
    return T_lb * m_in


@clause(
    "statics", "", title="Moment of the toe's pressure in the plate", symbol="m_u", unit="lb-in",
    formula="p * m ** 2 / 2", provenance="derived", note="A strip 1 in wide past the leg, under the toe's pressure all along.",
)  # fmt: skip
def side_moment_lb_in(p_psi: float, m_in: float) -> float:
    """Per inch of height. Args: p_psi: pressure at the toe. m_in: plate past the outermost leg [in]. Returns: [lb-in]."""
    return p_psi * m_in**2 / 2


@clause(
    "statics", "", title="Moment of the toe's pressure below the leg", symbol="m_u", unit="lb-in",
    formula="p * (m ** 2 / 2 - m ** 3 / (6 * x)) if m <= x else p * x / 2 * (m - x / 3)", provenance="derived",
    note="A strip 1 in wide below the leg's end; the pressure falls in a straight line from the toe.",
)  # fmt: skip
def end_moment_lb_in(p_psi: float, m_in: float, x_in: float) -> float:
    """Per inch of width. Args: p_psi: at the toe. m_in: plate past the leg's end. x_in: pressed depth [in]. Returns: [lb-in]."""
    if m_in <= x_in:
        return p_psi * (m_in**2 / 2 - m_in**3 / (6 * x_in))
    return p_psi * x_in / 2 * (m_in - x_in / 3)


@clause(
    AISC, "J3.11", title="Bearing and tear-out at a hole", symbol="phi r_n", unit="lb",
    formula="0.75 * min(2.4 * d, 1.2 * l_c) * t * F_u", provenance="memory", note="φ is 0.75; J3.10 in the editions before.",
)  # fmt: skip
def hole_bearing_lb(d_in: float, l_c_in: float, t_in: float, F_u_psi: float) -> float:
    """Args: d_in: fastener. l_c_in: clear steel to the next hole or edge. t_in: leg [in]. F_u_psi [psi]. Source: J3.11a."""
    return 0.75 * min(2.4 * d_in, 1.2 * l_c_in) * t_in * F_u_psi


@clause(AISC, "J4.2", title="Shear of the gross section", symbol="phi V_n", unit="lb", formula="0.6 * F_y * h * t",
        provenance="memory", note="φ is 1.00.")  # fmt: skip
def shear_yield_lb(F_y_psi: float, h_in: float, t_in: float) -> float:
    """One leg. Args: F_y_psi [psi]. h_in: its height, t_in: thickness [in]. Source: AISC 360-22 J4.2(a)."""
    return 0.6 * F_y_psi * h_in * t_in


@clause(
    AISC, "J4.2", title="Shear of the net section", symbol="phi V_n", unit="lb",
    formula="0.75 * 0.6 * F_u * max(h - n * d_h, 0) * t", provenance="memory", note="φ is 0.75.",
)  # fmt: skip
def shear_rupture_lb(F_u_psi: float, h_in: float, n: int, d_h_in: float, t_in: float) -> float:
    """Through n holes of one column. Args: d_h_in: hole as it counts [in]. Source: AISC 360-22 J4.2(b)."""
    return 0.75 * 0.6 * F_u_psi * max(h_in - n * d_h_in, 0.0) * t_in


@clause(
    AISC, "J4.1", title="Leg pulled", symbol="phi P_n", unit="lb",
    formula="min(0.9 * F_y * h * t, 0.75 * F_u * max(h - n * d_h, 0) * t)", provenance="memory", note="φ is 0.90 and 0.75.",
)  # fmt: skip
def tension_lb(F_y_psi: float, F_u_psi: float, h_in: float, n: int, d_h_in: float, t_in: float) -> float:
    """One leg, whole and through n holes. Args: as above. Source: AISC 360-22 J4.1."""
    return min(0.9 * F_y_psi * h_in * t_in, 0.75 * F_u_psi * max(h_in - n * d_h_in, 0.0) * t_in)


@clause(
    AISC, "J4.3", title="Block shear", symbol="phi R_n", unit="lb",
    formula="0.75 * (min(0.6 * F_u * A_nv, 0.6 * F_y * A_gv) + U_bs * F_u * A_nt)", provenance="memory",
    note="φ is 0.75; U_bs is 1.0 where the pull is even over A_nt, else 0.5.",
)  # fmt: skip
def block_shear_lb(
    F_u_psi: float, F_y_psi: float, A_nv_in2: float, A_gv_in2: float, A_nt_in2: float, U_bs: float
) -> float:
    """Args: A_nv_in2, A_gv_in2: net and gross area in shear, A_nt_in2: net in tension [in²]. Source: AISC 360-22 J4.3."""
    return 0.75 * (min(0.6 * F_u_psi * A_nv_in2, 0.6 * F_y_psi * A_gv_in2) + U_bs * F_u_psi * A_nt_in2)


@clause(AISC, "F11", title="Slenderness of an upright leg", symbol="λ", formula="L_b * h / t ** 2", provenance="memory")
def slenderness(L_b_in: float, h_in: float, t_in: float) -> float:
    """Args: L_b_in: free length, h_in: height, t_in: thickness [in]. Source: AISC 360-22 F11.1."""
    above_zero(t_in=t_in)
    return L_b_in * h_in / t_in**2


@clause(
    AISC, "F11", title="Bending of an upright leg", symbol="phi M_n", unit="lb-in",
    formula="0.9 * 1.5 * F_y * S if slender <= 0.08 * E / F_y else 0.9 * min(1.5, 1.52 - 0.274 * slender * F_y / E) * F_y * S "
    "if slender <= 1.9 * E / F_y else 0.9 * min(1.5 * F_y, 1.9 * E / slender) * S",
    provenance="memory", note="φ is 0.90, C_b 1.0; lateral-torsional buckling of a narrow rectangle.",
)  # fmt: skip
def upright_bending_lb_in(slender: float, E_psi: float, F_y_psi: float, S_in3: float) -> float:
    """Args: slender: L_b h / t². E_psi, F_y_psi [psi]. S_in3: elastic modulus [in³]. Source: AISC 360-22 F11.1, F11.2."""
    if slender <= 0.08 * E_psi / F_y_psi:
        stress = 1.5 * F_y_psi
    elif slender <= 1.9 * E_psi / F_y_psi:
        stress = min(1.5, 1.52 - 0.274 * slender * F_y_psi / E_psi) * F_y_psi
    else:
        stress = min(1.5 * F_y_psi, 1.9 * E_psi / slender)
    return 0.9 * stress * S_in3


@clause(
    "AISC Steel Construction Manual", "Part 10", title="Leg in shear, bending and pull", symbol="u",
    formula="r_V ** 2 + (r_x + r_y + r_P) ** 2", provenance="memory",
    note="As for extended single plates; bending both ways and pull add up (AISC 360-22 H1).",
)  # fmt: skip
def leg_use(r_V: float, r_x: float, r_y: float, r_P: float) -> float:
    """At most 1. Args: parts used by shear, bending upright, bending sideways, pull. Source: AISC Manual Part 10; H1."""
    return r_V**2 + (r_x + r_y + r_P) ** 2


def upright_strength_lb_in(sheet: Worksheet, L_b_in: float, h_in: float, t_in: float, F_y_psi: float) -> float:
    """Bending strength of one leg on its high side with the working [lb-in]."""
    slender = sheet.use(slenderness, L_b_in=L_b_in, h_in=h_in, t_in=t_in)
    S = t_in * h_in**2 / 6
    return sheet.use(upright_bending_lb_in, slender=slender, E_psi=E_PSI, F_y_psi=F_y_psi, S_in3=S)
