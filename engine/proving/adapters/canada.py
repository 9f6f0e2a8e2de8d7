"""Published Canadian cases: Part 9 of the national code by its provincial texts, and the strength rules that were read."""

from collections.abc import Mapping
from typing import Any

from engine.clauses.canada import (
    obc,
    part_9_bearing,
    part_9_foundation,
    part_9_sills,
    part_9_veneer,
    part_9_walls,
    strength,
)
from engine.clauses.us import bars
from engine.errors import OutOfScope
from engine.proving import PLACE, adapter

Case = Mapping[str, Any]
Values = dict[str, Any]
MEMBERS = {
    "floor joist": "joist",
    "roof joist or rafter": "rafter",
    "beam supporting floor": "beam",
    "beam": "beam",
    "ridge beam": "ridge beam",
    "floor, roof or ceiling joist": "joist",
}


@adapter("canada/joist-bearing", "canada/beam-bearing")
def bearing(i: Case) -> Values:
    """Least bearing of a member on wood, concrete or masonry."""
    member: Any = MEMBERS[i["member_type"]]
    rule = part_9_bearing.bearing_on_masonry_mm if i.get("support") == "masonry" else part_9_bearing.end_bearing_mm
    least = rule(member)
    return {"min_end_bearing_mm": least, "min_bearing_mm": least}


@adapter("canada/beam-pocket")
def pocket(i: Case) -> Values:
    """Air around a wood end, or what separates wood from concrete."""
    if "wood_end_in_concrete" in i:
        low = i["bottom_at_or_below_ground"]
        return {"air_space_end_and_sides_mm": part_9_bearing.air_space_mm(at_or_below_ground=low, treated=i["treated"])}
    sheet = part_9_bearing.separator()
    return {"separator_polyethylene_mm": sheet.polyethylene_mm, "exempt_height_mm": sheet.exempt_mm}


@adapter("canada/decay", "canada/termite")
def clearance(i: Case) -> Values:
    """Least clearance of untreated wood to the ground."""
    return {"min_clearance_to_ground_mm": part_9_bearing.clearance_to_ground_mm(termites=bool(i.get("termites_known")))}


@adapter("canada/editions")
def editions(i: Case) -> Values:
    """Standards that the code calls up."""
    return dict(strength.standards())


@adapter("canada/foundation")
def foundation(i: Case) -> Values:
    """Highest ground beside a wall without bars."""
    f_c, thick = i["fc_MPa"], i["thickness_mm"]
    heights = {"2p5": 2.5, "2p75": 2.75, "3p0": 3.0}
    supported = {
        f"supported_H_le_{name}_m": part_9_foundation.plain_ground_m(f_c, thick, height, supported=True)
        for name, height in heights.items()
    }
    return {"unsupported_top_m": part_9_foundation.plain_ground_m(f_c, thick, 3.0, supported=False), **supported}


@adapter("canada/foundation-ledge", placed=True)
def foundation_ledge(i: Case) -> Values:
    """A foundation's top made thinner for joists or for veneer."""
    joists, veneer = (part_9_foundation.thinned_top(carries) for carries in ("joists", "veneer"))
    top = joists if i[PLACE].endswith("(1)") else veneer
    return {
        "min_reduced_thickness_mm": top.thickness_mm,
        "max_reduced_height_mm": joists.height_mm,
        "tie_vert_mm": veneer.tie_vertical_mm,
        "tie_horiz_mm": veneer.tie_horizontal_mm,
        "fill": veneer.fill,
    }


@adapter("canada/gable")
def gable(i: Case) -> Values:
    """Where studs may lie flat."""
    return {"studs_flat_ok_if": part_9_veneer.flat_studs_where()}


def _bars(core_mm: float, ground_m: float, height_m: float) -> str:
    try:
        found = part_9_foundation.foundation_bars(core_mm, ground_m, height_m)
    except OutOfScope:
        return "n/a"
    return "none" if found is None else f"{found.bar}@{found.spacing_mm:g}"


@adapter("canada/icf-foundation")
def icf_foundation(i: Case) -> Values:
    """Core, bars, cold joint and bottom support of a flat form foundation."""
    if "core_mm" in i:
        core, ground = i["core_mm"], i["finished_ground_above_floor_m"]
        return {name: _bars(core, ground, h) for name, h in (("H2p44", 2.44), ("H2p75", 2.75), ("H3p0", 3.0))}
    if "wall_above_core_mm" in i:
        return {"min_core_mm": part_9_foundation.foundation_core_mm(i["wall_above_core_mm"])}
    joint, bottom = part_9_foundation.cold_joint(), part_9_foundation.bottom_support()
    return {
        "bar": joint.bar,
        "max_spacing_mm": joint.spacing_mm,
        "embed_each_side_mm": joint.each_side_mm,
        "no_dowel_backfill_max_m": bottom.without_dowels_m,
        "dowel_15M_spacing_mm": bottom.at_15M_mm,
        "dowel_10M_spacing_mm": bottom.at_10M_mm,
    }


