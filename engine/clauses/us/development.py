"""Development of hooks and straight bars, and laps: ACI 318-19 sections 25.4 and 25.5, hooks also in the 318-14 form.

The root of f'c counts to 100 psi (25.4.1.4, recalled).
"""

from math import sqrt
from typing import Literal

from engine.clauses.us.concrete_material import above_zero
from engine.errors import OutOfScope
from engine.worksheet import clause


@clause("ACI 318", "25.4.3.2", title="Hook factor for concrete strength", symbol="psi_c",
        formula="f_c / 15000 + 0.6 if f_c < 6000 else 1.0")  # fmt: skip
def hook_psi_c(f_c_psi: float) -> float:
    """ψ_c of hooks. Args: f_c_psi [psi]. Source: ACI 318-19 Table 25.4.3.2; steel Design Guide 1, 3rd ed., Example 4.7-15."""
    above_zero(f_c_psi=f_c_psi)
    return f_c_psi / 15000 + 0.6 if f_c_psi < 6000 else 1.0


@clause(
    "ACI 318",
    "25.4.3.2",
    title="Hook factor for confinement",
    symbol="psi_r",
    formula="1.0 if s >= 6 * d_b or A_th >= 0.4 * A_hs else 1.6",
    note="For No. 11 bars and smaller.",
)
def hook_psi_r(s_in: float, d_b_in: float, A_th_in2: float = 0.0, A_hs_in2: float = 1.0) -> float:
    """ψ_r of hooks.

    Args: s_in: spacing of the hooked bars [in]. d_b_in: bar [in]. A_th_in2, A_hs_in2: ties that confine the hooks, and the
        hooked bars [in²]. Source: ACI 318-19 Table 25.4.3.2.
    """
    above_zero(s_in=s_in, d_b_in=d_b_in, A_hs_in2=A_hs_in2)
    return 1.0 if s_in >= 6 * d_b_in or A_th_in2 >= 0.4 * A_hs_in2 else 1.6


@clause(
    "ACI 318",
    "25.4.3.2",
    title="Hook factor for place",
    symbol="psi_o",
    formula="1.0 if c_side >= 6 * d_b else 1.25",
    note="Side cover square to the plane of the hook: a stirrup next to a wall end or an opening has 1.25.",
)
def hook_psi_o(c_side_in: float, d_b_in: float) -> float:
    """ψ_o of hooks in walls. Args: c_side_in: side cover [in]. d_b_in: bar [in]. Source: ACI 318-19 Table 25.4.3.2."""
    above_zero(d_b_in=d_b_in)
    return 1.0 if c_side_in >= 6 * d_b_in else 1.25


@clause("ACI 318", "25.4.3.2", title="Factor for coating", symbol="psi_e", rule="1.2 for epoxy or dual coated bars, else 1.0.",
        provenance="memory")  # fmt: skip
def hook_psi_e(coated: bool) -> float:
    """ψ_e of hooks. Args: coated: epoxy or zinc and epoxy. Source: ACI 318-19 Table 25.4.3.2."""
    return 1.2 if coated else 1.0


@clause(
    "ACI 318",
    "25.4.3.1",
    title="Development length of a standard hook",
    symbol="l_dh",
    unit="in",
    formula="max(f_y * psi_e * psi_r * psi_o * psi_c / (55 * lambda_c * min(sqrt(f_c), 100)) * d_b ** 1.5, 8 * d_b, 6)",
)
def hook_development_in(
    f_y_psi: float,
    f_c_psi: float,
    d_b_in: float,
    psi_e: float = 1.0,
    psi_r: float = 1.0,
    psi_o: float = 1.0,
    psi_c: float = 1.0,
    lambda_c: float = 1.0,
) -> float:
    """Length from the critical section to the outside of the hook, 2019 edition.

    Args: f_y_psi, f_c_psi [psi]. d_b_in: bar [in]. psi_e, psi_r, psi_o, psi_c: the factors above. lambda_c: lightweight factor.
    Returns: [in]. Raises: BadInput. Source: ACI 318-19 25.4.3.1; read in steel Design Guide 1, 3rd ed., Example 4.7-15.
    """
    above_zero(f_y_psi=f_y_psi, f_c_psi=f_c_psi, d_b_in=d_b_in, psi_e=psi_e, psi_r=psi_r, psi_o=psi_o, psi_c=psi_c)
    basic = (
        f_y_psi * psi_e * psi_r * psi_o * psi_c / (55 * lambda_c * min(sqrt(f_c_psi), 100.0)) * sqrt(d_b_in) * d_b_in
    )
    return max(basic, 8 * d_b_in, 6.0)


