"""DXF and SVG files of drawings: sound for whoever opens them, true to scale, words letter for letter."""

import io
import re
import xml.etree.ElementTree as ET
from math import hypot

import pytest
from ezdxf import bbox, recover
from ezdxf.document import Drawing
from ezdxf.tools.text import plain_mtext, plain_text
from hypothesis import given, settings
from hypothesis import strategies as st

from engine import VERSION, attachments
from engine.attachments import KINDS
from engine.editions import US_2021
from engine.placing import Inputs, placing_plan
from engine.result import LOCAL_CODE
from engine.units import System
from engine.wall import Storey, Wall, WallLine, WallType, wall
from tests.engine.placements import W1
from tests.webapp.test_drawings_elevation import carried, house_wall
from tests.webapp.test_drawings_plan import LINKS, ROWS, house
from tests.world import World
from webapp.drawings import dxf, single_sheets
from webapp.drawings.dxf_title import TitleBlock
from webapp.drawings.elevation import elevation_sheet, elevation_svg
from webapp.drawings.paper import Measured, Sheet
from webapp.drawings.plan import plan_sheet, plan_svg
from webapp.drawings.pressure import pressure_sheet
from webapp.drawings.svg_alone import alone

EVERY = pytest.mark.parametrize("key", list(KINDS))
SYSTEMS = pytest.mark.parametrize(
    ("system", "unit", "insunits"), [("ft in", 1.0, 1), ("mm", 25.4, 4)]
)  # 25.4 mm, exact
HOSTILE = [
    '<script>alert("1")</script> & </text>',
    "\u05e9\u05dc\u05d5\u05dd \u202edlrow",
    "wall 🧱 ∅ µ",
    r"\P{\H3x;big} %%c ^I \U+0041",
    "x" * 500,
]


def opened(data: bytes) -> Drawing:
    """The file as another program would read it, held against its audit."""
    doc, audit = recover.read(io.BytesIO(data))
    assert not audit.errors
    assert not audit.fixes
    return doc


def lengths(doc: Drawing, layer: str) -> list[float]:
    return [hypot(*(line.dxf.end - line.dxf.start).vec2) for line in doc.modelspace().query(f'LINE[layer=="{layer}"]')]


def words(doc: Drawing) -> list[str]:
    return [plain_text(text.dxf.text) for text in doc.modelspace().query("TEXT")]


def notes(doc: Drawing) -> str:
    (block,) = doc.modelspace().query("MTEXT")
    return plain_mtext(block.text).replace("\u2060", "")


def measures(sheet: Sheet) -> list[float]:
    return [one.inches for one in sheet.dimensions if isinstance(one, Measured)]


@EVERY
@SYSTEMS
def test_every_kind_opens_without_an_error_and_measures_what_the_engine_says(
    key: str, system: System, unit: float, insunits: int
) -> None:
    inputs = KINDS[key].inputs()
    sheets = single_sheets(key, inputs, attachments.check(key, inputs, US_2021), system)
    doc = opened(dxf.render(sheets, ["Note."], system))
    assert doc.header["$INSUNITS"] == insunits
    drawn = [length for layer in ("DIMENSION", "GOVERNS") for length in lengths(doc, layer)]
    for sheet in sheets:
        assert measures(sheet)
        for inches in measures(sheet):
            assert any(length == pytest.approx(inches * unit, abs=1e-6) for length in drawn), inches


def test_the_core_of_a_ledge_is_as_thick_in_the_file_as_in_the_engine() -> None:
    inputs = KINDS["ledge_seat"].inputs(lower_core_in=10.0, upper_core_in=6.0)
    doc = opened(dxf.render(single_sheets("ledge_seat", inputs, None), []))
    found = lengths(doc, "DIMENSION")
    assert any(length == pytest.approx(10.0) for length in found)
    assert any(length == pytest.approx(6.0) for length in found)
    assert {hatch.dxf.pattern_name for hatch in doc.modelspace().query("HATCH")} >= {"AR-CONC", "ANSI31"}


@SYSTEMS
def test_an_elevation_is_as_long_in_the_file_as_the_wall(system: System, unit: float, insunits: int) -> None:
    of = house_wall()
    entries = carried(of)
    doc = opened(dxf.render([elevation_sheet(of, entries, system, focus="A1")], [], system))
    assert doc.header["$INSUNITS"] == insunits
    assert max(lengths(doc, "CUT")) == pytest.approx(42 * 12 * unit)
    assert max(lengths(doc, "DIMENSION")) == pytest.approx(42 * 12 * unit)


@SYSTEMS
def test_a_plan_is_as_wide_in_the_file_as_the_house(system: System, unit: float, insunits: int) -> None:
    doc = opened(dxf.render([plan_sheet(house(), ROWS, LINKS, system)], [], system))
    assert doc.header["$INSUNITS"] == insunits
    assert max(lengths(doc, "CARRIES")) == pytest.approx(40 * 12 * unit)
    for feet in (42, 34, 30, 12, 26, 8):
        assert any(length == pytest.approx(feet * 12 * unit) for length in lengths(doc, "DIMENSION"))


