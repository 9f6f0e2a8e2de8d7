"""Dowels in wood: bearing strength, reduction terms, yield modes in contact and over a gap."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import timber_bearing_strength as strength
from engine.clauses.us import timber_dowels as nds
from engine.clauses.us import timber_gap as tr12
from engine.clauses.us.timber_yield import Joint, double_shear, reduction_terms, single_shear, yield_modes
from engine.errors import BadInput, OutOfScope
from engine.worksheet import Worksheet

SILENT = Worksheet(recording=False)

# A 2x ledger of Douglas Fir-Larch on concrete, 5/8 in bolt, load across the grain.
LEDGER = Joint(0.625, 0.625, 6.0, 1.5, 7500.0, 2800.0, 45000.0, 90.0)

bolt_diameters = st.floats(0.25, 1.0)
bearing_lengths = st.floats(0.5, 8.0)
bearing_strengths = st.floats(1000.0, 90000.0)
angles = st.floats(0.0, 90.0)
gaps = st.floats(0.01, 4.0)
joints = st.builds(
    lambda D, l_m, l_s, F_em, F_es, F_yb, theta: Joint(D, D, l_m, l_s, F_em, F_es, F_yb, theta),
    bolt_diameters,
    bearing_lengths,
    bearing_lengths,
    bearing_strengths,
    bearing_strengths,
    st.floats(30000.0, 130000.0),
    angles,
)


# NDS Table 12.3.3, G 0.50 and 0.43, seen in public notes on the 2024 edition: 5,600; 3,650 at 3/8; 4,450 at 1/4; 4,800; 2,550.
@pytest.mark.parametrize(
    ("G", "D_in", "theta_deg", "F_e_psi"),
    [
        (0.50, 0.5, 0, 5600),
        (0.50, 0.375, 90, 3650),
        (0.50, 0.25, 90, 4450),
        (0.43, 0.5, 0, 4800),
        (0.43, 0.5, 90, 2550),
    ],
)
def test_bearing_strength_of_wood_is_what_the_table_prints(G, D_in, theta_deg, F_e_psi) -> None:
    assert strength.fe_wood_psi(G, D_in, theta_deg) == F_e_psi


def test_grain_does_not_matter_to_a_fastener_below_a_quarter_inch() -> None:
    assert (
        strength.fe_wood_psi(0.50, 0.19, 0) == strength.fe_wood_psi(0.50, 0.19, 90) == 4650
    )  # 16,600 x 0.5^1.84 = 4,637
    assert strength.fe_wood_psi(0.50, 0.25, 0) != strength.fe_wood_psi(0.50, 0.25, 90)


def test_halfway_between_two_printed_strengths_is_rounded_up() -> None:
    assert strength.to_table_psi(4425.0) == 4450
    assert strength.to_table_psi(4424.9) == 4400


@given(st.floats(0.31, 0.73), bolt_diameters, angles)
def test_strength_at_an_angle_lies_between_along_and_across(G, D_in, theta_deg) -> None:
    along, across = strength.fe_wood_psi(G, D_in, 0), strength.fe_wood_psi(G, D_in, 90)
    low, high = sorted((along, across))
    assert low - 1e-9 <= strength.fe_wood_psi(G, D_in, theta_deg) <= high + 1e-9


def test_hankinson_at_45_degrees_is_the_harmonic_mean() -> None:
    assert strength.fe_at_angle_psi(5600, 2800, 45) == pytest.approx(2 / (1 / 5600 + 1 / 2800), rel=1e-12)


def test_an_angle_beyond_across_the_grain_is_refused() -> None:
    with pytest.raises(BadInput) as refused:
        strength.fe_wood_psi(0.5, 0.5, 91)
    assert refused.value.field == "theta_deg"


def test_bolts_in_weak_concrete_are_not_covered() -> None:
    assert strength.fe_concrete_psi(2500) == 7500  # NDS 2018 Table 12E footnote 3
    with pytest.raises(OutOfScope, match="2,500"):
        strength.fe_concrete_psi(2499)


def test_steel_side_plates_bear_as_the_tables_of_screws_assume() -> None:
    assert strength.fe_side_plate_psi(0.179) == 61850  # NDS Table 12K, ASTM A653 Grade 33
    assert strength.fe_side_plate_psi(0.25) == 87000  # ASTM A36
    assert strength.fe_steel_hot_rolled_psi(58000) == 87000
    assert strength.fe_steel_sheet_psi(45000) == 61875


# NDS Table 12.3.1B: 4, 3.6, 3.2 times K_θ from 1/4 in; K_D below; K_D K_θ where only the root is below (1/4 in lag screw: 2.23).
@pytest.mark.parametrize(
    ("D_nom_in", "D_in", "theta_deg", "terms"),
    [
        (0.5, 0.5, 0, (4.0, 3.6, 3.2)),
        (0.5, 0.5, 90, (5.0, 4.5, 4.0)),
        (0.5, 0.371, 45, (4.5, 4.05, 3.6)),
        (0.25, 0.173, 0, (2.23, 2.23, 2.23)),
        (0.25, 0.173, 90, (2.7875, 2.7875, 2.7875)),
        (0.190, 0.152, 90, (2.2, 2.2, 2.2)),
        (0.242, 0.196, 90, (2.46, 2.46, 2.46)),
    ],
)
def test_reduction_terms_follow_nominal_and_root_diameter(D_nom_in, D_in, theta_deg, terms) -> None:
    joint = LEDGER._replace(D_nom_in=D_nom_in, D_in=D_in, theta_deg=theta_deg)
    assert reduction_terms(SILENT, joint) == pytest.approx(terms, rel=1e-12)


def test_the_small_dowel_term_does_not_jump_where_its_two_branches_meet() -> None:
    assert nds.K_D(0.17) == pytest.approx(nds.K_D(0.17 + 1e-12), abs=1e-9)


def test_a_bolt_over_one_inch_is_not_covered() -> None:
    with pytest.raises(OutOfScope, match=r"12\.3\.1B"):
        single_shear(SILENT, LEDGER._replace(D_in=1.125, D_nom_in=1.125))


def test_thread_in_a_quarter_of_the_bearing_or_less_leaves_the_full_diameter() -> None:
    assert nds.yield_diameter_in(0.5, 0.406, 0.5, 2.0) == 0.5
    assert nds.yield_diameter_in(0.5, 0.406, 0.51, 2.0) == 0.406


# NDS 2018 Table 12E, 5/8 in bolt, Douglas Fir-Larch 1 1/2 in thick on concrete: 530 lb across, 930 lb along the grain.
def test_a_ledger_bolt_across_the_grain_crushes_the_ledger() -> None:
    found = single_shear(SILENT, LEDGER)
    assert found.mode == "Is"
    assert found.Z_lb == pytest.approx(0.625 * 1.5 * 2800 / 5, rel=1e-12)
    assert math.floor(found.Z_lb / 10 + 0.5) * 10 == 530
    along = single_shear(SILENT, LEDGER._replace(F_es_psi=5600.0, theta_deg=0.0))
    assert round(along.Z_lb / 10) * 10 == 930


# Hand figure: mode III_s with its quadratic terms swapped for those of III_m gives 631 lb where 648 lb is right.
def test_the_two_mode_iii_equations_are_not_swapped() -> None:
    found = yield_modes(
        SILENT, D_in=0.5, l_m_in=6, l_s_in=1.5, F_em_psi=7500, F_es_psi=5600, F_yb_psi=45000, theta_deg=0
    )
    assert round(found.modes["IIIs"]) == 648
    mirrored = yield_modes(
        SILENT, D_in=0.5, l_m_in=1.5, l_s_in=6, F_em_psi=5600, F_es_psi=7500, F_yb_psi=45000, theta_deg=0
    )
    assert mirrored.modes["IIIm"] == pytest.approx(found.modes["IIIs"], rel=1e-12)


@given(joints)
def test_turning_the_joint_around_swaps_main_and_side(joint) -> None:
    here = single_shear(SILENT, joint)
    there = single_shear(
        SILENT,
        joint._replace(l_m_in=joint.l_s_in, l_s_in=joint.l_m_in, F_em_psi=joint.F_es_psi, F_es_psi=joint.F_em_psi),
    )
    for mode, mirrored in (("Im", "Is"), ("II", "II"), ("IIIm", "IIIs"), ("IV", "IV")):
        assert here.modes[mode] == pytest.approx(there.modes[mirrored], rel=1e-9)


@given(joints)
def test_without_a_gap_the_general_equations_are_the_yield_limit_equations(joint) -> None:
    q = {
        "q_m_lb_per_in": tr12.main_resistance_lb_per_in(joint.F_em_psi, joint.D_in),
        "q_s_lb_per_in": tr12.side_resistance_lb_per_in(joint.F_es_psi, joint.D_in),
    }
    M = tr12.dowel_moment_lb_in(joint.F_yb_psi, joint.D_in)
    _, two, rest = reduction_terms(SILENT, joint)
    contact = single_shear(SILENT, joint).modes
    # both forms end in a difference of two like terms: what is left of 1e-12 is measured against the terms, not the difference
    scale = (q["q_m_lb_per_in"] * joint.l_m_in + q["q_s_lb_per_in"] * joint.l_s_in) / rest
    close = {"rel": 1e-12, "abs": 1e-12 * scale}
    assert contact["II"] == pytest.approx(
        tr12.gap_II_lb(**q, l_m_in=joint.l_m_in, l_s_in=joint.l_s_in, g_in=0, R_d=two), **close
    )
    assert contact["IIIm"] == pytest.approx(
        tr12.gap_IIIm_lb(**q, l_m_in=joint.l_m_in, M_lb_in=M, g_in=0, R_d=rest), **close
    )
    assert contact["IIIs"] == pytest.approx(
        tr12.gap_IIIs_lb(**q, l_s_in=joint.l_s_in, M_lb_in=M, g_in=0, R_d=rest), **close
    )
    assert contact["IV"] == pytest.approx(tr12.gap_IV_lb(**q, M_lb_in=M, g_in=0, R_d=rest), **close)


@given(joints, gaps, gaps)
def test_a_wider_gap_never_carries_more(joint, one, other) -> None:
    narrow, wide = sorted((one, other))
    contact = single_shear(SILENT, joint)
    near = single_shear(SILENT, joint._replace(g_in=narrow))
    far = single_shear(SILENT, joint._replace(g_in=wide))
    for mode in contact.modes:
        assert far.modes[mode] <= near.modes[mode] * (1 + 1e-9) <= contact.modes[mode] * (1 + 2e-9)


@pytest.mark.parametrize("name", ["F_em_psi", "F_es_psi", "F_yb_psi", "l_m_in", "l_s_in", "D_in"])
@given(joint=joints, gap=st.one_of(st.just(0.0), gaps), more=st.floats(1.0, 1.5))
def test_more_wood_or_a_stouter_bolt_never_carries_less(name, joint, gap, more) -> None:
    before = joint._replace(g_in=gap, D_in=min(joint.D_in, 0.66), D_nom_in=0.66)
    before = before._replace(D_in=max(before.D_in, 0.25))
    after = before._replace(**{name: getattr(before, name) * more})
    assert single_shear(SILENT, after).Z_lb >= single_shear(SILENT, before).Z_lb * (1 - 1e-9)


# AWC TR12 method applied to the ledger above: what foam left behind it costs, to the pound.
@pytest.mark.parametrize(("gap", "Z_lb"), [(0.0, 525), (0.5, 421), (1.0, 337), (2.0, 236), (2.5, 204), (2.625, 197)])
def test_foam_left_behind_a_ledger_costs_more_than_half_of_the_bolt(gap, Z_lb) -> None:
    assert round(single_shear(SILENT, LEDGER._replace(g_in=gap)).Z_lb) == Z_lb


def test_a_gap_leaves_the_crushing_modes_as_they_are() -> None:
    contact, apart = single_shear(SILENT, LEDGER), single_shear(SILENT, LEDGER._replace(g_in=2.5))
    assert (apart.modes["Im"], apart.modes["Is"]) == (contact.modes["Im"], contact.modes["Is"])


@given(joints, st.one_of(st.just(0.0), gaps))
def test_double_shear_is_two_planes_but_one_main_member(joint, gap) -> None:
    joint = joint._replace(g_in=gap)
    one, two = single_shear(SILENT, joint), double_shear(SILENT, joint)
    assert set(two.modes) == {"Im", "Is", "IIIs", "IV"}
    assert two.modes["Im"] == one.modes["Im"]
    for mode in ("Is", "IIIs", "IV"):
        assert two.modes[mode] == 2 * one.modes[mode]
    assert two.Z_lb == min(two.modes.values()) == two.modes[two.mode]


@given(joints, st.one_of(st.just(0.0), gaps))
def test_the_governing_mode_is_the_smallest_of_the_six(joint, gap) -> None:
    found = single_shear(SILENT, joint._replace(g_in=gap))
    assert list(found.modes) == ["Im", "Is", "II", "IIIm", "IIIs", "IV"]
    assert found.Z_lb == min(found.modes.values()) == found.modes[found.mode]


def test_the_working_shows_every_mode_and_the_least_of_them() -> None:
    sheet = Worksheet()
    found = single_shear(sheet, LEDGER._replace(g_in=1.0))
    steps = sheet.take()
    symbols = [step.clause.symbol for step in steps]
    assert symbols[-1] == "Z"
    assert {"Z_Im", "Z_Is", "Z_II", "Z_IIIm", "Z_IIIs", "Z_IV", "q_m", "q_s", "M"} <= set(symbols)
    assert steps[-1].result == found.Z_lb


@pytest.mark.parametrize(
    ("name", "value"),
    [("g_in", -0.1), ("g_in", math.nan), ("g_in", math.inf), ("l_s_in", 0.0), ("D_in", -1.0), ("F_es_psi", 0.0)],
)
def test_a_joint_that_cannot_be_is_refused(name, value) -> None:
    with pytest.raises(BadInput) as refused:
        single_shear(SILENT, LEDGER._replace(**{name: value}))
    assert refused.value.field == name
