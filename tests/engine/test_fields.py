"""Inputs that say what they are, read from typed text and kept when they can't be."""

from dataclasses import dataclass
from math import inf, nan

import pytest

from engine import fields
from engine.errors import BadInput


@dataclass(frozen=True, slots=True)
class Shelf:
    """A made-up attachment for these tests."""

    width_in: float = fields.number("Width", "in", 2, 24, 6.0, group="Shelf", step=0.25)
    bolts: int = fields.count("Bolts", 2, 8, 2, group="Shelf")
    wood: str = fields.choice("Wood", (("a", "ash"), ("b", "birch")), "a", group="Shelf")
    propped: bool = fields.yes("Propped", group="Shelf")
    prop_in: float = fields.number("Prop", "in", 1, 9, 3.0, group="Shelf", when=("propped", (True,)))
    listed_lb: float | None = fields.number("Listed", "lb", 1, 9000, group="Shelf", optional=True)
    report: str = fields.text("Report", group="Shelf")
    expires: str = fields.date("Expires", group="Shelf")


def test_typed_text_in_any_unit_becomes_inputs() -> None:
    inputs, errors = fields.read(
        Shelf, {"width_in": "152.4 mm", "bolts": "4", "wood": "b", "propped": "on", "prop_in": "2 1/2"}
    )
    assert not errors
    assert inputs == Shelf(6.0, 4, "b", True, 2.5, None)


def test_every_bad_field_gets_its_own_message() -> None:
    inputs, errors = fields.read(Shelf, {"width_in": "90", "bolts": "2.5", "wood": "oak", "nails": "3"})
    assert inputs is None
    assert errors["width_in"] == "Enter 2 in to 24 in."
    assert errors["bolts"] == "Enter a whole number, 2 to 8."
    assert errors["wood"] == "Choose one of: ash, birch."
    assert "Known: width_in" in errors["nails"]


def test_a_field_that_does_not_apply_is_not_read() -> None:
    inputs, errors = fields.read(Shelf, {"propped": "no", "prop_in": "nonsense"})
    assert not errors
    assert inputs is not None
    assert inputs.prop_in == 3.0


@pytest.mark.parametrize("width", [nan, inf, -inf, 0.0, 24.001, -6.0])
def test_nothing_outside_its_range_reaches_a_check(width: float) -> None:
    with pytest.raises(BadInput, match="2 in to 24 in") as refused:
        fields.validate(Shelf(width_in=width))
    assert refused.value.field == "width_in"


def test_an_unknown_choice_names_the_known_ones() -> None:
    with pytest.raises(BadInput, match="a, b"):
        fields.validate(Shelf(wood="oak"))


def test_inputs_written_as_text_read_back_the_same() -> None:
    first = Shelf(7.0625, 5, "b", True, 2.123456789, 1234.5)
    again, errors = fields.read(Shelf, fields.write(first))
    assert not errors
    assert again == first


@pytest.mark.parametrize("day", ["2026-02-29", "2026-13-01", "27 May 2026", "2026-5-27", "26-05-2027", "٢٠٢٦-05-27"])
def test_a_day_that_is_none_is_refused(day: str) -> None:
    _, errors = fields.read(Shelf, {"expires": day})
    assert errors == {"expires": "Enter a date as year-month-day, such as 2026-05-27."}


def test_words_and_days_are_kept_as_typed() -> None:
    inputs, errors = fields.read(Shelf, {"report": " R-12 <b> ", "expires": "2028-02-29"})
    assert not errors
    assert inputs == Shelf(report="R-12 <b>", expires="2028-02-29")
