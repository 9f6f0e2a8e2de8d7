"""Wood bearing across the grain, notches, shear at connections, adjustment factors."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import timber_bearing as bearing
from engine.clauses.us import timber_factors as factors
from engine.clauses.us import timber_members as members
from engine.errors import BadInput, OutOfScope
from engine.worksheet import Worksheet

sizes = st.floats(1.0, 16.0)


# NDS Table 3.10.4 (recalled; its formula read): 1/2 in 1.75, 1 in 1.38, 1 1/2 in 1.25, 2 in 1.19, 3 in 1.13, 6 in 1.00.
@pytest.mark.parametrize(
    ("l_b_in", "printed"), [(0.5, 1.75), (1, 1.38), (1.5, 1.25), (2, 1.19), (3, 1.13), (6, 1.0), (8, 1.0)]
)
def test_a_short_bearing_inside_a_member_is_helped_by_the_wood_beside_it(l_b_in, printed) -> None:
    assert abs(bearing.C_b(l_b_in, 3.0) - printed) <= 0.005 + 1e-12


def test_a_bearing_at_a_members_end_is_not_helped() -> None:
    assert bearing.C_b(1.5, 0.0) == bearing.C_b(1.5, 2.99) == 1.0


# Hand formula, NDS 3.10.2: Southern Pine 565 psi, 2 1/2 in by 3 1/2 in, as a formwork textbook works it (4,943 lb truncated).
def test_bearing_load_is_stress_times_area_and_factors() -> None:
    assert bearing.bearing_perpendicular_lb(565, 1, 1, 1, 2.5, 3.5) == pytest.approx(4943.75, rel=1e-12)
    assert bearing.bearing_perpendicular_lb(565, 0.67, 0.8, 1.25, 2.5, 3.5) == pytest.approx(
        4943.75 * 0.67 * 0.8 * 1.25, rel=1e-12
    )


def test_a_washer_bears_on_its_ring() -> None:
    # 2 in square washer, 11/16 in hole, Douglas Fir-Larch: (4 - 0.3712) x 625
    assert bearing.washer_bearing_lb(625, 1, 1, 1, 4.0, 0.6875) == pytest.approx(2267.98, abs=0.01)
    with pytest.raises(BadInput):
        bearing.washer_bearing_lb(625, 1, 1, 1, 0.3, 0.6875)


# Hand figures: 2x10 Douglas Fir-Larch, 180 psi: 1,665 lb whole, 702 lb with a quarter cut up from below (0.75³ = 42 %).
def test_a_quarter_cut_from_below_leaves_two_fifths_of_the_shear() -> None:
    whole = members.shear_lb(180, 1.5, 9.25)
    cut = members.notched_shear_lb(180, 1.5, 0.75 * 9.25, 9.25)
    assert whole == pytest.approx(1665, rel=1e-12)
    assert cut == pytest.approx(whole * 0.75**3, rel=1e-12)
    assert round(cut) == 702


@given(sizes, st.floats(0.1, 1.0), st.floats(0.1, 1.0))
def test_a_deeper_notch_never_leaves_more_shear(d, one, other) -> None:
    deep, shallow = sorted((one * d, other * d))
    assert members.notched_shear_lb(180, 1.5, deep, d) <= members.notched_shear_lb(180, 1.5, shallow, d) * (1 + 1e-9)


@given(sizes, st.floats(0.1, 1.0), st.floats(0.0, 20.0))
def test_a_top_notch_lies_between_its_own_depth_and_the_whole(d, part, e) -> None:
    d_n = part * d
    value = members.top_notched_shear_lb(180, 1.5, d_n, d, e)
    own, whole = members.shear_lb(180, 1.5, d_n), members.shear_lb(180, 1.5, d)
    assert own * (1 - 1e-9) <= value <= whole * (1 + 1e-9)
    if e >= d_n:
        assert value == pytest.approx(own, rel=1e-9)


def test_a_notch_deeper_than_the_member_is_refused() -> None:
    with pytest.raises(BadInput) as refused:
        members.notched_shear_lb(180, 1.5, 10, 9.25)
    assert refused.value.field == "d_n_in"


# NDS 3.4.3.3, a 2x10 ledger with its lowest bolt 1 1/2 in above the bottom (unloaded) edge: d_e = 9.25 - 1.5 = 7.75 in.
def test_shear_at_a_bolt_is_reduced_only_near_the_members_end() -> None:
    far = members.shear_at_connection_lb(180, 1.5, 7.75, 9.25, 46.25)
    near = members.shear_at_connection_lb(180, 1.5, 7.75, 9.25, 46.24)
    assert far == pytest.approx(2 / 3 * 180 * 1.5 * 7.75, rel=1e-12)
    assert near == pytest.approx(far * (7.75 / 9.25) ** 2, rel=1e-12)


def test_bending_is_stress_times_section_modulus() -> None:
    assert members.bending_lb_in(900, 1.5, 9.25) == pytest.approx(900 * 1.5 * 9.25**2 / 6, rel=1e-12)


# AWC guidance on notches, NDS 4.4.3: d/6 deep, d/3 long along the member; d/4 over the support. NDS 5.4.5 for glued laminated.
def test_notch_limits_follow_the_depth() -> None:
    assert members.notch_depth_limit_in(9.25) == pytest.approx(1.5417, abs=1e-4)
    assert members.notch_length_limit_in(9.25) == pytest.approx(3.0833, abs=1e-4)
    assert members.end_notch_depth_limit_in(9.25) == 2.3125
    assert members.glulam_notch_limit_in(24, top=False) == pytest.approx(2.4)
    assert members.glulam_notch_limit_in(40, top=False) == 3.0
    assert members.glulam_notch_limit_in(24, top=True) == pytest.approx(9.6)


# NDS Supplement Table 4A in a formwork textbook's Table 4-5: F_c⊥ 0.67, F_v 0.97, F_b 0.85; Tables 2.3.3, 4.3.8 recalled.
def test_wet_hot_or_incised_wood_carries_less() -> None:
    assert factors.C_M_stress("F_c_perp", "sawn", wet=True) == 0.67
    assert factors.C_M_stress("F_v", "sawn", wet=True) == 0.97
    assert factors.C_M_stress("F_c_perp", "glulam", wet=True) == 0.53
    assert factors.C_M_stress("F_c_perp", "sawn", wet=False) == 1.0
    assert [factors.C_t(t, wet=False) for t in (70, 100, 101, 126, 150)] == [1.0, 1.0, 0.8, 0.7, 0.7]
    assert [factors.C_t(t, wet=True) for t in (70, 101, 126)] == [1.0, 0.7, 0.5]
    assert factors.C_i("F_v", incised=True) == 0.8
    assert factors.C_i("F_c_perp", incised=True) == 1.0
    with pytest.raises(OutOfScope, match="150"):
        factors.C_t(151, wet=False)
    with pytest.raises(BadInput, match="F_b"):
        factors.C_M_stress("F_t", "sawn", wet=True)


# NDS 2018 Table 11.3.3, recalled.
@pytest.mark.parametrize(
    ("made_wet", "wet_in_service", "D_in", "free", "factor"),
    [
        (False, False, 0.625, False, 1.0),
        (True, False, 0.625, False, 0.4),
        (True, False, 0.625, True, 1.0),
        (True, False, 0.190, False, 0.7),
        (False, True, 0.625, True, 0.7),
        (True, True, 0.625, True, 0.7),
    ],
)
def test_a_ledger_bolted_green_in_two_rows_loses_most(made_wet, wet_in_service, D_in, free, factor) -> None:
    assert factors.C_M_connection(made_wet, wet_in_service, D_in, free) == factor


# NDS 2018 Table 11.3.6A, D 1 in, s 4 in, E 1,400,000 psi, A_s 5 in², A_s / A_m 0.5: n 2 to 8. provenance: memory.
def test_group_action_is_what_the_table_prints() -> None:
    printed = [0.98, 0.92, 0.84, 0.75, 0.68, 0.61, 0.55]
    EA_s = 1.4e6 * 5
    sheet = Worksheet()
    for n, expected in enumerate(printed, 2):
        found = factors.group_action(sheet, n=n, D_in=1.0, s_in=4.0, EA_m_lb=2 * EA_s, EA_s_lb=EA_s, metal=False)
        assert abs(found - expected) <= 0.005


@given(
    st.integers(2, 20), st.floats(0.25, 1.0), st.floats(2, 12), st.floats(1e6, 1e9), st.floats(1e6, 1e9), st.booleans()
)
def test_a_longer_row_never_shares_better(n, D_in, s_in, EA_m_lb, EA_s_lb, metal) -> None:
    row = {"D_in": D_in, "s_in": s_in, "EA_m_lb": EA_m_lb, "EA_s_lb": EA_s_lb, "metal": metal}
    sheet = Worksheet(recording=False)
    longer = factors.group_action(sheet, n=n + 1, **row)
    assert 0 < longer <= factors.group_action(sheet, n=n, **row) * (1 + 1e-9)
    assert longer <= 1 + 1e-9


def test_one_fastener_or_small_ones_share_fully() -> None:
    row = {"s_in": 4.0, "EA_m_lb": 1e7, "EA_s_lb": 1e7, "metal": False}
    sheet = Worksheet()
    assert factors.group_action(sheet, n=1, D_in=0.5, **row) == 1.0
    assert factors.group_action(sheet, n=9, D_in=0.242, **row) == 1.0
    assert not sheet.take()


def test_the_geometry_factor_falls_with_the_distance_and_stops_at_the_least() -> None:
    assert factors.C_Delta(2.5, 1.25, 2.5) == factors.C_Delta(9, 1.25, 2.5) == 1.0
    assert factors.C_Delta(1.875, 1.25, 2.5) == 0.75
    assert factors.C_Delta(1.25, 1.25, 2.5) == 0.5
    assert factors.C_Delta(1.2, 1.25, 2.5) == 0.0


def test_an_adjusted_value_is_the_product_of_its_factors() -> None:
    assert factors.adjusted_Z_lb(525, 1.6, 0.7, 0.8, 0.97, 0.5, 0.67) == pytest.approx(
        525 * 1.6 * 0.7 * 0.8 * 0.97 * 0.5 * 0.67, rel=1e-12
    )
    assert factors.adjusted_stress_psi(180, 1.15, 0.97, 1, 0.8) == pytest.approx(180 * 1.15 * 0.97 * 0.8, rel=1e-12)
