"""Published cases of concrete other than anchors: bearing, walls, strips, a column bracket, hooks and straight bars."""

from collections.abc import Callable, Mapping
from math import ceil, sqrt
from typing import Any

from engine.clauses.us import concrete_corbels as corbels
from engine.clauses.us import concrete_wall_steel as steel
from engine.clauses.us import concrete_walls as walls
from engine.clauses.us import development as bond
from engine.clauses.us.bars import bar, bars, bars_on_width_in2
from engine.clauses.us.concrete_bearing import bearing_strength_lb, support_area_in2, support_offset_in
from engine.clauses.us.concrete_material import design_strength_lb, phi_compression
from engine.clauses.us.concrete_strip import LARGEST_STEEL_RATIO, Strip, capacity_at
from engine.clauses.us.loads import Loads, governing_strength
from engine.clauses.us.shear_friction import shear_friction_steel_in2
from engine.editions import US_2021
from engine.proving import adapter, given

KIP = 1000.0
BEARING = {"phi": 0.65}  # ACI 318-19 Table 21.2.1
Case = Mapping[str, Any]


def factored(**loads: float) -> float:
    """The governing strength combination, in the loads' own unit."""
    return governing_strength(US_2021, Loads(**loads)).demand


def smallest(low: float, high: float, enough: Callable[[float], bool]) -> float:
    """Least value of a rising condition, by halving."""
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if enough(middle) else (middle, high)
    return high


@adapter("concrete/bearing-a2-a1", usual={**BEARING, "A2_over_A1": 1.0})
def bearing_by_ratio(i: Case) -> dict[str, Any]:
    """Bearing a2 a1."""
    A_1, ratio = i.get("A1_in2") or i["N_in"] * i["B_in"], i["A2_over_A1"]
    P_p = bearing_strength_lb(i["fc_psi"], A_1, ratio * A_1)
    found = {"phiPp_kip": design_strength_lb(i["phi"], P_p) / KIP}
    if given(i, "Pu_kip"):
        each_in2 = bearing_strength_lb(i["fc_psi"], 1.0, ratio)
        found["A1_req_in2"] = i["Pu_kip"] * KIP / design_strength_lb(i["phi"], each_in2)
    return found


@adapter("concrete/bearing-column-footing", usual=BEARING)
def bearing_of_a_column(i: Case) -> dict[str, Any]:
    """Bearing column footing."""
    A_1, A_2 = i["A1_in2"], (12 * i["ftg_side_ft"]) ** 2
    footing = bearing_strength_lb(i["fc_ftg_psi"], A_1, A_2)
    return {
        "phiPn_col_kip": design_strength_lb(i["phi"], bearing_strength_lb(i["fc_col_psi"], A_1, A_1)) / KIP,
        "sqrt_ratio_uncapped": sqrt(A_2 / A_1),
        "sqrt_ratio_used": footing / bearing_strength_lb(i["fc_ftg_psi"], A_1, A_1),
        "phiPn_ftg_kip": design_strength_lb(i["phi"], footing) / KIP,
    }


@adapter("concrete/bearing-of-a-beam-on-an-8-in-wall-no-a2-increase", usual=BEARING)
def bearing_on_a_wall(i: Case) -> dict[str, Any]:
    """Bearing of a beam on an 8 in wall no a2 increase."""
    A_1 = i["wall_in"] * i["bearing_width_in"]
    return {"phiBn_kip": design_strength_lb(i["phi"], bearing_strength_lb(i["fc_psi"], A_1, A_1)) / KIP}


@adapter("concrete/bearing-with-a2-by-equal-offsets", usual=BEARING)
def bearing_by_offsets(i: Case) -> dict[str, Any]:
    """Bearing with a2 by equal offsets."""
    N, B, side = i["N_in"], i["B_in"], i["pedestal_in"]
    # the guide gives no depth; a pedestal as deep as it is wide never limits the spread
    c = support_offset_in((side - N) / 2, (side - N) / 2, (side - B) / 2, (side - B) / 2, depth_in=side)
    A_2 = support_area_in2(N, B, c)
    B_n = bearing_strength_lb(i["fc_psi"], N * B, A_2)
    return {
        "N2_in": N + 2 * c,
        "B2_in": B + 2 * c,
        "A1_in2": N * B,
        "A2_in2": A_2,
        "sqrt_A2_A1": sqrt(A_2 / (N * B)),
        "phiPp_kip": design_strength_lb(i["phi"], B_n) / KIP,
    }


@adapter("concrete/bearing-with-the-full-2-0-factor", usual=BEARING)
def bearing_at_its_most(i: Case) -> dict[str, Any]:
    """Bearing with the full 2 0 factor."""
    A_1 = i.get("A1_in2") or i["N_in"] * i["B_in"]
    P_p = bearing_strength_lb(i["fc_psi"], A_1, 4 * A_1)
    return {"Pp_kip": P_p / KIP, "phiPp_kip": design_strength_lb(i["phi"], P_p) / KIP}


def _alone(bearing_in: float, h_in: float, spacing_in: float) -> float:
    """Effective length far from any end."""
    return walls.effective_length_in(bearing_in, h_in, spacing_in, spacing_in, spacing_in)


