"""Published cases of veneer ledges as corbels, hooks, laps, bars, sheet steel, shear friction and tolerances."""

from collections.abc import Mapping
from math import ceil
from typing import Any

from engine import units
from engine.clauses.us import concrete_corbels as corbels
from engine.clauses.us import concrete_walls as walls
from engine.clauses.us import development as bond
from engine.clauses.us import ledge_geometry as shape
from engine.clauses.us import shear_friction as friction
from engine.clauses.us.bars import bar, bars_on_width_in2, metric_bars
from engine.clauses.us.concrete_material import design_strength_lb
from engine.clauses.us.sheet_steel import sheet
from engine.clauses.us.tolerances import anchor_bolt_tolerance_in, tolerance, tolerances
from engine.errors import BadInput
from engine.proving import adapter, given

KIP = 1000.0
FOOT = 12.0
CONCRETE_PCF = 150.0
Case = Mapping[str, Any]


@adapter(
    "placement/brick-ledge-as-corbel-per-foot-of-wall",
    # ACI 318-19 5.3.1, 16.5, 21.2.1: dead load alone, a fifth of it held back, cast in one with the wall
    usual={"load_factor": 1.4, "Nuc_over_Vu": 0.2, "mu": 1.4, "phi": 0.75},
)
def veneer_ledge(i: Case) -> dict[str, Any]:
    """Brick ledge as corbel per foot of wall."""
    f_c, f_y, phi, h = i["fc_psi"], i["fy_psi"], i["phi"], i["depth_at_core_face_in"]
    p, lip, wythe = i["ledge_projection_in"], i["depth_at_lip_in"], i["wythe_in"]
    a_v = shape.shear_span_in(i["form_panel_thickness_in"], i["air_space_in"], wythe)
    d = shape.depth_to_bars_in(h, i["clear_cover_in"], i["bar_dia_in"])
    D, W = i["veneer_psf"] * i["veneer_height_ft"], shape.own_weight_lb(CONCRETE_PCF, FOOT, p, h, lip)
    x_W = shape.own_centroid_in(p, h, lip)
    V_v, W_u = i["load_factor"] * D, i["load_factor"] * W
    N_uc = i["Nuc_over_Vu"] * V_v
    M_u = corbels.corbel_moment_lb_in(V_v, a_v, N_uc, h, d, W_u, x_W)
    A_vf = friction.shear_friction_steel_in2(V_v + W_u, phi, i["mu"], f_y)
    A_n = corbels.restraint_steel_in2(N_uc, phi, f_y)
    A_f = corbels.moment_steel_in2(M_u, phi, f_c, f_y, FOOT, d)
    least = corbels.least_main_steel_in2(f_c, f_y, FOOT, d)
    A_sc = corbels.main_steel_in2(corbels.strength_steel_in2(A_f, A_n, A_vf), least)
    found = {
        "D_veneer_plf": D,
        "D_ledge_plf": W,
        "Vu_total_lb_per_ft": V_v + W_u,
        "av_in": a_v,
        "d_in": d,
        "av_over_d": corbels.span_ratio(a_v, d),
        "Nuc_lb_per_ft": N_uc,
        "Mu_lb_in_per_ft": M_u,
        "Vu_limit_phi_Vn_lb_per_ft": design_strength_lb(phi, corbels.shear_limit_lb(f_c, FOOT, d)),
        "Avf_in2_per_ft": A_vf,
        "An_in2_per_ft": A_n,
        "Af_in2_per_ft": A_f,
        "Af_plus_An_in2_per_ft": A_f + A_n,
        "two_thirds_Avf_plus_An_in2_per_ft": corbels.strength_steel_in2(0.0, A_n, A_vf),
        "min_0p04_in2_per_ft": least,
        "Asc_required_in2_per_ft": A_sc,
        "Ah_required_in2_per_ft": corbels.tie_steel_in2(A_sc, A_n),
        "depth_at_outer_edge_of_bearing_in": shape.depth_at_in(h, lip, p, min(p, a_v + wythe / 2)),
        "half_d_in": corbels.edge_depth_minimum_in(d),
        "service_moment_at_core_face_lb_in_per_ft": corbels.corbel_moment_lb_in(D, a_v, 0.0, h, d, W, x_W),
    }
    if given(i, "stirrup_area_in2"):
        found["max_spacing_in"] = corbels.stirrup_spacing_in(i["stirrup_area_in2"], A_sc, FOOT)
    if given(i, "stirrup_area_in2", "stirrup_spacing_in"):
        found["Asc_provided_in2_per_ft"] = bars_on_width_in2(i["stirrup_area_in2"], i["stirrup_spacing_in"], FOOT)
    return found


