"""What holds for every drawing of every kind: to scale, legible, safe to embed."""

import xml.etree.ElementTree as ET
from itertools import combinations
from math import hypot

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine import attachments, units
from engine.attachments import KINDS
from engine.editions import US_2021
from engine.errors import BadInput
from engine.result import CheckResult
from tests import pace
from tests.engine.samples import within_ranges
from webapp.drawings import plans, section_sheet, section_svg
from webapp.drawings.layout import WIDTHS
from webapp.drawings.paper import Measured, Sheet, overlap
from webapp.drawings.scene import Frame

EVERY = pytest.mark.parametrize("key", list(KINDS))
CLASSES = st.sampled_from(list(WIDTHS))
SYSTEMS = st.sampled_from(["ft in", "mm"])
WHOLE_RANGE = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
SVG = "{http://www.w3.org/2000/svg}"
# Judged at another place than the one drawn now and then: the drawing then keeps to words, which `judged` sees to.
GUARDED = ("spacing", "along", "exception-edge")
TITLE = "Section across wall W3 at the main floor"


def checked(key: str, inputs: object) -> CheckResult | None:
    try:
        return attachments.check(key, inputs, US_2021, recording=False)
    except BadInput:
        return None


def inspect_words(sheet: Sheet) -> None:
    boxes = [(words.letters.text, words.box) for words in sheet.words] + [(s.verdict, s.box) for s in sheet.signs]
    for (a, box_a), (b, box_b) in combinations(boxes, 2):
        assert overlap(box_a, box_b) < 0.5, f"{a!r} and {b!r} overlap"
    for text, (left, top, right, bottom) in boxes:
        assert left >= 0, text
        assert top >= 0, text
        assert right <= sheet.width, text
        assert bottom <= sheet.height, text


def inspect_dimensions(sheet: Sheet, system: units.System) -> None:
    written = [words.letters.text.replace("⁄", "/") for words in sheet.words]
    for one in sheet.dimensions:
        if not isinstance(one, Measured):
            continue
        (ax, ay), (bx, by) = one.lines[0].points
        assert hypot(bx - ax, by - ay) / one.scale == pytest.approx(one.inches, abs=1e-6)
        figure = units.shown(one.inches, "in", system).figure
        assert any(figure.replace(" ", "") in text.replace(" ", "") for text in written), f"no figure for {figure}"


def inspect_markup(markup: str) -> ET.Element:
    root = ET.fromstring(markup)
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert "style" not in {name for element in root.iter() for name in element.attrib}
    assert not {element.tag for element in root.iter()} & {
        f"{SVG}style",
        f"{SVG}script",
        f"{SVG}image",
        f"{SVG}foreignObject",
    }
    assert root.get("role") == "img"
    named = {element.get("id"): element.text for element in root.iter() if element.tag in (f"{SVG}title", f"{SVG}desc")}
    assert named[root.get("aria-labelledby")]
    assert root.get("aria-describedby") in named
    for url in [value for element in root.iter() for value in element.attrib.values() if value.startswith("url(#")]:
        assert url[5:-1] in ids
    return root


@EVERY
@given(data=st.data(), width=CLASSES, system=SYSTEMS)
@WHOLE_RANGE
def test_any_inputs_within_their_ranges_give_a_legible_drawing(
    key: str, data: st.DataObject, width: str, system: units.System
) -> None:
    inputs = data.draw(within_ranges(KINDS[key].inputs))
    result = checked(key, inputs)
    sheet = section_sheet(key, inputs, result, system, width, "A12", TITLE)
    inspect_words(sheet)
    inspect_dimensions(sheet, system)
    if result and result.governing and WIDTHS[width].words:
        assert any(words.role == "governs" for words in sheet.words), "what governs is not said"
        assert sheet.signs


@EVERY
@given(data=st.data(), width=CLASSES)
@settings(WHOLE_RANGE, max_examples=15)
def test_any_drawing_is_sound_markup(key: str, data: st.DataObject, width: str) -> None:
    inputs = data.draw(within_ranges(KINDS[key].inputs))
    inspect_markup(section_svg(key, inputs, checked(key, inputs), width_class=width, title=TITLE))


