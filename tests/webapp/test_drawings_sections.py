"""What each section shows: the engine's own geometry, measured again in the markup."""

import re
import xml.etree.ElementTree as ET
from collections import Counter
from math import hypot
from typing import Any

import pytest

from engine import attachments, units
from engine.attachments import KINDS
from engine.editions import US_2021, Citation
from engine.result import CheckResult, LimitState
from webapp.drawings import plans, section_sheet, section_svg
from webapp.drawings.governing import judged
from webapp.drawings.scene import Frame, Scene
from webapp.drawings.shapes import Area, Disc, Material, Pen

SVG = "{http://www.w3.org/2000/svg}"
PAIR = re.compile(r"-?[\d.]+(?:e-?\d+)?")


def inputs_of(key: str, **values: Any) -> Any:
    return KINDS[key].inputs(**values)


def scene_of(key: str, number: int = 0, **values: Any) -> Scene:
    return plans(key, inputs_of(key, **values), "ft in")[number].build(Frame(480, 500))


def geometry_of(key: str, inputs: Any) -> Any:
    return KINDS[key].module.geometry(inputs)


def drawn(key: str, inputs: Any, result: CheckResult | None = None, **more: Any) -> ET.Element:
    return ET.fromstring(section_svg(key, inputs, result, title="Section", **more))


def measured(root: ET.Element) -> Counter[float]:
    """Every dimension of a drawing, measured off its line through its view's scale [in]."""
    found: Counter[float] = Counter()
    for group in root.iter(f"{SVG}g"):
        if group.get("data-inches") is None:
            continue
        line = group.find(f"{SVG}path")
        assert line is not None
        ax, ay, bx, by = (float(n) for n in PAIR.findall(line.get("d") or ""))
        length = hypot(bx - ax, by - ay) / float(group.get("data-scale") or 0)
        assert length == pytest.approx(float(group.get("data-inches") or 0), abs=0.02)
        found[round(float(group.get("data-inches") or 0), 4)] += 1
    return found


def areas(scene: Scene, material: Material) -> list[Area]:
    return [shape for shape in scene.shapes if isinstance(shape, Area) and shape.material is material]


def width(area: Area) -> float:
    xs = [x for x, _ in area.corners]
    return max(xs) - min(xs)


def result_with(key: str, state: LimitState) -> CheckResult:
    return CheckResult(key, US_2021, (state,))


def test_a_ledge_is_dimensioned_with_the_engine_s_figures() -> None:
    inputs = inputs_of(
        "ledge_seat", lower_core_in=12, upper_core_in=8, top="taper", joist_depth_in=11.875, bolt_embedment_in=9
    )
    seat = geometry_of("ledge_seat", inputs)
    found = measured(drawn("ledge_seat", inputs))
    for inches in (seat.t_L, seat.t_U, 11.875, 9.0, seat.plate_thickness, 2.5, 17.0, 16.0):
        assert found[inches], inches


def test_the_judged_bearing_is_the_engine_s_and_what_it_needs_stands_dashed_beneath() -> None:
    inputs = inputs_of("ledge_seat", required_bearing_in=3.5, top="taper", lip_in=0.5)
    result = attachments.check("ledge_seat", inputs, US_2021)
    assert result.governing is not None
    assert result.governing.key == "bearing-drawing"
    seat = geometry_of("ledge_seat", inputs)
    root = drawn("ledge_seat", inputs, result)
    texts = ["".join(text.itertext()) for text in root.iter(f"{SVG}text")]
    assert f"{units.show(seat.bearing, 'in')} bears" in texts
    assert "3 1/2 in needed" in texts
    dashed = [path for path in root.iter(f"{SVG}path") if "p-needed" in (path.get("class") or "")]
    assert dashed
    assert {path.get("stroke-dasharray") for path in dashed} == {"4 3"}
    found = measured(root)
    assert found[seat.bearing]
    assert found[3.5]


def test_only_what_a_line_judges_is_drawn_as_its_dimension() -> None:
    """The bolts go 7 in deep; a spacing limit of 7 in at the same bolt is another matter."""
    scene = scene_of("ledge_seat")
    deep = LimitState("bolt-embedment", "Embedment", Citation("IRC", "R403.1.6"), 7.0, 7.0, "in", spot="anchor")
    apart = LimitState("bolt-spacing", "Spacing", Citation("IRC", "R403.1.6"), 6.0, 7.0, "in", spot="anchor")
    assert judged(deep, scene, "ft in") is not None
    assert judged(apart, scene, "ft in") is None