@adapter("canada/icf-gable-roof")
def roof_plate(i: Case) -> Values:
    """Anchors of a roof plate on a flat form wall; the same values as in Ontario's text of 2012."""
    anchor = obc.roof_plate_anchor()
    return {
        "min_bolt_dia_mm": anchor.diameter_mm,
        "max_spacing_mm": anchor.spacing_m * 1000.0,
        "min_embed_mm": anchor.embedment_mm,
        "position": anchor.position,
    }


@adapter("canada/icf-ledger")
def ledger(i: Case) -> Values:
    """Ledger and its bolts by clear span; the same values as in Ontario's text of 2012."""
    span, least = i["clear_floor_span_m"], obc.ledger(0.0)
    return {
        "max_spacing_12p7_mm": obc.ledger_bolt_spacing_mm(span, 12.7),
        "max_spacing_16_mm": obc.ledger_bolt_spacing_mm(span, 16),
        "min_embed_mm": least.embedment_mm,
        "min_ledger_thickness_mm": least.thickness_mm,
    }


@adapter("canada/icf-openings", placed=True)
def openings(i: Case) -> Values:
    """Openings in flat form walls, and the lintels above them."""
    if "lintel_depth_mm" in i:
        table = i[PLACE].strip().rstrip(".")[-1]
        size = (table, i["lintel_thickness_mm"], i["lintel_depth_mm"])
        return {
            f"span_{name}_Ss{text}_m": part_9_walls.lintel_span_m(*size, snow, storey_above=storey)
            for name, storey in (("roof_only", False), ("icf_storey", True))
            for text, snow in (("1p50", 1.5), ("3p33", 3.33))
        }
    free, bears = part_9_walls.openings(), part_9_walls.bearing_openings()
    return {
        "corner_clear_mm": bears.corner_mm if "9.20.17.4" in i[PLACE] else free.corner_mm,
        "min_concrete_over_opening_mm": free.concrete_above_mm,
        "bars_600_to_3000": free.bars_600_to_3000,
        "bars_over_3000": free.bars_over_3000,
        "bar_extension_mm": free.extension_mm,
        "max_opening_fraction": free.most_of_length,
        "lintel_if_wider_than_mm": bears.lintel_over_mm,
        "stirrups_if_wider_than_mm": bears.stirrups_over_mm,
        "stirrup_bar": bears.stirrup,
    }


@adapter("canada/icf-wall", placed=True)
def wall(i: Case) -> Values:
    """Limits (the same values as in Ontario's text of 2012), materials and bars of a flat form wall above grade."""
    horizontal = "9.20.17.2.(1)" in i[PLACE]
    found = part_9_walls.horizontal_bars() if horizontal else part_9_walls.vertical_bars()
    materials, scope = part_9_walls.materials(), obc.above_grade_wall()
    return {
        "bar": found.bar,
        "spacing_mm": found.spacing_mm,
        "top_bar_max_from_top_mm" if horizontal else "max_from_opening_mm": found.edge_mm,
        "min_core_mm": scope.concrete_mm,
        "constant_full_height": True,
        "max_aggregate_mm": materials.aggregate_mm,
        "min_fy_MPa": materials.f_y_MPa,
        "lap_10M_mm": materials.lap_10M_mm,
        "lap_15M_mm": materials.lap_15M_mm,
        "max_floor_to_floor_m": scope.floor_to_floor_m,
        "max_storeys": scope.storeys,
        "max_Sa02": scope.Sa_02,
        "single_dwelling_unit_only": part_9_walls.one_dwelling_only_in_2012(),
        "max_Smax_siteC": part_9_walls.limit_S_max(),
    }


@adapter("canada/sill-plate")
def sill(i: Case) -> Values:
    """Least sill plate."""
    least = part_9_sills.sill_plate()
    return {"min_thickness_mm": least.thickness_mm, "min_width_mm": least.width_mm}


