"""Headings matched to inputs, and cells read by their column's unit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine import units
from engine.errors import BadInput
from engine.units import System
from webapp.imports.columns import Match, headings, matched, meant
from webapp.imports.sheets import Row, Table, read_text
from webapp.imports.subjects import subjects

SEAT = "attachments-ledge_seat"


def table(*heads: str, row: tuple[str, ...] = (), parted: str = "comma") -> Table:
    return Table(Row(1, heads), (Row(2, row or ("",) * len(heads)),), parted)


def keys(what: str, *heads: str, system: System = "ft in") -> list[str]:
    return [match.key for match in matched(table(*heads), subjects()[what], system)]


def one(what: str, heading: str, system: System = "ft in") -> Match:
    return matched(table(heading), subjects()[what], system)[0]


def cell(what: str, heading: str, text: str, system: System = "ft in", parted: str = "comma") -> str:
    return meant(one(what, heading, system), text, table(heading, parted=parted))


@pytest.mark.parametrize("what", list(subjects()))
@pytest.mark.parametrize("system", ["ft in", "mm"])
def test_the_headings_of_a_sheet_to_fill_in_are_matched_each_to_its_own_input(what: str, system: System) -> None:
    subject = subjects()[what]
    heads = headings(subject, system)
    found = matched(table(*heads), subject, system)
    assert [match.key for match in found] == [target.key for target in subject.targets]
    assert not [match.complaint for match in found if match.complaint]


@pytest.mark.parametrize(
    ("what", "heads", "wanted"),
    [
        (
            "walls",
            ("Wall", "LENGTH", "Wall type", "Storey height"),
            "name length_ft storeys-1-type storeys-1-height_ft",
        ),
        ("walls", ("Mark", "Story 1 Type", "Story 2 Height"), "name storeys-1-type storeys-2-height_ft"),
        ("walls", ("Type 1", "Height 1", "Type 2"), "storeys-1-type storeys-1-height_ft storeys-2-type"),
        (
            "openings",
            ("Wall name", "From", "Width", "Sill Height", "Head"),
            "at_wall start_ft width_ft sill_ft head_ft",
        ),
        (
            "floor_lines",
            ("Name", "Wall", "Floor", "o.c.", "LL", "DL"),
            "name at_wall at_level spacing_in live_psf dead_psf",
        ),
        (
            SEAT,
            ("Wall", "Level", "From", "To", "Joist centers"),
            "at_wall at_level at_start_ft at_end_ft joist_spacing_in",
        ),
        (SEAT, ("lap_in", "Anchor bolts: Spacing"), "lap_in bolt_spacing_in"),
    ],
)
def test_headings_are_known_by_label_by_name_and_by_words_of_the_trade(
    what: str, heads: tuple[str, ...], wanted: str
) -> None:
    assert keys(what, *heads) == wanted.split()


def test_a_heading_that_fits_two_inputs_is_matched_to_neither() -> None:
    assert keys(SEAT, "Spacing", "Price") == ["", ""]


def test_of_two_columns_for_one_input_the_first_counts_and_a_second_chosen_by_hand_is_complained_of() -> None:
    assert keys("walls", "Name", "Mark") == ["name", ""]
    found = matched(table("a", "b"), subjects()["walls"], "ft in", ["name", "name"])
    assert [match.complaint for match in found] == ["", "Column A is taken for “Name” already. Leave one of them out."]


def test_a_column_chosen_for_something_unknown_is_left_out() -> None:
    assert [m.key for m in matched(table("Name", "b"), subjects()["walls"], "ft in", ["nonsense"])] == ["", ""]


@pytest.mark.parametrize(
    "heading", ["Length, mm", "Length (mm)", "Length [MM]", "Length mm", "Wall length (millimetres)"]
)
def test_a_unit_in_a_heading_holds_for_bare_numbers_below_it(heading: str) -> None:
    assert cell("walls", heading, "7315") == "7315 mm"
    assert cell("walls", heading, "24 ft") == "24 ft"
    assert cell("walls", heading, "12-6 1/2") == "12-6 1/2", "feet and inches are feet and inches"


@pytest.mark.parametrize(("system", "unit"), [("ft in", "ft"), ("mm", "m")])
def test_without_a_unit_a_bare_number_is_in_the_reader_s(system: System, unit: str) -> None:
    assert cell("walls", "Length", "8", system) == f"8 {unit}"


@pytest.mark.parametrize("heading", ["Length, ft-in", "Length (feet and inches)", "Length, ft"])
def test_feet_and_inches_are_a_unit_too(heading: str) -> None:
    assert cell("walls", heading, "8", "mm") == "8 ft"


def test_a_unit_that_does_not_fit_is_complained_of() -> None:
    assert "psf does not fit “Length”" in one("walls", "Length (psf)").complaint
    assert not one("floor_lines", "Dead, floor").complaint


@pytest.mark.parametrize(
    ("heading", "text", "value"),
    [
        ("Vertical bars chosen by", "nonsense", "nonsense"),
        ("Anchor bolts: Diameter", "5/8 in", "0.625"),
        ("Anchor bolts: Diameter", '5/8"', "0.625"),
        ("Anchor bolts: Diameter", "0.625", "0.625"),
        ("Anchor bolts: Diameter", "58", "58"),
        ("Joist species", "southern pine (sp)", "SP"),
        ("Size", "2X6", "2x6"),
        ("Size", "2 x 6", "2x6"),
    ],
)
def test_a_choice_is_known_by_its_value_its_words_or_its_size(heading: str, text: str, value: str) -> None:
    assert one(SEAT, heading).target is not None, heading
    assert cell(SEAT, heading, text) == value


@pytest.mark.parametrize(
    ("text", "value"), [("x", "yes"), ("Y", "yes"), ("n", "no"), ("yes", "yes"), ("maybe", "maybe")]
)
def test_a_tick_is_known_by_the_letters_lists_use(text: str, value: str) -> None:
    assert cell(SEAT, "The wall below is a foundation wall", text) == value


def test_a_day_the_spreadsheet_made_of_a_length_is_refused() -> None:
    with pytest.raises(BadInput, match="made a day of this"):
        cell("walls", "Length", "2026-12-06")


def test_a_comma_where_semicolons_part_the_columns_is_refused_since_it_can_mean_either() -> None:
    with pytest.raises(BadInput, match="a comma can mean either"):
        cell("walls", "Length, m", "3,500", parted="semicolon")
    assert cell("walls", "Length, mm", "3,500") == "3,500 mm"


def test_an_apostrophe_that_keeps_a_text_from_being_computed_is_taken_off_once() -> None:
    assert cell("walls", "Name", "'=1+1") == "=1+1"
    assert cell("walls", "Name", "'s wall") == "'s wall"


@given(st.text(max_size=30), st.text(max_size=30), st.sampled_from(list(subjects())))
def test_any_heading_and_any_cell_is_read_or_refused(heading: str, text: str, what: str) -> None:
    match = one(what, heading)
    try:
        read = meant(match, text, table(heading))
    except BadInput as error:
        read = error.message
    assert read or not text.strip()


@given(st.floats(0.5, 300), st.sampled_from(["ft", "in", "m", "mm", "cm"]))
def test_a_length_reads_the_same_with_its_unit_in_the_heading_or_in_the_cell(length: float, unit: str) -> None:
    figure = f"{length:.4f}"
    below = cell("walls", f"Length ({unit})", figure)
    assert units.parse(below, "ft") == units.parse(f"{figure} {unit}", "ft")


def test_the_first_entry_of_a_column_is_shown_as_its_sample() -> None:
    found = matched(read_text("Name,Note\nW1,\nW2,later\n"), subjects()["walls"], "ft in")
    assert [match.sample for match in found] == ["W1", "later"]
