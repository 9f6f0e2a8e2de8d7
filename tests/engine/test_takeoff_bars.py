"""Bent bars by hand: cut lengths, legs, tails, the list they are ordered by, and what hooks and rods add to bolts."""

from dataclasses import replace
from math import pi

import pytest

from engine import fields
from engine.attachments.anchored_plate.inputs import Inputs as Anchored
from engine.attachments.gable_end import Inputs as Gable
from engine.attachments.gable_end import geometry as gable_of
from engine.attachments.veneer_ledge import Inputs as Veneer
from engine.attachments.veneer_ledge import geometry as ledge_of
from engine.clauses.us.bars import bar
from engine.clauses.us.bent_bars import hooked_bar_in, standard_tie_in
from engine.job import Job
from engine.takeoff import BAR_HEADINGS, Office, bar_list, bar_records, totals
from engine.takeoff.shapes import closed, hooked, straight
from engine.takeoff.veneer_bars import stirrup_in
from engine.takeoff.wall_bars import cut_to_sixteenth
from tests.engine.test_takeoff import SMALL, WINDOW, counted, cut_list, entry, net, placed_of


def test_a_bar_hooked_at_both_ends_is_as_long_as_its_straights_and_arcs() -> None:
    """No. 5, 100 in out to out. ACI 318-19 Table 25.3.1: bend 6 d_b = 3.75 in, tail 12 d_b = 7.5 in. Straight between the bends
    100 - 2 (1.875 + 0.625) = 95; each hook an arc of pi/2 (1.875 + 0.3125) = 3.436 and its tail."""
    cut = 95 + 2 * (pi / 2 * 2.1875 + 7.5)
    assert hooked_bar_in(100.0, 0.625, 2) == pytest.approx(cut)
    shape = hooked("5", cut, 2)
    assert shape.cut_in == pytest.approx(cut)
    assert shape.tails_in == pytest.approx((7.5, 7.5))
    assert [leg.out_in for leg in shape.legs] == pytest.approx([0, 100, 0])


def test_a_closed_tie_is_as_long_as_its_straights_and_arcs() -> None:
    """No. 3, 10 by 4 in out to out. Table 25.3.2: bend 4 d_b = 1.5 in, tail the larger of 6 d_b = 2.25 and 3 in. To the middle
    the radius is 0.9375. Straights: 10 - 2 (0.75 + 0.375) = 7.75 and 4 - 2.25 = 1.75, twice; three arcs of 90 and two of 135."""
    cut = 2 * (7.75 + 1.75) + (3 * pi / 2 + 2 * 3 * pi / 4) * 0.9375 + 2 * 3
    assert standard_tie_in(10.0, 4.0, 0.375) == pytest.approx(cut)
    a, b = 10 - 0.375, 4 - 0.375
    shape = closed("closed tie", "3", [(0, 0), (a, 0), (a, b), (0, b)])
    assert shape.cut_in == pytest.approx(cut)
    assert shape.turns_deg == pytest.approx((135, 90, 90, 90, 135))
    assert shape.tails_in == pytest.approx((3, 3))
    assert [leg.out_in for leg in shape.legs] == pytest.approx([0, 10, 4, 10, 4, 0])


def test_a_closed_stirrup_of_a_square_ledge_is_a_closed_tie() -> None:
    """With lip and core equally deep the loop is a rectangle; its cut length is that of Table 25.3.2's closed tie."""
    i = Veneer(hook="closed", lip_depth_in=12.0, depth_in=12.0)
    g = ledge_of(i)
    across, down = g.hook_back + g.x_tip, g.y_corner - g.y_top
    assert stirrup_in(i, g) == pytest.approx(standard_tie_in(across, down, g.d_b))


def test_a_larger_bar_is_bent_round_a_larger_pin() -> None:
    """ACI 318-19 Table 25.3.1: 6 d_b to No. 8, 8 d_b to No. 11. No. 9: d_b 1.128, so 9.024 in, tail 13.536."""
    shape = hooked("9", 200.0, 1)
    assert shape.bends_in == pytest.approx((8 * 1.128,))
    assert shape.tails_in == pytest.approx((12 * 1.128,))


def test_a_straight_bar_has_one_leg() -> None:
    shape = straight("4", 106.5)
    assert (shape.cut_in, [leg.out_in for leg in shape.legs], shape.tails_in) == (106.5, [106.5], ())


@pytest.mark.parametrize(
    "inputs",
    [
        {},
        {"hook": "180"},
        {"hook": "closed"},
        {"tip": "loop"},
        {"tip": "bend"},
        {"corner": "outside"},
        {"stirrup": "3"},
    ],
)
def test_every_bar_is_cut_as_long_as_it_is_drawn(inputs: dict[str, str]) -> None:
    """The sketch and the cut length are one shape: equal to the sixteenth a bar is cut to."""
    found = counted(entry("veneer_ledge", start="0 ft", end="42 ft", **inputs), entry("beam_pocket", end=""))
    bars = [row for row in found.rows if row.item == "bar"]
    assert bars
    for row in bars:
        assert row.shape is not None
        assert row.size == f"No. {row.shape.number}, {row.shape.words}"
        assert row.shape.cut_in == pytest.approx(row.each_in, abs=1 / 32 + 1e-9)
        assert row.pounds == pytest.approx(row.net * row.each_in / 12 * bar(row.shape.number).weight_plf)


