"""A job in plan: walls where they were entered, what they carry where it was put, corners that close or say by how much not."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations
from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.units import System
from engine.wall import Opening, Storey, Wall, WallLine, WallType, wall
from tests.world import World
from webapp.drawings.paper import Comb, Line, Measured, Sheet, overlap
from webapp.drawings.plan import PLANS, plan_sheet, plan_svg
from webapp.drawings.plan_layout import layout, mitred
from webapp.drawings.plan_words import Carried
from webapp.drawings.shapes import Pen

SVG = "{http://www.w3.org/2000/svg}"
TYPES = {"ten": WallType(core_in=10.0), "six": WallType(core_in=6.0)}
WIDTH = pytest.mark.parametrize("width", list(PLANS))


def straight(
    name: str, length: float, x: float | None = None, y: float | None = None, bearing: float | None = None
) -> Wall:
    storeys = [Storey("ten", 9.0), Storey("six", 9.0)]
    return wall(name, WallLine(length, x_ft=x, y_ft=y, bearing_deg=bearing), storeys, (), TYPES)


def house() -> list[Wall]:
    """An L of six walls; only the first has a start, the others follow each other clockwise."""
    first = wall(
        "W1", WallLine(42.0, x_ft=0.0, y_ft=34.0, bearing_deg=0.0), [Storey("ten", 9.0), Storey("six", 9.0)],
        [Opening(6.0, 5.0, 3.0, 7.0, 1), Opening(20.0, 3.0, 0.0, 7.0, 1)], TYPES,
    )  # fmt: skip
    turns = (("W2", 26.0, 270.0), ("W3", 12.0, 180.0), ("W4", 8.0, 270.0), ("W5", 30.0, 180.0), ("W6", 34.0, 90.0))
    return [first, *(straight(name, length, bearing=turn) for name, length, turn in turns)]


ROWS = [
    Carried(
        "A1",
        "ledge_seat",
        "Joists on a ledge",
        "W1",
        1,
        1.0,
        41.0,
        "pass",
        joists=tuple(24.0 + 16 * n for n in range(29)),
    ),
    Carried("A2", "bolted_ledger", "Bolted ledger", "W2", 1, 1.0, 25.0, "flag", "flag, ratio 1.17"),
    Carried("A3", "beam_pocket", "Beam pocket", "W2", 1, 13.0, None, "refer"),
    Carried("A4", "veneer_ledge", "Veneer ledge", "W1", 1, 1.0, 41.0, "not checked"),
    Carried("A5", "sill_plate", "Sill plate", "W4", 2, 1.0, 7.0, "pass"),
    Carried("A6", "ledge_seat", "Joists on a ledge", "W5", 1, 2.0, 28.0, "pass"),
]
LINKS = {row.tag: f"/jobs/1/attachments/{row.tag}" for row in ROWS}


def scale_of(sheet: Sheet) -> float:
    return sheet.panels[0].scale


def inspect(sheet: Sheet) -> None:
    boxes = [w.box for w in sheet.words] + [w.box for g in sheet.groups for w in g.words]
    boxes += [s.box for g in sheet.groups for s in g.signs]
    for a, b in combinations(boxes, 2):
        assert overlap(a, b) < 0.5
    assert all(b[0] >= 0 and b[2] <= sheet.width and b[1] >= 0 and b[3] <= sheet.height for b in boxes)
    for one in sheet.dimensions:
        if isinstance(one, Measured):
            (ax, ay), (bx, by) = one.lines[0].points
            assert hypot(bx - ax, by - ay) / one.scale == pytest.approx(one.inches, abs=1e-6)


@WIDTH
@pytest.mark.parametrize("system", ["ft in", "mm"])
@pytest.mark.parametrize("level", [1, 2])
def test_words_keep_apart_and_dimensions_measure_what_they_say(width: str, system: System, level: int) -> None:
    inspect(plan_sheet(house(), ROWS, LINKS, system, width, level))


def test_a_wall_without_a_start_begins_where_the_one_before_it_ends() -> None:
    found = layout(house(), 100.0)
    assert found.placed == 6
    assert found.open_by == ()
    assert [one.start for one in found.walls] == [
        pytest.approx((12 * x, 12 * y)) for x, y in ((0, 34), (42, 34), (42, 8), (30, 8), (30, 0), (0, 0))
    ]


def test_the_outline_is_dimensioned_by_its_corners() -> None:
    sheet = plan_sheet(house(), ROWS, LINKS)
    measured = sorted(one.inches for one in sheet.dimensions if isinstance(one, Measured))
    assert measured == pytest.approx(sorted(12.0 * ft for ft in (30, 12, 42, 26, 8, 34)))


def test_what_is_carried_is_as_long_as_its_run_at_the_plan_s_scale() -> None:
    sheet = plan_sheet(house(), ROWS, LINKS)
    carries = (Pen.CARRIES, Pen.CARRIES_FLAG, Pen.CARRIES_UNKNOWN)
    lines = [one for one in sheet.dimensions if isinstance(one, Line) and one.pen in carries]
    lengths = sorted(
        hypot(x1 - x0, y1 - y0) / scale_of(sheet) for ((x0, y0), (x1, y1)) in (line.points for line in lines)
    )
    assert lengths == pytest.approx([24 * 12.0, 26 * 12.0, 40 * 12.0, 40 * 12.0])


def test_joists_stand_at_the_engine_s_stations() -> None:
    sheet = plan_sheet(house(), ROWS, LINKS)
    (comb,) = [ink for ink in sheet.panels[0].layers["hatch"] if isinstance(ink, Comb)]
    xs = [line[0][0] for line in comb.lines]
    stations = [(x - xs[0]) / scale_of(sheet) + ROWS[0].joists[0] for x in xs]
    assert stations == pytest.approx(list(ROWS[0].joists))


def test_an_outline_that_does_not_close_says_by_how_much() -> None:
    walls = house()
    walls[-1] = straight("W6", 33.75, bearing=90.0)
    found = layout(walls, 100.0)
    assert [(a, b) for a, b, _ in found.open_by] == [("W6", "W1")]
    assert found.open_by[0][2] == pytest.approx(3.0)
    said = "The outline is open by 3 in between the end of W6 and the start of W1."
    sheet = plan_sheet(walls, ROWS, LINKS)
    assert said in [w.letters.text for w in sheet.words]
    assert said in sheet.description


def test_two_ends_meant_to_meet_are_named_too() -> None:
    walls = house()
    walls[1] = straight("W2", 26.0, 42.5, 34.0, 270.0)
    assert ("W1", "W2", pytest.approx(6.0)) in layout(walls, 100.0).open_by


def test_walls_without_directions_are_drawn_one_under_another_and_it_is_said() -> None:
    loose = [replace(one, line=replace(one.line, bearing_deg=None)) for one in house()]
    found = layout(loose, 100.0)
    assert found.placed == 0
    assert {one.along for one in found.walls} == {(1.0, 0.0)}
    assert len({one.start[1] for one in found.walls}) == 6
    for width in PLANS:
        sheet = plan_sheet(loose, ROWS, LINKS, width_class=width)
        inspect(sheet)
        assert "no corners are entered" in " ".join(w.letters.text for w in sheet.words)


def test_walls_kept_at_one_spot_count_as_not_entered() -> None:
    same = [straight(name, 20.0, 0.0, 0.0, 0.0) for name in ("W1", "W2", "W3")]
    assert layout(same, 100.0).placed == 0


def test_some_walls_without_a_direction_stand_below_the_others() -> None:
    walls = [*house(), straight("W7", 10.0)]
    found = layout(walls, 100.0)
    assert found.placed == 6
    assert found.walls[-1].start[1] < min(one.end[1] for one in found.walls[:6])
    assert "below the others" in plan_sheet(walls, ROWS, LINKS).description


@given(st.floats(0, 360), st.floats(20, 160))
def test_the_faces_of_two_walls_meet_on_their_corner(bearing: float, turn: float) -> None:
    a, b = layout(
        [straight("W1", 20.0, 0.0, 0.0, bearing), straight("W2", 15.0, bearing=(bearing - turn) % 360)], 100.0
    ).walls
    for depth in (0.0, 2.5, 12.5, 15.0):
        _, end = mitred(a, depth, None, (b, depth))
        start, _ = mitred(b, depth, (a, depth), None)
        assert hypot(end[0] - start[0], end[1] - start[1]) < 1e-6
        for one, point in ((a, end), (b, start)):
            off = (point[0] - one.start[0]) * one.inward[0] + (point[1] - one.start[1]) * one.inward[1]
            assert off == pytest.approx(depth, abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(2, 200), st.floats(0, 360)), min_size=1, max_size=8), st.sampled_from(list(PLANS)))
def test_any_walls_are_drawn(sides: list[tuple[float, float]], width: str) -> None:
    walls = [straight(f"W{n}", length, bearing=turn) for n, (length, turn) in enumerate(sides)]
    rows = [Carried("A1", "sill_plate", "Sill plate", "W0", 1, 0.5, sides[0][0], "flag")]
    root = ET.fromstring(plan_svg(walls, rows, {}, width_class=width))
    assert root.get("role") == "group"


@WIDTH
def test_the_markup_is_sound_and_every_tag_leads_to_its_attachment(width: str) -> None:
    walls = house()
    walls[0] = replace(walls[0], name='<b>W1</b> & "\u202eeast"')
    rows = [replace(row, wall=walls[0].name) if row.wall == "W1" else row for row in ROWS]
    markup = plan_svg(walls, rows, LINKS, width_class=width)
    root = ET.fromstring(markup)
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert not any("style" in element.attrib for element in root.iter())
    assert "<b>" not in markup
    links = {link.get("href"): link.get("aria-label") for link in root.iter(f"{SVG}a")}
    assert set(links) == {LINKS[row.tag] for row in ROWS if row.level == 1}
    assert links[LINKS["A2"]] == "A2, Bolted ledger on W2: flag, ratio 1.17"
    title = root.findtext(f"{SVG}title") or ""
    assert (
        title
        == "Floor level 1: walls and what they carry. 5 attachments on 6 walls. Flag: A2. Refer: A3. Not checked: A4."
    )


def test_verdicts_are_told_by_the_line_and_not_by_colour_alone() -> None:
    sheet = plan_sheet(house(), ROWS, LINKS)
    pens = {
        one.tone: one.pen
        for one in sheet.dimensions
        if isinstance(one, Line) and one.tone and one.pen is not Pen.GOVERNS
    }
    assert pens == {"pass": Pen.CARRIES, "flag": Pen.CARRIES_FLAG, "not-checked": Pen.CARRIES_UNKNOWN}


def test_the_job_page_shows_the_plan_of_one_level_with_links_to_the_others(at: World) -> None:
    job = at.job()
    page = at.reader.page(f"/jobs/{job}")
    assert any(attrs.get("class") == "plan" for _, attrs in page.of("div"))
    links = [attrs["href"] for _, attrs in page.of("a") if attrs.get("class") == "d-link"]
    assert links
    assert all(re.fullmatch(rf"/jobs/{job}/attachments/A\d+", link) for link in links)
    assert f"/jobs/{job}?level=2" in [attrs.get("href") for _, attrs in page.of("a")]
    assert "Floor level 2" in at.reader.page(f"/jobs/{job}?level=2").text


def test_a_job_without_walls_has_no_plan(at: World) -> None:
    job = at.job(walls=[], attachments=[], floor_lines=[])
    assert "plan-view" not in at.reader.page(f"/jobs/{job}").text


def test_a_search_by_script_draws_no_plan(at: World) -> None:
    job = at.job()
    answer = at.reader.get(f"/jobs/{job}?q=A1", headers={"HX-Request": "true"})
    assert "<svg" not in answer.text or "plan-view" not in answer.text
