"""What people type, read without guessing; figures shown as a reader expects them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine import units
from engine.errors import BadInput


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("12' 6 1/2\"", "in", 150.5),
        ("12-6 1/2", "in", 150.5),
        ("12 ft 6 1/2 in", "in", 150.5),
        ("5 ft 3 in", "ft", 5.25),
        ("20-0", "ft", 20.0),
        ("6'", "ft", 6.0),
        ("9 1/4 in", "in", 9.25),
        ("9-1/4", "in", 9.25),
        ("9½", "in", 9.5),
        ("½", "in", 0.5),
        (".5", "in", 0.5),
        ("-1/4", "in", -0.25),
        ("38 mm", "in", 38 / 25.4),
        ("3.8 m", "ft", 3.8 / 0.3048),
        ("1,840", "plf", 1840.0),
        ("2 kip", "lb", 2000.0),
        ("60 ksi", "psi", 60000.0),
        ("40 lb/ft2", "psf", 40.0),
        # Conversions: BIPM SI Brochure, NIST SP 811 Appendix B (1 lbf = 4.4482216152605 N, 1 in = 25.4 mm), exact.
        ("1.9 kPa", "psf", 1900 / 4.4482216152605 * 0.3048**2),
        ("8.8 kN/m", "plf", 8800 / 4.4482216152605 * 0.3048),
        ("20 MPa", "psi", 20e6 / 4.4482216152605 * 0.0254**2),
        ("414 MPa", "ksi", 414e3 / 4.4482216152605 * 0.0254**2),
        ("21 C", "°F", 69.8),
    ],
)
def test_a_quantity_is_read_as_it_was_meant(text: str, unit: str, value: float) -> None:
    assert units.parse(text, unit) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("", "psf"),
        ("9**9**9 in", "in"),
        ("nan", "in"),
        ("inf", "in"),
        ("1e5", "in"),
        ("3,5", "in"),
        ("1,84", "plf"),
        ("12-14", "ft"),
        ("1/0", "in"),
        ("1 lb", "in"),
        ("5 psi", "psf in"),
        ("twelve", "in"),
        ("9" * 80, "in"),
        ("1 2 3", "in"),
        ("__import__('os')", "in"),
    ],
)
def test_what_cannot_be_read_says_what_to_enter(text: str, unit: str) -> None:
    with pytest.raises(BadInput) as refused:
        units.parse(text, unit)
    assert refused.value.message


def test_a_pressure_is_no_length() -> None:
    with pytest.raises(BadInput, match="a length"):
        units.parse("40 psf", "in")


@given(st.integers(min_value=0, max_value=16 * 12 * 400))
def test_sixteenths_survive_being_shown_and_read_back(sixteenths: int) -> None:
    inches = sixteenths / 16
    assert units.parse(units.fraction(inches), "in") == inches
    assert units.parse(units.feet_inches(inches), "in") == inches
    assert units.parse(units.show(inches, "in"), "in") == inches


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused_but_never_breaks(text: str) -> None:
    try:
        value = units.parse(text, "in")
    except BadInput:
        return
    assert abs(value) < 1e15


@given(
    st.floats(min_value=0.01, max_value=1e5),
    st.sampled_from([("in", "mm"), ("psf", "kPa"), ("plf", "kN/m"), ("psi", "MPa")]),
)
def test_units_round_trip(value: float, pair: tuple[str, str]) -> None:
    there = units.convert(value, *pair)
    assert units.convert(there, pair[1], pair[0]) == pytest.approx(value, rel=1e-11)


@pytest.mark.parametrize(
    ("value", "unit", "system", "text"),
    [
        (3.5, "in", "ft in", "3 1/2 in"),
        (3.5, "in", "mm", "89 mm"),
        (13 + 1 / 3, "ft", "ft in", "13 ft 4 in"),
        (20, "ft", "ft in", "20 ft"),
        (1840, "plf", "ft in", "1,840 plf"),
        (800, "lb", "mm", "3.56 kN"),
        (-0.25, "in", "ft in", "-1/4 in"),
        (0.0747, "in", "ft in", "0.0747 in"),
        (0.1875, "in", "ft in", "3/16 in"),
        (-0.01, "in", "ft in", "-0.01 in"),
        (0.0, "in", "ft in", "0 in"),
    ],
)
def test_a_value_is_shown_in_the_readers_units(value: float, unit: str, system: units.System, text: str) -> None:
    assert units.show(value, unit, system) == text
