"""Adapters for form pressure, rates of rise, web forces and bracing."""

from collections.abc import Mapping
from typing import Any

from engine.clauses.us import form_pressure as fp
from engine.clauses.us import form_pressure_si as si
from engine.clauses.us import placing_rates
from engine.errors import BadInput
from engine.proving import adapter
from engine.units import convert
from engine.worksheet import Worksheet

Row = Mapping[str, Any]
USUAL = {"unit_weight_pcf": 150.0, "Cc": 1.0, "Cw": 1.0}  # ACI 347-04 Tables 2.1 and 2.2: plain concrete, no retarder
PRESSURES = (
    "above-15-ft-h", "cold-concrete", "deep-vibration", "fast-7-15-ft-h", "heavy-160-pcf", "high-slag-with-retarder",
    "lightweight-115-pcf", "normal-icf-storey-lift", "retarding-superplasticizer", "single-4-ft-lift-capped-by-head",
    "slump-over-7-in", "tall-wall-over-14-ft-slow",
)  # fmt: skip


def _sheet() -> Worksheet:
    return Worksheet(recording=False)


@adapter(*(f"placement/form-pressure-wall-{name}" for name in PRESSURES), usual=USUAL)
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


@adapter("placement/form-pressure-wall-base-table", usual={**USUAL, "placement_height_ft": 14.0})
def base_table(row: Row) -> Row:
    """The table prints the equation itself; below 7 ft/h that of walls to 14 ft."""
    R, T, weight = row["rate_ft_per_h"], row["concrete_temp_F"], fp.unit_weight_factor(row["unit_weight_pcf"])
    slow = R <= fp.SLOW_FT_PER_H and row["placement_height_ft"] <= fp.TALL_FT
    equation = fp.slow_wall_psf if slow else fp.fast_wall_psf
    base = equation(row["Cc"], weight, R, T)
    head = fp.liquid_head_psf(row["unit_weight_pcf"], row["placement_height_ft"])
    return {"base_pressure_psf": base, "design_pressure_with_600_floor_psf": fp.design_pressure_psf(head, base, weight)}


@adapter("placement/form-pressure-continuity-of-the-two-wall-equations")
def continuity(row: Row) -> Row:
    """Both equations at one rate."""
    R, T = row["rate_ft_per_h"], row["concrete_temp_F"]
    return {"eq_b_psf": fp.slow_wall_psf(1.0, 1.0, R, T), "eq_c_psf": fp.fast_wall_psf(1.0, 1.0, R, T)}


@adapter("placement/form-pressure-wall-si-relations", usual={"density_kg_per_m3": 2400.0, "Cc": 1.0})
def si_relations(row: Row) -> Row:
    """The SI set."""
    found = si.wall_pressure_si(
        _sheet(), rho=row["density_kg_per_m3"], h=row["placement_height_m"], R=row["rate_m_per_h"], T=row["concrete_temp_C"],
        C_c=row["Cc"], slump_mm=row.get("slump_mm", 150.0), vibration_m=row.get("vibration_depth_m", 1.2),
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
    k = row.get("psf_to_kPa", convert(1.0, "psf", "kPa"))
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


@adapter("placement/when-the-formulas-do-not-apply", usual=USUAL)
def liquid(row: Row) -> Row:
    """Where the concrete counts as liquid the head stands alone, without coefficients."""
    slump, depth, R = row.get("slump_in", 0.0), row.get("vibration_depth_ft", 0.0), row.get("rate_ft_per_h", 0.0)
    if not fp.liquid_reasons(slump_in=slump, vibration_ft=depth, R=R):
        raise BadInput("slump_in", "Nothing given makes this concrete count as liquid.")
    head = fp.liquid_head_psf(row["unit_weight_pcf"], row["height_ft"])
    return {"equation": "w*h", "coefficients_applied": False, "pressure_psf": head}


@adapter("placement/hydrostatic-pressure")
def head(row: Row) -> Row:
    """Liquid head in two units."""
    p = fp.liquid_head_psf(row["unit_weight_pcf"], row["depth_ft"])
    return {"pressure_psf": p, "pressure_psi": p / 144}


@adapter("placement/height-of-a-liquid-lift-that-reaches-600-psf")
def lift_height(row: Row) -> Row:
    """Depth of liquid for a pressure."""
    return {"lift_height_ft": fp.depth_of_pressure_ft(row["pressure_psf"], row["unit_weight_pcf"])}


@adapter("placement/largest-rate-for-a-600-psf-form", "placement/largest-rate-for-a-600-psf-form-retarder", usual=USUAL)
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
