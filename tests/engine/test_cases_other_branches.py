"""Published topics of concrete and placing at inputs no published row has: other branches, other words, fewer inputs."""

from math import sqrt
from typing import Any

import pytest

from engine.clauses.us import form_pressure_si as si
from engine.errors import BadInput
from engine.proving import ADAPTERS, _load_adapters, own_cases
from engine.worksheet import Worksheet

SHEAR = "concrete/group-shear-breakout-toward-an-edge"
GABLE = "placement/gable-geometry"
COLD = "placement/minimum-concrete-temperature-thin-section"
CAST = "placement/tolerance-cast-concrete"


def asked(topic: str, **inputs: Any) -> Any:
    _load_adapters()
    return ADAPTERS[topic](inputs)


def test_a_narrow_thin_part_counts_a_shorter_edge_distance_in_every_term() -> None:
    """ACI 318-19 17.7.2.1.2: c_a2 = 6 and h_a = 6 are both below 1.5 x 12, so c'_a1 = max(6 / 1.5, 6 / 1.5, 4 / 3) = 4 in."""
    found = asked(
        SHEAR, fc_psi=4000, lambda_a=1.0, da_in=0.75, le_in=6.0, ca1_in=12, s_perp_in=4, ca2_in=6, ha_in=6, n_front=2,
        cracked_no_supp_reinf=True, phi=0.7,
    )  # fmt: skip
    assert found["AVco_in2"] == pytest.approx(4.5 * 4**2)  # 72
    assert found["AVc_in2"] == pytest.approx((6 + 4 + 6) * 6)  # 96
    V_b = min(7 * 8**0.2 * sqrt(0.75), 9) * sqrt(4000) * 4**1.5 / 1000  # 9 governs: 4.554 kip
    assert found["Vb_kip"] == pytest.approx(V_b)
    assert V_b == pytest.approx(4.554, abs=0.001)
    assert (found["psi_ed"], found["psi_h"]) == (1.0, 1.0)  # 6 = 1.5 x 4 both ways
    assert found["Vcbg_kip"] == pytest.approx(96 / 72 * V_b)  # 6.072
    assert found["phiVcbg_kip"] == pytest.approx(4.250, abs=0.001)


@pytest.mark.parametrize(
    ("more", "equation"),
    [({"R": 4.5}, "c"), ({"R": 4.51}, "a"), ({"slump_mm": 175.0}, "b"), ({"slump_mm": 176.0}, "a"), ({"vibration_m": 1.3}, "a")],
)  # fmt: skip
def test_metric_concrete_beyond_the_limits_of_the_equations_is_liquid(more: dict[str, float], equation: str) -> None:
    """ACI 347-04 2.2.2, SI: to 4.5 m/h, 175 mm of slump and 1.2 m of vibration; the head is 2400 x 9.81 x 3 / 1000 = 70.63 kPa."""
    at = {"rho": 2400.0, "h": 3.0, "R": 1.0, "T": 20.0, "C_c": 1.0} | more
    found = si.wall_pressure_si(Worksheet(recording=False), **at)
    assert found.equation == equation
    assert found.head_kPa == pytest.approx(70.632)
    if equation == "a":
        assert (found.design_kPa, found.equation_kPa) == (found.head_kPa, None)


def test_a_metric_case_above_the_fastest_rate_is_answered_with_the_head() -> None:
    found = asked("placement/form-pressure-wall-si-relations", rate_m_per_h=5.0, concrete_temp_C=20, placement_height_m=2.0,
                  density_kg_per_m3=2300, Cc=1.2)  # fmt: skip
    assert found["equation"] == "a"
    assert found["equation_pressure_kPa"] is None
    assert found["design_pressure_kPa"] == pytest.approx(2300 * 9.81 * 2 / 1000)  # 45.13


def test_a_bracket_takes_the_lever_its_case_states() -> None:
    """V_u = 1.2 x 24 + 1.6 x 37.5 = 88.8, N_uc = 0.2 x 88.8 = 17.76 (no T), M_u = 88.8 x 3 + 17.76 x 1.5 = 293.04 kip-in;
    A_f = 293.04 / (0.75 x 60 x 0.85 x 13.5) = 293.04 / 516.375 = 0.567495 in² (ACI 318-19 16.5.4.5)."""
    found = asked("placement/column-corbel-14-in-wide-with-horizontal-force", PD_kip=24, PL_kip=37.5, b_in=14, h_in=15, d_in=13.5,
                  av_in=3.0, fc_psi=5000, fy_psi=60000, arm_over_d=0.85)  # fmt: skip
    assert found["Mu_kip_in"] == pytest.approx(293.04)
    assert found["Af_in2"] == pytest.approx(0.567495, abs=1e-6)


def test_a_metric_bracket_takes_the_lever_its_case_states() -> None:
    """V_n = 650 / 0.75 = 866.67 kN over min(7, 6.1, 11) = 6.1 MPa x 400 mm: d = 355.2, 356 mm used; M_u = 650 x 0.125 = 81.25 kN·m;
    A_f = 81.25e6 / (0.75 x 415 x 0.8 x 356) = 916.6 mm² (ACI 318M-19 16.5)."""
    found = asked("placement/column-corbel-si-case-1", Vu_kN=650, av_mm=125, b_mm=400, fc_MPa=35, fy_MPa=415, cover_to_bar_mm=10,
                  bar_mm=28, arm_over_d=0.8)  # fmt: skip
    assert found["Af_mm2"] == pytest.approx(81.25e6 / (0.75 * 415 * 0.8 * 356))


