"""The steel of a cast-in plate: published equations written out again beside it. AISC 360-22, AISI S100-16, both recalled."""

from math import pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine import attachments, formula
from engine.attachments.cast_in_plate import Inputs, steel
from engine.editions import US_2021
from engine.errors import BadInput
from engine.result import Verdict
from engine.worksheet import CLAUSES, Worksheet

E = 29.0e6
R = 50 * 16 / 12 * 14 / 2  # reaction of the first case [lb]
T, HEIGHT, HOLE = 0.0747, 7.0, 0.19 + 1 / 16


def line(key: str, **changes):
    return attachments.check("cast_in_plate", Inputs(**changes), US_2021)[key]


def test_a_screw_bears_in_sheet_and_tears_toward_its_lower_edge() -> None:
    """AISI S100-16 J4.3.1 with Ω 3.0: 2.7 t d F_u / 3; J6.1 with Ω 3.0: 0.6 F_u 2 t e / 3, e from the hole's edge."""
    found = line("plate-bearing")
    assert found.demand == pytest.approx(R / 6)
    assert found.capacity == pytest.approx(2.7 * T * 0.19 * 45000 / 3)
    near = line("plate-bearing", plate_height_in=5.5)
    assert near.capacity == pytest.approx(0.6 * 45000 * 2 * T * (0.25 - HOLE / 2) / 3)


def test_a_thick_plate_goes_by_the_rules_for_rolled_steel() -> None:
    """AISC 360-22 J3.11 with Ω 2.00: the lesser of 2.4 d and 1.2 l_c, times t F_u."""
    found = line("plate-bearing", sheet="0.25", length_in=1.75)
    assert found.capacity == pytest.approx(2.4 * 0.19 * 0.25 * 45000 / 2)
    near = line("plate-bearing", sheet="0.25", length_in=1.75, plate_height_in=5.5)
    assert near.capacity == pytest.approx(1.2 * (0.25 - HOLE / 2) * 0.25 * 45000 / 2)


def test_a_screw_in_the_very_edge_carries_nothing() -> None:
    found = line("plate-bearing", plate_height_in=5.0)
    assert found.capacity == 0
    assert found.verdict is Verdict.FLAG


def test_the_plate_shears_whole_or_through_its_screws() -> None:
    """AISC 360-22 J4.2: 0.6 F_y A_gv / 1.5 and 0.6 F_u A_nv / 2, three holes of d + 1/16 in a column."""
    found = line("plate-shear")
    gross, net = 0.6 * 33000 * HEIGHT * T / 1.5, 0.6 * 45000 * (HEIGHT - 3 * HOLE) * T / 2
    assert found.capacity == pytest.approx(min(gross, net))
    assert found.facts["gross"][0] == pytest.approx(gross)
    assert found.facts["net"][0] == pytest.approx(net)


def test_a_block_of_plate_tears_below_the_upper_row_and_outside_the_first_column() -> None:
    """AISC 360-22 J4.3: 6 in of shear plane with 2 1/2 holes, 3 in of tension plane with 1 1/2, U_bs 0.5 for two columns."""
    gross = (1.0 + 2 * 2.5) * T
    net, pull = gross - 2.5 * HOLE * T, (1.0 + 2.0 - 1.5 * HOLE) * T
    expected = (min(0.6 * 45000 * net, 0.6 * 33000 * gross) + 0.5 * 45000 * pull) / 2
    assert line("plate-block").capacity == pytest.approx(expected)
    pull = (3.0 - 0.5 * HOLE) * T  # one column, 3 in from the plate's end
    one = line("plate-block", columns=1, depth_in=18.0, plate_height_in=15.0)
    gross = (1.25 + 5 * 2.5) * T
    net = gross - 5.5 * HOLE * T
    assert one.capacity == pytest.approx((min(0.6 * 45000 * net, 0.6 * 33000 * gross) + 45000 * pull) / 2)


def test_the_plate_bends_over_foam_and_gap() -> None:
    """AISC 360-22 F11: M = R a; L_b h / t² beyond 1.9 E / F_y, so F_cr = 1.9 E / (L_b h / t²); Ω 1.67."""
    lever, free = 2.5 + 0.25 + 2.0 + 1.0, 2.5 + 0.25 + 2.0
    slender = free * HEIGHT / T**2
    assert slender > 1.9 * E / 33000
    found = line("plate-bending")
    assert found.demand == pytest.approx(R * lever)
    assert found.capacity == pytest.approx(1.9 * E / slender * T * HEIGHT**2 / 6 / 1.67)


