"""Cases on prescriptive concrete walls: limits, section, mix and bars."""

from collections.abc import Mapping
from math import inf
from typing import Any

from engine.clauses.us import irc_bars as bars
from engine.clauses.us import irc_scope as scope
from engine.clauses.us import irc_walls as walls
from engine.clauses.us.irc import Form
from engine.proving import adapter
from engine.proving.adapters.residential_bearing import along, each

Inputs = Mapping[str, Any]
Values = dict[str, Any]

# The cases' own names of the limits.
LIMIT_NAMES = {
    "plan_ft": "max_plan_dimension_ft",
    "floor_span_ft": "max_floor_clear_span_ft",
    "roof_span_ft": "max_roof_clear_span_ft",
    "mean_roof_ft": "max_mean_roof_height_ft",
    "stories": "max_stories_above_grade",
    "floor_dead_psf": "max_floor_ceiling_dead_psf",
    "roof_dead_psf": "max_roof_ceiling_dead_psf",
    "attic_live_psf": "max_attic_live_psf",
    "overhang_ft": "max_overhang_ft",
    "overhang_dead_psf": "max_overhang_dead_psf",
}
STAY: Form = "stay-in-place"
# Names the cases use for what `r608_limits_exceeded` takes, beside its own.
GIVEN = {
    "floor_clear_span_ft": "floor_span_ft",
    "roof_clear_span_ft": "roof_span_ft",
    "plan_dimension_ft": "plan_ft",
    "mean_roof_height_ft": "mean_roof_ft",
    "stories_above_grade": "stories",
    "wind_mph": "speed_mph",
}


@adapter("residential/r608-applicability-limits")
def _limits(inputs: Inputs) -> Values:
    wind = {f"max_wind_exp{letter}_mph": most for letter, most in scope.WIND_MPH.items()}
    return {LIMIT_NAMES[key]: limit.most for key, limit in scope.LIMITS.items()} | wind


def _beyond(inputs: Inputs) -> tuple[str, ...]:
    given = {GIVEN.get(key, key): value for key, value in inputs.items()}
    if "building" in given:
        given["building"] = "townhouse" if "townhouse" in given["building"] else "detached"
    return scope.r608_limits_exceeded(**given)


@adapter(
    "residential/design-required-when-floor-span-exceeds-limit", "residential/townhouse-in-sdc-c-excluded-from-r608"
)
def _applies(inputs: Inputs) -> Values:
    beyond = _beyond(inputs)
    return {"prescriptive_ok": not beyond, "reason": "; ".join(beyond)}


@adapter("residential/design-required-for-unsupported-retaining-basement-wall")
def _retaining(inputs: Inputs) -> Values:
    def rule(fill_in: float, held: bool) -> bool:
        return scope.retaining_design_required(fill_in, supported=held)

    return {
        "design_required": along(rule, inputs["unbalanced_backfill_in"], inputs.get("permanent_lateral_support", False))
    }


@adapter("residential/beam-reaction-on-a-lintel")
def _lintel(inputs: Inputs) -> Values:
    concentrated = any(word in inputs["load"].lower() for word in ("concentrated", "point", "beam", "girder"))
    ok = scope.lintel_prescriptive(concentrated=concentrated)
    return {"prescriptive_ok": ok, "route": "lintel tables" if ok else scope.DESIGN_ROUTE}


@adapter("residential/concrete-corbel-for-veneer-on-foundation-wall")
def _corbel(inputs: Inputs) -> Values:
    projection = any(word in inputs["feature"].lower() for word in ("corbel", "bracket", "project", "haunch"))
    apply = scope.projection_tables_apply(projection=projection)
    return {"tables_apply": apply, "design_required": not apply}


@adapter("residential/brick-shelf-in-foundation-wall-which-thickness-governs-bars")
def _shelf(inputs: Inputs) -> Values:
    sizes = (inputs["reduced_height_in"], inputs["thickness_reduction_in"])
    return {"bars_by_thicker_part_allowed": along(scope.bars_by_thick_part, *sizes)}


@adapter("residential/top-of-wall-above-grade")
def _above_grade(inputs: Inputs) -> Values:
    def rule(words: str) -> float:
        without = any(no in words for no in ("no masonry", "without", "not "))
        return scope.wall_top_above_grade_in(masonry_veneer="veneer" in words and not without)

    return {"min_height_above_grade_in": each(inputs["condition"], rule)}


@adapter("residential/as-built-thickness-tolerance-of-flat-wall")
def _thickness(inputs: Inputs) -> Values:
    return {
        "min_actual_in": each(inputs["nominal_in"], lambda t: walls.as_built_thickness_in(t).low_in),
        "max_actual_in": each(inputs["nominal_in"], lambda t: walls.as_built_thickness_in(t).high_in),
    }