def _inch_pound(i: Case) -> dict[str, float]:
    """An SI corbel in the engine's units; the relations are the same in any consistent set."""
    return {
        **{key[:-3]: units.convert(i[key], "mm", "in") for key in ("av_mm", "b_mm", "cover_to_bar_mm", "bar_mm")},
        **{key[:-3]: units.convert(i[key], "kN", "lb") for key in ("Vu_kN", "Nuc_kN")},
        **{key[:-4]: units.convert(i[key], "MPa", "psi") for key in ("fc_MPa", "fy_MPa")},
    }


@adapter(
    "placement/column-corbel-si-case-1",
    "placement/column-corbel-si-case-2",
    usual={"Nuc_kN": 0.0, "mu": 1.4, "phi": 0.75, "arm_over_d": 0.9},
)
def column_corbel_si(i: Case) -> dict[str, Any]:
    """Column corbel si case 1."""
    u, phi, b = _inch_pound(i), i["phi"], i["b_mm"]
    d_required = i["Vu_kN"] * 1000 / phi / (corbels.shear_stress_limit_MPa(i["fc_MPa"]) * b)
    d_mm = ceil(d_required - 1e-9)
    h_mm = d_mm + i["cover_to_bar_mm"] + i["bar_mm"] / 2
    d, h = units.convert(d_mm, "mm", "in"), units.convert(h_mm, "mm", "in")
    M_u = corbels.corbel_moment_lb_in(u["Vu"], u["av"], u["Nuc"], h, d)
    A_f = corbels.moment_steel_by_lever_in2(M_u, phi, u["fy"], d, i["arm_over_d"])
    A_vf = units.convert(friction.shear_friction_steel_mm2(i["Vu_kN"] * 1000, phi, i["mu"], i["fy_MPa"]), "mm²", "in²")
    A_n = corbels.restraint_steel_in2(u["Nuc"], phi, u["fy"])
    least = corbels.least_main_steel_in2(u["fc"], u["fy"], u["b"], d)
    A_sc = corbels.main_steel_in2(corbels.strength_steel_in2(A_f, A_n, A_vf), least)
    areas = {"An": A_n, "Avf": A_vf, "Af": A_f, "Asc": A_sc, "Ah": corbels.tie_steel_in2(A_sc, A_n)}
    return {
        "Vn_kN": i["Vu_kN"] / phi,
        "d_required_mm": d_required,
        "d_used_mm": d_mm,
        "h_used_mm": h_mm,
        "av_over_d": corbels.span_ratio(u["av"], d),
        "Nuc_kN": i["Nuc_kN"],
        "Mu_kNm": units.convert(M_u, "lb-in", "kN·m"),
        **{f"{name}_mm2": units.convert(area, "in²", "mm²") for name, area in areas.items()},
    }


@adapter("placement/hook-development-length-318-19")
def hook_2019(i: Case) -> dict[str, Any]:
    """Hook development length 318 19."""
    l_dh = bond.hook_development_in(
        i["fy_psi"],
        i["fc_psi"],
        i["db_in"],
        psi_e=i.get("psi_e", 1.0),
        psi_r=i.get("psi_r", 1.0),
        psi_o=i.get("psi_o", 1.0),
        psi_c=i.get("psi_c", bond.hook_psi_c(i["fc_psi"])),
        lambda_c=i.get("lambda", 1.0),
    )
    return {"ldh_in": l_dh}


@adapter("placement/tension-lap-class-b")
def class_b_lap(i: Case) -> dict[str, Any]:
    """Tension lap class b."""
    l_d = bond.tension_development_in(i["fy_psi"], i["fc_psi"], i["db_in"])
    return {"ld_in": l_d, "class_B_lap_in": bond.lap_b_in(l_d)}


@adapter("placement/moment-in-wall-from-ledge")
def moment_from_ledge(i: Case) -> dict[str, Any]:
    """Moment in wall from ledge."""
    L, a = i["storey_height_ft"], i["ledge_height_from_bottom_ft"]
    M_0 = walls.ledge_moment_lb_in(i["P_lb_per_ft"], i["e_from_core_centre_in"])
    return {
        "M0_lb_in_per_ft": M_0,
        "horizontal_reaction_lb_per_ft": walls.ledge_reaction_lb(M_0, L),
        "M_just_below_lb_in_per_ft": walls.moment_below_ledge_lb_in(M_0, a, L),
        "M_just_above_lb_in_per_ft": walls.moment_above_ledge_lb_in(M_0, a, L),
    }


