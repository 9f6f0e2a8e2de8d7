"""Published Canadian cases: loads, wood, concrete and bars by the strength rules that were read."""

from collections.abc import Mapping
from math import prod
from typing import Any

from engine.clauses.canada import strength
from engine.clauses.us import bars
from engine.proving import adapter

Case = Mapping[str, Any]
Values = dict[str, Any]


@adapter("canada/editions")
def editions(i: Case) -> Values:
    """Standards that the code calls up."""
    return dict(strength.standards_2015() if "2015" in i.get("code", "") else strength.standards())


@adapter("canada/loads")
def loads(i: Case) -> Values:
    """Factored loads, factors beside them, and the loads that Part 9 goes to."""
    D, L, S, W = (i.get(f"{load}_kPa", 0.0) for load in "DLSW")
    factored = strength.factored_kPa(D, L, S, W)
    factors, (live, span) = strength.other_factors(), strength.floor_scope()
    return {
        "governing_factored_kPa": factored,
        "w_factored_kN_per_m": factored * i.get("tributary_m", 1.0),
        "counteracting_D": factors["D_counteracting"],
        "counteracting_D_with_E": factors["D_with_E"],
        "H": factors["H"],
        "P": factors["P"],
        "T": factors["T"],
        "max_specified_live_kPa": live,
        "max_member_span_m": span,
        "min_live_kPa": strength.deck_live_kPa(S),
    }


@adapter("canada/wood-factors")
def wood_factors(i: Case) -> Values:
    """Load duration."""
    terms: Values = {f"KD_{term}": value for term, value in strength.duration_factors().items()}
    if "long_term_load" in i:
        terms["KD"] = strength.K_D(i["long_term_load"], i.get("standard_load", 1.0))
    return terms


@adapter("canada/wood-bearing")
def wood_bearing(i: Case) -> Values:
    """Bearing of wood, near a support or not, and the length of bearing factor."""
    values: Values = {}
    if "Lb_mm" in i:
        values["KB"] = strength.K_B(i["Lb_mm"], i.get("distance_from_end_mm_gt", 0.0))
    if "fcp_MPa" not in i:
        return values
    phi = i.get("phi", strength.PHI_WOOD)
    factors = {f"K_{name}": i.get(f"K{name}", 1.0) for name in ("D", "Scp", "T", "Zcp")}
    factors["K_B"] = i.get("KB", values.get("KB", 1.0))  # a case may state the factor that its strength takes
    if "Lb_mm" in i:
        values["Qr_kN"] = strength.wood_bearing_kN(i["b_mm"], i["Lb_mm"], i["fcp_MPa"], **factors, phi=phi)
    if "Lb1_mm" in i:
        sizes = (i["b_mm"], i["Lb1_mm"], i["Lb2_mm"], i["fcp_MPa"])
        K = i.get("all_K", prod(factors.values()))
        values["Qr_prime_kN"] = strength.wood_bearing_near_support_kN(*sizes, K, phi)
    return values


@adapter("canada/concrete-bearing")
def concrete_bearing(i: Case) -> Values:
    """Bearing of concrete, and the area that a load needs."""
    f_c, phi_c = i["fc_MPa"], i.get("phi_c", strength.PHI_CONCRETE)
    values: Values = {}
    if "Pf_kN" in i:
        values["A_required_mm2"] = strength.concrete_area_mm2(i["Pf_kN"], f_c, phi_c)
    if "bearing_length_mm" in i:
        area = i["bearing_length_mm"] * i["flange_width_mm"]
        values["Br_kN"] = strength.concrete_bearing_kN(f_c, area, i.get("sqrt_A2_A1", 1.0), phi_c)
    return values


@adapter("canada/development")
def development(i: Case) -> Values:
    """Development of straight and hooked bars."""
    diameter = i["db_mm"] if "db_mm" in i else bars.metric_bars("bars_canada")[i["bar"]].diameter_mm
    return {
        "ld_mm": strength.development_mm(diameter, i["fc_MPa"], i.get("fy_MPa", 400.0)),
        "lhb_mm": strength.hook_mm(diameter, i["fc_MPa"]),
    }


@adapter("canada/wall-reinforcement")
def wall_reinforcement(i: Case) -> Values:
    """Least bars of a wall."""
    horizontal, vertical = strength.wall_bars_mm2_per_m(i["wall_t_mm"])
    return {
        "As_horiz_mm2_per_m": horizontal,
        "As_vert_mm2_per_m": vertical,
        "max_spacing_mm": strength.wall_spacing_mm(i["wall_t_mm"]),
    }
