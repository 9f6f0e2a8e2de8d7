"""Anchors across a gap, anchors under earthquake."""

import math

import pytest

from engine.clauses.us import anchors_bending as bending
from engine.clauses.us import anchors_seismic as seismic
from engine.clauses.us.anchors_bending import stand_off_line
from engine.errors import BadInput
from engine.result import Verdict
from engine.worksheet import Worksheet
from tests.engine.anchor_examples import group


def test_a_rod_in_shear_tension_and_bending_meets_the_worked_example() -> None:
    # Design Guide 1, 3rd ed. 2024, Example 4.7-6, first trial: 9.56, 23.8 and 18.4 ksi; 26.5 ksi is left
    rod = group(d_a_in=1.125, h_ef_in=12.0)
    line = stand_off_line(Worksheet(), rod, 9500.0, 18300.0, 0.094, 1.0)
    A_b = math.pi / 4 * 1.125**2
    assert line.facts["lever"][0] == pytest.approx(0.594)
    assert line.demand == pytest.approx(9500 * 0.594 / (1.125**3 / 6) + 18300 / A_b)
    assert line.capacity == pytest.approx(26500, abs=50)
    assert line.verdict is Verdict.FLAG
    assert line.steps[-1].result == line.capacity


def test_without_shear_a_rod_keeps_three_quarters_of_its_tensile_strength() -> None:
    assert bending.tensile_stress_left_psi(58000, 0.0) == 0.75 * 58000


def test_a_wider_gap_never_helps() -> None:
    demands = [stand_off_line(Worksheet(), group(), 500.0, 200.0, gap, 0.25).ratio for gap in (0.5, 1.0, 2.5, 3.0)]
    assert demands == sorted(demands)
    with pytest.raises(BadInput, match="above zero"):
        stand_off_line(Worksheet(), group(), 1.0, 1.0, 0.0, 0.25)


def test_a_fifth_of_earthquake_needs_nothing_more_and_a_hair_above_needs_a_way() -> None:
    sheet = Worksheet()
    assert seismic.tension_route_line(sheet, 200.0, 1000.0, "none").verdict is Verdict.PASS
    assert seismic.tension_route_line(sheet, 200.1, 1000.0, "none").verdict is Verdict.FLAG
    assert seismic.tension_route_line(sheet, 500.0, 1000.0, "overstrength").verdict is Verdict.PASS
    assert seismic.tension_route_line(sheet, 0.0, 1000.0, "none") is None


def test_the_wall_force_stands_for_tension_but_not_for_shear() -> None:
    assert seismic.tension_route_line(Worksheet(), 9.0, 10.0, "wall force").verdict is Verdict.PASS
    shear = seismic.shear_route_line(Worksheet(), 9.0, 10.0, "wall force")
    assert shear.verdict is Verdict.FLAG
    assert "overstrength" in shear.say
    assert seismic.shear_route_line(Worksheet(), 9.0, 10.0, "most delivered").verdict is Verdict.PASS


def test_a_ductile_anchor_yields_before_the_concrete_and_has_length_to_stretch() -> None:
    N_sa = math.pi / 4 * (0.625 - 0.9743 / 11) ** 2 * 58000
    order, length, material = seismic.ductile_lines(Worksheet(), group(), 1.2 * N_sa, 5.0)
    assert order.demand == pytest.approx(1.2 * N_sa)
    assert (order.verdict, length.verdict, material.verdict) == (Verdict.PASS,) * 3
    assert length.demand == 8 * 0.625
    order, length, _ = seismic.ductile_lines(Worksheet(), group(), 1.19 * N_sa, 4.9)
    assert (order.verdict, length.verdict) == (Verdict.FLAG,) * 2
