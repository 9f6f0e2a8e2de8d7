"""Anchored masonry veneer. Values: IRC 2021 R703.8 and its tables."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import irc_veneer as veneer
from engine.clauses.us.irc import irc_year
from engine.editions import US_2021, US_2024
from engine.errors import OutOfScope


@pytest.mark.parametrize(
    ("sdc", "limits"),
    [
        ("A", (30, 8, 5, 50)),
        ("C", (30, 8, 5, 50)),
        ("D0", (20, 0, 4, 40)),
        ("D1", (20, 0, 4, 40)),
        ("D2", (20, 0, 3, 30)),
    ],
)
def test_veneer_is_limited_by_seismic_category(sdc, limits) -> None:
    assert veneer.veneer_limits(sdc) == limits  # Tables R703.8(1), R703.8(2)


def test_concrete_backing_low_down_lets_veneer_reach_30_ft() -> None:
    assert veneer.veneer_limits("D2", lower_10_ft_backed=True).height_ft == 30  # note c
    assert veneer.veneer_limits("B", lower_10_ft_backed=True).height_ft == 30


@pytest.mark.parametrize(("sdc", "stories"), [("D0", 3), ("E", 1)])
def test_veneer_off_the_tables_is_refused(sdc, stories) -> None:
    with pytest.raises(OutOfScope, match=r"R703\.8"):
        veneer.veneer_limits(sdc, stories)


@pytest.mark.parametrize(
    ("thickness_in", "bearing_in", "overhang_in"), [(2.75, 1.833, 0.917), (3.5, 2.333, 1.167), (3.625, 2.417, 1.208)]
)
def test_veneer_bears_on_two_thirds(thickness_in, bearing_in, overhang_in) -> None:
    assert veneer.veneer_bearing_in(thickness_in) == pytest.approx(bearing_in, abs=5e-4)  # R703.8.2.1, R703.8.2.2
    assert veneer.veneer_overhang_in(thickness_in) == pytest.approx(overhang_in, abs=5e-4)


@given(st.floats(1, 6))
def test_bearing_and_overhang_make_the_wythe(thickness_in) -> None:
    whole = veneer.veneer_bearing_in(thickness_in) + veneer.veneer_overhang_in(thickness_in)
    assert whole == pytest.approx(thickness_in)


@pytest.mark.parametrize(("weight_psf", "load_plf"), [(40, 1200), (50, 1500)])
def test_thirty_feet_of_veneer_weigh_on_the_ledge(weight_psf, load_plf) -> None:
    assert veneer.veneer_line_load_plf(30, weight_psf) == load_plf


@pytest.mark.parametrize(
    ("across_in", "up_in", "general", "close"),
    [
        (24, 12, True, True),
        (16, 24, True, False),
        (32, 12, True, False),
        (24, 16, True, False),
        (24, 18, False, False),
        (33, 8, False, False),
        (12, 25, False, False),
    ],
)
def test_ties_keep_to_area_and_both_spacings(across_in, up_in, general, close) -> None:
    assert veneer.tie_spacing_ok(across_in, up_in, veneer.tie_area_limit_ft2()) is general  # R703.8.4.1
    assert veneer.tie_spacing_ok(across_in, up_in, veneer.tie_area_limit_ft2("D1")) is close


def test_earthquake_and_wind_bring_ties_closer() -> None:
    assert veneer.tie_area_limit_ft2("D2") == veneer.tie_area_limit_ft2("C", townhouse=True) == 2.0  # R703.8.4.1
    assert veneer.tie_area_limit_ft2("B", 30.5) == 2.0
    assert veneer.tie_area_limit_ft2("C", 30) == 2.67


def test_large_openings_have_ties_about_them() -> None:
    assert veneer.opening_ties_required(16, 17)  # R703.8.4.1.1
    assert not veneer.opening_ties_required(16, 16)


@pytest.mark.parametrize(
    ("wire", "year", "distance_in"),
    [("W1.7", 2018, 4.5), ("W1.7", 2021, 4.625), ("W2.8", 2024, 6.625), ("W2.8", 2018, 4.5)],
)
def test_the_largest_backing_distance_grew_in_2021(wire, year, distance_in) -> None:
    assert veneer.largest_backing_distance_in(wire, year) == distance_in  # Table R703.8.4(1)


def test_an_edition_set_knows_its_year() -> None:
    assert (irc_year(US_2021), irc_year(US_2024)) == (2021, 2024)


def test_ties_weeps_and_lintels_have_their_sizes() -> None:
    assert veneer.veneer_tie() == (1.5, 0.625, 1)  # R703.8.4
    assert veneer.weeps() == (33, 0.1875)  # R703.8.6
    assert veneer.lintel_bearing_in() == 4  # R703.8.3