@SYSTEMS
def test_a_wall_being_filled_is_as_high_in_the_file_as_its_storey_and_pressures_keep_one_scale(
    system: System, unit: float, insunits: int
) -> None:
    # W1 of the placements: 9 ft high, 8 in core. 690 psf by ACI 347R at 3 ft/h and 50 °F, 715 psf on the forms.
    plan = placing_plan(Inputs(pump_yd3_per_h=4.0, temperature_F=50.0), (W1,), US_2021)
    sheet = pressure_sheet(plan, system)
    doc = opened(dxf.render([sheet], [], system))
    assert doc.header["$INSUNITS"] == insunits
    assert max(lengths(doc, "DIMENSION")) >= 9 * 12 * unit
    assert any(length == pytest.approx(9 * 12 * unit) for length in lengths(doc, "CUT"))
    core, face = sorted({round(line.dxf.start.x, 6) for line in doc.modelspace().query('LINE[layer=="CUT"]')})
    assert face - core == pytest.approx(W1.core_in * unit, abs=1e-5)
    (may,) = doc.modelspace().query('LINE[layer=="GOVERNS"]')
    (aci,) = doc.modelspace().query('LWPOLYLINE[layer=="CUT"]')
    deepest = max(x for x, *_ in aci.get_points())
    assert (deepest - face) / (may.dxf.start.x - face) == pytest.approx(690 / 715)


def test_every_meaning_of_a_line_has_its_layer() -> None:
    doc = opened(dxf.render([plan_sheet(house(), ROWS, LINKS), elevation_sheet(house_wall(), ())], []))
    named = {layer.dxf.name for layer in doc.layers}
    assert {
        "CUT",
        "SEEN",
        "HIDDEN",
        "CENTRE",
        "DIMENSION",
        "HATCH",
        "GOVERNS",
        "CARRIES",
        "CARRIES-FLAG",
        "TEXT",
        "NOTES",
    } <= named
    used = {entity.dxf.layer for entity in doc.modelspace()}
    assert "0" not in used
    assert doc.layers.get("CARRIES-REFER").dxf.linetype == "DASHED"


@EVERY
def test_the_spot_that_governs_stands_on_a_layer_of_its_own_in_its_verdicts_colour(key: str) -> None:
    inputs = KINDS[key].inputs()
    result = attachments.check(key, inputs, US_2021)
    doc = opened(dxf.render(single_sheets(key, inputs, result), []))
    marked = [e for e in doc.modelspace() if e.dxf.layer == "GOVERNS"]
    assert result.governing is not None
    assert {e.dxf.color for e in marked} == {dxf.TONES[result.governing.verdict.value]}
    assert any(e.dxftype() == "TEXT" for e in marked), "nothing is said of it"
    assert any(e.dxftype() in ("LINE", "LWPOLYLINE") for e in marked), "nothing is drawn of it"


def test_the_governing_area_of_a_ledge_is_filled_and_what_is_under_it_is_seen() -> None:
    inputs = KINDS["ledge_seat"].inputs()
    doc = opened(dxf.render(single_sheets("ledge_seat", inputs, attachments.check("ledge_seat", inputs, US_2021)), []))
    (tint,) = doc.modelspace().query('HATCH[layer=="GOVERNS"]')
    assert tint.transparency == pytest.approx(0.8, abs=0.01)


@SYSTEMS
@pytest.mark.parametrize("name", ["Lot 12", *HOSTILE])
def test_the_title_block_keeps_every_word_within_its_frame(
    name: str, system: System, unit: float, insunits: int
) -> None:
    block = TitleBlock((("Job", name), ("Scale", "1 to 1")), LOCAL_CODE)
    doc = opened(dxf.render(single_sheets("ledge_seat", KINDS["ledge_seat"].inputs(), None, system), [], system, block))
    own = doc.modelspace().query('TEXT[layer=="TITLE-BLOCK"]')
    rules = doc.modelspace().query('LINE[layer=="TITLE-BLOCK"]')
    right = max(line.dxf.end.x for line in rules)
    low, high = min(line.dxf.end.y for line in rules), max(line.dxf.start.y for line in rules)
    extents = [bbox.extents([text]) for text in own]
    assert [plain_text(text.dxf.text) for text in own][:1] == ["Job"]
    assert {"Scale", "1 to 1"} <= {plain_text(text.dxf.text) for text in own}
    caution = " ".join(plain_text(text.dxf.text) for text in own if plain_text(text.dxf.text) in LOCAL_CODE)
    assert caution == LOCAL_CODE
    assert all(box.extmin.x >= 0 and low < box.extmin.y and box.extmax.y < high for box in extents)
    assert all(text.dxf.insert.x < right for text in own)


