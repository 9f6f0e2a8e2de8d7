"""A wall's elevation: every mark at the station the engine gives it, every dimension what it says, nothing lost in long walls."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations, pairwise
from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.setting_out import Band, Bolts, FloorLine, SettingOut, Task, set_out, station
from engine.units import System, show
from engine.wall import Opening, Storey, Wall, WallLine, WallType, wall
from tests import pace
from webapp.drawings.elevation import elevation_sheet, elevation_svg
from webapp.drawings.elevation_strips import ELEVATIONS, apart
from webapp.drawings.paper import Group, Measured, Sheet, overlap
from webapp.drawings.shapes import Pen

SVG = "{http://www.w3.org/2000/svg}"
TYPES = {"ten": WallType(core_in=10.0), "six": WallType(core_in=6.0)}
WIDTH = pytest.mark.parametrize("width", list(ELEVATIONS))
PX = 0.02  # an SVG's coordinates have five figures


def house_wall(length_ft: float = 42.0, openings: tuple[Opening, ...] = ()) -> Wall:
    storeys = [Storey("ten", 9.0), Storey("six", 9.0)]
    return wall("W1", WallLine(length_ft), storeys, openings or (Opening(6.0, 5.0, 3.0, 7.0, 1),), TYPES)


def carried(of: Wall, moved: tuple[float, ...] = ()) -> tuple[SettingOut, ...]:
    end = of.line.length_ft * 12 - 12
    line = FloorLine(of.name, 1, 1.0, end / 12, 16.0, 16.0, 1.5, 9.25, True)
    bolts = Bolts(48, 4, 4, 12, 192, Band(-12, 0), "joist")
    task = Task("A1", "ledge_seat", 1, 12, end, line=line, bolts=bolts, moved={"anchor": moved} if moved else {})
    return set_out(of, [task, Task("A2", "ledge_seat", 2, 12, 60, bolts=bolts)])


def crowded(of: Wall) -> tuple[SettingOut, ...]:
    """Four runs hung one under the other, down over the openings of the first storey."""
    bolts = Bolts(48, 4, 4, 12, 192, Band(-12, 0), "joist")
    end = of.line.length_ft * 12 - 12
    return set_out(of, [Task(f"A{n}", "ledge_seat", 1, 12, end, bolts=bolts) for n in range(1, 5)])


LONG = house_wall(200.0, tuple(Opening(4.0 + 9.5 * k, 3.0 + k % 3, 3.0, 7.0, 1) for k in range(20)))


def marks_of(sheet: Sheet) -> list[Group]:
    return [group for group in sheet.groups if "number" in group.data]


def middle(group: Group) -> float:
    xs = [x for ink in group.ink for x, _ in getattr(ink, "points", ())]
    if not xs:
        xs = [ink.x for ink in group.ink if hasattr(ink, "x")]
        xs += [x for ink in group.ink if hasattr(ink, "lines") for line in ink.lines for x, _ in line]
    return (min(xs) + max(xs)) / 2


def inked(sheet: Sheet) -> list[tuple[float, float]]:
    """Points of every mark."""
    found = []
    for ink in [ink for group in marks_of(sheet) for ink in group.ink]:
        found += [*getattr(ink, "points", ()), *(p for line in getattr(ink, "lines", ()) for p in line)]
        found += [(ink.x, ink.y)] if hasattr(ink, "x") else []
    return found


@pytest.mark.parametrize("width", ["desk", "tablet", "letter"])
@pytest.mark.parametrize("sill", [1.0, 3.0, 4.0, 5.0])
def test_nothing_that_is_set_runs_through_an_openings_words(width: str, sill: float) -> None:
    of = house_wall(42.0, (Opening(6.0, 5.0, sill, sill + 3.0, 1), Opening(20.0, 6.0, 0.0, 6.0 + 8 / 12, 1)))
    sheet = elevation_sheet(of, crowded(of), width_class=width)
    said = [words for words in sheet.words if re.match(r"[\d-]+ x |sill ", words.letters.text)]
    assert [words.letters.text for words in said if "x" in words.letters.text] == ["5-0 x 3-0", "6-0 x 6-8"]
    runs = [ink for ink in sheet.dimensions if getattr(ink, "pen", None) is Pen.CUT]
    for left, top, right, bottom in (words.box for words in said):
        assert not [(x, y) for x, y in inked(sheet) if left < x < right and top < y < bottom]
        assert not [run for run in runs if top < run.points[0][1] < bottom and run.points[0][0] < left]


@WIDTH
def test_every_mark_of_the_engine_is_drawn_once_and_says_its_station(width: str) -> None:
    for of in (house_wall(), LONG):
        entries = carried(of)
        drawn = marks_of(elevation_sheet(of, entries, width_class=width))
        said = sorted((g.data["tag"], g.data["what"], g.data["at"], int(g.data["number"])) for g in drawn)
        assert said == sorted((e.tag, m.what, f"{m.at_in:.10g}", m.number) for e in entries for m in e.marks)


@WIDTH
def test_marks_stand_apart_by_the_engine_s_inches_at_the_scale_they_name(width: str) -> None:
    of = house_wall()
    drawn = [g for g in marks_of(elevation_sheet(of, carried(of), width_class=width)) if g.data["what"] == "joist"]
    measured = 0
    for a, b in pairwise(sorted(drawn, key=lambda g: float(g.data["at"]))):
        if middle(b) > middle(a):  # else the next strip begins
            inches = (middle(b) - middle(a)) / float(a.data["scale"])
            assert inches == pytest.approx(float(b.data["at"]) - float(a.data["at"]), abs=1e-6)
            measured += 1
    assert measured > 10


@WIDTH
@pytest.mark.parametrize("system", ["ft in", "mm"])
def test_dimensions_measure_what_they_say_and_words_never_overlap(width: str, system: System) -> None:
    for of, focus in ((house_wall(), ""), (house_wall(), "A1"), (LONG, ""), (LONG, "A1"), (house_wall(12.5), "wall 1")):
        sheet = elevation_sheet(of, carried(of), system, width, focus=focus)
        for one in sheet.dimensions:
            if isinstance(one, Measured):
                (ax, ay), (bx, by) = one.lines[0].points
                assert hypot(bx - ax, by - ay) / one.scale == pytest.approx(one.inches, abs=1e-6)
        boxes = [w.box for w in sheet.words] + [w.box for g in sheet.groups if "finding" in g.data for w in g.words]
        for a, b in combinations(boxes, 2):
            assert overlap(a, b) < 0.5
        assert all(b[0] >= 0 and b[2] <= sheet.width and b[1] >= 0 and b[3] <= sheet.height for b in boxes)


def test_the_focus_has_every_station_of_the_engine_written_out() -> None:
    of = house_wall()
    entries = carried(of)
    for system in ("ft in", "mm"):
        sheet = elevation_sheet(of, entries, system, focus="A1")
        turned = [w.letters.text.replace("⁄", "/").replace(" ", "") for w in sheet.words if w.turned]
        for what in ("joist", "anchor"):
            for at in entries[0].stations(what):
                assert station(at, system).removesuffix(" mm").replace(" ", "") in turned


def test_equal_spaces_are_said_once() -> None:
    of = house_wall()
    entries = carried(of)
    joists = entries[0].stations("joist")
    gaps = [round(b - a, 6) for a, b in pairwise(joists)]
    assert gaps == [16.0] * (len(joists) - 2) + [15.25]  # the last joist stands flush with the line's end
    said = [w.letters.text for w in elevation_sheet(of, entries, focus="A1").words]
    assert f"{len(joists) - 2} at 16" in said


def test_the_chain_of_openings_and_the_overall_are_the_wall_s_own() -> None:
    of = house_wall()
    measured = [one.inches for one in elevation_sheet(of, ()).dimensions if isinstance(one, Measured)]
    assert measured[:4] == pytest.approx([72.0, 60.0, 372.0, 504.0])  # 6-0, 5-0, 31-0 and 42-0


def test_findings_are_flagged_where_they_occur_with_their_amount() -> None:
    of = house_wall()
    entries = carried(of, (20.0, 60.0, 150.0, 200.0, 262.0, 300.0, 340.0, 390.0, 440.0, 485.0))
    flags = [f for f in entries[0].findings if not f.note]
    assert any(f.key == "spacing" for f in flags)
    sheet = elevation_sheet(of, entries)
    drawn = [g for g in sheet.groups if "finding" in g.data and g.signs[0].verdict == "flag"]
    for finding in flags:
        (group,) = [g for g in drawn if abs(float(g.data["at"]) - finding.at_in) < 0.01]
        if finding.amount_in:
            assert show(finding.amount_in, "in") in group.words[0].letters.text.split(", ")
    assert flags[0].text() in sheet.finding
    assert all(f.text() in sheet.description for f in flags)


def test_a_wall_without_findings_says_so() -> None:
    of = house_wall()
    assert elevation_sheet(of, ()).finding.endswith("Nothing stands against setting it out.")


@WIDTH
def test_a_long_wall_is_cut_at_match_lines_that_both_strips_name(width: str) -> None:
    sheet = elevation_sheet(LONG, carried(LONG), width_class=width)
    named = [w.letters.text for w in sheet.words if w.letters.text.startswith("match line")]
    strips = len([panel for panel in sheet.panels if panel.scale])
    assert strips > 1
    assert len(named) == 2 * (strips - 1)
    assert all(named.count(words) == 2 for words in named)
    for words in dict.fromkeys(named):
        feet = float(words.split()[-1].split("-")[0])
        assert not any(o.start_ft < feet < o.end_ft for o in LONG.openings)


@given(st.lists(st.floats(0, 500), min_size=1, max_size=30))
def test_figures_pushed_apart_keep_their_order_and_stay_within_bounds(places: list[float]) -> None:
    found = apart(sorted(places), 14.0, 0.0, 500.0)
    assert all(b - a >= 14.0 - 1e-6 for a, b in pairwise(found))
    assert found[0] >= -1e-6
    assert found[-1] <= 500.0 + 1e-6


@given(st.lists(st.floats(0, 3000), min_size=2, max_size=20))
def test_figures_with_room_stay_where_they_are(gaps: list[float]) -> None:
    places = [sum(14.5 + gap for gap in gaps[: n + 1]) for n in range(len(gaps))]
    assert apart(places, 14.0, 0.0, 1e6) == pytest.approx(places)


@settings(max_examples=30, deadline=None)
@given(st.floats(1, 400), st.sampled_from(list(ELEVATIONS)), st.booleans())
def test_any_length_of_wall_is_drawn_whole(length_ft: float, width: str, focused: bool) -> None:
    of = wall("W1", WallLine(length_ft), [Storey("ten", 9.0)], (), TYPES)
    bolts = Bolts(48, 4, 4, 12, 192, Band(-12, 0), "joist")
    entries = set_out(of, [Task("A1", "sill_plate", 1, 0, length_ft * 12, bolts=bolts)])
    sheet = elevation_sheet(of, entries, width_class=width, focus="A1" if focused else "")
    assert len(marks_of(sheet)) == len(entries[0].marks)


@WIDTH
@pytest.mark.parametrize("focus", ["", "A1"])
def test_the_markup_is_sound_and_its_marks_can_be_read_by_a_script(width: str, focus: str) -> None:
    of = replace(house_wall(), name='<b>W1</b> & "\u202eeast"')
    entries = carried(of)
    markup = elevation_svg(of, entries, width_class=width, focus=focus)
    root = ET.fromstring(markup)
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert not any("style" in element.attrib for element in root.iter())
    assert of.name in (root.findtext(f"{SVG}title") or "")
    assert "<b>" not in markup
    marks = [g for g in root.iter(f"{SVG}g") if g.get("data-number")]
    assert len(marks) == sum(len(entry.marks) for entry in entries)
    joists = [g for g in marks if g.get("data-what") == "joist" and g.get("data-tag") == "A1"]
    first, second = joists[:2]
    xs = [float(re.match(r"M([\d.]+)", g[0].get("d", "")).group(1)) for g in (first, second)]  # type: ignore[union-attr]
    inches = float(second.get("data-at", "")) - float(first.get("data-at", ""))
    assert (xs[1] - xs[0]) / float(first.get("data-scale", "")) == pytest.approx(inches, abs=PX)


def test_two_hundred_feet_with_twenty_openings_take_a_few_milliseconds() -> None:
    entries = carried(LONG)
    assert pace.seconds(lambda: elevation_svg(LONG, entries)) < 0.015
