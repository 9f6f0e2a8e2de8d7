"""The draughting core: lettering, hatches, dimensions, the room words take, and what the stylesheet knows."""

import re
from itertools import combinations, pairwise
from math import hypot
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.result import Verdict
from webapp.drawings import dimensions, hatches, lettering, marks, notes, parts, samples
from webapp.drawings.dimensions import String
from webapp.drawings.hand import Hand, Sizes
from webapp.drawings.paper import Line, Measured, Sheet, overlap
from webapp.drawings.room import Room
from webapp.drawings.shapes import KEY_WORDS, PENS, Material, Pen
from webapp.drawings.view import View, drafted_break

STYLES = Path(__file__).parents[2] / "static" / "drawings.css"


def hand(width: float = 400, height: float = 300, system: str = "ft in") -> Hand:
    return Hand(Sheet(width, height), Room((0, 0, width, height)), system, Sizes())


def test_a_figure_is_whole_inches_and_a_stacked_fraction() -> None:
    figure = lettering.figure(11.875, 12.5)
    assert [run.text for run in figure.runs] == ["11", "7", "⁄", "8"]
    numerator, bar, denominator = figure.runs[1:]
    assert numerator.rise > 0 == denominator.rise
    assert numerator.size == denominator.size < bar.size == 12.5
    assert [run.text for run in lettering.figure(0.5, 12.5).runs] == ["1", "⁄", "2"]
    assert lettering.figure(16, 12.5).text == "16"


def test_a_figure_for_a_metric_reader_is_whole_millimetres() -> None:
    assert lettering.figure(3.5, 12.5, "mm").text == "89"


def test_a_line_is_never_broken_within_a_figure_or_before_its_unit() -> None:
    broken = lettering.lines("Composite lumber beam 4 1/2 in x 9 1/4 in", 12.5, 90)
    assert len(broken) > 1
    for first, second in pairwise(broken):
        assert not re.match(r"\d+/\d|in\b", second)
        assert not first.endswith(" 9")


@given(st.text(max_size=60), st.floats(20, 300))
def test_a_text_cut_to_fit_fits(text: str, room_px: float) -> None:
    assert lettering.width_px(lettering.fitted(text, 12.5, room_px), 12.5) <= max(
        room_px, lettering.width_px("–", 12.5) + 3
    )


def test_concrete_has_at_most_46_dots_apart_and_five_triangles_clear_of_the_tile_s_edge() -> None:
    tile = hatches.stipple()
    assert len(tile.dots) == hatches.DOTS == 46
    assert len(tile.triangles) == 5
    for (ax, ay, _), (bx, by, _) in combinations(tile.dots, 2):
        dx, dy = abs(ax - bx), abs(ay - by)
        assert hypot(min(dx, hatches.TILE - dx), min(dy, hatches.TILE - dy)) >= hatches.APART
    assert {r for _, _, r in tile.dots} <= {0.45, 0.55, 0.7}
    assert all(0 < x < hatches.TILE and 0 < y < hatches.TILE for corners in tile.triangles for x, y in corners)


@given(st.floats(1, 400), st.floats(1, 200), st.booleans())
def test_grain_and_rings_stay_within_their_piece(width: float, height: float, upright: bool) -> None:
    corners = ((10.0, 20.0), (10 + width, 20.0), (10 + width, 20 + height), (10.0, 20 + height))
    for line in hatches.rings(corners):
        assert all(10 - 1e-6 <= x <= 10 + width + 1e-6 and 20 - 1e-6 <= y <= 20 + height + 1e-6 for x, y in line)
    along, end = (1, 20 + height) if upright else (0, 10 + width)
    start = 20 if upright else 10
    for line in hatches.grain(corners, upright):
        assert all(start < point[along] < end for point in line)


def test_a_dimension_has_slashes_at_45_degrees_and_extensions_off_the_object() -> None:
    desk = hand()
    string = String("x", (100.0, 200.0), (10.0,), 50.0, (90.0, 90.0), 10.0)
    dimensions.ink(desk, string)
    (drawn,) = [one for one in desk.sheet.dimensions if isinstance(one, Measured)]
    line, *ends = drawn.lines
    assert line.points == ((100.0, 50.0), (200.0, 50.0))
    extensions = [end for end in ends if end.pen is Pen.DIMENSION]
    slashes = [end for end in ends if end.pen is Pen.SLASH]
    assert [points.points for points in extensions] == [((100.0, 86.0), (100.0, 44.0)), ((200.0, 86.0), (200.0, 44.0))]
    for slash in slashes:
        (ax, ay), (bx, by) = slash.points
        assert (bx - ax, by - ay) == (8.0, -8.0)


def test_the_figure_of_a_narrow_gap_stands_outside() -> None:
    desk = hand()
    string = String("x", (100.0, 108.0), (0.5,), 50.0, (90.0, 90.0), 16.0)
    dimensions.ink(desk, string)
    dimensions.figures(desk, string)
    (figure,) = desk.sheet.words
    assert figure.box[0] > 108 or figure.box[2] < 100


@given(st.lists(st.floats(0.2, 60), min_size=1, max_size=9), st.sampled_from(["x", "y"]), st.floats(40, 360))
def test_a_chain_loses_no_figure_however_crowded(gaps: list[float], along: str, line: float) -> None:
    desk = hand(700, 700)
    stops = [60.0]
    for gap in gaps:
        stops.append(stops[-1] + gap)
    string = String(along, tuple(stops), tuple(gap / 10 for gap in gaps), line, None, 10.0)
    dimensions.ink(desk, string)
    dimensions.figures(desk, string)
    assert len(desk.sheet.words) == len(gaps)
    for a, b in combinations(desk.sheet.words, 2):
        assert overlap(a.box, b.box) == 0


