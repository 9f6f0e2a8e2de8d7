"""A takeoff by hand: one small wall counted out, and every attachment counted as it was set out."""

from dataclasses import replace
from math import ceil, pi

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine import fields
from engine.attachments import KINDS
from engine.attachments.veneer_ledge import Inputs as Veneer
from engine.attachments.veneer_ledge import geometry as ledge_of
from engine.errors import BadInput
from engine.job import AttachmentEntry, Job, WallEntry
from engine.set_job import Asked
from engine.setting_out import FloorLine, Habits, SettingOut
from engine.takeoff import (
    HEADINGS,
    ITEMS,
    TOTAL_HEADINGS,
    Office,
    Row,
    Takeoff,
    bar_weights,
    records,
    takeoff,
    total_records,
    totals,
)
from engine.takeoff.kinds import KINDS as COUNTED
from engine.takeoff.kinds import bolt_length_in
from engine.takeoff.veneer_bars import stirrup_in
from tests.engine.samples import within_ranges

WINDOW = {"start_ft": "8 ft", "width_ft": "4 ft", "sill_ft": "3 ft", "head_ft": "7 ft"}
TYPES = {"L": {"core_in": "10 in", "vertical_bar": "5"}, "U": {"core_in": "6 in"}}
SMALL = WallEntry("W1", {"length_ft": "20 ft", "far_end": "free"}, ({"type": "U", "height_ft": "9 ft"},), (WINDOW,))
TALL = WallEntry(
    "W2", {"length_ft": "42 ft"}, ({"type": "L", "height_ft": "9 ft"}, {"type": "U", "height_ft": "9 ft"}), (WINDOW,)
)


def entry(kind: str, wall: str = "W2", start: str = "1 ft", end: str = "41 ft", **inputs: str) -> AttachmentEntry:
    return AttachmentEntry("A1", kind, wall, 1, start, end, inputs)


def counted(*entries: AttachmentEntry, walls=(SMALL, TALL), office: Office | None = None, **asked) -> Takeoff:
    return takeoff(Job("House", wall_types=TYPES, walls=walls, attachments=entries), Asked(**asked), office)


def net(rows: tuple[Row, ...], item: str, size: str = "") -> float:
    return sum(row.net for row in rows if row.item == item and size in row.size)


def placed_of(found: Takeoff) -> SettingOut:
    """The one attachment as set out."""
    (placed,) = [placed for placed in found.set_out if placed.tag]
    return placed


def cut_list(rows: tuple[Row, ...], source: str) -> dict[tuple[str, float], float]:
    return {(row.size, row.each_in): row.net for row in rows if row.source == source}


def test_concrete_is_the_core_less_its_openings_lift_by_lift() -> None:
    """20 ft, 6 in core, window 4 ft from 3 to 7 ft. Lifts of 4 ft: 80 - 4, 80 - 12, 20 ft2, each x 1/2 ft / 27."""
    lifts = [row.net for row in counted().of("W1") if row.item == "concrete"]
    assert lifts == pytest.approx([76 / 54, 68 / 54, 20 / 54])
    assert [row.size for row in counted().of("W1") if row.item == "concrete"][1] == "storey 1, lift 2, 4 ft to 8 ft"


@pytest.mark.parametrize("lift_ft", [0.5, 1.3, 4.0, 9.0, 40.0])
def test_the_lifts_add_up_to_the_wall_whatever_their_height(lift_ft: float) -> None:
    assert net(counted(office=Office(lift_ft=lift_ft)).of("W1"), "concrete") == pytest.approx((180 - 16) / 54)


def test_forms_are_counted_by_courses_less_openings_as_high_as_a_course() -> None:
    """108 in in 16 in courses: 7. The window, 36 to 84 in, takes 4 ft of the courses 48-64 and 64-80: 5 x 20 + 2 x 16 = 132 ft."""
    assert net(counted().of("W1"), "form") == 132 / 4


def test_corner_forms_stand_half_in_each_wall() -> None:
    """One end of the wall is at a corner: 7 courses x 1/2; the straight forms lose 2 ft a course: 118 / 4 = 29 1/2, so 30."""
    rows = counted(office=Office(corner_leg_in=24.0)).of("W1")
    assert (net(rows, "form", "corner"), net(rows, "form", "straight")) == (3.5, 30.0)


