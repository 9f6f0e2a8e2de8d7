"""Cases on joist ends, sills, decay and nailing in residential codes."""

from collections.abc import Callable, Mapping
from itertools import repeat
from typing import Any

from engine.clauses.us import irc_bearing as bearing
from engine.clauses.us import irc_moisture as moisture
from engine.clauses.us import irc_process as process
from engine.clauses.us import irc_sills as sills
from engine.clauses.us.irc import Support
from engine.errors import BadInput
from engine.proving import adapter

Inputs = Mapping[str, Any]
Values = dict[str, Any]


def each(value: Any, rule: Callable[[Any], Any]) -> Any:
    """The rule for one value, or for every member of a list."""
    return [rule(one) for one in value] if isinstance(value, list) else rule(value)


def along(rule: Callable[..., Any], *values: Any) -> Any:
    """The rule for values side by side: lists go in step, what is no list goes with every member."""
    if not any(isinstance(value, list) for value in values):
        return rule(*values)
    rows = zip(*(value if isinstance(value, list) else repeat(value) for value in values), strict=False)
    return [rule(*row) for row in rows]


# The kinds beside each other in a case's words share one rule; a plate on concrete is wood.
SUPPORTS: dict[str, Support] = {
    "plate": "wood",
    "concrete": "concrete",
    "masonry": "masonry",
    "metal": "metal",
    "steel": "metal",
    "wood": "wood",
}


def _support(words: str) -> Support:
    """What a case's words rest a member on. Raises: BadInput."""
    for word, kind in SUPPORTS.items():
        if word in words.lower():
            return kind
    raise BadInput("support", f"“{words}” names neither wood, metal, masonry nor concrete.")


@adapter("residential/minimum-bearing-of-joist-beam-girder-ends")
def _floor_bearing(inputs: Inputs) -> Values:
    return {"min_bearing_in": each(inputs["support"], lambda words: bearing.minimum_bearing_in(_support(words)))}


@adapter("residential/rafter-and-ceiling-joist-bearing")
def _roof_bearing(inputs: Inputs) -> Values:
    return {"min_bearing_in": each(inputs["support"], lambda words: bearing.minimum_roof_bearing_in(_support(words)))}


@adapter("residential/joist-bearing-conventional-construction")
def _ibc_bearing(inputs: Inputs) -> Values:
    def rule(words: str) -> float:
        joist = words.startswith("joist")
        least = bearing.ibc_minimum_joist_bearing_in if joist else bearing.ibc_minimum_beam_bearing_in
        return least(_support(words))

    return {"min_bearing_in": each(inputs["item"], rule)}


@adapter("residential/joist-on-2-5-in-concrete-ledge")
def _short_ledge(inputs: Inputs) -> Values:
    def short_in(there_in: float, plate: bool) -> float:
        return bearing.bearing_shortfall_in(bearing.minimum_bearing_in("wood" if plate else "concrete"), there_in)

    short = along(short_in, inputs["bearing_on_concrete_in"], inputs.get("sill_plate", False))
    return {"ok": each(short, lambda lacking: lacking <= 0), "shortfall_in": short}


@adapter("residential/sill-plate-length-for-the-48-sq-in-nominal-bearing-area")
def _plate_length(inputs: Inputs) -> Values:
    return {"min_plate_length_in": each(inputs["nominal_plate_width_in"], bearing.minimum_plate_length_in)}


@adapter("residential/lapped-joists-over-support")
def _joist_lap(inputs: Inputs) -> Values:
    least = bearing.minimum_joist_lap_in()
    ok = inputs.get("lap_in", least) >= least
    return {"min_lap_in": least, "min_10d_face_nails": bearing.minimum_lap_nails(), "ok": ok}


@adapter("residential/bridging-interval")
def _bridging(inputs: Inputs) -> Values:
    interval_in = bearing.bridging_interval_in(bearing.nominal_depth_in(inputs["joist"]))
    return {"max_interval_ft": None if interval_in is None else interval_in / 12}


@adapter("residential/end-notch-and-hole-limits-sawn-joist")
def _notches(inputs: Inputs) -> Values:
    d_in = inputs["depth_in"]
    return {
        "max_end_notch_in": each(d_in, bearing.end_notch_limit_in),
        "max_span_notch_in": each(d_in, bearing.span_notch_limit_in),
        "max_notch_length_in": each(d_in, bearing.notch_length_limit_in),
        "max_hole_diameter_in": each(d_in, bearing.hole_limit_in),
        "min_hole_edge_distance_in": bearing.hole_edge_distance_in(),
    }


@adapter("residential/joist-to-sill-nailing")
def _sill_nails(inputs: Inputs) -> Values:
    return {"min_toe_nails": each(inputs["nail"], lambda nail: process.nails("joist to sill", nail))}


@adapter("residential/ledger-strip-under-joists-nailing")
def _strip_nails(inputs: Inputs) -> Values:
    return {"min_face_nails_per_joist": each(inputs["nail"], lambda nail: process.nails("ledger strip", nail))}


@adapter("residential/framing-on-exterior-concrete-wall-near-ground")
def _near_ground(inputs: Inputs) -> Values:
    heights = inputs["height_above_exposed_ground_in"]
    return {"treated_required": each(heights, moisture.framing_on_wall_needs_treatment)}