@clause(
    "ACI 318-14",
    "25.4.3.1",
    title="Development length of a standard hook, 2014 form",
    symbol="l_dh",
    unit="in",
    formula="max(f_y * psi_e * psi_c * psi_r / (50 * lambda_c * min(sqrt(f_c), 100)) * d_b, 8 * d_b, 6)",
    note="psi_c 0.7 with 2 1/2 in side and 2 in tail cover, psi_r 0.8 within ties, psi_e 1.2 coated.",
)
def hook_development_2014_in(
    f_y_psi: float,
    f_c_psi: float,
    d_b_in: float,
    psi_e: float = 1.0,
    psi_c: float = 1.0,
    psi_r: float = 1.0,
    lambda_c: float = 1.0,
) -> float:
    """Hook length of the 2011 and 2014 editions, for checking older drawings.

    Args: as for `hook_development_in`, psi_c and psi_r by the older table. Returns: [in]. Raises: BadInput.
    Source: ACI 318-14 25.4.3.1 (318-11 12.5.2); read in Design of Reinforced Concrete, 9th ed., 7.5.
    """
    above_zero(
        f_y_psi=f_y_psi, f_c_psi=f_c_psi, d_b_in=d_b_in, psi_e=psi_e, psi_c=psi_c, psi_r=psi_r, lambda_c=lambda_c
    )
    basic = f_y_psi * psi_e * psi_c * psi_r / (50 * lambda_c * min(sqrt(f_c_psi), 100.0)) * d_b_in
    return max(basic, 8 * d_b_in, 6.0)


@clause("ACI 318", "25.4.2.5", title="Factor for bar size", symbol="psi_s", formula="0.8 if d_b <= 0.75 else 1.0")
def straight_psi_s(d_b_in: float) -> float:
    """ψ_s of straight bars: No. 6 and smaller 0.8. Args: d_b_in [in]. Source: ACI 318-19 Table 25.4.2.5."""
    above_zero(d_b_in=d_b_in)
    return 0.8 if d_b_in <= 0.75 else 1.0


@clause("ACI 318", "25.4.2.5", title="Factor for casting position", symbol="psi_t", formula="1.3 if fresh > 12 else 1.0",
        note="Horizontal bars with more than 12 in of fresh concrete below.")  # fmt: skip
def straight_psi_t(fresh_in: float) -> float:
    """ψ_t of straight bars. Args: fresh_in: fresh concrete placed below a horizontal bar [in]; 0 for a vertical bar."""
    return 1.3 if fresh_in > 12 else 1.0


@clause("ACI 318", "25.4.2.5", title="Factor for grade", symbol="psi_g", provenance="memory",
        formula="1.0 if f_y <= 60000 else 1.15 if f_y <= 80000 else 1.3")  # fmt: skip
def straight_psi_g(f_y_psi: float) -> float:
    """ψ_g of straight bars, Grades 60, 80, 100. Args: f_y_psi [psi]. Source: ACI 318-19 Table 25.4.2.5."""
    above_zero(f_y_psi=f_y_psi)
    return 1.0 if f_y_psi <= 60000 else 1.15 if f_y_psi <= 80000 else 1.3


@clause(
    "ACI 318",
    "25.4.2.3",
    title="Development length in tension, cover and spacing met",
    symbol="l_d",
    unit="in",
    formula="max(f_y * psi_t * psi_e * psi_g / ((25 if d_b <= 0.75 else 20) * lambda_c * min(sqrt(f_c), 100)) * d_b, 12)",
    provenance="memory",
    note="Clear spacing and cover of at least one bar diameter with ties, or 2 d_b and d_b without.",
)
def tension_development_in(
    f_y_psi: float,
    f_c_psi: float,
    d_b_in: float,
    psi_t: float = 1.0,
    psi_e: float = 1.0,
    psi_g: float = 1.0,
    lambda_c: float = 1.0,
) -> float:
    """Straight development by the short table.

    Args: f_y_psi, f_c_psi [psi]. d_b_in: bar [in]. psi_t, psi_e, psi_g: position, coating, grade. Returns: [in]. Raises: BadInput.
    Source: ACI 318-19 Table 25.4.2.3, 25.4.2.1.
    """
    above_zero(
        f_y_psi=f_y_psi, f_c_psi=f_c_psi, d_b_in=d_b_in, psi_t=psi_t, psi_e=psi_e, psi_g=psi_g, lambda_c=lambda_c
    )
    divisor = (25 if d_b_in <= 0.75 else 20) * lambda_c * min(sqrt(f_c_psi), 100.0)
    return max(f_y_psi * psi_t * psi_e * psi_g / divisor * d_b_in, 12.0)


@clause(
    "ACI 318", "25.4.2.4", title="Confinement term", symbol="(c_b + K_tr) / d_b", formula="min((c_b + K_tr) / d_b, 2.5)"
)
def confinement(c_b_in: float, K_tr_in: float, d_b_in: float) -> float:
    """Cover and ties beside a bar, 2.5 at most. Args: c_b_in: cover or half spacing to bar centre [in]. K_tr_in: ties [in]."""
    above_zero(c_b_in=c_b_in, d_b_in=d_b_in)
    return min((c_b_in + K_tr_in) / d_b_in, 2.5)