def test_vertical_bars_are_cut_at_openings() -> None:
    """Bars from 8 in every 16 in, the last at 232 in: 15. Those at 104, 120, 136 meet the window from 96 to 144 in. Top of wall:
    108 - 1 1/2; below the sill 36 - 1 1/2; above the head 108 - 84 - 1 1/2 - 1 1/2."""
    assert cut_list(counted().of("W1"), "vertical bars") == {
        ("No. 4, straight", 106.5): 12,
        ("No. 4, straight", 34.5): 3,
        ("No. 4, straight", 21.0): 3,
    }


def test_horizontal_bars_are_hooked_at_the_corner_lapped_and_cut_at_openings() -> None:
    """Levels 8, 24, … 88 and 100 in: 7, of which 40, 56 and 72 meet the window.

    Hook of a No. 4: pi/2 x 1.75 + 6 - 2 = 6.749. Whole: 240 - 3 + 6.749 = 243.749, over 20 ft of stock. Class B lap in 3,000 psi:
    28.48, so 29 in at 8 in; as a top bar 1.3 x 28.48 = 37.03, so 38 in above. Rests 243.749 + 29 - 240 and + 38 - 240.
    Beside the window: 96 - 3 + 6.749 hooked, 96 - 3 straight.
    """
    assert cut_list(counted().of("W1"), "horizontal bars") == {
        ("No. 4, 90 degree hook at one end", 240.0): 4,
        ("No. 4, straight", 32.75): 1,
        ("No. 4, straight", 41.75): 3,
        ("No. 4, 90 degree hook at one end", 99.75): 3,
        ("No. 4, straight", 93.0): 3,
    }


def test_bars_round_an_opening_are_developed_past_its_corners() -> None:
    """No. 5, l_d 27.39, so 28 in: from 36 - 28 to 106 1/2, the wall's top, 98 1/2. Across as top bars 36 in each way: 120."""
    assert cut_list(counted().of("W1"), "bars round openings") == {
        ("No. 5, straight", 98.5): 2,
        ("No. 5, straight", 120.0): 2,
    }


def test_vertical_bars_run_on_by_their_lap_into_the_storey_above() -> None:
    """No. 5 below, No. 4 above: the larger of l_d 27.39 and class B 28.48, so 29 in."""
    full = cut_list(counted().of("W2"), "vertical bars")
    assert ("No. 5, straight", 108.0 + 29.0) in full
    assert ("No. 4, straight", 106.5) in full


def test_a_wall_in_two_curtains_has_twice_the_bars() -> None:
    two = replace(SMALL, storeys=({"type": "T", "height_ft": "9 ft"},))
    types = {"T": {**TYPES["U"], "curtains": "two"}}
    doubled = takeoff(Job("House", wall_types=types, walls=(two,)))
    for source in ("vertical bars", "horizontal bars", "bars round openings"):
        single = cut_list(counted().of("W1"), source)
        assert cut_list(doubled.rows, source) == {key: 2 * count for key, count in single.items()}


def test_bars_weigh_what_the_table_says() -> None:
    """Vertical bars: 12 x 106.5 + 3 x 34.5 + 3 x 21 in = 1,444.5 in of No. 4 at 0.668 lb/ft."""
    rows = [row for row in counted().of("W1") if row.source == "vertical bars"]
    assert sum(row.pounds or 0 for row in rows) == pytest.approx(1444.5 / 12 * 0.668)


def test_bars_by_size_have_the_offices_waste_and_cut_pieces_none() -> None:
    rows = counted().of("W1")
    (four, five) = bar_weights(rows, {"bar": 10.0})
    assert (four.size, five.size) == ("No. 4", "No. 5")
    assert five.feet == pytest.approx((2 * 98.5 + 2 * 120) / 12)
    assert five.total_pounds == pytest.approx(five.feet * 1.043 * 1.1)
    assert all(total.waste_percent == 0 for total in totals(rows, {"bar": 10.0}) if total.item == "bar")


def test_sealant_goes_round_openings_and_not_along_a_floor() -> None:
    """Window 4 by 4 ft: 16 ft. A door 4 ft wide and 7 ft high: 2 x 7 + 4."""
    assert net(counted().of("W1"), "sealant") == 16.0
    door = replace(SMALL, openings=({**WINDOW, "sill_ft": "0 ft"},))
    assert net(counted(walls=(door,)).rows, "sealant") == 18.0


def test_a_wall_off_the_module_has_a_strapped_seam() -> None:
    """20 ft is 30 webs' spaces of 8 in; 20 ft 3 in is not: 9 ft on both faces."""
    assert net(counted().of("W1"), "strapping") == 0
    off = replace(SMALL, line={"length_ft": "20 ft 3 in"})
    assert net(counted(walls=(off,)).rows, "strapping") == 18.0


