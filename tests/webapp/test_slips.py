"""How far each number of a passing attachment may slip, on the page and as a part of it."""

from tests.world import World

HEAD = "How far each may slip"


def test_a_passing_check_offers_and_shows_how_far_each_may_slip(at: World) -> None:
    page = at.reader.page("/try/ledge_seat").text
    assert "How far may each number slip?" in page
    assert HEAD not in page
    shown = at.reader.page("/try/ledge_seat?slips=1").text
    assert HEAD in shown
    assert "Bearing, code minimum" in shown  # the end gap may grow to 2 in: 3 1/2 in of plate less 1 1/2 in
    assert "to 2 in" in shown


def test_a_flagged_check_has_remedies_in_its_place(at: World) -> None:
    page = at.reader.page("/try/ledge_seat?top=square&slips=1").text
    assert "What would make it pass" in page
    assert HEAD not in page