@adapter("canada/sill-anchor")
def sill_anchor(i: Case) -> Values:
    """Anchor bolts of a sill: the basic rule, two floors, the seismic table, British Columbia's."""
    if "reference_framing" in i:
        spacing = part_9_sills.spacing_bc_m
        return {
            "spacing_12p7_m": spacing(i["reference_framing"], 12.7),
            "spacing_15p9_m": spacing(i["reference_framing"], 15.9),
        }
    bolt = i["bolt_dia_mm"]
    if "Sa02_band" in i:
        top = float(i["Sa02_band"].rpartition("-")[2])
        cells: tuple[tuple[Any, int], ...] = (("light", 1), ("light", 2), ("light", 3), ("heavy", 1), ("heavy", 2))
        return {f"{kind}_{n}floor_m": part_9_sills.spacing_m(bolt, top, kind, n, i["HWP_kPa_max"]) for kind, n in cells}
    if "floors_supported" in i:
        panel = part_9_sills.bolts_two_floors(bolt, i["Sa02"])
        return {
            "max_spacing_mm": panel.spacing_mm,
            "max_end_distance_mm": panel.end_mm,
            "min_bolts_per_braced_panel": panel.per_panel,
        }
    least = obc.sill_anchor()
    return {
        "max_spacing_mm": least.spacing_m * 1000.0,
        "min_embed_mm": least.embedment_mm,
        "min_bolt_dia_mm": least.diameter_mm,
    }


@adapter("canada/brick-ledge")
def veneer(i: Case) -> Values:
    """Veneer, its projection, ties and steel angles."""
    if "veneer_thickness_mm" in i:
        return {"max_projection_mm": obc.veneer_projection_mm(i["veneer_thickness_mm"])}
    if "tie_vert_mm" in i:
        tie = part_9_veneer.tie(i["tie_vert_mm"])
        return {
            "tie_horiz_max_mm": tie.along_mm,
            "strap_thk_mm": tie.thickness_mm,
            "strap_width_mm": tie.width_mm,
        }
    if "angle_mm" in i:
        spans = part_9_veneer.angle_spans(i["angle_mm"])
        return {
            "span_75brick_m": spans.brick_75_m,
            "span_90brick_m": spans.brick_90_m,
            "span_100stone_m": spans.stone_100_m,
        }
    least = part_9_veneer.veneer()
    return {"min_veneer_mm": least.thickness_mm, "air_space_wood_frame_mm": least.air_mm}


@adapter("canada/loads")
def loads(i: Case) -> Values:
    """Factored loads, factors beside them, and the loads that Part 9 goes to."""
    if "D_kPa" in i:
        factored = strength.factored_kPa(i["D_kPa"], i.get("L_kPa", 0.0), i.get("S_kPa", 0.0), i.get("W_kPa", 0.0))
        return {
            "governing_factored_kPa": factored,
            "w_factored_kN_per_m": factored * i.get("tributary_m", 1.0),
        }
    factors, (live, span) = strength.other_factors(), strength.floor_scope()
    return {
        "counteracting_D": factors["D_counteracting"],
        "counteracting_D_with_E": factors["D_with_E"],
        "H": factors["H"],
        "P": factors["P"],
        "T": factors["T"],
        "max_specified_live_kPa": live,
        "max_member_span_m": span,
        "min_live_kPa": strength.deck_live_kPa(),
    }


@adapter("canada/wood-factors")
def wood_factors(i: Case) -> Values:
    """Load duration."""
    if "long_term_load" in i:
        return {"KD": strength.K_D(i["long_term_load"], i["standard_load"])}
    factors = strength.duration_factors()
    return {f"KD_{term}": value for term, value in factors.items()}


@adapter("canada/wood-bearing")
def wood_bearing(i: Case) -> Values:
    """Bearing of wood, near a support or not, and the length of bearing factor."""
    if "Lb1_mm" in i:
        sizes = (i["b_mm"], i["Lb1_mm"], i["Lb2_mm"], i["fcp_MPa"])
        return {"Qr_prime_kN": strength.wood_bearing_near_support_kN(*sizes, i.get("all_K", 1.0), i["phi"])}
    if "fcp_MPa" not in i:
        return {"KB": strength.K_B(i["Lb_mm"], i["distance_from_end_mm_gt"])}
    factors = {f"K_{name}": i.get(f"K{name}", 1.0) for name in ("D", "Scp", "T", "B", "Zcp")}
    return {"Qr_kN": strength.wood_bearing_kN(i["b_mm"], i["Lb_mm"], i["fcp_MPa"], **factors, phi=i["phi"])}


@adapter("canada/concrete-bearing")
def concrete_bearing(i: Case) -> Values:
    """Bearing of concrete, or the area that a load needs."""
    if "Pf_kN" in i:
        return {"A_required_mm2": strength.concrete_area_mm2(i["Pf_kN"], i["fc_MPa"], i["phi_c"])}
    area = i["bearing_length_mm"] * i["flange_width_mm"]
    return {"Br_kN": strength.concrete_bearing_kN(i["fc_MPa"], area, i["sqrt_A2_A1"], i["phi_c"])}


@adapter("canada/development")
def development(i: Case) -> Values:
    """Development of straight and hooked bars."""
    diameter = i["db_mm"] if "db_mm" in i else bars.metric_bars("bars_canada")[i["bar"]].diameter_mm
    return {
        "ld_mm": strength.development_mm(diameter, i["fc_MPa"], i["fy_MPa"]),
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