def test_a_bolts_length_is_what_it_passes_through_and_its_nut() -> None:
    """7 in of embedment, a 1 1/2 in plate, a 1/2 in nut and 1/4 in: 9 1/4, so 9 1/2. pi/4 x 1/4 x 9.5 x 490/1728 = 0.529 lb."""
    assert bolt_length_in(7.0, 1.5, 0.5) == 9.5
    (row,) = [r for r in counted(entry("ledge_seat")).of(tag="A1") if r.item == "anchor"]
    assert row.size == "1/2 in by 9 1/2 in, hex"
    assert row.pounds == pytest.approx(row.net * pi / 4 * 0.25 * 9.5 * 490 / 1728)


def test_cast_in_plates_weigh_their_sheet_and_take_their_screws() -> None:
    """7 in by 4 + 2 1/2 + 5 1/4 = 11 3/4 in, 0.0747 in thick: 1.742 lb each; six screws each."""
    found = counted(entry("cast_in_plate"))
    (plates,) = [r for r in found.of(tag="A1") if r.item == "plate"]
    assert plates.net == placed_of(found).count("plate") == 30
    assert plates.pounds == pytest.approx(30 * 7 * 11.75 * 0.0747 * 490 / 1728)
    (screws,) = [t for t in totals(found.rows, {"screw": 10.0}) if t.item == "screw"]
    assert (screws.net, screws.total, screws.boxes) == (180, 198, 2)


def test_boxes_are_of_the_offices_size() -> None:
    found = counted(entry("cast_in_plate"))
    assert [t.boxes for t in totals(found.rows, office=Office(screws_a_box=25)) if t.item == "screw"] == [
        ceil(180 / 25)
    ]


def test_a_ledger_takes_hangers_bolts_pads_and_its_pieces() -> None:
    """40 ft in 12 ft pieces, cut back from joists; a pad of a 7 in hole through 2 1/2 in of foam: 96.2 in3 a bolt."""
    found = counted(entry("bolted_ledger"))
    rows, placed = found.of(tag="A1"), placed_of(found)
    assert net(rows, "ledger") == pytest.approx(40.0)
    assert net(rows, "ledger piece") == len(placed.pieces)
    assert sum(r.net * r.each_in for r in rows if r.item == "ledger piece") == pytest.approx(480.0)
    assert net(rows, "hanger") == placed.count("joist")
    assert net(rows, "hanger fastener") == 8 * placed.count("joist")
    assert net(rows, "foam cut") == net(rows, "washer") == net(rows, "nut") == placed.count("anchor")
    assert net(rows, "concrete") == pytest.approx(placed.count("anchor") * pi / 4 * 49 * 2.5 / 46656)


def test_two_plies_are_twice_the_ledger() -> None:
    one, two = (counted(entry("bolted_ledger", plies=n)).of(tag="A1") for n in ("1", "2"))
    assert net(two, "ledger") == 2 * net(one, "ledger")
    assert net(two, "ledger piece") == 2 * net(one, "ledger piece")


def test_a_rod_with_a_nut_at_its_foot_has_two() -> None:
    rows = counted(entry("bolted_ledger", head="nut")).of(tag="A1")
    assert net(rows, "nut") == 2 * net(rows, "anchor")


def test_taper_forms_take_the_place_of_one_course_of_straight_ones() -> None:
    """The joists' run of 40 ft: 10 taper forms of 4 ft, and 10 straight ones fewer. The lip: 2 x 16 / 2 in2 over 40 ft."""
    plain, tapered = (counted(entry("ledge_seat", top=top)).of("W2") for top in ("square", "taper"))
    assert net(tapered, "form", "taper") == 10
    assert net(plain, "form", "straight, L") - net(tapered, "form", "straight, L") == 10
    assert net(tapered, "concrete", "taper") == pytest.approx(2.0 * 16 / 2 * 480 / 46656)


def test_the_foam_above_a_ledge_is_cut_as_its_seat_asks() -> None:
    joist = counted(entry("ledge_seat", upper_foam="cut_joist")).of(tag="A1")
    line = counted(entry("ledge_seat", upper_foam="cut_line")).of(tag="A1")
    assert net(joist, "foam cut") == 30
    assert net(line, "foam strip") == 40


def test_a_pocket_takes_its_plate_its_bars_and_a_cut() -> None:
    """Steel plate 6 by 3 1/2 by 1/2 in: 10 1/2 in3, 2.977 lb. Bars the storey's height less two covers: 105 in."""
    rows = counted(entry("beam_pocket", start="20 ft", end="", seat="loose_plate", bars_added="2")).of(tag="A1")
    (plate,) = [r for r in rows if r.item == "bearing plate"]
    assert plate.pounds == pytest.approx(10.5 * 490 / 1728)
    assert cut_list(rows, "set out, the storey's height") == {("No. 5, straight", 105.0): 2}
    assert net(rows, "sealant") == pytest.approx(2 * (5.5 + 9.75) / 12)


