"""Published Canadian cases: Part 9 of the national code by its provincial texts."""

import re
from collections.abc import Mapping
from math import inf
from typing import Any

from engine.clauses.canada import (
    obc,
    part_9_bearing,
    part_9_foundation,
    part_9_sills,
    part_9_veneer,
    part_9_walls,
)
from engine.errors import OutOfScope
from engine.proving import PLACE, adapter

Case = Mapping[str, Any]
Values = dict[str, Any]
# By words of a case, the first that fits.
MEMBERS = {
    "ridge": "ridge beam",
    "beam": "beam",
    "girder": "beam",
    "floor, roof": "joist",
    "rafter": "rafter",
    "roof joist": "rafter",
    "joist": "joist",
}
LINTEL_TABLE = re.compile(r"9\.20\.17\.4\.-([ABC])")


@adapter("canada/joist-bearing", "canada/beam-bearing")
def bearing(i: Case) -> Values:
    """Least bearing of a member on wood, concrete or masonry."""
    member: Any = next((kind for words, kind in MEMBERS.items() if words in i["member_type"]), i["member_type"])
    if i.get("support") == "masonry":
        least = part_9_bearing.bearing_on_masonry_mm(member)
    else:
        least = part_9_bearing.end_bearing_mm(member, on_ribbon_board=bool(i.get("on_ribbon_board")))
    return {"min_end_bearing_mm": least, "min_bearing_mm": least}


@adapter("canada/beam-pocket")
def pocket(i: Case) -> Values:
    """Air around a wood end, or what separates wood from concrete."""
    low, treated = i.get("bottom_at_or_below_ground", True), i.get("treated", False)
    framed = i.get("wood_end_in_concrete", True)
    sheet = part_9_bearing.separator()
    height = i.get("height_above_ground_mm", 0.0) if i.get("wood_on_concrete_in_ground_contact", True) else inf
    needed = obc.capillary_break_required(height, treated=treated)
    return {
        "air_space_end_and_sides_mm": part_9_bearing.air_space_mm(at_or_below_ground=low and framed, treated=treated),
        "separator_polyethylene_mm": sheet.polyethylene_mm if needed else 0.0,
        "exempt_height_mm": sheet.exempt_mm,
    }


@adapter("canada/decay", "canada/termite")
def clearance(i: Case) -> Values:
    """Least clearance of wood to the ground."""
    told = {"termites": bool(i.get("termites_known")), "treated": bool(i.get("treated"))}
    return {"min_clearance_to_ground_mm": part_9_bearing.clearance_to_ground_mm(**told)}


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
    joint, bottom = part_9_foundation.cold_joint(), part_9_foundation.bottom_support()
    values: Values = {
        "bar": joint.bar,
        "max_spacing_mm": joint.spacing_mm,
        "embed_each_side_mm": joint.each_side_mm,
        "no_dowel_backfill_max_m": bottom.without_dowels_m,
        "dowel_15M_spacing_mm": bottom.at_15M_mm,
        "dowel_10M_spacing_mm": bottom.at_10M_mm,
        "min_core_mm": part_9_foundation.foundation_core_mm(i.get("wall_above_core_mm", 0.0)),
    }
    if "core_mm" in i:
        core, ground = i["core_mm"], i["finished_ground_above_floor_m"]
        values |= {name: _bars(core, ground, h) for name, h in (("H2p44", 2.44), ("H2p75", 2.75), ("H3p0", 3.0))}
    return values


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


def _lintel(size: tuple[str, float, float], snow_kPa: float, *, storey: bool) -> float | None:
    try:
        return part_9_walls.lintel_span_m(*size, snow_kPa, storey_above=storey)
    except OutOfScope:
        return None


