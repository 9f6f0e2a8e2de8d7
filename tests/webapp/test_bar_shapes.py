"""Sketches of bars: as long as they are cut, figures out to out and on the paper, a broken part said by its break alone."""

from itertools import pairwise
from math import hypot, pi

import pytest

from engine.attachments.veneer_ledge import Inputs as Veneer
from engine.attachments.veneer_ledge import geometry
from engine.takeoff.shapes import Shape, closed, hooked, straight
from engine.takeoff.veneer_bars import corner_bar, stirrup_shape
from tests.world import Page
from webapp.drawings.bar_shapes import WIDTH, bar_sheet, bar_svg, bent


def stirrup(**inputs: str) -> Shape:
    i = Veneer(**inputs)  # type: ignore[arg-type]
    return stirrup_shape(i, geometry(i))


SHAPES = {
    "straight": straight("5", 106.5),
    "long hook": hooked("4", 240.0, 1),
    "two hooks": hooked("5", 60.0, 2),
    "stirrup": stirrup(),
    "turned back": stirrup(hook="180"),
    "closed stirrup": stirrup(hook="closed"),
    "level loop": stirrup(tip="loop"),
    "tie": closed("closed tie", "3", [(0, 0), (9.625, 0), (9.625, 3.625), (0, 3.625)]),
    "L": corner_bar(Veneer()),
}


@pytest.mark.parametrize("shape", [s for n, s in SHAPES.items() if n != "long hook"], ids=lambda s: s.words)
def test_the_middle_drawn_is_as_long_as_the_bar_is_cut(shape: Shape) -> None:
    (run,) = bent(shape).middles()
    drawn = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(run))
    assert drawn == pytest.approx(shape.cut_in, rel=0.004)  # bends are drawn as chords


def test_a_long_part_is_broken_and_only_that_part_is_short() -> None:
    one = bent(SHAPES["long hook"])
    assert one.broken == 1
    assert len(one.middles(0.1)) == 2
    whole, shown = (
        [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(c)] for c in (SHAPES["long hook"].corners, one.corners)
    )
    assert shown[0] == pytest.approx(whole[0])
    assert shown[1] < whole[1]


def test_figures_are_the_legs_out_to_out() -> None:
    sheet = bar_sheet(SHAPES["two hooks"])
    (leg,) = [leg.out_in for leg in SHAPES["two hooks"].legs if leg.out_in]
    assert leg == pytest.approx(60 - 2 * (pi / 2 * 2.1875 + 7.5 - 1.875 - 0.625))  # 43.128 in, 1,095.4 mm
    assert [words.letters.text.replace("⁄", "/") for words in sheet.words] == ["3-71/8"]
    assert [words.letters.text for words in bar_sheet(SHAPES["two hooks"], "mm").words] == ["1,095"]


@pytest.mark.parametrize("name", list(SHAPES))
@pytest.mark.parametrize("system", ["ft in", "mm"])
def test_everything_stays_on_the_paper_and_no_figure_on_another(name: str, system: str) -> None:
    sheet = bar_sheet(SHAPES[name], system)  # type: ignore[arg-type]
    boxes = [words.box for words in sheet.words]
    for left, top, right, bottom in boxes:
        assert left >= 0
        assert right <= WIDTH
        assert top >= 0
        assert bottom <= sheet.height
    for n, a in enumerate(boxes):
        for b in boxes[n + 1 :]:
            assert min(a[2], b[2]) <= max(a[0], b[0]) or min(a[3], b[3]) <= max(a[1], b[1])


def test_a_sketch_says_in_words_what_it_shows() -> None:
    text = bar_svg(SHAPES["stirrup"], prefix="bend-B7")
    assert 'aria-labelledby="bend-B7-title"' in text
    assert "No. 4, stirrup, 90 degree hook" in text
    assert "Straight parts out to out: " in text
    assert "style=" not in text
    assert all(i.startswith("bend-B7") for i in Page(text).ids)