def test_shear_and_bending_share_the_plate() -> None:
    """AISC Manual, extended single plates: (V / V_c)² + (M / M_c)² <= 1."""
    shear, bending = line("plate-shear"), line("plate-bending")
    assert line("plate-together").demand == pytest.approx(shear.ratio**2 + bending.ratio**2)


def test_more_foam_bends_the_plate_more() -> None:
    thick = line("plate-bending", foam_in=6.0, leg_in=5.25)
    assert thick.demand == pytest.approx(R * (6.0 + 0.25 + 2.0 + 1.0))
    assert thick.verdict is Verdict.FLAG


def test_steel_takes_no_load_duration_factor() -> None:
    lasting, snow = line("plate-shear"), line("plate-shear", live_psf=0.0, snow_psf=40.0)
    assert (lasting.demand, lasting.capacity) == (snow.demand, snow.capacity)


def test_screws_that_miss_the_plate_are_flagged_by_how_much() -> None:
    """AISI S100-16 J4.2: 1.5 d from a screw's centre to an edge."""
    assert line("plate-edges").demand == pytest.approx(1.5 * 0.19)
    off = line("plate-edges", leg_in=3.75)
    assert off.capacity == -0.5
    assert off.facts["off"] == (0.5, "in")
    assert off.verdict is Verdict.FLAG


def test_a_brackets_steel_is_its_listings_business() -> None:
    result = attachments.check("cast_in_plate", Inputs(kind="bracket"), US_2021)
    assert not [s for s in result.states if s.key.startswith("plate-")]
    assert "the steel of the part, beyond its listing" in result.outside


def test_steel_cannot_yield_above_its_tensile_strength() -> None:
    with pytest.raises(BadInput, match="not above the tensile strength"):
        line("plate-shear", F_y_ksi=50.0, F_u_ksi=45.0)


def theory_lb_in(L: float, h: float, t: float) -> float:
    """Elastic lateral-torsional buckling of a narrow rectangle in uniform moment: π/L sqrt(E I_y G J), ν = 0.3."""
    I_y, J = h * t**3 / 12, h * t**3 / 3
    return pi / L * sqrt(E * I_y * E / 2.6 * J)


@given(st.floats(2, 12), st.floats(3, 20), st.floats(0.03, 0.06))
def test_slender_bending_follows_the_theory_of_elastic_buckling(L: float, h: float, t: float) -> None:
    """1.9 E of AISC 360-22 F11 stands for the theory's π sqrt(E G) ..., some 2 1/2 % below it."""
    slender = L * h / t**2
    F_y = 33000.0
    nominal = 1.67 * steel.upright_bending_lb_in(slender, E, F_y, t * h**2 / 6)
    if slender > 1.9 * E / F_y:
        assert 0.97 < nominal / theory_lb_in(L, h, t) < 1.0


@given(st.floats(1, 20000), st.floats(24000, 100000), st.floats(0.01, 20))
def test_the_bending_formula_shown_is_the_one_computed_on_every_branch(slender: float, F_y: float, S: float) -> None:
    computed = steel.upright_bending_lb_in(slender, E, F_y, S)
    expression = CLAUSES[steel.upright_bending_lb_in].formula
    shown = formula.evaluate(expression, {"slender": slender, "E": E, "F_y": F_y, "S": S})
    assert computed == pytest.approx(shown, rel=1e-12)


@given(st.floats(1, 20000), st.floats(1.0, 2.0))
def test_a_longer_free_length_never_bends_stronger(slender: float, more: float) -> None:
    short = steel.upright_bending_lb_in(slender, E, 33000.0, 1.0)
    assert steel.upright_bending_lb_in(slender * more, E, 33000.0, 1.0) <= short * (1 + 1e-12)


def test_a_stocky_plate_reaches_its_plastic_moment() -> None:
    """AISC 360-22 F11.1: 1.5 S F_y for a rectangle, below the cap of 1.6."""
    assert steel.upright_bending_lb_in(50.0, E, 36000.0, 2.0) == pytest.approx(1.5 * 36000 * 2 / 1.67)


def test_the_tables_steels_bear_by_the_tables_figure() -> None:
    """NDS 2018 Table 12M: 61,850 psi where 1.375 F_u would be 61,875; 87,000 psi at 1/4 in."""
    sheet = Worksheet(recording=False)
    assert steel.dowel_bearing_psi(sheet, 0.0747, 45000.0) == 61850.0
    assert steel.dowel_bearing_psi(sheet, 0.25, 58000.0) == 87000.0
    assert steel.dowel_bearing_psi(sheet, 0.0747, 65000.0) == 1.375 * 65000
    assert steel.dowel_bearing_psi(sheet, 0.25, 65000.0) == 1.5 * 65000
