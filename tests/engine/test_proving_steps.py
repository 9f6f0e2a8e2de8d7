"""The words on a source's rounding bind the figures they are about, and no others."""

import pytest

from engine.proving.tolerance import agrees


@pytest.mark.parametrize(
    ("published", "rounding", "near", "off"),
    [
        (1.107, "nearest 1 psi", 1.1071, 1.12),  # a factor beside stresses
        (105.1, "467.488 N in the test = 105.1 lb", 105.096, 105.3),  # the metric figure is no step
        (87000, "NDS tables print 87,000 and 61,850", 87000.0, 86990.0),
        (29.3, "nearest lb", 29.34, 29.6),
        (930, "nearest 10 lb", 928.4, 936.0),
        (0.7633, "library works in SI: 492.433 mm2, 424.478 kN", 0.76327, 0.77),
    ],
)
def test_a_figure_off_the_step_keeps_its_own_last_digit(published, rounding, near, off) -> None:
    assert agrees(near, published, rounding)
    assert not agrees(off, published, rounding)