def test_a_veneer_ledges_stirrup_is_cut_along_its_middle() -> None:
    """No. 4 in an 8 in core. Straight parts and arcs: tail 6; hook's arc 1.75 pi/2; top leg from 1 3/4 in before the core's
    back line to 1 1/4 in before the lip's; and so on down the lip and back along the soffit of 6 in 7 1/8."""
    i = Veneer()
    g = ledge_of(i)
    slope_turn = 90 - 40.1009  # atan(6 / 7.125) = 40.1009 degrees
    tangent = 1.25 * 0.46524  # tan(slope_turn / 2)
    top_leg = (g.hook_back - 0.25) + (g.x_tip - 0.25) - 1.75 - 1.25
    lip_leg = (g.y_corner - 0.25) - (g.y_top + 0.25) - 1.25 - tangent
    soffit = (g.hook_back - 0.25 - 0.5 + g.x_tip - 0.25) / 0.76488 - tangent  # cos 40.1009
    arcs = pi / 2 * 1.75 + pi / 2 * 1.25 + slope_turn * pi / 180 * 1.25
    assert stirrup_in(i, g) == pytest.approx(6 + top_leg + lip_leg + soffit + arcs, abs=2e-3)


@pytest.mark.parametrize("tip", ["bar", "welded", "loop", "bend"])
@pytest.mark.parametrize("hook", ["90", "180", "closed"])
def test_every_shape_of_stirrup_reaches_from_hook_to_lip(hook: str, tip: str) -> None:
    i = Veneer(hook=hook, tip=tip)
    g = ledge_of(i)
    assert stirrup_in(i, g) > g.hook_back + g.x_tip


def test_a_veneer_ledge_takes_stirrups_ties_and_bars_as_set_out() -> None:
    found = counted(entry("veneer_ledge", start="0 ft", end="42 ft"))
    rows, placed = found.of(tag="A1"), placed_of(found)
    assert net(rows, "bar", "stirrup") == placed.count("stirrup")
    assert net(rows, "bar", "closed tie") == placed.count("stirrup")
    assert net(rows, "form") == ceil(42 / 4)
    assert net(rows, "concrete") == pytest.approx(7.125 * 9 * 504 / 46656)


def test_l_bars_turn_outside_corners_half_with_each_ledge() -> None:
    """42 in legs of a No. 4: 2 x 41.75 - (3.5)(1 - pi/4) = 82.749, so 82 3/4 in; two corner ends: one bar."""
    rows = counted(entry("veneer_ledge", start="0 ft", end="42 ft", corner="outside")).of(tag="A1")
    (row,) = [r for r in rows if "L" in r.size]
    assert (row.net, row.each_in) == (1.0, 82.75)


def test_what_cannot_be_set_out_is_left_out_and_said() -> None:
    found = counted(entry("bolted_ledger", end="50 ft"), entry("sill_plate", "W9"))
    assert found.of(tag="A1") == ()
    assert [(left.tag, left.why) for left in found.left_out] == [("A1", "Ends at: Wall W2 is 42 ft long.")]


def test_a_wall_that_cannot_be_built_is_said() -> None:
    wrong = replace(SMALL, openings=(WINDOW, {**WINDOW, "start_ft": "10 ft"}))
    (left,) = counted(walls=(wrong,)).left_out
    assert "overlap by 2.00 ft" in left.why


def test_stock_bars_shorter_than_their_lap_are_refused_in_words() -> None:
    """A No. 8 as a top bar in 3,000 psi laps 1.3 x 1.3 x 54.77 = 92.6, so 93 in, under 8 ft; in 2,500 psi 102 in."""
    types = {"U": {"core_in": "6 in", "horizontal_bar": "8", "f_c_psi": "2500 psi"}}
    found = takeoff(Job("House", wall_types=types, walls=(SMALL,)), office=Office(stock_ft=8.0))
    assert [left.why for left in found.left_out] == [
        "The lap of a No. 8 is 6 in longer than stock bars. Enter longer ones."
    ]


@pytest.mark.parametrize(
    ("waste", "said"), [({"gold": 1.0}, "No item"), ({"bar": -1.0}, "0 to 100"), ({"bar": float("nan")}, "bars")]
)
def test_a_waste_that_cannot_be_meant_is_refused(waste: dict, said: str) -> None:
    with pytest.raises(BadInput, match=said):
        totals((), waste)