@clause(
    "ACI 318",
    "25.4.2.4",
    title="Development length in tension",
    symbol="l_d",
    unit="in",
    formula="max(3 / 40 * f_y / (lambda_c * min(sqrt(f_c), 100)) * psi_t * psi_e * psi_s * psi_g / confined * d_b, 12)",
)
def tension_development_full_in(
    f_y_psi: float,
    f_c_psi: float,
    d_b_in: float,
    confined: float,
    psi_t: float = 1.0,
    psi_e: float = 1.0,
    psi_s: float = 1.0,
    psi_g: float = 1.0,
    lambda_c: float = 1.0,
) -> float:
    """Straight development with cover and ties counted.

    Args: confined: `confinement`; psi_s: by bar size; the rest as for `tension_development_in`. Returns: [in].
    Raises: BadInput.
    Source: ACI 318-19 25.4.2.4, 25.4.2.1; read in steel Design Guide 1, 3rd ed., Example 4.7-15.
    """
    above_zero(f_y_psi=f_y_psi, f_c_psi=f_c_psi, d_b_in=d_b_in, confined=confined, lambda_c=lambda_c)
    stress = 3 / 40 * f_y_psi / (lambda_c * min(sqrt(f_c_psi), 100.0))
    return max(stress * psi_t * psi_e * psi_s * psi_g / confined * d_b_in, 12.0)


@clause(
    "ACI 318",
    "25.4.10.1",
    title="Development length with more steel than needed",
    symbol="l_d",
    unit="in",
    formula="max(l_d * A_req / A_prov, 12)",
    note="Not at supports where the bar must yield, nor for hooks and laps.",
)
def reduced_development_in(l_d_in: float, A_req_in2: float, A_prov_in2: float) -> float:
    """Straight tension development reduced. Args: l_d_in [in]. A_req_in2, A_prov_in2: needed and given [in²]. Returns: [in]."""
    above_zero(l_d_in=l_d_in, A_req_in2=A_req_in2, A_prov_in2=A_prov_in2)
    return max(l_d_in * A_req_in2 / A_prov_in2, 12.0)


@clause(
    "ACI 318",
    "25.4.9.2",
    title="Development length in compression",
    symbol="l_dc",
    unit="in",
    formula="max(0.02 * f_y / (lambda_c * min(sqrt(f_c), 100)) * d_b, 0.0003 * f_y * d_b, 8)",
)
def compression_development_in(f_y_psi: float, f_c_psi: float, d_b_in: float, lambda_c: float = 1.0) -> float:
    """Development of bars in compression. Args: [psi], [in]. Returns: [in]. Raises: BadInput. Source: ACI 318-19 25.4.9."""
    above_zero(f_y_psi=f_y_psi, f_c_psi=f_c_psi, d_b_in=d_b_in, lambda_c=lambda_c)
    return max(0.02 * f_y_psi / (lambda_c * min(sqrt(f_c_psi), 100.0)) * d_b_in, 0.0003 * f_y_psi * d_b_in, 8.0)


LapClass = Literal["A", "B"]


@clause("ACI 318", "25.5.2.1", title="Class of a tension lap", symbol="class",
        rule="A with at least twice the steel needed and no more than half the bars lapped at one place; else B.")  # fmt: skip
def lap_class(steel_over_needed: float, share_lapped: float) -> LapClass:
    """Class of a tension lap. Args: given over needed steel; share of the bars lapped within one lap. Source: Table 25.5.2.1."""
    return "A" if steel_over_needed >= 2 and share_lapped <= 0.5 else "B"


@clause("ACI 318", "25.5.2.1", title="Tension lap, class A", symbol="l_st", unit="in", formula="max(l_d, 12)")
def lap_a_in(l_d_in: float) -> float:
    """Class A tension lap. Args: l_d_in: development without the reduction for excess steel [in]. Returns: [in]."""
    above_zero(l_d_in=l_d_in)
    return max(l_d_in, 12.0)


@clause("ACI 318", "25.5.2.1", title="Tension lap, class B", symbol="l_st", unit="in", formula="max(1.3 * l_d, 12)")
def lap_b_in(l_d_in: float) -> float:
    """Class B tension lap; argument as for `lap_a_in`. Source: ACI 318-19 Table 25.5.2.1."""
    above_zero(l_d_in=l_d_in)
    return max(1.3 * l_d_in, 12.0)


@clause(
    "ACI 318",
    "25.5.5.1",
    title="Compression lap",
    symbol="l_sc",
    unit="in",
    formula="max(0.0005 * f_y * d_b, 12) * (4 / 3 if f_c < 3000 else 1)",
    note="Up to Grade 60.",
)
def compression_lap_in(f_y_psi: float, f_c_psi: float, d_b_in: float) -> float:
    """Lap of bars in compression.

    Args: [psi], [in]. Returns: [in]. Raises: BadInput; OutOfScope above 60 ksi. Source: ACI 318-19 25.5.5.1.
    """
    above_zero(f_y_psi=f_y_psi, f_c_psi=f_c_psi, d_b_in=d_b_in)
    if f_y_psi > 60000:
        raise OutOfScope(
            "ACI 318 25.5.5.1", "The lap of stronger bars in compression was not read. Lap them as in tension."
        )
    return max(0.0005 * f_y_psi * d_b_in, 12.0) * (4 / 3 if f_c_psi < 3000 else 1)
