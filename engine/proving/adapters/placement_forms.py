"""Adapters for form pressure, rates of rise, gables, bracing and placing practice."""

from collections.abc import Mapping
from math import ceil
from typing import Any

from engine.clauses.us import form_pressure as fp
from engine.clauses.us import form_pressure_si as si
from engine.clauses.us import gables, placing_practice, placing_rates, veneer_practice
from engine.clauses.us.irc_veneer import veneer_bearing_in, veneer_limits, veneer_line_load_plf, veneer_overhang_in
from engine.clauses.us.irc_walls import slump_ok
from engine.proving import adapter
from engine.units import convert
from engine.worksheet import Worksheet

Row = Mapping[str, Any]
PRESSURES = (
    "above-15-ft-h", "cold-concrete", "deep-vibration", "fast-7-15-ft-h", "heavy-160-pcf", "high-slag-with-retarder",
    "lightweight-115-pcf", "normal-icf-storey-lift", "retarding-superplasticizer", "single-4-ft-lift-capped-by-head",
    "slump-over-7-in", "tall-wall-over-14-ft-slow",
)  # fmt: skip


def _sheet() -> Worksheet:
    return Worksheet(recording=False)


@adapter(*(f"placement/form-pressure-wall-{name}" for name in PRESSURES))
def wall_pressure(row: Row) -> Row:
    """One wall, every intermediate value."""
    found = fp.wall_pressure(
        _sheet(), w_pcf=row["unit_weight_pcf"], h_ft=row["placement_height_ft"], R=row["rate_ft_per_h"], T=row["concrete_temp_F"],
        C_c=row["Cc"], slump_in=row.get("slump_in", 6.0), vibration_ft=row.get("vibration_depth_ft", 4.0),
    )  # fmt: skip
    return {
        "equation": found.equation,
        "Cw": found.C_w,
        "equation_pressure_psf": found.equation_psf,
        "hydrostatic_psf": found.head_psf,
        "design_pressure_psf": found.design_psf,
    }


@adapter("placement/form-pressure-wall-base-table")
def base_table(row: Row) -> Row:
    """The table prints the equation itself; below 7 ft/h that of walls to 14 ft."""
    R, T, weight = row["rate_ft_per_h"], row["concrete_temp_F"], fp.unit_weight_factor(row["unit_weight_pcf"])
    equation = fp.slow_wall_psf if R <= fp.SLOW_FT_PER_H else fp.fast_wall_psf
    base = equation(row["Cc"], weight, R, T)
    head = fp.liquid_head_psf(row["unit_weight_pcf"], row["placement_height_ft"])
    return {"base_pressure_psf": base, "design_pressure_with_600_floor_psf": fp.design_pressure_psf(head, base, weight)}


@adapter("placement/form-pressure-continuity-of-the-two-wall-equations")
def continuity(row: Row) -> Row:
    """Both equations at one rate."""
    R, T = row["rate_ft_per_h"], row["concrete_temp_F"]
    return {"eq_b_psf": fp.slow_wall_psf(1.0, 1.0, R, T), "eq_c_psf": fp.fast_wall_psf(1.0, 1.0, R, T)}


@adapter("placement/form-pressure-wall-si-relations")
def si_relations(row: Row) -> Row:
    """The SI set."""
    found = si.wall_pressure_si(
        _sheet(), rho=row["density_kg_per_m3"], h=row["placement_height_m"], R=row["rate_m_per_h"], T=row["concrete_temp_C"],
        C_c=row["Cc"],
    )  # fmt: skip
    return {
        "equation": found.equation,
        "equation_pressure_kPa": found.equation_kPa,
        "hydrostatic_kPa": found.head_kPa,
        "design_pressure_kPa": found.design_kPa,
    }


@adapter("placement/constants-of-the-si-equations")
def si_constants(row: Row) -> Row:
    """The inch-pound constants converted, to set beside the printed metric ones."""
    k = convert(1.0, "psf", "kPa")
    rate = 5 / 9 / 0.3048  # a rate over a temperature: ft/h and °F as m/h and °C
    return {
        "kPa_for_150psf": 150 * k,
        "coef_9000": 9000 * k * rate,
        "coef_43400": 43400 * k * 5 / 9,
        "coef_2800": 2800 * k * rate,
        "kPa_for_600psf": 600 * k,
    }


@adapter("placement/form-pressure-field-graph-worked-example")
def field_graph(row: Row) -> Row:
    """An older field graph; read to the nearest 100 psf, it is the base equation."""
    area = row["wall_length_ft"] * row["wall_thickness_ft"]
    R = placing_rates.rate_of_rise_ft_per_h(
        row["placing_rate_yd3_per_h"], row["wall_length_ft"], row["wall_thickness_ft"] * 12
    )
    return {
        "plan_area_ft2": area,
        "rate_of_placing_ft_per_h": R,
        "max_pressure_from_graph_psf": fp.slow_wall_psf(1.0, 1.0, R, row["concrete_temp_F"]),
    }


@adapter("placement/when-the-formulas-do-not-apply")
def liquid(row: Row) -> Row:
    """Above 7 in of slump the head stands alone."""
    found = fp.wall_pressure(
        _sheet(), w_pcf=row["unit_weight_pcf"], h_ft=row["height_ft"], R=3.0, T=70.0, C_c=1.0, slump_in=row["slump_in"]
    )
    return {"equation": "w*h" if found.equation == "a" else found.equation, "coefficients_applied": found.equation != "a",
            "pressure_psf": found.design_psf}  # fmt: skip


@adapter("placement/hydrostatic-pressure")
def head(row: Row) -> Row:
    """Liquid head in two units."""
    p = fp.liquid_head_psf(row["unit_weight_pcf"], row["depth_ft"])
    return {"pressure_psf": p, "pressure_psi": p / 144}