def test_a_first_lift_higher_than_the_gable_ends_at_its_peak() -> None:
    """36 ft at 4 in 12 rises 6 ft: 36 x 6 / 2 = 108 ft² of a 4 in core are 108 x 4 / 12 / 27 = 1.3333 yd³."""
    found = asked(
        GABLE,
        base_width_ft=36,
        pitch_in_per_12=4,
        course_height_in=16,
        block_length_in=48,
        core_thickness_in=4,
        lift_ft=8,
    )
    assert found["first_lift_volume_yd3"] == pytest.approx(4 / 3)
    assert found["lifts"] == 1


def test_a_gable_without_a_pump_or_core_is_still_laid_out() -> None:
    found = asked(GABLE, base_width_ft=28, pitch_in_per_12=6, course_height_in=16, block_length_in=48)
    assert (found["courses"], found["blocks_without_reuse"]) == (6, 24)
    assert "rise_rate_at_base_ft_per_h" not in found
    assert "concrete_yd3" not in found


@pytest.mark.parametrize(
    ("words", "fahrenheit"),
    [("under 12 in", 55), ("< 12 in", 55), ("12-36 in", 50), ("12 to 36 in", 50), ("36-72 in", 45),
     ("over 72 in", 40), ("> 72 in", 40)],
)  # fmt: skip
def test_a_section_is_known_however_its_range_is_written(words: str, fahrenheit: int) -> None:
    """ACI 306R Table 3.1: 55, 50, 45 and 40 °F."""
    assert asked(COLD, section=words)["min_concrete_temp_as_placed_and_maintained_F"] == fahrenheit


@pytest.mark.parametrize(
    ("item", "plus", "minus"),
    [("wall thickness over 12 in", 0.5, 0.375), ("wall thickness, 12 in or less", 0.375, 0.25), ("plumb, height to 100 ft", 1, 1),
     ("bar position, member 4-12 in thick", 0.375, 0.375), ("formed soffit elevation", 0.75, 0.75), ("lintels", 0.5, 0.5)],
)  # fmt: skip
def test_a_tolerance_is_known_by_the_words_of_its_item(item: str, plus: float, minus: float) -> None:
    """ACI 117-90 section 4 as carried in guide specification 03700; bars by ACI 117-06."""
    found = asked(CAST, item=item)
    assert (found["plus_in"], found["minus_in"]) == (plus, minus)


def test_nothing_counts_as_liquid_without_a_reason() -> None:
    """ACI 347-04 2.2.2: 7 in of slump is still within the equations, and no rate is given to use them with."""
    with pytest.raises(BadInput, match="liquid"):
        asked("placement/when-the-formulas-do-not-apply", slump_in=7, unit_weight_pcf=150, height_ft=12)
    assert asked("placement/when-the-formulas-do-not-apply", slump_in=7.5, height_ft=12)["pressure_psf"] == 1800


def test_seismic_categories_may_be_written_as_a_range() -> None:
    """IRC Table R703.8(1): 30 ft, 5 in, 50 psf in A to C."""
    topic = "placement/veneer-limits-in-residential-code"
    assert asked(topic, SDC="A-C") == asked(topic, SDC="A, B or C")
    assert asked(topic, SDC="A-C")["max_height_ft"] == 30


@pytest.mark.parametrize(
    ("topic", "left_out"),
    [("concrete/bearing-a2-a1", ("phi",)), ("concrete/bearing-a2-a1", ("Pu_kip",)), ("concrete/anchor-steel-tension", ("phi",)),
     ("concrete/hooked-l-bolt-pullout", ("phi", "psi_cP")), (SHEAR, ("phi", "lambda_a")),
     ("concrete/effective-length-factor-and-limits", ("spacing_in",)), ("concrete/straight-bar-development-318-19", ("Ktr",)),
     ("placement/brick-ledge-as-corbel-per-foot-of-wall", ("phi", "mu", "load_factor", "Nuc_over_Vu")),
     ("placement/form-pressure-wall-base-table", ("unit_weight_pcf", "Cc", "placement_height_ft")),
     ("placement/form-pressure-wall-cold-concrete", ("unit_weight_pcf", "Cc", "slump_in", "vibration_depth_ft")),
     ("placement/shear-friction", ("phi",)), ("placement/largest-rate-for-a-600-psf-form", ("Cc", "Cw"))],
)  # fmt: skip
def test_a_case_that_leaves_out_what_the_rule_itself_says_gives_the_same(topic: str, left_out: tuple[str, ...]) -> None:
    """Each published row states the rule's own usual value, so its figures stand without it; figures that need it are not given."""
    case = next(c for c in own_cases() if c.topic == topic)
    full = asked(topic, **case.inputs)
    less = asked(topic, **{key: value for key, value in case.inputs.items() if key not in left_out})
    assert less
    assert less == {key: full[key] for key in less}