def test_a_file_says_whose_it_is_at_which_scale_and_that_it_is_a_draft(at: World) -> None:
    job = at.job()

    def said(path: str) -> str:
        doc = opened(at.reader.get(f"/jobs/{job}/{path}.dxf").content)
        return "\n".join(plain_text(t.dxf.text) for t in doc.modelspace().query('TEXT[layer=="TITLE-BLOCK"]'))

    for path in (
        "attachments/A1/drawing", "walls/1/elevation", "plan", "placing/pressure", "placing/walls/1/pressure",
    ):  # fmt: skip
        words = said(path)
        assert "1 to 1, drawn in inches" in words
        assert "none submitted yet" in words
        assert f"engine {VERSION}" in words
    at.reader.post(f"/jobs/{job}/revisions", data={"note": ""})
    assert re.search(r"draft of \d{4}-\d\d-\d\d; last submitted: revision A, \w{4} \w{4} \w{4}", said("plan"))


def named_wall(name: str) -> Wall:
    return wall(name, WallLine(20.0), [Storey("ten", 9.0)], (), {"ten": WallType()})


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_survive_letter_for_letter(name: str) -> None:
    doc = opened(dxf.render([plan_sheet([named_wall(name)], [], {})], [f"Job {name}.", LOCAL_CODE]))
    said = notes(doc)
    assert f"Job {name}." in said
    assert LOCAL_CODE in said


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=60))
def test_any_name_leaves_a_file_that_opens(name: str) -> None:
    opened(dxf.render([elevation_sheet(named_wall("W1"), (), title=name or "x")], [name]))


def test_figures_are_written_as_they_are_read() -> None:
    of = house_wall(20.5)
    doc = opened(dxf.render([elevation_sheet(of, carried(of), focus="A1")], []))
    assert "20-6" in words(doc)


def test_an_svg_file_has_its_colours_with_it() -> None:
    of = house_wall()
    for markup in (alone(elevation_svg(of, carried(of))), alone(plan_svg(house(), ROWS, {}))):
        root = ET.fromstring(markup.encode())
        assert "style" not in {name for element in root.iter() for name in element.attrib}
        for element in root.iter():
            names = (element.get("class") or "").split()
            if any(name.startswith("p-") for name in names):
                assert re.fullmatch(r"#[0-9a-f]{6}", element.get("stroke") or ""), names
            if element.tag.endswith("}text"):
                assert element.get("fill")
    flagged = [e for e in root.iter() if "p-carries-flag" in (e.get("class") or "")]
    assert {e.get("stroke") for e in flagged} == {"#b34a00"}


def test_the_files_of_a_job_are_there_and_say_what_governs(at: World) -> None:
    job = at.job()
    for path in (
        "attachments/A1/drawing", "walls/1/elevation", "plan", "placing/pressure", "placing/walls/1/pressure",
    ):  # fmt: skip
        answer = at.reader.get(f"/jobs/{job}/{path}.dxf")
        assert answer.status_code == 200, path
        assert LOCAL_CODE in notes(opened(answer.content))
        assert re.fullmatch(r'attachment; filename="[a-z0-9-]+\.dxf"', answer.headers["content-disposition"])
        drawn = at.reader.get(f"/jobs/{job}/{path}.svg")
        assert drawn.headers["content-type"].startswith("image/svg+xml")
        ET.fromstring(drawn.content)


def test_a_millimetre_reader_gets_millimetres(at: World) -> None:
    job = at.job()
    at.reader.cookies.set("wallseat_units", "mm")
    doc = opened(at.reader.get(f"/jobs/{job}/plan.dxf").content)
    assert doc.header["$INSUNITS"] == 4


def test_drawings_of_what_is_not_there_are_missing(at: World) -> None:
    job = at.job()
    for path in (
        "attachments/A99/drawing.dxf", "walls/999/elevation.dxf", "walls/999/elevation.svg",
        "placing/walls/999/pressure.svg", "placing/pressure.dxf?lift_ft=nothing", "placing/pressure.svg?walls=some",
    ):  # fmt: skip
        assert at.reader.get(f"/jobs/{job}/{path}").status_code == 404, path
    empty = at.job(walls=[], attachments=[], floor_lines=[])
    for path in ("plan.dxf", "placing/pressure.svg"):
        assert at.reader.get(f"/jobs/{empty}/{path}").status_code == 404, path


def test_every_drawing_leads_to_its_files_in_the_same_words(at: World) -> None:
    job = at.job()
    wall_id, tag = 1, "A1"
    for page in (
        "",
        f"/attachments/{tag}",
        f"/setting-out/walls/{wall_id}",
        f"/setting-out/walls/{wall_id}/{tag}",
        "/placing",
        f"/placing/walls/{wall_id}?pump_yd3_per_h=4",
        "/placing?level=2&walls=some&wall=1&units=mm",
    ):
        text = at.reader.get(f"/jobs/{job}{page}").text
        row = re.search(r'<p class="drawing-files">(.*?)</p>', text)
        assert row, page
        assert re.sub("<[^>]+>", "", row[1]) == "Drawing: SVG, DXF"
        for href in re.findall(r'href="([^"]+)"', row[1]):
            assert at.reader.get(href.replace("&amp;", "&")).status_code == 200, href


def test_files_of_what_is_not_kept_yet_say_that_they_are_older(at: World) -> None:
    job = at.job()
    assert "Drawing, as last saved:" in at.reader.get(f"/jobs/{job}/attachments/A1?end_gap_in=1").text
