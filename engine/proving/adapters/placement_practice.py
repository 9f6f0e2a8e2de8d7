"""Adapters for gables, slump, vibration, cold, maturity, and what the veneer's own notes say."""

import re
from collections.abc import Mapping
from math import ceil
from typing import Any

from engine.clauses.us import gables, placing_practice, placing_rates, veneer_practice
from engine.clauses.us.irc_veneer import veneer_bearing_in, veneer_limits, veneer_line_load_plf, veneer_overhang_in
from engine.clauses.us.irc_walls import slump_ok
from engine.proving import adapter, given

Row = Mapping[str, Any]


@adapter("placement/gable-geometry")
def gable(row: Row) -> Row:
    """A symmetric gable from its base, pitch, course and block."""
    W, p, h_c, block = (row[k] for k in ("base_width_ft", "pitch_in_per_12", "course_height_in", "block_length_in"))
    H = gables.rise_ft(W, p)
    c, N, rake = gables.setback_in(h_c, p), gables.courses(H, h_c), gables.rake_ft(W, p)
    lows = [gables.course_edges_in(W, c, n)[0] for n in range(1, N + 1)]
    found = {
        "rise_ft": H,
        "slope_angle_deg": gables.slope_deg(p),
        "rake_length_each_ft": rake,
        "cut_length_both_faces_both_rakes_ft": 4 * rake,
        "gable_area_ft2": gables.gable_area_ft2(W, H),
        "courses": N,
        "setback_per_course_in": c,
        "offcut_triangle_area_in2": h_c * c / 2,
        "blocks_without_reuse": sum(ceil(low / block - 1e-9) for low in lows),
        "blocks_with_offcut_reuse_per_course": sum(max(1, ceil((low - c) / block - 1e-9)) for low in lows),
        "blocks_area_lower_bound": ceil(144 * W * H / 2 / (block * h_c) - 1e-9),
    }
    return found | (_gable_pour(row, W, H) if given(row, "core_thickness_in") else {})


def _gable_pour(row: Row, W_ft: float, H_ft: float) -> dict[str, Any]:
    """Concrete, lifts and rates of that gable; the last lift ends at the peak."""
    t = row["core_thickness_in"]
    found: dict[str, Any] = {
        "concrete_yd3": placing_rates.wall_volume_yd3(gables.gable_area_ft2(W_ft, H_ft), t),
        "pump_rate_for_4_ft_per_h_at_base_yd3_per_h": 4 * W_ft * t / 12 / 27,
    }
    if given(row, "lift_ft"):
        found["first_lift_volume_yd3"] = gables.lift_volume_yd3(W_ft, H_ft, t, 0.0, min(row["lift_ft"], H_ft))
        found["lifts"] = placing_rates.passes(H_ft, row["lift_ft"])
    if given(row, "pump_rate_yd3_per_h"):
        rates = [gables.gable_rate_ft_per_h(row["pump_rate_yd3_per_h"], W_ft, z, H_ft, t) for z in (0.0, H_ft / 2)]
        found["rise_rate_at_base_ft_per_h"], found["rise_rate_at_mid_height_ft_per_h"] = rates
    return found


@adapter("placement/complementary-trapezoids")
def trapezoids(row: Row) -> Row:
    """A piece and its offcut."""
    c = gables.setback_in(row["course_height_in"], row["pitch_in_per_12"])
    long_edge, short_edge = gables.offcut_edges_in(row["block_length_in"], c, row["first_piece_long_edge_in"])
    return {
        "setback_in": c,
        "first_piece_short_edge_in": row["first_piece_long_edge_in"] - c,
        "offcut_long_edge_in": long_edge,
        "offcut_short_edge_in": short_edge,
        "sum_of_long_edges_in": row["first_piece_long_edge_in"] + long_edge,
    }


@adapter("placement/default-slump-and-tolerance")
def slump(row: Row) -> Row:
    """Where the specification is silent."""
    found = placing_practice.default_slump()
    return {
        "default_slump_in": found.default_in,
        "tolerance_in": found.tolerance_in,
        "with_high_range_admixture_max_in": found.admixture_max_in,
    }


