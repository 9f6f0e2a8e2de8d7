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
from tests.engine.samples import within_ranges
from webapp.drawings import section_sheet, section_svg
from webapp.drawings.layout import WIDTHS
from webapp.drawings.paper import Measured, Sheet, overlap

EVERY = pytest.mark.parametrize("key", list(KINDS))
CLASSES = st.sampled_from(list(WIDTHS))
SYSTEMS = st.sampled_from(["ft in", "mm"])
WHOLE_RANGE = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
SVG = "{http://www.w3.org/2000/svg}"
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
    sheet = section_sheet(key, inputs, checked(key, inputs), system, width, "A12", TITLE)
    inspect_words(sheet)
    inspect_dimensions(sheet, system)


@EVERY
@given(data=st.data(), width=CLASSES)
@settings(WHOLE_RANGE, max_examples=15)
def test_any_drawing_is_sound_markup(key: str, data: st.DataObject, width: str) -> None:
    inputs = data.draw(within_ranges(KINDS[key].inputs))
    inspect_markup(section_svg(key, inputs, checked(key, inputs), width_class=width, title=TITLE))