@adapter("residential/flat-wall-self-weight")
def _weight(inputs: Inputs) -> Values:
    w_c_pcf = inputs.get("unit_weight_pcf", 150.0)  # Table R608.3
    return {"max_wall_weight_psf": each(inputs["nominal_thickness_in"], lambda t: walls.wall_weight_psf(w_c_pcf, t))}


@adapter("residential/minimum-f-c-for-r608-walls")
def _strength(inputs: Inputs) -> Values:
    def rule(words: str) -> float:
        weathering: walls.Weathering = "negligible"
        if "moderate" in words or "severe" in words:
            weathering = "severe"
        return walls.minimum_f_c_psi(
            weathering,
            "D0" if "SDC D" in words else "B",
            exposed=not any(inside in words for inside in ("not exposed", "unexposed", "interior")),
            foundation="foundation" in words,
        )

    return {"min_fc_psi": each(inputs["case"], rule)}


@adapter("residential/maximum-aggregate-size-from-form-width")
def _aggregate(inputs: Inputs) -> Values:
    return {"max_aggregate_in": each(inputs["clear_form_width_in"], walls.aggregate_by_form_in)}


@adapter("residential/slump-in-stay-in-place-forms")
def _slump(inputs: Inputs) -> Values:
    return {"ok": each(inputs["slump_in"], lambda slump_in: walls.slump_ok(slump_in, inputs.get("form", STAY)))}


@adapter("residential/bar-cover-in-stay-in-place-forms")
def _cover(inputs: Inputs) -> Values:
    least_in = walls.minimum_cover_in(inputs.get("form", STAY))
    needed_in = inputs.get("cover_required_in", least_in)
    return {
        "min_cover_in": each(needed_in, lambda needed: max(least_in, needed)),
        "minus_tolerance_in": each(needed_in, walls.cover_tolerance_in),
    }


@adapter("residential/bar-position-tolerance-from-wall-centre")
def _offset(inputs: Inputs) -> Values:
    return {"max_offset_in": each(inputs["wall_in"], walls.bar_offset_in)}


@adapter("residential/beam-pocket-inside-a-required-solid-wall-segment")
def _segment(inputs: Inputs) -> Values:
    a_in, b_in = inputs["pocket_in"]
    allowed = walls.opening_in_segment_allowed(a_in, b_in, inputs.get("edge_distance_in", inf))
    return {"opening_allowed_in_segment": allowed, "limits": walls.segment_limits()}


@adapter("residential/concrete-depth-over-openings")
def _over_opening(inputs: Inputs) -> Values:
    width_ft = inputs.get("lintel_needed_from_width_ft", walls.LINTEL_FROM_FT)
    return {"min_depth_in": each(inputs["wall"], lambda section: walls.depth_over_opening_in(section, width_ft))}


@adapter("residential/vertical-bars-4-in-flat-above-grade-wall")
def _verticals(inputs: Inputs) -> Values:
    at = (
        inputs.get("nominal_wall_in", 4),
        inputs["unsupported_height_ft"],
        inputs["wind_mph"],
        inputs.get("exposure", "B"),
    )
    return {
        f"{face}_bearing_bar_at_in": along(lambda *row: str(bars.vertical_bars(*row)), *at, face)
        for face in ("top", "side")
    }


def _basement(inputs: Inputs, t_nom_in: float) -> Values:
    names = ("unsupported_height_ft", "unbalanced_backfill_ft", "soil_psf_per_ft")
    at = (inputs.get("nominal_wall_in", t_nom_in), *(inputs[name] for name in names))
    return {"bar_at_in": along(bars.basement_bars, *at)}


@adapter("residential/6-in-flat-basement-wall-vertical-bars")
def _basement_6(inputs: Inputs) -> Values:
    return _basement(inputs, 6)


@adapter("residential/8-in-flat-basement-wall-vertical-bars")
def _basement_8(inputs: Inputs) -> Values:
    return _basement(inputs, 8)


@adapter("residential/minimum-horizontal-bars-per-storey")
def _horizontals(inputs: Inputs) -> Values:
    storey = bars.horizontal_bars()
    return {
        "bars": str(storey),
        "top_bar_within_in": storey.top_within_in,
        "bottom_bar_within_in": storey.bottom_within_in,
    }


@adapter("residential/lap-splice-length")
def _lap(inputs: Inputs) -> Values:
    return {"lap_in": along(bars.lap_in, inputs["bar_no"], inputs["fy_psi"])}