@adapter("concrete/effective-length-factor-and-limits")
def wall_limits(i: Case) -> dict[str, Any]:
    """Effective length factor and limits."""
    found: dict[str, Any] = {
        "k_braced_restrained": walls.effective_length_factor(braced=True, restrained=True),
        "k_braced_unrestrained": walls.effective_length_factor(braced=True, restrained=False),
        "k_unbraced": walls.effective_length_factor(braced=False, restrained=False),
        "opening_bars_one_curtain": f"{steel.bars_at_opening(1)} No.5",
        "opening_bars_two_curtains": f"{steel.bars_at_opening(2)} No.5",
    }
    if given(i, "bearing_wall_unsupported_in"):
        found["h_min_in"] = walls.wall_thickness_minimum_in(i["bearing_wall_unsupported_in"])
    if given(i, "h_in"):
        found["max_spacing_in"] = steel.largest_bar_spacing_in(i["h_in"])
    if given(i, "h_in", "bearing_width_in", "spacing_in"):
        found["Leff_in"] = _alone(i["bearing_width_in"], i["h_in"], i["spacing_in"])
    return found


@adapter("concrete/simplified-method-under-concentrated-loads", usual={"fy_psi": 60000.0})
def simplified_wall(i: Case) -> dict[str, Any]:
    """Simplified method under concentrated loads."""
    h, l_c = i["h_in"], 12 * i["lc_ft"]
    L_e = _alone(i["bearing_width_in"], h, i["beam_spacing_in"])
    P_n = walls.wall_axial_simplified_lb(i["fc_psi"], L_e * h, i["k"], l_c, h)
    small_bar = bar(4).d_b_in
    return {
        "h_min_in": walls.wall_thickness_minimum_in(l_c),
        "Pu_kip": factored(D=i.get("D_kip", 0.0), L=i.get("L_kip", 0.0)),
        "effective_length_in": L_e,
        "phiPn_kip": design_strength_lb(i.get("phi", phi_compression()), P_n) / KIP,
        "As_vert_in2_per_ft": steel.minimum_wall_steel_in2(steel.vertical_steel_ratio(small_bar, i["fy_psi"]), 12, h),
        "As_horiz_in2_per_ft": steel.minimum_wall_steel_in2(
            steel.horizontal_steel_ratio(small_bar, i["fy_psi"]), 12, h
        ),
        "s_max_in": steel.largest_bar_spacing_in(h),
    }


@adapter("concrete/simplified-method-lecture-example-inputs-and-outcome-only")
def simplified_wall_outcome(i: Case) -> dict[str, Any]:
    """Simplified method lecture example inputs and outcome only."""
    h, l_c, f_y = i["h_in"], 12 * i["lc_ft"], i.get("fy_psi", 60000.0)
    L_e = _alone(i["bearing_width_in"], h, i["beam_spacing_in"])
    P_n = walls.wall_axial_simplified_lb(i["fc_psi"], L_e * h, i["k"], l_c, h)
    strong = factored(D=i["D_kip"], L=i["L_kip"]) * KIP <= design_strength_lb(i["phi_printed"], P_n)
    thick = h >= walls.wall_thickness_minimum_in(l_c)
    s = steel.largest_bar_spacing_in(h)
    return {
        "h_in_adequate": h if strong and thick else None,
        "vert_and_horiz_steel": f"#{_bar_both_ways(h, s, f_y)}@{s:g} in",
        "Leff_in": L_e,
    }


def _bar_both_ways(h_in: float, s_in: float, f_y_psi: float) -> int:
    """Smallest bar that at one spacing gives the least steel of both directions."""
    return next(
        size.number
        for size in bars().values()
        if bars_on_width_in2(size.A_b_in2, s_in, 12)
        >= steel.minimum_wall_steel_in2(steel.horizontal_steel_ratio(size.d_b_in, f_y_psi), 12, h_in)
    )


@adapter("concrete/12-in-wall-strip-eccentric-load-plus-soil")
def strip_with_soil(i: Case) -> dict[str, Any]:
    """12 in wall strip eccentric load plus soil."""
    L = i["height_ft"]
    x = L / sqrt(3)
    # a soil triangle on a simple span, moment with the coefficient 0.064 the textbook prints for 1 / (9 sqrt 3)
    M_H = 0.064 * i["ka"] * i["gamma_pcf"] * L**3 * 12
    P_D = i["PD_plf"] + x * 150 * i["h_in"] / 12
    left = 1 - x / L  # the eccentric load's moment falls to nothing at the base
    M_D, M_L = i["PD_plf"] * i["e_in"] * left, i["PL_plf"] * i["e_in"] * left
    P_1, M_1 = 1.2 * P_D + 1.6 * i["PL_plf"], 1.2 * M_D + 1.6 * M_L + 1.6 * M_H
    P_2, M_2 = 0.9 * P_D, 0.9 * M_D + 1.6 * M_H
    A_g = i["b_in"] * i["h_in"]
    most = LARGEST_STEEL_RATIO * A_g
    both = smallest(1e-3, most, lambda A: min(_phiM(i, A, P_1) - M_1, _phiM(i, A, P_2) - M_2) >= 0)
    return {
        "MH_inlb_per_ft": M_H,
        "x_from_top_ft": x,
        "PD_at_section_plf": P_D,
        "Pu_12D16L16H_lb": P_1,
        "Mu_12D16L16H_inlb": M_1,
        "Pu_09D16H_lb": P_2,
        "Mu_09D16H_inlb": M_2,
        "rho_total": both / A_g,
        "As_beam_check_in2": smallest(1e-3, most, lambda A: _phiM(i, A, 0.0) >= M_1),
    }