@adapter("placement/height-of-a-liquid-lift-that-reaches-600-psf")
def lift_height(row: Row) -> Row:
    """Depth of liquid for a pressure."""
    return {"lift_height_ft": fp.depth_of_pressure_ft(row["pressure_psf"], row["unit_weight_pcf"])}


@adapter("placement/largest-rate-for-a-600-psf-form", "placement/largest-rate-for-a-600-psf-form-retarder")
def largest_rate(row: Row) -> Row:
    """The equation turned round."""
    return {
        "max_rate_ft_per_h": fp.largest_rate_ft_per_h(
            row["allowable_pressure_psf"], row["Cc"], row.get("Cw", 1.0), row["concrete_temp_F"]
        )
    }


@adapter("placement/pressure-sensitivity-to-temperature")
def temperature(row: Row) -> Row:
    """One wall warm and cold."""

    def at(T: float) -> float:
        return fp.wall_pressure(
            _sheet(),
            w_pcf=row.get("unit_weight_pcf", 150.0),
            h_ft=row["placement_height_ft"],
            R=row["rate_ft_per_h"],
            T=T,
            C_c=1.0,
        ).design_psf

    warm, cold = at(row["T_warm_F"]), at(row["T_cold_F"])
    return {"p_warm_psf": warm, "p_cold_psf": cold, "ratio": cold / warm}


@adapter("placement/load-on-one-form-web-or-tie")
def web(row: Row) -> Row:
    """Tributary area."""
    return {
        "web_force_lb": placing_rates.web_force_lb(
            row["pressure_psf"], row["horizontal_module_in"], row["vertical_module_in"]
        )
    }


@adapter("placement/pump-rate-to-rate-of-rise")
def pump(row: Row) -> Row:
    """A whole wall without openings."""
    Q, L, t, H = row["pump_rate_yd3_per_h"], row["wall_length_ft"], row["core_thickness_in"], row["wall_height_ft"]
    volume = placing_rates.wall_volume_yd3(L * H, t)
    return {
        "rate_of_rise_ft_per_h": placing_rates.rate_of_rise_ft_per_h(Q, L, t),
        "wall_volume_yd3": volume,
        "time_per_pass_min": placing_rates.pass_minutes(Q, L, t, row["lift_height_ft"]),
        "passes": placing_rates.passes(H, row["lift_height_ft"]),
        "total_time_h": volume / Q,
    }


@adapter("placement/wall-form-bracing")
def bracing(row: Row) -> Row:
    """A brace at a height and an angle."""
    R = placing_rates.brace_reaction_plf(row["top_load_plf"], row["form_height_ft"], row["brace_height_ft"])
    N = placing_rates.brace_axial_lb(R, row["brace_spacing_ft"], row["brace_angle_deg"])
    return {
        "reaction_plf": R,
        "brace_axial_lb": N,
        "vertical_component_lb": placing_rates.brace_vertical_lb(N, row["brace_angle_deg"]),
    }


@adapter("placement/wind-against-the-100-plf-minimum")
def wind(row: Row) -> Row:
    """Wind brought to the top against the minimum."""
    w, H = row["wind_psf"], row["form_height_ft"]
    return {"equivalent_top_load_plf": w * H / 2, "governing_top_load_plf": placing_rates.bracing_load_plf(w, H)}


@adapter("placement/gable-geometry")
def gable(row: Row) -> Row:
    """A symmetric gable from its base, pitch, course and block."""
    W, p, h_c, block, t = (
        row[k] for k in ("base_width_ft", "pitch_in_per_12", "course_height_in", "block_length_in", "core_thickness_in")
    )
    Q, lift = row["pump_rate_yd3_per_h"], row["lift_ft"]
    H = gables.rise_ft(W, p)
    c, N, rake = gables.setback_in(h_c, p), gables.courses(H, h_c), gables.rake_ft(W, p)
    lows = [gables.course_edges_in(W, c, n)[0] for n in range(1, N + 1)]
    return {
        "rise_ft": H,
        "slope_angle_deg": gables.slope_deg(p),
        "rake_length_each_ft": rake,
        "cut_length_both_faces_both_rakes_ft": 4 * rake,
        "gable_area_ft2": gables.gable_area_ft2(W, H),
        "courses": N,
        "setback_per_course_in": c,
        "offcut_triangle_area_in2": h_c * c / 2,
        "concrete_yd3": placing_rates.wall_volume_yd3(gables.gable_area_ft2(W, H), t),
        "blocks_without_reuse": sum(ceil(low / block - 1e-9) for low in lows),
        "blocks_with_offcut_reuse_per_course": sum(max(1, ceil((low - c) / block - 1e-9)) for low in lows),
        "blocks_area_lower_bound": ceil(144 * W * H / 2 / (block * h_c) - 1e-9),
        "first_lift_volume_yd3": gables.lift_volume_yd3(W, H, t, 0.0, lift),
        "pump_rate_for_4_ft_per_h_at_base_yd3_per_h": 4 * W * t / 12 / 27,
        "lifts": placing_rates.passes(H, lift),
        "rise_rate_at_base_ft_per_h": gables.gable_rate_ft_per_h(Q, W, 0.0, H, t),
        "rise_rate_at_mid_height_ft_per_h": gables.gable_rate_ft_per_h(Q, W, H / 2, H, t),
    }


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
    """By section."""
    return {
        "min_concrete_temp_as_placed_and_maintained_F": placing_practice.least_concrete_temperature_F(row["section"])
    }


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
    names = row["SDC"].replace("or", ",").split(",")
    found = {veneer_limits(name.strip()) for name in names}
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