@adapter("residential/beam-pocket-size-for-untreated-girder-air-space")
def _pocket(inputs: Inputs) -> Values:
    g_in = inputs.get("gap_top_sides_end_in", moisture.beam_air_space_in())
    sides: dict[str, tuple[str, Callable[[float, float], float]]] = {
        "beam_width_in": ("min_pocket_width_in", moisture.pocket_width_in),
        "beam_depth_in": ("min_pocket_height_in", moisture.pocket_height_in),
        "bearing_in": ("min_pocket_length_in", moisture.pocket_length_in),
    }
    return {name: along(rule, inputs[given], g_in) for given, (name, rule) in sides.items() if given in inputs}


@adapter("residential/bolt-coating-in-treated-wood")
def _coating(inputs: Inputs) -> Values:
    diameters = inputs["bolt_diameter_in"]
    return {
        "plain_steel_allowed_irc": each(diameters, lambda D_in: moisture.plain_bolt_allowed(D_in, "IRC")),
        "plain_steel_allowed_ibc": each(diameters, lambda D_in: moisture.plain_bolt_allowed(D_in, "IBC")),
    }


@adapter("residential/foam-to-ground-clearance-in-very-heavy-termite-areas")
def _termites(inputs: Inputs) -> Values:
    very_heavy = inputs["termite_probability"].strip().lower() == "very heavy"
    return {
        "min_clearance_in": moisture.foam_ground_clearance_in(very_heavy=very_heavy),
        "foam_below_grade_outside_allowed": moisture.foam_below_grade_allowed(very_heavy=very_heavy),
    }


@adapter("residential/bolt-position-across-plate-width")
def _middle_third(inputs: Inputs) -> Values:
    b_in = inputs["actual_plate_width_in"]
    return {
        "min_from_edge_in": each(b_in, lambda b: sills.middle_third_in(b).low_in),
        "max_from_edge_in": each(b_in, lambda b: sills.middle_third_in(b).high_in),
    }


@adapter("residential/end-distance-window-of-sill-bolts")
def _end_window(inputs: Inputs) -> Values:
    return {
        "min_end_distance_in": each(
            inputs["bolt_diameter_in"], lambda D: sills.end_distance_window_in(D, "IRC").low_in
        ),
        "max_end_distance_in": sills.END_MAX_IN,
    }


@adapter("residential/end-distance-window-of-sill-bolts-under-ibc")
def _ibc_end_window(inputs: Inputs) -> Values:
    window = sills.end_distance_window_in(0.5, "IBC")  # the same for every bolt
    least = sills.sill_bolt(inputs.get("sdc", "B"), "IBC")
    return {
        "min_end_distance_in": window.low_in,
        "max_end_distance_in": window.high_in,
        "min_diameter_in": least.diameter_in,
        "min_embedment_in": least.embedment_in,
        "max_spacing_ft": sills.ibc_sill_bolt_spacing_in(2) / 12,
        "max_spacing_over_two_stories_braced_ft": sills.ibc_sill_bolt_spacing_in(3) / 12,
    }


@adapter("residential/sill-bolt-diameter-spacing-embedment")
def _sill_bolt(inputs: Inputs) -> Values:
    least = sills.sill_bolt()
    return {
        "min_diameter_in": least.diameter_in,
        "max_spacing_ft": least.spacing_in / 12,
        "min_embedment_in": least.embedment_in,
        "min_bolts_per_piece": least.per_piece,
    }


@adapter("residential/sill-plate-anchor-bolt-count")
def _bolt_count(inputs: Inputs) -> Values:
    end_in = inputs.get("end_distance_used_in", sills.END_MAX_IN)
    spacing_in = inputs.get("max_spacing_in", sills.SPACING_IN)
    return {"min_bolts": along(sills.sill_bolt_count, inputs["plate_length_in"], spacing_in, end_in)}


@adapter("residential/short-braced-offset-walls")
def _short_walls(inputs: Inputs) -> Values:
    def bolts(L_in: float) -> int:
        few = sills.short_wall_bolts(L_in)
        return sills.sill_bolt_count(L_in, sills.SPACING_IN) if few is None else few

    return {"min_bolts": each(inputs["wall_length_in"], bolts)}


@adapter("residential/plate-washer-in-sdc-d-and-c-townhouses")
def _washer(inputs: Inputs) -> Values:
    washer = sills.plate_washer()
    return {
        "required": sills.plate_washer_required(inputs["sdc"], inputs.get("building", "detached")),
        "min_washer_in": [washer.thickness_in, washer.width_in, washer.length_in],
        "max_slot_width_over_bolt_in": washer.slot_over_bolt_in,
        "max_slot_length_in": washer.slot_length_in,
    }


@adapter("residential/bolts-near-a-foundation-step-sdc-d")
def _step(inputs: Inputs) -> Values:
    step = sills.step_bolts()
    return {
        "min_bolt_from_step_ft": step.nearest_ft,
        "max_bolt_from_step_ft": step.farthest_ft,
        "min_plate_extension_ft": step.plate_extension_ft,
        "min_sill_on_foundation_ft": step.sill_ft,
    }
