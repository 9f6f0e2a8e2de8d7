"""The tape beside a measured length: to scale, with the accepted stretch and the pointer where they belong."""

import re

import pytest

from engine.units import convert
from webapp.ruler import MILLIMETRES, ruler_line


def places(sign: str) -> dict[str, float]:
    """Left edge of the stretch, its width and the pointer, in per cent."""
    stretch = re.search(r'class="ruler-stretch" x="([\d.-]+)%" width="([\d.]+)%"', sign)
    pointer = re.search(r'ruler-pointer"><svg x="([\d.]+)%"', sign)
    assert stretch is not None
    return {"low": float(stretch[1]), "wide": float(stretch[2]), "at": float(pointer[1]) if pointer else -1.0}


@pytest.mark.parametrize("system", ["ft in", "mm"])
def test_the_tape_is_to_scale(system: str) -> None:
    found = places(ruler_line(3.375, 3.5, 3.875, system))  # type: ignore[arg-type]
    per_inch = found["wide"] / 0.375
    assert found["low"] - found["at"] == pytest.approx(0.125 * per_inch, abs=0.02)


def test_the_pointer_is_a_flag_outside_and_a_pass_on_the_bounds() -> None:
    assert "v-flag ruler-pointer" in ruler_line(3.4375, 3.5, 3.875)
    assert "v-pass ruler-pointer" in ruler_line(3.5, 3.5, 3.875)
    assert "v-pass ruler-pointer" in ruler_line(3.875, 3.5, 3.875)
    assert "v-flag ruler-pointer" in ruler_line(3.9375, 3.5, 3.875)


def test_before_measuring_there_is_no_pointer_and_far_off_there_is_none_either() -> None:
    assert "ruler-pointer" not in ruler_line(None, 3.5, 3.875)
    assert "ruler-pointer" not in ruler_line(33.0, 3.5, 3.875)


def test_whole_inches_and_the_bounds_are_figured() -> None:
    drawn = ruler_line(3.375, 3.5, 3.875)
    assert re.findall(r">([^<>]+)</text>", drawn) == ["3", "4", "3 1/2", "3 7/8"]


def test_in_millimetres_tens_and_the_bounds_are_figured() -> None:
    drawn = ruler_line(None, 3.5, 3.875, "mm")  # 89 to 98 mm, shown from 74 to 113
    assert re.findall(r">([^<>]+)</text>", drawn) == ["80", "90", "100", "110", "89", "98"]


def test_nothing_is_shown_below_zero() -> None:
    assert places(ruler_line(0.0, 0.25, 0.5))["at"] == 0


def test_a_metric_tape_has_as_many_ticks_to_an_inch_as_the_units_say() -> None:
    assert MILLIMETRES.per_inch == convert(1, "in", "mm")  # 25.4 exactly, NIST Special Publication 811, appendix B
