"""Published cases on cast-in anchors and wall anchorage.

Design Guide 1 rounds to three figures at each step; where that shows in a printed result, the same steps are rounded here, and
only those. ACI 349.2R-07 works by the 2005 equations: its shear breakout has no upper limit, and its own factors stay with it.
"""

from collections.abc import Mapping
from math import floor, log10, pi
from typing import Any

from engine.clauses.us import anchors_bending as bending
from engine.clauses.us import anchors_materials as materials
from engine.clauses.us import anchors_shear as v
from engine.clauses.us import anchors_tension as t
from engine.clauses.us import wall_anchorage as walls
from engine.clauses.us.anchors_area import projected_shear_area_in2
from engine.clauses.us.anchors_breakout import cone
from engine.clauses.us.anchors_model import AnchorGroup
from engine.clauses.us.anchors_phi import anchor_reinforcement_in2, design_strength_lb
from engine.proving import adapter, given
from engine.worksheet import Worksheet

Inputs = Mapping[str, Any]
KIP = 1000.0
STEEL = {"phi": 0.75}  # ACI 318-19 Table 17.5.3(a), ductile steel in tension
CONCRETE = {"phi": 0.70}  # ACI 318-19 Tables 17.5.3(b) and (c), no supplementary reinforcement
PSI_IN_MPA = 145.0377


def _figures(value: float, count: int = 3) -> float:
    """A value as a hand calculation prints it to so many significant figures, halves upward."""
    step = 10.0 ** (floor(log10(abs(value))) - count + 1) if value else 1.0
    return floor(value / step + 0.5) * step


def _breakout(positions: tuple[tuple[float, float], ...], f_c: float, h_ef: float, **more: Any) -> dict[str, float]:
    """A cone worked by the engine, its steps by name. Steel and head take no part in it; any bolt will do."""
    steel, head = materials.steel("A307"), materials.head("hex", 0.5)
    group = AnchorGroup(positions, 0.5, steel, head, h_ef, f_c, **more)
    sheet = Worksheet()
    strength = cone(sheet, group, tuple(range(len(positions)))).N_lb
    return {**{step.function.__name__: step.result for step in sheet.take()}, "N_lb": strength}