def test_a_bar_list_holds_every_bar_once() -> None:
    found = counted(entry("veneer_ledge", start="0 ft", end="42 ft"))
    listed = bar_list(found.rows)
    assert sum(line.net for line in listed) == pytest.approx(net(found.rows, "bar"))
    assert sum(line.pounds for line in listed) == pytest.approx(sum(r.pounds for r in found.rows if r.item == "bar"))
    assert [line.mark for line in listed] == [f"B{n}" for n in range(1, len(listed) + 1)]
    assert len({(line.shape, line.each_in) for line in listed}) == len(listed)
    stirrup = next(line for line in listed if "stirrup" in line.shape.words)
    assert stirrup.count == placed_of(found).count("stirrup")
    assert stirrup.hooks == "90 degrees, tail 6"
    assert stirrup.bends == "1 x 3, 2 x 2"
    assert stirrup.where == ("W2 A1",)


def test_a_bar_list_says_hooks_and_bends_as_a_bender_needs_them() -> None:
    (line,) = [line for line in bar_list(counted().of("W1")) if line.net == 4]
    assert (line.hooks, line.bends) == ("90 degrees, tail 6", "1 x 3")
    records = list(bar_records(bar_list(counted().of("W1"))))
    assert all(len(record) == len(BAR_HEADINGS) for record in records)
    assert ("No. 4", "240", "6096") in [(r[1], r[4], r[5]) for r in records]


def test_half_a_bar_at_a_corner_is_a_whole_one_to_cut() -> None:
    one_end = replace(SMALL, line={"length_ft": "20 ft", "far_end": "free"})
    rows = counted(entry("veneer_ledge", "W1", "0 ft", "20 ft", corner="outside"), walls=(one_end,)).of(tag="A1")
    (line,) = [line for line in bar_list(rows) if line.shape.words == "L"]
    assert (line.net, line.count) == (0.5, 1)


def test_no_bar_stands_above_an_opening_that_takes_the_storey_whole() -> None:
    """A door 9 ft high in a storey of 9 ft: the three bars that meet it leave nothing, below or above."""
    tall = {**WINDOW, "sill_ft": "0 ft", "head_ft": "9 ft"}
    rows = counted(walls=(replace(SMALL, openings=(tall,)),)).of("W1")
    assert cut_list(rows, "vertical bars") == {("No. 4, straight", 106.5): 12}


def test_sizes_are_in_the_order_of_their_figures() -> None:
    """No. 10 after No. 4, lift 10 after lift 9."""
    found = totals(counted(office=Office(lift_ft=0.8)).of("W1"))
    lifts = [t.size.split(", ")[1] for t in found if t.item == "concrete"]
    assert lifts == [f"lift {n}" for n in range(1, 13)]


def test_a_hooked_bolt_is_bought_with_its_hook() -> None:
    """1/2 in by 9 1/2 in with a hook of 2 1/2 in outside: pi/4 x 1/4 x (9.5 + 2.5 - 0.5) x 490 / 1728 lb each."""
    (row,) = [r for r in counted(entry("ledge_seat", bolt_head="hook")).of(tag="A1") if r.item == "anchor"]
    assert row.size == "1/2 in by 9 1/2 in, hook 2 1/2 in"
    assert row.pounds == pytest.approx(row.net * pi / 4 * 0.25 * 11.5 * 490 / 1728)


def test_a_rod_with_a_plate_washer_in_the_concrete_has_that_washer_and_a_second_nut() -> None:
    plain, rod = (
        counted(entry("anchored_plate", start="20 ft", end="", contact="tight", head=head)).of(tag="A1")
        for head in ("hex", "washer")
    )
    assert net(rod, "nut") == 2 * net(plain, "nut") == 2 * net(rod, "anchor")
    assert net(rod, "washer") == 2 * net(plain, "washer")
    assert net(rod, "washer", "2 in square, 1/2 in thick") == net(rod, "anchor")


@pytest.mark.parametrize(
    ("name", "choice"),
    [
        (s.name, choice)
        for s in fields.specs(Anchored)
        if s.name in ("legs", "head", "carried")
        for choice, _ in s.options
    ],
)
def test_every_way_of_an_anchored_plate_has_its_words(name: str, choice: str) -> None:
    rows = counted(entry("anchored_plate", start="20 ft", end="", **{name: choice})).of(tag="A1")
    assert net(rows, "anchored plate") == 1
    assert net(rows, "anchor") > 1


def test_what_stands_on_a_wall_that_cannot_be_built_is_left_out_by_name() -> None:
    wrong = replace(SMALL, openings=(WINDOW, {**WINDOW, "start_ft": "10 ft"}))
    left = counted(entry("sill_plate", "W1"), walls=(wrong,)).left_out
    assert [(one.wall, one.tag) for one in left] == [("W1", ""), ("W1", "A1")]


def test_a_gables_rake_plate_is_counted_along_its_rakes() -> None:
    found = counted(entry("gable_end", "W2", "0 ft", "28 ft"))
    g = gable_of(Gable(core_in=10.0))  # of the wall below
    rows = found.of(tag="A1")
    assert net(rows, "anchor") == net(rows, "nut") == g.bolts > 0
    assert net(rows, "sill piece") == len(g.pieces)
    assert net(rows, "sill") == pytest.approx((g.rake_L + g.rake_R) / 12)
    assert net(rows, "concrete") == pytest.approx(sum(lift.volume_yd3 for lift in g.lifts))


def test_an_empty_job_takes_nothing() -> None:
    from engine.takeoff import takeoff

    found = takeoff(Job("Nothing"))
    assert (found.rows, found.left_out, bar_list(found.rows)) == ((), (), ())


def test_cuts_are_to_the_sixteenth() -> None:
    assert cut_to_sixteenth(99.749) == 99.75
