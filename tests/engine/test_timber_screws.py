"""Wood screws in single shear."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us.timber_bearing_strength import FE_LIGHT_SHEET_PSI
from engine.clauses.us.timber_materials import wood_screw
from engine.clauses.us.timber_screws import least_penetration_in, screw_bearing_length_in, screw_capacity
from engine.clauses.us.timber_yield import Joint, single_shear
from engine.errors import BadInput, OutOfScope
from engine.worksheet import Worksheet

SILENT = Worksheet(recording=False)
GAUGES = (6, 7, 8, 9, 10, 12, 14, 16, 18)

# NDS 2018 Table 12L, wood side member 1/2 in, penetration 10 D: Z in lb. provenance: memory.
SPECIFIC_GRAVITIES = (0.67, 0.55, 0.50, 0.43, 0.42, 0.36)
TABLE_12L = {
    6: (88, 67, 59, 49, 47, 40),
    8: (107, 82, 73, 61, 59, 50),
    10: (130, 101, 90, 75, 73, 63),
    12: (156, 123, 110, 93, 91, 78),
    14: (168, 133, 120, 102, 99, 86),
}


@pytest.mark.parametrize("gauge", TABLE_12L)
def test_screws_through_half_inch_wood_carry_what_the_table_prints(gauge) -> None:
    p = 10 * wood_screw(gauge).D_in
    for G, Z_lb in zip(SPECIFIC_GRAVITIES, TABLE_12L[gauge], strict=True):
        assert abs(screw_capacity(SILENT, gauge, G, 0.5, p, side="wood").Z_lb - Z_lb) <= 0.5


def test_half_the_tip_is_left_out_below_ten_diameters() -> None:
    D = wood_screw(10).D_in
    assert screw_bearing_length_in(10 * D, D) == 10 * D
    assert screw_bearing_length_in(1.38, 0.138) == 1.38  # 10 x 0.138 is a hair above 1.38 in floats
    assert screw_bearing_length_in(1.5, D) == pytest.approx(1.5 - 0.19)


def test_a_screw_short_of_six_diameters_is_refused() -> None:
    least = least_penetration_in(wood_screw(10).D_in)
    assert least == pytest.approx(1.14)
    assert screw_capacity(SILENT, 10, 0.5, 0.105, least).Z_lb > 0
    with pytest.raises(OutOfScope, match=r"1\.14 in"):
        screw_capacity(SILENT, 10, 0.5, 0.105, least - 0.01)


def test_a_steel_side_plate_is_the_single_shear_joint_of_its_root_diameter() -> None:
    found = screw_capacity(SILENT, 10, 0.50, 0.105, 1.5)
    by_hand = Joint(0.152, 0.190, 1.31, 0.105, 4650, FE_LIGHT_SHEET_PSI, 80000, 90)
    assert found.Z_lb == pytest.approx(single_shear(SILENT, by_hand).Z_lb, rel=1e-12)
    assert found.l_m_in == pytest.approx(1.31)
    assert screw_capacity(SILENT, 10, 0.50, 0.105, 1.5, F_es_psi=50000).Z_lb < found.Z_lb


def test_the_side_member_may_be_another_wood() -> None:
    like = screw_capacity(SILENT, 8, 0.50, 0.75, 1.64, side="wood")
    soft = screw_capacity(SILENT, 8, 0.50, 0.75, 1.64, side="wood", G_side=0.36)
    assert soft.Z_lb < like.Z_lb


def test_grain_counts_only_from_a_quarter_inch_up() -> None:
    for gauge in GAUGES:
        p = 10 * wood_screw(gauge).D_in
        along = screw_capacity(SILENT, gauge, 0.5, 0.105, p, theta_deg=0).Z_lb
        across = screw_capacity(SILENT, gauge, 0.5, 0.105, p, theta_deg=90).Z_lb
        assert (along > across) == (gauge >= 16)


@given(st.sampled_from(GAUGES), st.floats(0.31, 0.73), st.floats(0.03, 0.25), st.floats(6, 14), st.floats(0, 3))
def test_foam_under_the_plate_never_helps_a_screw(gauge, G, t, diameters, gap) -> None:
    p = diameters * wood_screw(gauge).D_in
    tight = screw_capacity(SILENT, gauge, G, t, p).Z_lb
    assert 0 < screw_capacity(SILENT, gauge, G, t, p, g_in=gap).Z_lb <= tight * (1 + 1e-9)


@given(st.sampled_from(GAUGES), st.floats(0.31, 0.73), st.floats(0.03, 0.25), st.floats(6, 14), st.floats(6, 14))
def test_a_longer_screw_never_carries_less(gauge, G, t, one, other) -> None:
    D = wood_screw(gauge).D_in
    short, long = sorted((one, other))
    assert screw_capacity(SILENT, gauge, G, t, long * D).Z_lb >= screw_capacity(SILENT, gauge, G, t, short * D).Z_lb * (
        1 - 1e-9
    )


def test_an_unknown_gauge_is_refused_by_name() -> None:
    with pytest.raises(BadInput, match="6, 7, 8, 9, 10, 12, 14, 16, 18"):
        screw_capacity(SILENT, 11, 0.5, 0.105, 1.5)


@pytest.mark.parametrize(("field", "value"), [("side", "foam"), ("t_side_in", 0.0), ("p_in", -1.0)])
def test_a_side_member_that_cannot_be_is_refused(field, value) -> None:
    joint = {"t_side_in": 0.105, "p_in": 1.5, "side": "steel", field: value}
    with pytest.raises(BadInput) as refused:
        screw_capacity(SILENT, 10, 0.5, **joint)
    assert refused.value.field == field