def _lintels(i: Case) -> Values:
    named = LINTEL_TABLE.search(i.get(PLACE, ""))
    one_bar = i.get("bottom_bars") == "1-10M"
    table = named[1] if named else "A" if one_bar else ""
    size = (table, i["lintel_thickness_mm"], i["lintel_depth_mm"])
    return {
        f"span_{name}_Ss{text}_m": _lintel(size, snow, storey=storey)
        for name, storey in (("roof_only", False), ("icf_storey", True))
        for text, snow in (("1p50", 1.5), ("3p33", 3.33))
    }


@adapter("canada/icf-openings", placed=True)
def openings(i: Case) -> Values:
    """Openings in flat form walls, and the lintels above them."""
    if "lintel_depth_mm" in i:
        return _lintels(i)
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
        "top_bar_max_from_top_mm": part_9_walls.horizontal_bars().edge_mm,
        "max_from_opening_mm": part_9_walls.vertical_bars().edge_mm,
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


BOLT_NAMES_MM = {16.0: 15.9}  # the texts name a 5/8 in bolt both ways
CELLS: tuple[tuple[Any, int], ...] = (("light", 1), ("light", 2), ("light", 3), ("heavy", 1), ("heavy", 2))


def _by_table(i: Case, bolt_mm: float) -> Values:
    """Spacings where a band of S_a(0.2) or a reference framing is told."""
    wind = i.get("HWP_kPa_max", 0.0)
    if "reference_framing" in i:
        framing, shaking = i["reference_framing"], i.get("Smax_max", 0.0)
        return {
            "spacing_12p7_m": part_9_sills.spacing_bc_m(framing, 12.7, shaking, wind),
            "spacing_15p9_m": part_9_sills.spacing_bc_m(framing, 15.9, shaking, wind),
        }
    if "Sa02_band" not in i:
        return {}
    top = float(str(i["Sa02_band"]).rpartition("-")[2])
    return {f"{kind}_{n}floor_m": part_9_sills.spacing_m(bolt_mm, top, kind, n, wind) for kind, n in CELLS}


@adapter("canada/sill-anchor")
def sill_anchor(i: Case) -> Values:
    """Anchor bolts of a sill: the basic rule, two floors, the seismic table, British Columbia's."""
    told = float(i.get("bolt_dia_mm", 12.7))
    bolt_mm = BOLT_NAMES_MM.get(told, told)
    least = obc.sill_anchor()
    basic: Values = {
        "max_spacing_mm": least.spacing_m * 1000.0,
        "min_embed_mm": least.embedment_mm,
        "min_bolt_dia_mm": least.diameter_mm,
    }
    if i.get("floors_supported", 1) >= 2:
        panel = part_9_sills.bolts_two_floors(bolt_mm, i.get("Sa02", 0.0), i.get("HWP_kPa_max", 0.0))
        basic["max_spacing_mm"] = panel.spacing_mm
        basic |= {"max_end_distance_mm": panel.end_mm, "min_bolts_per_braced_panel": panel.per_panel}
    return basic | _by_table(i, bolt_mm)


@adapter("canada/brick-ledge")
def veneer(i: Case) -> Values:
    """Veneer, its projection, ties and steel angles."""
    least = part_9_veneer.veneer()
    values: Values = {"min_veneer_mm": least.thickness_mm, "air_space_wood_frame_mm": least.air_mm}
    if "veneer_thickness_mm" in i:
        values["max_projection_mm"] = obc.veneer_projection_mm(i["veneer_thickness_mm"])
    if "tie_vert_mm" in i:
        tie = part_9_veneer.tie(i["tie_vert_mm"])
        values |= {
            "tie_horiz_max_mm": tie.along_mm,
            "strap_thk_mm": tie.thickness_mm,
            "strap_width_mm": tie.width_mm,
        }
    if "angle_mm" in i:
        spans = part_9_veneer.angle_spans(i["angle_mm"])
        values |= {
            "span_75brick_m": spans.brick_75_m,
            "span_90brick_m": spans.brick_90_m,
            "span_100stone_m": spans.stone_100_m,
        }
    return values