@EVERY
@given(data=st.data())
@WHOLE_RANGE
def test_every_limit_state_has_its_place_in_the_drawing(key: str, data: st.DataObject) -> None:
    inputs = data.draw(within_ranges(KINDS[key].inputs))
    result = checked(key, inputs)
    if result is None:
        return
    scenes = [plan.build(Frame(640, 500)) for plan in plans(key, inputs, "ft in")]
    for state in result.states:
        views = [scene for scene in scenes if state.spot in scene.spots]
        assert views, f"{state.key} occurs at {state.spot!r}, which no view shows"
        drawn = next((scene.lengths[state.key] for scene in views if state.key in scene.lengths), None)
        if drawn is None or state.capacity is None or state.key in GUARDED:
            continue
        (ax, ay), (bx, by) = drawn.start, drawn.end
        length = bx - ax if bx != ax else by - ay
        assert length <= 0 or pytest.approx(length, abs=1e-6) in (state.capacity, state.demand), state.key


@EVERY
def test_a_drawing_takes_no_more_than_five_milliseconds(key: str) -> None:
    inputs = KINDS[key].inputs()
    result = checked(key, inputs)
    assert pace.seconds(lambda: section_svg(key, inputs, result, title=TITLE)) < 0.005


def test_names_with_markup_are_written_as_they_are() -> None:
    inputs = KINDS["ledge_seat"].inputs()
    name = '<script>alert("1")</script> & <b>W3</b>'
    markup = section_svg("ledge_seat", inputs, checked("ledge_seat", inputs), tag='<"1">', title=name)
    root = inspect_markup(markup)
    assert "<script" not in markup
    assert "<b>" not in markup
    assert '<"1">' in "".join(root.itertext())
    assert name in (root.findtext(f"{SVG}title") or "")


def test_the_drawings_of_one_attachment_share_no_ids() -> None:
    inputs = KINDS["ledge_seat"].inputs()
    page = [ET.fromstring(section_svg("ledge_seat", inputs, None, width_class=width)) for width in WIDTHS]
    page.append(ET.fromstring(section_svg("ledge_seat", inputs, None, prefix="again")))
    ids = [element.get("id") for root in page for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))


def test_the_title_says_the_finding_and_the_description_the_dimensions() -> None:
    inputs = KINDS["ledge_seat"].inputs(required_bearing_in=4.5)
    root = ET.fromstring(section_svg("ledge_seat", inputs, checked("ledge_seat", inputs), title=TITLE))
    finding = root.findtext(f"{SVG}title") or ""
    assert finding.startswith(f"Joists on a ledge, {TITLE}. Flag: ")
    assert "4 1/2 in" in finding
    described = root.findtext(f"{SVG}desc") or ""
    for part in ("core below 10 in", "core above 6 in", "joist depth 9 1/4 in", "anchor embedment 7 in"):
        assert part in described


def test_a_drawing_without_a_check_shows_geometry_and_no_verdict() -> None:
    inputs = KINDS["beam_pocket"].inputs()
    sheet = section_sheet("beam_pocket", inputs, None)
    assert not sheet.signs
    assert not [words for words in sheet.words if words.role == "governs"]
    inspect_words(sheet)


def test_inputs_that_contradict_each_other_leave_the_bare_wall_and_say_why() -> None:
    inputs = KINDS["bolted_ledger"].inputs(size="2x8", rows=1, top_edge_in=11)
    sheet = section_sheet("bolted_ledger", inputs, None)
    said = " ".join(words.letters.text for words in sheet.words)
    assert "Not drawn: what it carries. The lower bolts lie" in said
    assert "Not drawn" in sheet.description
    inspect_words(sheet)


def test_an_unknown_kind_names_the_known_ones() -> None:
    with pytest.raises(BadInput, match="ledge_seat"):
        section_svg("shelf", None, None)
