"""Cases on veneer, loads, records, and Ontario's residential rows."""

from collections.abc import Mapping
from typing import Any

from engine.clauses.canada import obc
from engine.clauses.us import irc_loads as loads
from engine.clauses.us import irc_process as process
from engine.clauses.us import irc_veneer as veneer
from engine.clauses.us.loads import simple_span_reaction_lb
from engine.proving import adapter
from engine.proving.adapters.residential_bearing import each

Inputs = Mapping[str, Any]
Values = dict[str, Any]


def _common(found: list[Any]) -> Any:
    """The value all share, as a case prints it once; the list itself where they differ."""
    return found[0] if all(value == found[0] for value in found) else found


def _veneer_limits(words: str) -> veneer.VeneerLimits:
    sdc: Any = words.split()[0]
    stories = 3 if "3" in words.partition(" ")[2] else 2
    return veneer.veneer_limits(sdc, stories, lower_10_ft_backed="back" in words)


@adapter("residential/veneer-limits-sdc-a-c")
def _veneer_a_c(inputs: Inputs) -> Values:
    found = each(inputs["sdc"], _veneer_limits)
    limits = found if isinstance(found, list) else [found]
    return {
        "max_height_ft": _common([limit.height_ft for limit in limits]),
        "max_thickness_in": _common([limit.thickness_in for limit in limits]),
        "max_weight_psf": _common([limit.weight_psf for limit in limits]),
        "gable_extra_ft": _common([limit.gable_extra_ft for limit in limits]),
    }


@adapter("residential/veneer-limits-sdc-d0-d2")
def _veneer_d(inputs: Inputs) -> Values:
    return {
        "max_height_ft": each(inputs["sdc"], lambda words: _veneer_limits(words).height_ft),
        "max_thickness_in": each(inputs["sdc"], lambda words: _veneer_limits(words).thickness_in),
        "max_weight_psf": each(inputs["sdc"], lambda words: _veneer_limits(words).weight_psf),
    }


@adapter("residential/veneer-bearing-on-support")
def _veneer_bearing(inputs: Inputs) -> Values:
    t_v_in = inputs["veneer_thickness_in"]
    return {
        "min_bearing_in": each(t_v_in, veneer.veneer_bearing_in),
        "max_overhang_in": each(t_v_in, veneer.veneer_overhang_in),
    }


@adapter("residential/veneer-load-on-ledge")
def _veneer_load(inputs: Inputs) -> Values:
    h_ft = inputs["height_ft"]
    return {"line_load_plf": each(inputs["weight_psf"], lambda q_psf: veneer.veneer_line_load_plf(h_ft, q_psf))}


@adapter("residential/veneer-tie-spacing")
def _tie_spacing(inputs: Inputs) -> Values:
    s_h_in, s_v_in = inputs["horizontal_in"], inputs["vertical_in"]
    close = {veneer.tie_area_limit_ft2("D0"), veneer.tie_area_limit_ft2("B", wind_psf=31)}
    return {
        "area_sqft": veneer.tie_area_ft2(s_h_in, s_v_in),
        "ok_general": veneer.tie_spacing_ok(s_h_in, s_v_in, veneer.tie_area_limit_ft2()),
        "ok_SDC_D_or_over_30psf": veneer.tie_spacing_ok(s_h_in, s_v_in, min(close)),
    }


@adapter("residential/tie-embedment-in-mortar")
def _tie(inputs: Inputs) -> Values:
    tie = veneer.veneer_tie()
    return {
        "min_embed_in": tie.embedment_in,
        "min_outside_cover_in": tie.outside_cover_in,
        "min_airspace_in": tie.air_space_in,
        "max_backing_to_veneer_in_2018": veneer.largest_backing_distance_in("W1.7", 2018),
        "max_backing_to_veneer_in_2021_2024_W1.7": veneer.largest_backing_distance_in("W1.7", 2021),
        "max_backing_to_veneer_in_2021_2024_W2.8": veneer.largest_backing_distance_in("W2.8", 2024),
    }


@adapter("residential/weep-holes")
def _weeps(inputs: Inputs) -> Values:
    weep = veneer.weeps()
    return {"max_spacing_in": weep.spacing_in, "min_diameter_in": weep.diameter_in}


@adapter("residential/lintel-bearing")
def _lintel_bearing(inputs: Inputs) -> Values:
    return {"min_bearing_in": veneer.lintel_bearing_in()}


@adapter("residential/residential-live-loads")
def _live_loads(inputs: Inputs) -> Values:
    return {"live_psf": each(inputs["use"], loads.live_load_psf)}


@adapter("residential/floor-deflection-limit")
def _deflection(inputs: Inputs) -> Values:
    return {"max_live_deflection_in": each(inputs["span_ft"], loads.deflection_limit_in)}