def test_a_seat_of_nothing_is_drawn_and_named() -> None:
    inputs = inputs_of("ledge_seat", lower_core_in=8, upper_core_in=8, top="square")
    said = " ".join(words.letters.text for words in section_sheet("ledge_seat", inputs, None).words)
    assert "Not drawn: the seat: the wall above covers the ledge by 2 1/2 in" in said
    assert areas(scene_of("ledge_seat", lower_core_in=8, upper_core_in=8, top="square"), Material.CONCRETE)


def test_upper_foam_cut_away_stops_above_the_deck() -> None:
    whole = scene_of("ledge_seat", upper_foam="whole")
    cut = scene_of("ledge_seat", upper_foam="cut_line")
    lows = [min(min(y for _, y in foam.corners) for foam in areas(s, Material.FOAM) if min(x for x, _ in foam.corners) >= 6 and
                max(y for _, y in foam.corners) == s.window[1][1]) for s in (whole, cut)]  # fmt: skip
    assert lows[0] == 0
    assert lows[1] > 9.25


def test_a_ledger_stands_off_the_core_by_its_pad_and_its_bolts_reach_in() -> None:
    inputs = inputs_of("bolted_ledger", rows=2, top_edge_in=2, gauge_in=4)
    ledger = geometry_of("bolted_ledger", inputs)
    found = measured(drawn("bolted_ledger", inputs))
    for inches in (ledger.t, ledger.foam, ledger.h_ef, ledger.b, ledger.d, 2.0, 4.0, ledger.end, ledger.x_R):
        assert found[round(inches, 4)], inches
    scene = scene_of("bolted_ledger", rows=2, top_edge_in=2, gauge_in=4)
    (piece,) = areas(scene, Material.WOOD_CUT)
    assert min(x for x, _ in piece.corners) == pytest.approx(ledger.x_back)
    assert width(piece) == pytest.approx(ledger.b)


def test_two_plies_are_two_pieces() -> None:
    assert len(areas(scene_of("bolted_ledger", plies=2), Material.WOOD_CUT)) == 2


def test_staggered_bolts_are_cut_in_one_row_and_hidden_in_the_other() -> None:
    scene = scene_of("bolted_ledger", rows=2, top_edge_in=2, gauge_in=4, staggered=True)
    hidden = [shape for shape in scene.shapes if getattr(shape, "pen", None) is Pen.HIDDEN]
    assert len(hidden) == 1


def test_the_elevation_shows_each_bolt_where_the_engine_puts_it() -> None:
    inputs = inputs_of("bolted_ledger", piece_ft=2, spacing_in=8)
    ledger = geometry_of("bolted_ledger", inputs)
    scene = scene_of("bolted_ledger", 1, piece_ft=2, spacing_in=8)
    places = {disc.centre for disc in scene.shapes if isinstance(disc, Disc) and disc.solid}
    assert places == {(u, -y) for u, y in ledger.bolts}


def test_the_screws_of_a_cast_in_plate_stand_where_the_engine_puts_them() -> None:
    inputs = inputs_of("cast_in_plate", screws=8, columns=3, staggered=True)
    plate = geometry_of("cast_in_plate", inputs)
    scene = scene_of("cast_in_plate", 1, screws=8, columns=3, staggered=True)
    places = {disc.centre for disc in scene.shapes if isinstance(disc, Disc) and disc.solid}
    assert places == {(x, -y) for x, y in plate.screws}
    (part,) = areas(scene, Material.STEEL_SEEN)
    assert width(part) == pytest.approx(inputs.leg_in)


def test_a_surveyed_plate_is_shown_in_both_places() -> None:
    scene = scene_of("cast_in_plate", 1, surveyed=True, shift_up_in=0.75)
    drawn_at = {disc.centre for disc in scene.shapes if isinstance(disc, Disc) and disc.solid}
    found_at = {disc.centre for disc in scene.shapes if isinstance(disc, Disc) and not disc.solid}
    assert found_at == {(x, y + 0.75) for x, y in drawn_at}


def test_a_pocket_is_dimensioned_with_the_engine_s_figures() -> None:
    inputs = inputs_of("beam_pocket")
    pocket = geometry_of("beam_pocket", inputs)
    found = measured(drawn("beam_pocket", inputs))
    for inches in (inputs.core_in, pocket.bearing, pocket.end_gap, pocket.behind, inputs.depth_in, inputs.width_in, pocket.side_gap,
                   pocket.top_gap, inputs.pocket_width_in):  # fmt: skip
        assert found[round(inches, 4)], inches


