"""Published cases on wood connections, bearing and notches."""

import re
from collections.abc import Mapping
from math import pi
from typing import Any

from engine.clauses.us import timber_bearing as bearing
from engine.clauses.us import timber_bearing_strength as strength
from engine.clauses.us import timber_gap as gap
from engine.clauses.us import timber_geometry as geometry
from engine.clauses.us import timber_materials as materials
from engine.clauses.us import timber_members as members
from engine.clauses.us.timber_factors import C_M_stress
from engine.clauses.us.timber_screws import refuse_short, screw_bearing_length_in
from engine.clauses.us.timber_yield import Joint, Yield, double_shear, reduction_terms, single_shear
from engine.proving import adapter
from engine.worksheet import Worksheet

Inputs = Mapping[str, Any]
SHEET = Worksheet(recording=False)
END_IN = 3.0  # NDS 3.10.4: distance to the member's end from which C_b counts
EMBEDMENT_IN = 6.0  # NDS Table 12E, footnote: the embedment in concrete that the table assumes
WET_PERCENT = 19.0  # NDS Supplement Table 4A: moisture above which sawn lumber is wet
# What turns K_θ into R_d: NDS Table 12.3.1B.
TERMS = {"Ktheta": 1.0, "Rd_I": 4.0, "Rd_II": 3.6, "Rd_III_IV": 3.2}


def _first(inputs: Inputs, *names: str, default: float | None = None) -> float:
    for name in names:
        if name in inputs:
            return float(inputs[name])
    if default is None:
        raise KeyError(" or ".join(names))
    return default


def _angles(inputs: Inputs) -> tuple[float, float, float]:
    """Load-to-grain angles of the main and the side member, and the largest [°]; a given K_θ or R_d tells the largest."""
    shared = _first(inputs, "theta_deg", "theta_max_deg", "theta_wood_deg", default=0.0)
    main = _first(inputs, "theta_main_deg", default=shared)
    side = _first(inputs, "theta_side_deg", default=shared)
    for name, term in TERMS.items():
        if name in inputs:
            return main, side, (float(inputs[name]) / term - 1) / 0.25 * 90
    return main, side, max(main, side)


def _bearing_strength(inputs: Inputs, which: str, theta_deg: float, *typed: str) -> float:
    for name in typed:
        if name in inputs:
            return float(inputs[name])
    return strength.fe_wood_psi(_first(inputs, f"G_{which}", "G", "G_main"), float(inputs["D_in"]), theta_deg)


def _known(inputs: Inputs, kind: str) -> Inputs:
    """The inputs with what the tables keep of their fastener, where a case leaves it out."""
    needed = {"D_in", "Fyb_psi"} | (set() if kind == "bolt" else {"Dr_in"})
    if needed <= inputs.keys():
        return inputs
    by_gauge = kind == "wood screw" and "screw_gauge" in inputs
    found = (
        materials.wood_screw(inputs["screw_gauge"]) if by_gauge else materials.fastener_of(kind, float(inputs["D_in"]))
    )
    kept = {"D_in": found.D_in, "Dr_in": found.D_r_in, "Fyb_psi": found.F_yb_psi}
    return {**{name: kept[name] for name in needed}, **inputs}


def _joint(inputs: Inputs, l_m_in: float) -> Joint:
    main, side, largest = _angles(inputs)
    return Joint(
        D_in=_first(inputs, "Dr_in", "D_in"),
        D_nom_in=float(inputs["D_in"]),
        l_m_in=l_m_in,
        l_s_in=_first(inputs, "ls_in", "ts_in"),
        F_em_psi=_bearing_strength(inputs, "main", main, "Fem_psi", "Fem_concrete_psi"),
        F_es_psi=_bearing_strength(inputs, "side", side, "Fes_psi", "Fes_wood_psi"),
        F_yb_psi=float(inputs["Fyb_psi"]),
        theta_deg=largest,
        g_in=_first(inputs, "gap_in", default=0.0),
    )


def _values(found: Yield, inputs: Inputs) -> dict[str, Any]:
    Z = found.Z_lb * _first(inputs, "CD", default=1.0)
    modes = {f"Z_{name}_lb": value for name, value in found.modes.items()}
    return {"Z_lb": Z, "Z_par_lb": Z, "Z_perp_lb": Z, "mode": found.mode, **modes}


def _single(inputs: Inputs, *lengths: str, default: float | None = None) -> dict[str, Any]:
    joint = _joint(inputs, _first(inputs, *lengths, default=default))
    one, two, rest = reduction_terms(SHEET, joint)
    return {**_values(single_shear(SHEET, joint), inputs), "Rd_I": one, "Rd_II": two, "Rd_III_IV": rest}


@adapter("timber/bolted-connection-with-a-gap", "timber/bolt-single-shear-independent-implementation-cross-check")
def bolts(inputs: Inputs) -> dict[str, Any]:
    """One bolt in single shear between two members."""
    return _single(_known(inputs, "bolt"), "lm_in", "lm_embed_in")


