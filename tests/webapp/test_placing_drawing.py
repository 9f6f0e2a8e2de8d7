"""The pressure diagram: to scale both ways, nothing said twice or off the sheet, whatever is placed."""

import re
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.editions import US_2021
from engine.placing import Inputs, PlacingPlan, Run, placing_plan
from engine.units import System
from tests.engine.placements import W1
from tests.engine.samples import within_ranges
from tests.world import inspect
from webapp.drawings.layout import WIDTHS
from webapp.drawings.paper import Fill, Line, Measured, Sheet, overlap
from webapp.drawings.pressure import clock, pressure_sheet, pressure_svg
from webapp.drawings.shapes import Pen

ON_PAGES = ("desk", "tablet", "phone")


def plan(*walls: Run, **inputs: object) -> PlacingPlan:
    return placing_plan(Inputs(**inputs), walls or (W1,), US_2021)  # type: ignore[arg-type]


def said(sheet: Sheet) -> list[str]:
    return [words.letters.text for words in sheet.words]


def outline(sheet: Sheet, pen: Pen) -> list[Line]:
    return [ink for ink in sheet.panels[0].layers["outline"] if isinstance(ink, Line) and ink.pen is pen]


def test_heights_are_drawn_to_scale() -> None:
    sheet = pressure_sheet(plan(pump_yd3_per_h=4.0))
    measured = [ink for ink in sheet.dimensions if isinstance(ink, Measured)]
    assert sorted(one.inches for one in measured) == pytest.approx([36, 36, 36, 108])
    for one in measured:
        (_, y0), (_, y1) = one.lines[0].points
        assert abs(y1 - y0) == pytest.approx(one.inches * sheet.panels[0].scale)


def test_pressures_are_drawn_to_one_scale_from_the_face_of_the_wall() -> None:
    # 690 psf by ACI 347R at 3 ft/h and 50 °F, 715 psf on the forms, 1,350 psf of head.
    sheet = pressure_sheet(plan(pump_yd3_per_h=4.0, temperature_F=50.0))
    (forms,) = outline(sheet, Pen.GOVERNS)
    (tint,) = [ink for ink in sheet.panels[0].layers["tint"] if isinstance(ink, Fill)]
    face = min(x for x, _ in tint.points)
    aci = max(x for x, _ in tint.points) - face
    slanting = [line.points for line in outline(sheet, Pen.SEEN) if line.points[0][1] != line.points[1][1]]
    (head,) = [points[1][0] - face for points in slanting if points[1][0] > points[0][0] + 1]
    assert aci / 690 == pytest.approx((forms.points[0][0] - face) / 715)
    assert aci / 690 == pytest.approx(head / 1350)
    assert aci < forms.points[0][0] - face


def test_the_sheet_says_the_finding_and_every_curve() -> None:
    sheet = pressure_sheet(plan(pump_yd3_per_h=4.0, temperature_F=50.0))
    text = " ".join(said(sheet))
    for words in ("ACI 347R", "CIRIA 108", "liquid head", "the forms may carry 715 psf", "lift 3", "2:00 to 3:00"):
        assert words in text
    assert "Up to 690 psf at 50 °F, on forms for 715 psf" in text
    assert "presses 690 psf; the forms may carry 715 psf" in sheet.finding
    assert "Lift 3: 3 ft, 2:00 to 3:00." in sheet.description


def test_forms_that_give_way_are_drawn_in_the_colour_of_a_flag() -> None:
    for rate, tone in ((4.0, "pass"), (12.0, "flag")):
        sheet = pressure_sheet(plan(pump_yd3_per_h=rate, temperature_F=50.0))
        assert outline(sheet, Pen.GOVERNS)[0].tone == tone


def test_concrete_that_counts_as_liquid_has_one_curve() -> None:
    text = " ".join(said(pressure_sheet(plan(slump_in=8.0))))
    assert "CIRIA" not in text
    assert "liquid head" not in text


def test_minutes_are_said_as_hours() -> None:
    assert [clock(m) for m in (0.0, 69.2, 600.0)] == ["0:00", "1:09", "10:00"]


@pytest.mark.parametrize("width", ON_PAGES)
@pytest.mark.parametrize("system", ["ft in", "mm"])
def test_every_width_is_drawn_in_both_systems(width: str, system: System) -> None:
    text = pressure_svg(plan(), system, width)
    inspect(text, whole=False)
    assert ("kPa" in text) is (system == "mm")
    assert "nan" not in text


@given(
    within_ranges(Inputs), st.floats(1, 40), st.floats(4, 24), st.one_of(st.none(), st.floats(100, 3000)),
    st.sampled_from(ON_PAGES), st.sampled_from(["ft in", "mm"]),
)  # fmt: skip
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_words_stay_on_the_sheet_and_off_each_other(
    inputs: Inputs, height: float, core: float, form: float | None, width: str, system: System
) -> None:
    walls = (replace(W1, height_ft=height, core_in=core, form_psf=form, name="East wall"),)
    found = placing_plan(replace(inputs, brace_ft=None), walls, US_2021)
    sheet = pressure_sheet(found, system, width)
    assert sheet.width == WIDTHS[width].width
    boxes = [words.box for words in sheet.words]
    for left, top, right, bottom in boxes:
        assert left >= -1
        assert top >= -1
        assert right <= sheet.width + 1
        assert bottom <= sheet.height + 1
    for n, box in enumerate(boxes):
        for other in boxes[:n]:
            assert overlap(box, other) < 6, (said(sheet)[n], said(sheet)[boxes.index(other)])
    assert not re.search(
        r"nan|inf\b", pressure_svg(placing_plan(replace(inputs, brace_ft=None), walls, US_2021), system, width)
    )