@adapter("placement/slump-in-stay-in-place-forms")
def code_slump(row: Row) -> Row:
    """The code's two sides of one number."""
    limit = placing_practice.CODE_SLUMP_IN
    removable, stay = (slump_ok(limit, form) for form in ("removable", "stay-in-place"))
    return {
        "removable_forms_max_slump_in": limit if removable else None,
        "stay_in_place_forms_slump_must_exceed_in": None if stay else limit,
    }


@adapter("placement/internal-vibrator-practice")
def vibration(row: Row) -> Row:
    """Spacing and times."""
    found = placing_practice.vibrator()
    return {
        "insertion_spacing_in": found.spacing_in,
        "time_air_entrained_s": "{}-{}".format(*found.air_entrained_s),
        "time_non_air_entrained_s": "{}-{}".format(*found.other_s),
    }


@adapter("placement/minimum-concrete-temperature-thin-section")
def cold(row: Row) -> Row:
    """By section, however its range is written: "12-36 in", "< 12 in"."""
    words = row["section"]
    numbers = re.findall(r"\d+", words)
    side = "over" if re.search(r"over|>|more|above|greater", words) else "under"
    section = f"{' to '.join(numbers)} in" if len(numbers) == 2 else f"{side} {''.join(numbers)} in"
    return {"min_concrete_temp_as_placed_and_maintained_F": placing_practice.least_concrete_temperature_F(section)}


@adapter("placement/maturity-temperature-time-factor")
def maturity(row: Row) -> Row:
    """Temperature-time factor."""
    return {"degree_C_hours": placing_rates.maturity(row["concrete_temp_C"], row["datum_C"], row["hours"])}


@adapter("placement/ledge-line-load")
def line_load(row: Row) -> Row:
    """Veneer by height."""
    return {"load_plf": veneer_line_load_plf(row["height_ft"], row["veneer_psf"])}


@adapter("placement/veneer-weight")
def brick(row: Row) -> Row:
    """By assembly, named by its thickness or as a stud wall."""
    words = row["assembly"]
    assembly = "stud wall with brick" if "stud" in words else " ".join(words.split()[:2])
    return {"weight_psf": placing_practice.brick_weight_psf(assembly)}


@adapter("placement/veneer-weight-from-density")
def density(row: Row) -> Row:
    """By thickness."""
    return {"weight_psf": placing_practice.weight_psf(row["thickness_in"], row["density_pcf"])}


@adapter("placement/two-thirds-bearing-on-a-steel-angle")
def angle(row: Row) -> Row:
    """Bearing, overhang, and the height above an angle."""
    t = row["wythe_in"]
    return {
        "min_bearing_in": veneer_bearing_in(t),
        "max_overhang_in": veneer_overhang_in(t),
        "max_height_above_angle_ft": ANGLE_HEIGHT_FT,
    }


ANGLE_HEIGHT_FT = 12 + 8 / 12  # IRC R703.8.2.1 (read; the 2003 text in R703.7.2.1)


@adapter("placement/veneer-limits-in-residential-code")
def limits(row: Row) -> Row:
    """One row of the table for every category named."""
    found = {veneer_limits(name) for name in re.findall(r"[A-F][0-2]?", row["SDC"])}
    (one,) = found
    return {
        "max_height_ft": one.height_ft,
        "max_thickness_in": one.thickness_in,
        "max_weight_psf": one.weight_psf,
        "gable_allowance_ft": one.gable_extra_ft,
    }


@adapter("placement/one-third-projection")
def projection(row: Row) -> Row:
    """A third of the wythe, in whatever unit it is given."""
    return {"max_projection_mm": veneer_overhang_in(row["wythe_mm"])}


@adapter("placement/veneer-height-on-foundation")
def height(row: Row) -> Row:
    """On a foundation."""
    found = veneer_practice.height_limits()
    return {"max_height_to_top_of_wall_ft": found.plate_ft, "max_height_at_gable_ft": found.gable_ft}


@adapter("placement/tie-area-and-spacing-steel-stud-note")
def ties(row: Row) -> Row:
    """Ties by the brick industry's note."""
    found = veneer_practice.ties()
    return {
        "area_per_tie_ft2": found.area_ft2,
        "max_horizontal_in": found.horizontal_in,
        "max_vertical_in": found.vertical_in,
        "min_air_space_in": found.air_in,
        "recommended_air_space_in": found.air_advised_in,
        "max_distance_to_backing_in": found.backing_in,
    }