def test_a_pocket_through_the_wall_says_that_nothing_is_left_behind() -> None:
    scene = scene_of("beam_pocket", pocket_length_in=12)
    assert scene.missing == ("core behind the pocket: it runs through",)
    assert len(areas(scene, Material.CONCRETE)) == 2


def test_bars_the_pocket_cuts_stop_above_and_below_it() -> None:
    whole, cut = scene_of("beam_pocket", 1, bars_cut=0), scene_of("beam_pocket", 1, bars_cut=1)

    def hidden(scene: Scene) -> int:
        return sum(getattr(shape, "pen", None) is Pen.HIDDEN for shape in scene.shapes)

    assert hidden(cut) > hidden(whole) - 1
    crossing = [
        shape for shape in cut.shapes if getattr(shape, "pen", None) is Pen.HIDDEN and abs(shape.points[0][0]) < 1
    ]
    assert crossing
    assert not any(low < 5 < high for (_, low), (_, high) in (shape.points for shape in crossing))


def test_a_governing_line_without_a_place_of_its_own_is_said_at_the_member() -> None:
    inputs = inputs_of("beam_pocket")
    lost = LimitState("x", "Something new", Citation("IRC"), 2.0, 1.0, "lb", say="Asks {demand}.", spot="nowhere known")
    sheet = section_sheet("beam_pocket", inputs, result_with("beam_pocket", lost))
    assert "Something new 2.00" in [words.letters.text for words in sheet.words]
    assert [sign.verdict for sign in sheet.signs] == ["flag"]


def test_a_small_drawing_marks_the_spot_with_a_ring_and_says_nothing() -> None:
    inputs = inputs_of("ledge_seat")
    result = attachments.check("ledge_seat", inputs, US_2021)
    sheet = section_sheet("ledge_seat", inputs, result, width_class="small")
    assert {words.role for words in sheet.words} == {"sub"}  # the scale bar's figures
    root = drawn("ledge_seat", inputs, result, width_class="small")
    rings = [circle for circle in root.iter(f"{SVG}circle") if circle.get("r") == "11"]
    assert len(rings) == 1
    assert "tn-pass" in (rings[0].get("class") or "")


def test_a_phone_shows_both_cores_the_member_and_what_governs() -> None:
    inputs = inputs_of("ledge_seat", required_bearing_in=4)
    result = attachments.check("ledge_seat", inputs, US_2021)
    found = measured(drawn("ledge_seat", inputs, result, width_class="phone"))
    assert found[10.0]
    assert found[6.0]
    assert found[9.25]
    assert not found[16.0]
    sheet = section_sheet("ledge_seat", inputs, result, width_class="phone")
    assert (
        min(run.size for words in sheet.words if words.role != "sub" for run in words.letters.runs if run.rise == 0)
        >= 9
    )
    assert min(words.letters.size for words in sheet.words if words.role != "sub") >= 13


@pytest.mark.parametrize("key", list(KINDS))
def test_every_kind_paints_in_the_order_of_the_rules(key: str) -> None:
    inputs = inputs_of(key)
    root = drawn(key, inputs, attachments.check(key, inputs, US_2021))
    order = ["hatch", "bars", "wood-seen", "wood-cut", "steel", "hidden", "outline", "tint"]
    for panel in (g for g in root.iter(f"{SVG}g") if g.get("data-scale") and g.get("data-inches") is None):
        layers = [(g.get("class") or "")[2:] for g in panel if (g.get("class") or "").startswith("l-")]
        assert layers == sorted(layers, key=order.index)
    last = [g.get("class") or "" for g in root if (g.get("class") or "").startswith(("l-", "mark"))]
    assert last[:3] == ["l-dimensions", "l-halo", "l-text"]
    assert all(name.startswith("mark") for name in last[3:])


@pytest.mark.parametrize("key", list(KINDS))
def test_every_kind_keeps_its_letters_legible(key: str) -> None:
    for width_class, least in (("desk", 11.0), ("phone", 11.0), ("letter", 7 / 0.75)):
        sheet = section_sheet(key, inputs_of(key), None, width_class=width_class)
        assert min(words.letters.size for words in sheet.words) >= least