def _rectangle(inputs: Inputs, count: int) -> tuple[tuple[float, float], ...]:
    columns = 1 if count == 1 else 2
    return tuple((i % columns * inputs["s1_in"], i // columns * inputs["s2_in"]) for i in range(count))


def _factor(steps: dict[str, float], function: str) -> float:
    """A factor the engine had no need to work out is 1.0."""
    return steps.get(function, 1.0)


def _basic(steps: dict[str, float]) -> float:
    return steps.get("basic_breakout_deep_lb", steps.get("basic_breakout_lb", 0.0))


@adapter("concrete/1-1-8-in-f1554-105-bolt-with-plate-washer-tension")
def plate_washer(inputs: Inputs) -> dict[str, float]:
    """The source works in SI: its tensile strength is a whole number of MPa."""
    f_uta = round(inputs["futa_psi"] / PSI_IN_MPA) * PSI_IN_MPA
    A_se = materials.effective_area_in2(inputs["da_in"], inputs["nt_per_in"])
    A_brg = materials.square_washer_area_in2(inputs["washer_square_in"], inputs["da_in"])
    steps = _breakout(((0.0, 0.0),), inputs["fc_psi"], inputs["hef_in"])
    return {
        "Ase_in2": A_se,
        "Nsa_kip": t.steel_tension_lb(A_se, f_uta) / KIP,
        "Ncb_kip": steps["N_lb"] / KIP,
        "Np_washer_kip": t.headed_pullout_lb(A_brg, inputs["fc_psi"]) / KIP,
    }


@adapter("concrete/anchor-rod-shear-tension-bending-stand-off-steel-only", usual=STEEL)
def stand_off(inputs: Inputs) -> dict[str, float | bool]:
    """One or more trial rods; the source adds stresses it has rounded to three figures."""
    found: dict[str, float | bool] = {}
    n, F_u = inputs["n_rods"], inputs["Fu_ksi"] * KIP
    V, N = inputs["Vu_kip"] * KIP / n, inputs["Nu_kip"] * KIP / n
    for trial in (key.removesuffix("_d_in") for key in inputs if key.endswith("_d_in")):
        A_b = inputs[f"{trial}_Ab_in2"]
        f_v = _figures(bending.anchor_stress_psi(V, A_b))
        f_a = _figures(bending.anchor_stress_psi(N, A_b))
        Z = bending.plastic_modulus_in3(inputs[f"{trial}_d_in"])
        f_b = _figures(bending.bending_stress_psi(V, inputs["lever_in"], Z))
        left = inputs["phi"] * bending.tensile_stress_left_psi(F_u, f_v)
        found |= {
            f"{trial}_fv_ksi": f_v / KIP,
            f"{trial}_fb_ksi": f_b / KIP,
            f"{trial}_fa_ksi": f_a / KIP,
            f"{trial}_ft_ksi": (f_a + f_b) / KIP,
            f"{trial}_phiFnt_ksi": left / KIP,
            f"{trial}_ok": f_a + f_b <= left,
        }
    return found


@adapter("concrete/anchor-steel-tension", usual=STEEL)
def steel_tension(inputs: Inputs) -> dict[str, float]:
    """One threaded rod."""
    A_se = materials.effective_area_in2(inputs["da_in"], inputs["nt_per_in"])
    N_sa = t.steel_tension_lb(A_se, inputs["futa_psi"])
    return {
        "Ase_in2": A_se,
        "Nsa_kip": N_sa / KIP,
        "phiNsa_kip": design_strength_lb(inputs["phi"], N_sa) / KIP,
    }


@adapter("concrete/f1554-rod-tension-strength-table", usual=STEEL)
def rod_table(inputs: Inputs) -> dict[str, list[float]]:
    """Strengths of the table follow from the areas as it prints them."""
    areas = [materials.effective_area_in2(d, n) for d, n in zip(inputs["da_in"], inputs["nt_per_in"], strict=True)]
    found = {"Ase_in2": areas}
    for key in inputs:
        if key.startswith("futa_psi_"):
            strengths = [t.steel_tension_lb(_figures(area), inputs[key]) for area in areas]
            grade = key.removeprefix("futa_psi_")
            found[f"phiNsa_kip_{grade}"] = [design_strength_lb(inputs["phi"], N) / KIP for N in strengths]
    return found


@adapter("concrete/group-breakout-no-edges-hef-11-in", usual={**CONCRETE, "s1_in": 0.0, "s2_in": 0.0})
def group_breakout(inputs: Inputs) -> dict[str, float]:
    """A rectangular group far from edges, rounded to three figures at each step like its source."""
    positions = _rectangle(inputs, inputs["n_anchors"])
    steps = _breakout(
        positions,
        inputs["fc_psi"],
        inputs["hef_in"],
        lambda_a=inputs.get("lambda_a", 1.0),
        cracked=inputs.get("cracked", True),
    )
    A_Nc, A_Nco = steps["projected_tension_area_in2"], steps["cone_area_in2"]
    psi_ec = t.eccentricity_factor_tension(inputs.get("eN_in", 0.0), 0.0, inputs["hef_in"])
    psi_ed, psi_c = _factor(steps, "edge_factor_tension"), steps["cracking_factor_tension"]
    psi_cp, N_b = steps["splitting_factor"], _basic(steps)
    N_cbg = t.group_breakout_lb(_figures(A_Nc), _figures(A_Nco), psi_ec, psi_ed, psi_c, psi_cp, _figures(N_b))
    return {
        "ANc_in2": A_Nc,
        "ANco_in2": A_Nco,
        "psi_ec": psi_ec,
        "psi_ed": psi_ed,
        "psi_c": psi_c,
        "psi_cp": psi_cp,
        "Nb_kip": N_b / KIP,
        "Ncbg_kip": N_cbg / KIP,
        "phiNcbg_kip": design_strength_lb(inputs["phi"], _figures(N_cbg)) / KIP,
    }


@adapter(
    "concrete/group-in-a-20-in-pedestal-three-or-more-edges-rule-anchor-reinforcement", usual={"phi_breakout": 0.70}
)
def pedestal(inputs: Inputs) -> dict[str, float | bool]:
    """Four anchors centred in a square pedestal."""
    across, along = ((inputs["pedestal_in"] - inputs[s]) / 2 for s in ("s1_in", "s2_in"))
    steps = _breakout(
        _rectangle(inputs, 4),
        inputs["fc_psi"],
        inputs["hef_actual_in"],
        c_x1_in=across,
        c_x2_in=across,
        c_y1_in=along,
        c_y2_in=along,
        cracked=inputs.get("cracked", True),
    )
    found: dict[str, Any] = {
        "hef_prime_in": steps.get("reduced_depth_in", inputs["hef_actual_in"]),
        "ANc_in2": steps["projected_tension_area_in2"],
        "ANco_in2": steps["cone_area_in2"],
        "psi_ed": _factor(steps, "edge_factor_tension"),
        "Nb_kip": _basic(steps) / KIP,
        "Ncbg_kip": steps["N_lb"] / KIP,
        "phiNcbg_kip": design_strength_lb(inputs["phi_breakout"], steps["N_lb"]) / KIP,
        "sideface_applies": inputs["hef_actual_in"] > 2.5 * min(across, along),
    }
    if given(inputs, "Pu_kip", "fy_psi"):
        found["As_req_in2"] = anchor_reinforcement_in2(inputs["Pu_kip"] * KIP, inputs["fy_psi"])
    return found


@adapter("concrete/group-shear-breakout-toward-an-edge", usual={**CONCRETE, "n_front": 1, "s_perp_in": 0.0})
def shear_toward_an_edge(inputs: Inputs) -> dict[str, float]:
    """The front row, c_a2 from the side edges either way; its length in bearing is given."""
    c, h_a, c_a2 = inputs["ca1_in"], inputs["ha_in"], inputs["ca2_in"]
    u = tuple(i * inputs["s_perp_in"] for i in range(inputs["n_front"]))
    if max(c_a2, h_a) < 1.5 * c:
        c = v.reduced_edge_distance_in(c_a2, h_a, u[-1] / max(len(u) - 1, 1), c)
    A_Vc, A_Vco = projected_shear_area_in2(u, c, -c_a2, u[-1] + c_a2, h_a), v.prism_area_in2(c)
    material = (inputs.get("lambda_a", 1.0), inputs["fc_psi"], c)
    by_anchor = v.basic_shear_by_anchor_lb(inputs["le_in"], inputs["da_in"], *material)
    V_b = v.basic_shear_lb(by_anchor, v.basic_shear_limit_lb(*material))
    psi_ed, psi_h = v.edge_factor_shear(c_a2, c), v.thickness_factor_shear(c, h_a)
    psi_c = v.cracking_factor_shear(inputs.get("cracked_no_supp_reinf", True), "none")
    V_cbg = v.shear_breakout_lb(A_Vc, A_Vco, 1.0, psi_ed, psi_c, psi_h, V_b)
    return {
        "AVc_in2": A_Vc,
        "AVco_in2": A_Vco,
        "Vb_kip": V_b / KIP,
        "psi_ed": psi_ed,
        "psi_c": psi_c,
        "psi_h": psi_h,
        "Vcbg_kip": V_cbg / KIP,
        "phiVcbg_kip": design_strength_lb(inputs["phi"], V_cbg) / KIP,
    }


@adapter("concrete/headed-rod-pullout-table", usual=CONCRETE)
def pullout_table(inputs: Inputs) -> dict[str, list[float]]:
    """Heavy hex nuts in cracked concrete, one list a concrete strength."""
    return {
        f"phiNpn_kip_fc{f_c:g}": [
            design_strength_lb(inputs["phi"], t.headed_pullout_lb(area, f_c)) / KIP
            for area in inputs["Abrg_heavy_hex_nut_in2"]
        ]
        for f_c in inputs["fc_psi"]
    }


@adapter("concrete/hooked-l-bolt-pullout", usual=CONCRETE)
def hook_pullout(inputs: Inputs) -> dict[str, float]:
    """One L bolt; the hook length counts from the inner face of the shank."""
    d_a = inputs["da_in"]
    e_h = inputs.get("eh_in", inputs.get("hook_length_out_to_out_in", 0.0) - d_a)
    N_p = t.hooked_pullout_lb(inputs["fc_psi"], t.hook_length_used_in(e_h, d_a), d_a)
    N_pn = t.pullout_lb(inputs.get("psi_cP", 1.0), N_p)
    return {
        "eh_over_da": e_h / d_a,
        "Np_kip": N_p / KIP,
        "Npn_kip": N_pn / KIP,
        "phiNpn_kip": design_strength_lb(inputs["phi"], N_pn) / KIP,
    }


@adapter("concrete/single-headed-stud-tension")
def stud_tension(inputs: Inputs) -> dict[str, float]:
    """A plain stud; 0.85 and the steel factor are ACI 349's own."""
    steps = _breakout(((0.0, 0.0),), inputs["fc_psi"], inputs["hef_in"], c_x1_in=inputs["ca_in"])
    N_sa = t.steel_tension_lb(inputs["As_in2"], inputs["futa_psi"])
    N_p = t.headed_pullout_lb(inputs["Abrg_in2"], inputs["fc_psi"])
    return {
        "Nsa_kip": N_sa / KIP,
        "Nb_kip": _basic(steps) / KIP,
        "Ncb_kip": steps["N_lb"] / KIP,
        "Npn_kip": t.pullout_lb(t.cracking_factor_pullout(True), N_p) / KIP,
        "ductility_085Ncb_kip": 0.85 * steps["N_lb"] / KIP,
        "design_steel_kip": design_strength_lb(inputs["phi_steel_349"], N_sa) / KIP,
    }


@adapter("concrete/single-stud-combined-tension-and-shear-edge-12-in")
def stud_combined(inputs: Inputs) -> dict[str, float]:
    """A stud near a corner by the 2005 equations: coefficient as given and no limit (b) on V_b."""
    c, c_a2, h_a, d_a = inputs["ca1_in"], inputs["ca2_in"], inputs["ha_in"], inputs["da_in"]
    steps = _breakout(((0.0, 0.0),), inputs["fc_psi"], inputs["hef_in"], c_x1_in=c, c_y1_in=c_a2)
    area = pi / 4 * d_a**2
    N_sa, V_sa = t.steel_tension_lb(area, inputs["futa_psi"]), v.stud_steel_shear_lb(area, inputs["futa_psi"])
    A_Vc = projected_shear_area_in2((0.0,), c, -c_a2, None, h_a)
    basic = v.basic_shear_by_stud_lb if inputs["coef"] == 8 else v.basic_shear_by_anchor_lb
    V_b = basic(v.bearing_length_in(inputs["hef_in"], d_a), d_a, 1.0, inputs["fc_psi"], c)
    psi_ed, psi_h = v.edge_factor_shear(c_a2, c), v.thickness_factor_shear(c, h_a)
    V_cb = v.shear_breakout_lb(A_Vc, v.prism_area_in2(c), 1.0, psi_ed, 1.0, psi_h, V_b)
    phi_N, phi_V = design_strength_lb(inputs["phi_N"], N_sa), design_strength_lb(inputs["phi_V"], V_sa)
    return {
        "Nsa_kip": N_sa / KIP,
        "Ncb_kip": steps["N_lb"] / KIP,
        "Npn_kip": t.headed_pullout_lb(inputs["Abrg_in2"], inputs["fc_psi"]) / KIP,
        "phiN_steel_kip": phi_N / KIP,
        "Vsa_kip": V_sa / KIP,
        "Vcb_kip": V_cb / KIP,
        "Vcp_kip": v.pryout_lb(inputs["kcp"], steps["N_lb"]) / KIP,
        "phiV_steel_kip": phi_V / KIP,
        "interaction_sum": v.interaction(inputs["Nua_kip"] * KIP / phi_N, inputs["Vua_kip"] * KIP / phi_V),
    }


@adapter("concrete/flexible-diaphragm-amplification")
def amplification(inputs: Inputs) -> dict[str, list[float]]:
    """k_a, and the anchorage force per S_DS and wall weight, by diaphragm span."""
    k_a = [walls.diaphragm_amplification(span) for span in inputs["Lf_ft"]]
    return {"ka": k_a, "coef_times_SDS": [walls.anchorage_lb(1.0, k, 1.0, 1.0) for k in k_a]}


@adapter("concrete/minimum-out-of-plane-anchorage-of-concrete-walls-superseded-edition")
def anchorage_2005(inputs: Inputs) -> dict[str, float]:
    """The 2005 edition, kept to recognise old drawings."""
    w, S_DS, I = inputs["wall_weight_psf"] * inputs["trib_height_ft"], inputs["SDS"], inputs["I"]  # noqa: E741
    return {
        "Fp_plf": walls.superseded_wall_force_plf(S_DS, I, w),
        "Fp_min_01W_plf": walls.superseded_least_force_plf(w),
        "anchorage_400SDSI_plf": walls.superseded_line_force_plf(S_DS, I),
        "anchorage_floor_plf": walls.SUPERSEDED_FLOOR_PLF,
        "governing_plf": walls.superseded_anchorage_plf(S_DS, I, w),
    }