@adapter("timber/bolt-wood-side-member-to-concrete-single-shear")
def bolts_to_concrete(inputs: Inputs) -> dict[str, Any]:
    """One bolt between wood and concrete, embedded as Table 12E assumes where a case does not say."""
    concrete = {"Fem_concrete_psi": strength.fe_concrete_psi(_first(inputs, "fc_psi", default=2500.0))}
    return _single({**concrete, **_known(inputs, "bolt")}, "lm_embed_in", "lm_in", default=EMBEDMENT_IN)


@adapter("timber/lag-screw-wood-to-wood-checks-yield-equations-rd-k-dr")
def lag_screws(inputs: Inputs) -> dict[str, Any]:
    """One lag screw in single shear; its tip is not counted."""
    return _single(_known(inputs, "lag screw"), "p_in", "lm_in")


@adapter("timber/lag-screw-thin-steel-side-plate-checks-fe-steel-61-850-psi")
def lag_screws_through_steel(inputs: Inputs) -> dict[str, Any]:
    """One lag screw through a steel plate, whose strength follows from its thickness where a case does not give it."""
    plate = {"Fes_psi": strength.fe_side_plate_psi(_first(inputs, "ts_in", "ls_in"))}
    return _single({**plate, **_known(inputs, "lag screw")}, "p_in", "lm_in")


@adapter("timber/bolt-double-shear-wood")
def double_shear_bolts(inputs: Inputs) -> dict[str, Any]:
    """One bolt through two like side members."""
    return _values(double_shear(SHEET, _joint(_known(inputs, "bolt"), _first(inputs, "lm_in"))), inputs)


@adapter("timber/wood-screw-wood-side-member-single-shear")
def wood_screws(inputs: Inputs) -> dict[str, Any]:
    """One wood screw; its bearing length follows from the penetration."""
    inputs = _known(inputs, "wood screw")
    refuse_short(float(inputs["p_in"]), float(inputs["D_in"]), "A wood screw")
    l_m = screw_bearing_length_in(float(inputs["p_in"]), float(inputs["D_in"]))
    return _values(single_shear(SHEET, _joint(inputs, l_m)), inputs)


@adapter("timber/nail-single-shear-d-1-4-check-of-kd-and-fe")
def nails(inputs: Inputs) -> dict[str, Any]:
    """One nail; its source leaves F_e unrounded."""
    F_e = strength.fe_small_dowel_psi(float(inputs["G"]))
    l_m = screw_bearing_length_in(_first(inputs, "lm_in", "p_in"), float(inputs["D_in"]))
    joint = _joint({"Fem_psi": F_e, "Fes_psi": F_e, **inputs}, l_m)
    return {**_values(single_shear(SHEET, joint), inputs), "KD": reduction_terms(SHEET, joint)[0]}


@adapter("timber/negative-test-swapped-a-terms-in-iiim-iiis")
def swapped_terms(inputs: Inputs) -> dict[str, Any]:
    """Mode III_s as it is, and as it comes out with the quadratic term of mode III_m: what a checker must tell apart."""
    joint = _joint(inputs, _first(inputs, "lm_in", "lm_embed_in"))
    q_m = gap.main_resistance_lb_per_in(joint.F_em_psi, joint.D_in)
    q_s = gap.side_resistance_lb_per_in(joint.F_es_psi, joint.D_in)
    M = gap.dowel_moment_lb_in(joint.F_yb_psi, joint.D_in)
    term = reduction_terms(SHEET, joint)[2]
    B, C = joint.l_s_in / 2 + joint.g_in, -q_s * joint.l_s_in**2 / 4 - M
    wrong = gap.dowel_load_lb(1 / (2 * q_s) + 1 / (4 * q_m), B, C) / term
    return {"Z_IIIs_wrong_lb": wrong, "Z_IIIs_right_lb": single_shear(SHEET, joint).modes["IIIs"]}


@adapter("timber/dowel-bearing-strength-of-wood-d-1-4")
def wood_strength(inputs: Inputs) -> dict[str, Any]:
    """F_e as the table prints it."""
    return {"Fe_psi": strength.fe_wood_psi(float(inputs["G"]), float(inputs["D_in"]), _first(inputs, "theta_deg"))}


@adapter("timber/dowel-bearing-strength-of-steel")
def steel_strength(inputs: Inputs) -> dict[str, Any]:
    """F_e of plate, sheet and concrete."""
    return {
        "Fe_hot_rolled_psi": strength.fe_steel_hot_rolled_psi(_first(inputs, "Fu_A36_psi", "Fu_psi", default=58000.0)),
        "Fe_cold_formed_psi": strength.fe_steel_sheet_psi(
            _first(inputs, "Fu_A653_gr33_psi", "Fu_psi", default=45000.0)
        ),
        "Fe_concrete_psi": strength.fe_concrete_psi(_first(inputs, "fc_psi", default=strength.LEAST_CONCRETE_PSI)),
    }