@given(st.lists(st.tuples(st.floats(20, 380), st.floats(20, 280)), min_size=1, max_size=12))
def test_notes_never_overlap_and_stay_on_the_sheet(targets: list[tuple[float, float]]) -> None:
    desk = hand()
    for target in targets:
        notes.leader_note(desk, target, notes.block(desk, "Bolt 5/8 in", "F1554-36"))
    for a, b in combinations(desk.sheet.words, 2):
        assert overlap(a.box, b.box) == 0
    assert all(desk.room.inside(words.box) for words in desk.sheet.words)


def test_a_leader_that_crosses_words_is_seen() -> None:
    box = (40.0, 40.0, 60.0, 60.0)
    assert notes.crosses((0, 50), (100, 50), box)
    assert notes.crosses((50, 0), (50, 100), box)
    assert not notes.crosses((0, 0), (100, 10), box)
    assert not notes.crosses((0, 100), (70, 90), box)


def test_a_view_enlarges_about_its_point() -> None:
    view = View(10.0, 50.0, 200.0)
    larger = view.enlarged((3.0, 4.0), (300.0, 100.0), 2.4)
    assert larger.px((3.0, 4.0)) == pytest.approx((300.0, 100.0))
    (ax, _), (bx, _) = larger.px((3.0, 4.0)), larger.px((5.0, 4.0))
    assert bx - ax == pytest.approx(2 * 24.0)


def test_a_break_runs_past_both_ends() -> None:
    points = drafted_break((10, 50), (110, 50))
    assert points[0] == (1.0, 50.0)
    assert points[-1] == (119.0, 50.0)
    assert max(y for _, y in points) > 50 > min(y for _, y in points)


@given(st.lists(st.tuples(st.floats(-10, 30), st.floats(0.1, 8)), max_size=5))
def test_gaps_and_spans_make_up_the_whole_range(raw: list[tuple[float, float]]) -> None:
    spans = [(start, start + length) for start, length in raw]
    left = parts.gaps(0.0, 20.0, spans)
    covered = sum(max(min(b, 20.0) - max(a, 0.0), 0.0) for a, b in parts.merged(spans))
    assert sum(b - a for a, b in left) + covered == pytest.approx(20.0)


def test_a_bent_bar_keeps_its_width() -> None:
    corners = parts.ribbon([(0.0, 0.0), (10.0, 0.0), (10.0, 5.0)], 0.5)
    rounded = {(round(x, 9), round(y, 9)) for x, y in corners}
    assert rounded == {(0.0, 0.25), (9.75, 0.25), (9.75, 5.0), (10.25, 5.0), (10.25, -0.25), (0.0, -0.25)}


def test_every_verdict_has_a_mark_of_its_own_shape() -> None:
    assert set(marks.MARKS) == set(Verdict)
    assert len({tuple(part.points for part in mark) for mark in marks.MARKS.values()}) == len(Verdict)


def test_the_stylesheet_knows_every_pen_fill_and_role() -> None:
    css = STYLES.read_text()
    drawn = " ".join(str(sample) for sample in _markup(samples.drawings("s")))
    classes = {name for found in re.findall(r'class="([^"]+)"', drawn) for name in found.split()}
    named = {f"p-{pen}" for pen in PENS if pen not in (Pen.GOVERNS, Pen.GOVERNS_SLASH)} | {
        "f-paper",
        "f-tint",
        "f-solid",
        "halo",
    }
    named |= {name for name in classes if name[:2] in ("p-", "f-")} - {"p-governs", "p-governs-slash"}
    for name in named:
        assert f".{name}" in css, name
    assert "url(" not in css
    assert "@import" not in css


def _markup(found: dict[str, object]) -> list[object]:
    listed = [sample.drawing for kind in ("materials", "weights") for sample in found[kind]]  # type: ignore[attr-defined]
    return [*listed, found["dimensions"]]


def test_the_samples_show_every_material_and_their_ids_follow_the_theme() -> None:
    light, dark = samples.drawings("light"), samples.drawings("dark")
    assert [sample.words for sample in light["materials"]] == list(KEY_WORDS.values())  # type: ignore[attr-defined]
    ids = [re.findall(r'id="([^"]+)"', str(one)) for one in (*_markup(light), *_markup(dark))]
    flat = [name for some in ids for name in some]
    assert len(flat) == len(set(flat))


def test_materials_in_the_key_are_all_but_air() -> None:
    assert set(Material) - set(KEY_WORDS) == {Material.AIR}


def test_line_weights_are_those_of_the_sheet_of_rules() -> None:
    widths = {pen: PENS[pen][0] for pen in PENS}
    assert widths[Pen.CUT] == 2.0
    assert widths[Pen.CUT_LIGHT] == 1.2
    assert widths[Pen.SEEN] == widths[Pen.HIDDEN] == 0.75
    assert widths[Pen.BAR] == 0.9
    assert widths[Pen.DIMENSION] == widths[Pen.CENTRE] == 0.6
    assert PENS[Pen.HIDDEN][1] == "5 3"
    assert PENS[Pen.CENTRE][1] == "12 3 2 3"
    assert Line(((0, 0), (1, 1)), Pen.CUT).tone == ""