def test_an_office_value_out_of_range_is_refused() -> None:
    with pytest.raises(BadInput):
        counted(office=Office(lift_ft=0.0))


def test_records_have_a_text_for_every_heading_and_lengths_in_millimetres() -> None:
    found = counted(entry("ledge_seat"))
    rows = list(records(found.rows, {"sill": 5.0}))
    assert all(len(row) == len(HEADINGS) for row in rows)
    (sill,) = [row for row in rows if row[0] == "Sill plate"]
    assert sill[3:8] == ("40", "5", "42", "", "12192")  # 40 ft is 12,192 mm
    assert all(len(row) == len(TOTAL_HEADINGS) for row in total_records(totals(found.rows)))
    for row in found.rows:
        assert (row.length_mm is not None) == (row.unit == "ft" or row.each_in > 0)


def test_every_kind_offered_is_counted() -> None:
    assert set(KINDS) <= set(COUNTED)


# Bolts and pieces of a gable's rake plate stand along its rakes, not along the wall: they are counted by its own geometry.
ALONG_RAKES = ("gable_end",)
SAME = {"anchor": "anchor", "tie": "tie", "plate": "plate", "anchored plate": "anchored", "bracket": "bracket"}


@pytest.mark.parametrize("kind", list(COUNTED))
@given(
    start=st.integers(0, 200), length=st.integers(36, 300), spacing=st.sampled_from([12.0, 16.0, 19.2, 24.0]),
    first=st.integers(1, 24),
)  # fmt: skip
@settings(max_examples=25)
def test_the_takeoff_counts_exactly_what_was_set_out(
    kind: str, start: int, length: int, spacing: float, first: int
) -> None:
    if kind not in KINDS:
        pytest.skip("not offered yet")
    point = KINDS[kind].point
    end = "" if point else f"{start + length} in"
    one = entry(kind, "W2", f"{start} in", end)
    found = counted(one, lines=(FloorLine("W2", 1, 0.0, None, spacing, float(first)),))
    net_of = {item: net(found.rows, item) for item in ITEMS}
    for item, what in SAME.items():
        if item == "anchor" and kind in ("anchored_plate", *ALONG_RAKES):
            continue
        assert net_of[item] == sum(placed.count(what) for placed in found.set_out)
    assert net_of["nut"] >= net_of["anchor"]
    pieces = sum(len(placed.pieces) for placed in found.set_out)
    assert kind in ALONG_RAKES or net_of["sill piece"] + net_of["ledger piece"] == pieces
    own = placed_of(found)
    hangers = own.count("joist") if kind == "bolted_ledger" else 0
    assert net_of["hanger"] == hangers
    assert net(found.rows, "bar", "stirrup") == own.count("stirrup")
    beside = [r for r in found.rows if r.source == "bars round openings"]
    walls = [placed for placed in found.set_out if placed.kind == "wall"]
    assert len(beside) == 2 * len([w for w in walls if w.count("bar")])


@pytest.mark.parametrize("kind", list(COUNTED))
@given(data=st.data())
@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_nothing_within_the_stated_ranges_breaks_setting_out_or_takeoff(kind: str, data: st.DataObject) -> None:
    """Inputs, floor line, habits and office anywhere in their ranges: counted, or left out with a reason."""
    if kind not in KINDS:
        pytest.skip("not offered yet")
    inputs = fields.write(data.draw(within_ranges(KINDS[kind].inputs)))
    own = {s.name for s in fields.specs(KINDS[kind].inputs) if not s.wall}
    line = replace(data.draw(within_ranges(FloorLine)), wall="W2", level=1)
    asked = {"lines": (line,), "habits": data.draw(within_ranges(Habits))}
    start = data.draw(st.integers(0, 400))
    end = "" if KINDS[kind].point else f"{data.draw(st.integers(start + 1, 504))} in"
    typed = {name: text for name, text in inputs.items() if name in own}
    one = replace(entry(kind, "W2", f"{start} in", end), inputs=typed)
    found = counted(one, office=data.draw(within_ranges(Office)), **asked)
    placed = placed_of(found)
    nothing_to_buy = not any(placed.count(what) for what in placed.rows if what != "joist")
    assert found.of(tag="A1") or found.left_out or nothing_to_buy
    for finding in placed.findings:
        assert "{" not in finding.text().replace("{a}", "")
        assert finding.text("mm")
    for row in found.rows:
        assert row.net > 0
        assert row.pounds is None or row.pounds >= 0
    assert list(records(found.rows))