@adapter("residential/floor-joist-span-for-reactions")
def _joist_span(inputs: Inputs) -> Values:
    span_in = loads.joist_span_in(
        inputs["joist"], inputs["species"], inputs["spacing_in"], inputs["live_psf"], inputs["dead_psf"]
    )
    return {"max_span_ft_in": f"{span_in // 12}-{span_in % 12}"}


@adapter("residential/joist-end-reaction")
def _reaction(inputs: Inputs) -> Values:
    w_psf = inputs["live_psf"] + inputs["dead_psf"]
    return {"reaction_lb": simple_span_reaction_lb(w_psf, inputs["spacing_in"], inputs["clear_span_ft"])}


@adapter("residential/gravity-shear-per-ledger-bolt-at-r608-2-loads")
def _bolt_gravity(inputs: Inputs) -> Values:
    w_plf = loads.ledger_line_load_plf(inputs["live_psf"] + inputs["dead_psf"], inputs["clear_span_ft"])
    return {
        "ledger_line_load_plf": w_plf,
        "shear_per_bolt_lb": loads.load_per_bolt_lb(w_plf, inputs["bolt_spacing_in"]),
    }


@adapter("residential/inspection-before-placing-concrete")
def _before_concrete(inputs: Inputs) -> Values:
    may = process.may_place_concrete(
        forms_erected=inputs["forms_erected"],
        bars_in_place=inputs["bars_in_place_and_supported"],
        approved=inputs["approved"],
    )
    return {"may_place_concrete": may}


@adapter("residential/special-inspection-of-cast-in-anchors")
def _special(inputs: Inputs) -> Values:
    return {"frequency": each(inputs["task"], process.special_inspection)}


@adapter("residential/retention-of-approved-documents")
def _retention(inputs: Inputs) -> Values:
    editions = inputs["edition"]
    return {
        "min_doc_retention_days": each(editions, lambda _: process.document_retention_days()),
        "official_records_years": each(editions, lambda year: process.official_records(int(year))),
    }


@adapter("residential/thermal-barrier")
def _barrier(inputs: Inputs) -> Values:
    return {"min_thickness_in": each(inputs["barrier"], process.thermal_barrier_in)}


@adapter("residential/roll-bracing-at-guard-posts")
def _roll(inputs: Inputs) -> Values:
    brace = process.roll_brace()
    return {"min_length_from_edge_in": brace.length_in, "min_16d_common_nails_each_end": brace.nails_each_end}


@adapter("residential/air-space-at-beam-ends")
def _air_space(inputs: Inputs) -> Values:
    low = "above" not in inputs["member_bottom"]
    return {
        "min_air_space_mm": obc.beam_air_space_mm(at_or_below_ground=low),
        "faces": obc.AIR_FACES if low else "none",
    }


@adapter("residential/icf-wall-thickness")
def _ontario_wall(inputs: Inputs) -> Values:
    wall = obc.above_grade_wall()
    return {
        "min_concrete_mm": wall.concrete_mm,
        "max_storeys": wall.storeys,
        "max_floor_to_floor_m": wall.floor_to_floor_m,
        "max_Sa02": wall.Sa_02,
    }


@adapter("residential/ledger-board-minimum-flat-icf-wall")
def _ontario_ledger(inputs: Inputs) -> Values:
    ledger = obc.ledger(inputs["joist_depth_mm"])
    return {
        "min_ledger_thickness_mm": ledger.thickness_mm,
        "min_ledger_depth_mm": ledger.depth_mm,
        "min_bolt_embedment_mm": ledger.embedment_mm,
    }


@adapter("residential/ledger-bolt-spacing-flat-icf-wall")
def _ontario_bolts(inputs: Inputs) -> Values:
    spacing_mm = obc.ledger_bolt_spacing_mm(inputs["clear_floor_span_m"], inputs["bolt_diameter_mm"])
    return {"max_bolt_spacing_mm": spacing_mm}


def _anchor(anchor: obc.PlateAnchor) -> Values:
    return {
        "min_diameter_mm": anchor.diameter_mm,
        "max_spacing_m": anchor.spacing_m,
        "min_embedment_mm": anchor.embedment_mm,
        "position": anchor.position,
    }


@adapter("residential/sill-anchorage-ontario")
def _ontario_sill(inputs: Inputs) -> Values:
    return _anchor(obc.sill_anchor())


@adapter("residential/roof-plate-anchorage-on-icf-wall")
def _ontario_roof(inputs: Inputs) -> Values:
    return _anchor(obc.roof_plate_anchor())


@adapter("residential/veneer-projection-ontario")
def _ontario_veneer(inputs: Inputs) -> Values:
    return {
        "max_projection_mm": each(inputs["veneer_thickness_mm"], obc.veneer_projection_mm),
        "max_projection_fraction": obc.veneer_projection_fraction(),
    }
