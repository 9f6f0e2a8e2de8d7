"""What the words of a source's rounding mean for the tolerance."""

import pytest

from engine.proving.tolerance import agrees


@pytest.mark.parametrize(
    ("words", "published", "near", "far"),
    [
        ("area to 2.67 taken as 2.6667+", 2.667, 2.6674, 2.668),  # 2.67 is a value, no step
        ("nearest 10 lb", 380, 384.9, 385.1),
        ("truncated to 1 lb", 105, 105.9, 106.1),
        ("0.01 kN", 1.32, 1.3249, 1.326),
    ],
)
def test_a_step_is_read_and_other_numbers_are_not(words, published, near, far) -> None:
    assert agrees(near, published, words)
    assert not agrees(far, published, words)


def test_a_third_written_out_is_a_third() -> None:
    assert agrees(1 / 3, 0.3333, "exact")
    assert not agrees(0.3334, 0.3333, "exact")


def test_a_short_exact_figure_is_the_value_itself() -> None:
    assert agrees(0.229, 0.229, "exact")
    assert not agrees(0.2291, 0.229, "exact")