def _phiM(i: Case, A_st: float, P_u: float) -> float:
    layers = ((A_st / 2, i["dprime_in"]), (A_st / 2, i["d_in"]))
    return capacity_at(
        Strip(i["b_in"], i["h_in"], i["fc_psi"], i["fy_psi"], layers, tied=True), P_u
    ).phiM_n_lb_in  # fmt: skip


def bracket(i: Case, V_u: float, N_uc: float, M_u: float, A_f: float) -> dict[str, float]:
    """Steel areas of a bracket [in²]. Args: V_u, N_uc [lb]. M_u [lb-in]. A_f: by the lever its source uses."""
    A_vf = shear_friction_steel_in2(V_u, i["phi"], i["mu"], i["fy_psi"])
    A_n = corbels.restraint_steel_in2(N_uc, i["phi"], i["fy_psi"])
    least = corbels.least_main_steel_in2(i["fc_psi"], i["fy_psi"], i["b_in"], i["d_in"])
    A_sc = corbels.main_steel_in2(corbels.strength_steel_in2(A_f, A_n, A_vf), least)
    return {"Avf": A_vf, "An": A_n, "Af": A_f, "Asc": A_sc, "Ah": corbels.tie_steel_in2(A_sc, A_n)}


@adapter(
    "concrete/corbel-column-bracket",
    "placement/column-corbel-14-in-wide-with-horizontal-force",
    # both recalled examples take the lever as 0.9 d
    usual={"T_kip": 0.0, "mu": 1.4, "phi": 0.75, "arm_over_d": 0.9},
)
def column_bracket(i: Case) -> dict[str, Any]:
    """Corbel column bracket."""
    D, L = i.get("D_kip", i.get("PD_kip")), i.get("L_kip", i.get("PL_kip"))
    V_u = factored(D=D, L=L) * KIP
    N_uc = max(factored(L=i["T_kip"]) * KIP, 0.2 * V_u)
    M_u = corbels.corbel_moment_lb_in(V_u, i["av_in"], N_uc, i["h_in"], i["d_in"])
    A_f = corbels.moment_steel_by_lever_in2(M_u, i["phi"], i["fy_psi"], i["d_in"], i["arm_over_d"])
    return {
        "Vu_kip": V_u / KIP,
        "Nuc_kip": N_uc / KIP,
        "Mu_inkip": M_u / KIP,
        "Mu_kip_in": M_u / KIP,
        "Vn_limit_kip": corbels.shear_limit_lb(i["fc_psi"], i["b_in"], i["d_in"]) / KIP,
        **{f"{name}_in2": area for name, area in bracket(i, V_u, N_uc, M_u, A_f).items()},
    }


@adapter("concrete/standard-hook-old-formula-epoxy", "placement/hook-development-length-318-11")
def hook_2011(i: Case) -> dict[str, Any]:
    """Standard hook old formula epoxy."""
    l_dh = bond.hook_development_2014_in(
        i["fy_psi"],
        i["fc_psi"],
        i["db_in"],
        psi_e=i.get("psi_e", 1.0),
        psi_c=i.get("psi_c", 1.0),
        psi_r=i.get("psi_r", 1.0),
        lambda_c=i.get("lambda", 1.0),
    )
    return {"ldh_in": l_dh, "ldh_rounded_in": ceil(l_dh)}


@adapter("concrete/standard-hook-table-old-formula")
def hook_table_2011(i: Case) -> dict[str, Any]:
    """Standard hook table old formula."""
    return {
        "ldh_in": [
            bond.hook_development_2014_in(i["fy_psi"], f_c, d_b)
            for d_b, f_c in zip(i["bars_db_in"], i["fc_psi"], strict=True)
        ]
    }


@adapter("concrete/straight-bar-development-318-19", usual={"Ktr": 0.0})
def straight_bar(i: Case) -> dict[str, Any]:
    """Straight bar development 318 19."""
    confined = bond.confinement(i["cb_in"], i["Ktr"], i["db_in"])
    l_d = bond.tension_development_full_in(
        i["fy_psi"], i["fc_psi"], i["db_in"], confined, psi_s=i.get("size_factor", bond.straight_psi_s(i["db_in"]))
    )
    found = {"cb_Ktr_over_db_used": confined, "ld_in": l_d}
    if given(i, "As_req_in2", "As_prov_in2"):
        found["le_reduced_in"] = bond.reduced_development_in(l_d, i["As_req_in2"], i["As_prov_in2"])
    return found