@adapter("placement/reinforcing-bar-inch-pound")
def inch_pound_bar(i: Case) -> dict[str, Any]:
    """Reinforcing bar inch pound."""
    size = bar(i["bar"])
    return {"diameter_in": size.d_b_in, "area_in2": size.A_b_in2, "weight_lb_per_ft": size.weight_plf}


@adapter("placement/reinforcing-bar-canadian-metric")
def canadian_bar(i: Case) -> dict[str, Any]:
    """Reinforcing bar canadian metric."""
    return _metric("bars_canada", i["bar"])


@adapter("placement/soft-metric-bar")
def soft_metric_bar(i: Case) -> dict[str, Any]:
    """Soft metric bar."""
    return _metric("bars_metric", i["bar"].removeprefix("No.").strip())


def _metric(series: str, name: str) -> dict[str, Any]:
    size = metric_bars(series)[name]
    return {
        "diameter_mm": size.diameter_mm,
        "area_mm2": size.area_mm2,
        "mass_kg_per_m": size.mass_kg_per_m,
    }


@adapter("placement/sheet-steel-gauge")
def sheet_gauge(i: Case) -> dict[str, Any]:
    """Sheet steel gauge."""
    steel = sheet(i["gauge"])
    return {"uncoated_in": steel.uncoated_in, "galvanized_in": steel.galvanized_in}


@adapter("placement/shear-friction", usual={"phi": 0.75})
def shear_plane(i: Case) -> dict[str, Any]:
    """Shear friction."""
    V_u, phi = i["Vu_kip"] * KIP, i["phi"]
    A_vf = friction.shear_friction_steel_in2(V_u, phi, i["mu"], i["fy_ksi"] * KIP)
    found = {
        "Vn_kip": friction.shear_friction_lb(i["mu"], A_vf, i["fy_ksi"] * KIP) / KIP,
        "Avf_in2": A_vf,
    }
    if given(i, "Ac_in2"):
        # both terms of the cap on planes that are not roughened: one grows with f'c from nothing, one is met by strong concrete
        by_strength, most = (friction.shear_friction_cap_other_lb(f_c, i["Ac_in2"]) for f_c in (1.0, 20000.0))
        found["phi_0p2fcAc_kip"] = design_strength_lb(phi, by_strength) * i.get("fc_psi", 0.0) / KIP
        found["phi_800Ac_kip"] = design_strength_lb(phi, most) / KIP
    return found


@adapter("placement/tolerance-cast-concrete")
def cast_tolerance(i: Case) -> dict[str, Any]:
    """Tolerance cast concrete."""
    found = _by_words(i["item"])
    return {"max_in": found.max_in, "plus_in": found.plus_in, "minus_in": found.minus_in}


def _by_words(item: str) -> Any:
    """The row whose item is named, or of which a telling word is."""
    for row in tolerances().values():
        if row.item == item:
            return row
    for word, key in (
        ("over 12", "wall-thickness-over-12"),
        ("thickness", "wall-thickness-12"),
        ("bar position", "bar-position"),
        ("plumb", "plumb-100-ft"),
        ("soffit", "soffit"),
        ("lintel", "lintel-sill"),
        ("exposed", "lintel-sill"),
        ("sill", "lintel-sill"),
        ("lateral", "lateral"),
        ("vertical", "plumb-100-ft"),
    ):
        if word in item:
            return tolerance(key)
    raise BadInput("item", f"No tolerance is kept for {item!r}.")


@adapter("placement/tolerance-anchor-bolts")
def anchor_tolerance(i: Case) -> dict[str, Any]:
    """Tolerance anchor bolts."""
    return {"location_tolerance_in": anchor_bolt_tolerance_in(i["bolt_dia_in"])}


@adapter("placement/tolerance-embedded-items-older-edition")
def embedded_tolerance(i: Case) -> dict[str, Any]:
    """Tolerance embedded items older edition."""
    return {
        "vertical_lateral_level_in": tolerance("embedment").max_in,
        "AISC_within_group_in": tolerance("anchor-within-group").max_in,
    }


@adapter("placement/tolerance-framed-wall-plumb")
def framed_plumb(i: Case) -> dict[str, Any]:
    """Tolerance framed wall plumb."""
    return {"max_out_of_plumb_in": tolerance("framed-wall-plumb").max_in * i["length_in"] / 32}


@adapter("placement/tolerance-residential-concrete-wall-plumb")
def concrete_plumb(i: Case) -> dict[str, Any]:
    """Tolerance residential concrete wall plumb."""
    return {"max_out_of_plumb_in": tolerance("residential-concrete-plumb").max_in * i["height_in"] / 96}