@adapter("timber/edge-distance-bolt-loaded-perpendicular-to-grain")
def edge_distances(inputs: Inputs) -> dict[str, Any]:
    """Edges of a member loaded across its grain."""
    D = float(inputs["D_in"])
    found = {
        "loaded_edge_min_in": geometry.loaded_edge_in(D),
        "unloaded_edge_min_in": geometry.unloaded_edge_in(D),
        "max_row_spread_across_grain_in": geometry.outer_rows_limit_in(dry_glulam=False),
        "end_distance_full_in": geometry.end_full_in(D),
        "end_distance_min_in": geometry.end_least_in(geometry.end_full_in(D)),
    }
    if "l_over_D" in inputs:
        found["row_spacing_min_in"] = geometry.row_spacing_perpendicular_in(D, float(inputs["l_over_D"]) * D)
    return found


def _number(told: str) -> float:
    found = re.search(r"\d+(?:\.\d+)?", told)
    return float(found[0]) if found else 0.0


def _to_end_in(inputs: Inputs) -> float:
    """Distance to the member's end as cases word it: a number, ">=3", "<3", "end"."""
    told = str(inputs.get("distance_to_member_end_in", END_IN)).strip()
    return 0.0 if told.startswith(("<", "≤")) else _number(told)


@adapter("timber/bearing-area-factor")
def bearing_area_factor(inputs: Inputs) -> dict[str, Any]:
    """C_b."""
    return {"Cb": bearing.C_b(float(inputs["lb_in"]), _to_end_in(inputs))}


@adapter("timber/bearing-of-a-wood-member-on-a-wood-post-cb-1")
def bearing_on_post(inputs: Inputs) -> dict[str, Any]:
    """Load the wood bears, and its area."""
    b, l_b = float(inputs["b_in"]), float(inputs["lb_in"])
    C_b = _first(inputs, "Cb", default=1.0)
    R = bearing.bearing_perpendicular_lb(float(inputs["Fc_perp_psi"]), 1.0, 1.0, C_b, b, l_b)
    return {"area_in2": b * l_b, "R_allow_lb": R}


def _washer_area_in2(inputs: Inputs) -> float:
    """Area given, or that of a round washer less the strip over the gap between the members it spans."""
    if "bearing_area_in2" in inputs:
        return float(inputs["bearing_area_in2"])
    d = float(inputs["washer_in"])
    return pi * d**2 / 4 - _first(inputs, "gap_between_wales_in", default=0.0) * d


@adapter("timber/bearing-perpendicular-to-grain-with-cb-at-an-interior-point")
def bearing_under_washer(inputs: Inputs) -> dict[str, Any]:
    """Stress under a load against the value raised by C_b."""
    C_b = bearing.C_b(_first(inputs, "lb_in", "washer_in"), _to_end_in(inputs))
    limit = bearing.adjusted_bearing_psi(float(inputs["Fc_perp_psi"]), 1.0, 1.0, C_b)
    stress = float(inputs["P_lb"]) / _washer_area_in2(inputs)
    return {"fc_psi": stress, "Cb": C_b, "Fc_perp_adj_psi": limit, "pass": stress <= limit}


@adapter("timber/bearing-tighter-deformation-limit")
def tighter_bearing(inputs: Inputs) -> dict[str, Any]:
    """F_c⊥ at 0.02 in."""
    return {"Fc_perp_0.02in_psi": bearing.tight_bearing_psi(float(inputs["Fc_perp_psi"]))}


def _wet(told: str) -> bool:
    """Whether sawn lumber is wet: ">19%", "22", "wet"; "<=19%" and "19" are dry."""
    bare = told.strip().lower()
    return bare.startswith((">", "wet", "green")) or (bare[:1].isdigit() and _number(bare) > WET_PERCENT)


@adapter("timber/wet-service-factor-for-fc-perp-sawn-lumber")
def wet_bearing(inputs: Inputs) -> dict[str, Any]:
    """C_M of F_c⊥ in sawn lumber, wet where the moisture is told as above 19 %."""
    C_M = C_M_stress("F_c_perp", "sawn", _wet(str(inputs.get("MC", ">19%"))))
    wet = bearing.adjusted_bearing_psi(float(inputs["Fc_perp_psi"]), C_M, 1.0, 1.0)
    return {"CM": C_M, "Fc_perp_wet_psi": wet}


@adapter("timber/notch-size-that-leaves-stiffness-practically-unaffected")
def notch_sizes(inputs: Inputs) -> dict[str, Any]:
    """Deepest and longest notch along a sawn member."""
    d = float(inputs["d_in"])
    return {
        "notch_depth_in": members.notch_depth_limit_in(d),
        "notch_length_in": members.notch_length_limit_in(d),
        "end_notch_depth_in": members.end_notch_depth_limit_in(d),
    }
