"""What a gable takes, counted by hand."""

import pytest

from engine.attachments.gable_end import Inputs, cut_list
from engine.job import AttachmentEntry, Job, WallEntry
from engine.takeoff import Row, takeoff

WALL = WallEntry("W1", {"length_ft": "28 ft"}, ({"type": "Ten", "height_ft": "9 ft"},))


def counted(**inputs: str) -> tuple[Row, ...]:
    entry = AttachmentEntry("A1", "gable_end", "W1", 1, "0 ft", "28 ft", inputs)
    return takeoff(Job("House", wall_types={"Ten": {"core_in": "10 in"}}, walls=(WALL,), attachments=(entry,))).of(
        tag="A1"
    )


def net(rows: tuple[Row, ...], item: str, size: str = "") -> float:
    return sum(row.net for row in rows if row.item == item and size in row.size)


def test_a_gable_takes_forms_concrete_boards_and_plate() -> None:
    """28 ft, 6 in 12, a 10 in core: 98 ft² of face; each rake sqrt(14² + 7²) ft, cut on both faces."""
    found = counted()
    rake = (14**2 + 7**2) ** 0.5
    assert net(found, "form") == cut_list(Inputs(core_in=10.0)).with_reuse
    assert net(found, "concrete") == pytest.approx(98 * 10 / 12 / 27)
    assert len([row for row in found if row.item == "concrete"]) == 4
    assert net(found, "strapping") == pytest.approx(4 * rake)
    assert net(found, "sill") == pytest.approx(2 * rake)
    assert (net(found, "sill piece"), net(found, "anchor"), net(found, "nut"), net(found, "washer")) == (2, 10, 10, 10)
    assert net(found, "sealant", "rake plate") == pytest.approx(2 * rake)
    assert "24 forms without" in next(row.source for row in found if row.item == "form")


def test_a_gable_without_a_plate_takes_none() -> None:
    assert not {row.item for row in counted(plate="none")} & {"sill", "sill piece", "anchor", "nut", "washer"}


def test_concrete_is_less_by_the_opening() -> None:
    """3 ft by 3 ft through a 10 in core."""
    plain, opened = counted(), counted(opening="yes")
    assert net(plain, "concrete") - net(opened, "concrete") == pytest.approx(9 * 10 / 12 / 27)
