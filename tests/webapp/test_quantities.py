"""Quantities between a form and its keeper: nothing changes by being looked at."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine import units
from engine.errors import BadInput
from engine.fields import Spec
from webapp.forms.quantities import explicit, keep, shown

SYSTEMS = st.sampled_from(["ft in", "mm"])
UNITS = st.sampled_from(["in", "ft", "psf", "psi", "plf", "lb", "ksi"])


def field(unit: str) -> Spec:
    return Spec(name="x", label="X", group="", kind="number", unit=unit, low=0, high=1e9)


@pytest.mark.parametrize(
    ("unit", "typed", "system", "kept"),
    [
        ("in", "9 1/4", "ft in", "9 1/4 in"),
        ("in", "235", "mm", "235 mm"),
        ("in", "9 1/4 in", "mm", "9 1/4 in"),
        ("ft", "14", "ft in", "14 ft"),
        ("ft", "4.2", "mm", "4.2 m"),
        ("ft", "12-6 1/2", "mm", "12-6 1/2"),
        ("psf", "1.9", "mm", "1.9 kPa"),
        ("in", "wide", "mm", "wide"),
        ("", "0.42", "mm", "0.42"),
    ],
)
def test_a_bare_number_is_in_the_unit_the_label_named(unit: str, typed: str, system: units.System, kept: str) -> None:
    assert explicit(field(unit), typed, system) == kept


@pytest.mark.parametrize(
    ("unit", "kept", "inches", "metric"),
    [
        ("in", "9 1/4 in", "9 1/4", "234.95"),
        ("in", "9.250 in", "9.250", "234.95"),
        ("in", "38 mm", "1.49606", "38"),
        ("ft", "12-6 1/2", "12-6 1/2", "3.8227"),
        ("ft", "12' 6\"", "12-6", "3.81"),
        ("ft", "14 ft", "14", "4.2672"),
        ("ft", "6 ft 8 in", "6-8", "2.032"),
        ("psf", "40 psf", "40", "1.91521"),
        ("psi", "3,000 psi", "3,000", "20.6843"),
        ("in", "wide", "wide", "wide"),
        ("in", "", "", ""),
    ],
)
def test_a_kept_text_is_shown_in_the_units_of_the_label(unit: str, kept: str, inches: str, metric: str) -> None:
    assert shown(field(unit), kept, "ft in") == inches
    assert shown(field(unit), kept, "mm") == metric


@given(UNITS, SYSTEMS, SYSTEMS, st.integers(1, 10**6).map(str) | st.floats(0.01, 1e5).map(lambda v: f"{v:.4f}"))
def test_looking_and_saving_keeps_the_very_text(
    unit: str, typed_in: units.System, read_in: units.System, text: str
) -> None:
    kept = explicit(field(unit), text, typed_in)
    assert keep(field(unit), shown(field(unit), kept, read_in), read_in, kept) == kept


@given(UNITS, SYSTEMS, st.floats(0.01, 1e5))
def test_what_is_shown_means_what_is_kept_to_six_figures(unit: str, system: units.System, value: float) -> None:
    kept = f"{value:.6f} {unit}"
    again = explicit(field(unit), shown(field(unit), kept, system), system)
    assert units.parse(again, unit) == pytest.approx(units.parse(kept, unit), rel=1e-5, abs=1e-6)


@given(st.text(max_size=30), SYSTEMS)
def test_whatever_is_typed_is_shown_again_or_converted(text: str, system: units.System) -> None:
    once = explicit(field("in"), text, system)
    again = shown(field("in"), once, system)
    if again == text.strip():
        return
    try:
        value = units.parse(once, "in")
    except BadInput:
        assert again == once
    else:
        assert units.parse(explicit(field("in"), again, system), "in") == pytest.approx(value, rel=1e-5, abs=1e-6)
