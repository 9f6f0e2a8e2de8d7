"""Joists, plates, stirrups, brackets, pockets and extra bars on a wall: stations worked by hand."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.errors import BadInput
from engine.setting_out import (
    Band,
    Bolts,
    FloorLine,
    Habits,
    Kept,
    Piece,
    Plates,
    Pocket,
    Spaced,
    Stirrups,
    Task,
    cuts,
    joists,
    pieces,
    set_out,
    station,
    webs,
)
from engine.wall import Opening, Storey, Wall, WallLine, WallType, wall
from tests import pace

TYPES = {"lower": WallType(core_in=10.0), "upper": WallType()}
# 42 ft; a window to 7 ft, an opening up to the floor (its head at the storey's 9 ft), a door.
OPENINGS = (Opening(6, 5, 3, 7), Opening(14, 4, 3, 9), Opening(24, 6, 0, 6 + 8 / 12), Opening(30, 3, 0, 7, 2))
SILL = Bolts(48.0, 2.0, 3.5, 12.0, 144.0, Band(-7.0, 0.0), "joist")


def house(openings: tuple[Opening, ...] = OPENINGS, length_ft: float = 42, **line: object) -> Wall:
    return wall("W1", WallLine(length_ft=length_ft, **line), [Storey("lower"), Storey("upper")], openings, TYPES)


def line(**changes: object) -> FloorLine:
    return FloorLine(wall="W1", **changes)


def task(kind: str = "ledge_seat", start: float = 0.0, end: float | None = 504.0, **parts: object) -> Task:
    return Task("A1", kind, 1, start, end, **parts)


@pytest.mark.parametrize(
    ("at_in", "text", "metric"),
    [
        (0.0, "0-0", "0 mm"),
        (150.5, "12-6 1/2", "3,823 mm"),
        (143.999, "12-0", "3,658 mm"),
        (61 / 16, "0-3 13/16", "97 mm"),
    ],
)
def test_a_station_is_written_to_the_nearest_sixteenth_and_millimetre(at_in: float, text: str, metric: str) -> None:
    """150.5 in x 25.4 = 3,822.7 mm; 144 x 25.4 = 3,657.6; 3 13/16 x 25.4 = 96.8."""
    assert (station(at_in), station(at_in, "mm")) == (text, metric)


def test_webs_follow_their_module_from_the_named_end() -> None:
    """First web 4 in, then every 8 in: on a run from 30 to 60 in they are at 36, 44, 52 and 60."""
    assert webs(WallType(), 30.0, 60.0) == (36.0, 44.0, 52.0, 60.0)


def test_only_openings_that_reach_the_band_cut_a_run() -> None:
    """The heads below the floor: 24 in, 0 in and 28 in. A plate's bolts go 7 in down; a ledger 25 in deep meets the first too."""
    assert cuts(house(), 1, Band(-7.0, 0.0)) == (Piece(168.0, 216.0),)
    assert cuts(house(), 1, Band(-25.0, 0.0)) == (Piece(72.0, 132.0), Piece(168.0, 216.0))
    assert cuts(house(), 1, Band(0.0, 16.0)) == (Piece(360.0, 396.0),)


def test_a_plate_is_cut_to_full_lengths_and_no_short_end() -> None:
    """30 ft in 12 ft pieces: 12, 12, 6. 25 ft would leave 1 ft: the last two share 13 ft."""
    assert [p.length_in for p in pieces(Piece(0.0, 360.0), 144.0, 24.0)] == [144.0, 144.0, 72.0]
    assert [p.length_in for p in pieces(Piece(0.0, 300.0), 144.0, 24.0)] == [144.0, 78.0, 78.0]


def test_a_joint_is_cut_back_from_a_joist() -> None:
    """A joist at 144 in, 3/4 in to its side and 1 1/2 in more: the joint goes to 141 3/4."""
    first, _ = pieces(Piece(0.0, 200.0), 144.0, 24.0, Kept("the joist", (144.0,), 0.75, 1.5))
    assert first.end_in == 141.75


@given(st.integers(1, 900), st.integers(24, 288), st.integers(0, 48))
def test_pieces_fill_their_stretch_and_none_is_longer_than_bought(length: int, longest: int, shortest: int) -> None:
    found = pieces(Piece(0.0, float(length)), float(longest), float(min(shortest, longest)))
    assert all(a.end_in == b.start_in for a, b in pairwise(found))
    assert (found[0].start_in, found[-1].end_in) == (0.0, float(length))
    assert all(0 < piece.length_in <= longest for piece in found)
    if longest >= 2 * shortest and length >= shortest:
        assert all(piece.length_in >= shortest for piece in found)


def test_joists_stand_in_layout_order_from_the_lines_start() -> None:
    """From 2 ft: first at 24 + 16 = 40 in, then every 16 in while the joist's side, 3/4 in, stays on a line that ends at 10 ft."""
    found = joists(line(start_ft=2.0, end_ft=10.0), house(()))
    assert found.stations == (40.0, 56.0, 72.0, 88.0, 104.0)
    assert found.findings == ()


def test_a_last_joist_closes_the_line_and_two_never_share_a_place() -> None:
    """The end at 10 ft: its joist at 120 - 3/4. With the line 1 1/4 in shorter the regular one at 118 makes room."""
    assert joists(line(start_ft=2.0, end_ft=10.0, last_joist=True), house(())).stations[-2:] == (104.0, 119.25)
    tight = joists(line(start_ft=0.0, end_ft=(112 + 1.5) / 12, last_joist=True), house(())).stations
    assert tight[-2:] == (96.0, pytest.approx(112.75))


def test_joists_of_an_opening_that_reaches_the_floor_are_headed_off_with_a_note() -> None:
    """The opening from 168 to 216 in takes the joists at 176, 192 and 208."""
    found = joists(line(depth_in=1.0), house())
    assert found.headered == (176.0, 192.0, 208.0)
    assert not set(found.headered) & set(found.stations)
    (header,) = [f for f in found.findings if f.key == "header"]
    assert (header.note, header.at_in, header.amount_in) == (True, 168.0, 48.0)
    assert header.text() == "3 joists would meet the opening from 14-0 to 18-0, 48 in wide: head off or move."


def test_joists_over_a_lintel_are_counted_with_its_depth() -> None:
    """Over 72 to 132 in: 80, 96, 112, 128, under a floor 24 in above the head."""
    note = next(f for f in joists(line(depth_in=1.0), house()).findings if f.key == "lintel")
    assert note.text() == "4 joists over the opening from 6-0 to 11-0: its lintel, 24 in deep, carries them."


def test_a_joist_that_only_touches_a_jamb_is_headed_off_too() -> None:
    """At 168 in less 1/2 in its side would stand 1/4 in in the opening; at 167 1/4 in it clears the jamb."""
    assert joists(line(first_joist_in=7.5), house()).headered[0] == 167.5
    assert 167.25 in joists(line(first_joist_in=7.25), house()).stations


@pytest.mark.parametrize(
    ("changes", "field", "amount"),
    [
        ({"end_ft": 43.5}, "end_ft", "1 ft 6 in past"),
        ({"start_ft": 10.0, "end_ft": 10.0}, "end_ft", "beyond the start"),
        ({"end_ft": 1.0}, "joist_spacing_in", "4 in more"),
        ({"end_ft": 2.0, "first_joist_in": 30.0}, "first_joist_in", "6 3/4 in off"),
        ({"first_joist_in": 0.25}, "first_joist_in", "3/4 in or more"),
        ({"level": 3}, "level", "levels 1 to 2"),
    ],
)
def test_a_line_that_does_not_go_on_its_wall_says_where_and_by_how_much(changes: dict, field: str, amount: str) -> None:
    with pytest.raises(BadInput, match=amount) as refusal:
        joists(line(**changes), house())
    assert refusal.value.field == field


def test_joists_moved_by_hand_are_checked() -> None:
    """One moved from 40 to 44 in leaves 20 in behind it, 4 in more than 16."""
    found = joists(line(end_ft=6.0), house(()), by_hand=(16.0, 24.0, 44.0, 56.0, 70.0))
    (finding,) = found.findings
    assert (finding.key, finding.at_in, finding.amount_in) == ("spacing", 44.0, 4.0)


def test_bolts_keep_clear_of_webs_joists_and_pockets_and_break_at_openings() -> None:
    entry, pocket, *_ = set_out(
        house(),
        [
            task(line=line(depth_in=1.0), bolts=SILL),
            task("beam_pocket", 248.0, None, pocket=Pocket(5.5, Band(-1.0, 10.0))),
        ],
    )
    assert entry.holds
    assert [(p.start_in, p.end_in) for p in entry.pieces][-1][1] == 504.0
    assert not any(168 - 3.5 < at < 216 + 3.5 for at in entry.stations("anchor"))
    for at in entry.stations("anchor"):
        assert min(abs(at - web) for web in webs(TYPES["lower"], 0, 504)) >= 1.5
        assert min(abs(at - joist) for joist in entry.stations("joist")) >= 0.75 + 1.5
        assert abs(at - 248) >= 5.5 / 2 + 2
    for piece in entry.pieces:
        own = [at for at in entry.stations("anchor") if piece.start_in < at < piece.end_in]
        assert len(own) >= 2
        assert 3.5 <= own[0] - piece.start_in <= 12
        assert 3.5 <= piece.end_in - own[-1] <= 12
        assert all(b - a <= 48 for a, b in pairwise(own))
    assert pocket.count("pocket") == 1


def test_dimension_strings_add_up_to_the_run() -> None:
    entry = set_out(house(()), [task(start=12.0, end=492.0, line=line(start_ft=1.0, end_ft=41.0), bolts=SILL)])[0]
    for what in ("joist", "anchor"):
        assert sum(entry.chain(what)) == pytest.approx(480.0)
        assert len(entry.chain(what)) == entry.count(what) + 1


def test_the_first_joist_of_every_piece_is_known_for_its_check() -> None:
    """Joists every 16 in; the joint at 144 is cut back by 3/4 + 1 1/2: the piece from 141 3/4 has its first 2 1/4 in along."""
    entry = set_out(house((), 20), [task(end=240.0, line=line(depth_in=1.0), bolts=SILL)])[0]
    assert entry.into_pieces("joist") == (16.0, 2.25)


def test_a_pocket_by_the_very_end_of_a_wall_is_found_too_near_it() -> None:
    (finding, *_) = set_out(house(()), [task("beam_pocket", 504.0, None, pocket=Pocket(6.0, Band(-1, 10)))])[0].findings
    assert (finding.key, finding.amount_in) == ("end least", 3.0)


def test_two_tasks_of_one_tag_keep_their_own_joists() -> None:
    left, right = (
        task(end=240.0, line=line(end_ft=20.0), bolts=SILL),
        task(start=264.0, line=line(start_ft=22.0, first_joist_in=12.0), bolts=SILL),
    )
    first, second = set_out(house(()), [left, right])[:2]
    assert max(first.stations("joist")) < 240 < 264 < min(second.stations("joist"))
    assert min(abs(a - j) for a in first.stations("anchor") for j in first.stations("joist")) >= 2.25


def test_a_joist_that_lands_in_a_pocket_says_by_how_much() -> None:
    """Pocket 5 1/2 in wide at 241 in, joist 1 1/2 in wide at 240: 2 3/4 + 3/4 less 1 in apart."""
    tasks = [task(line=line()), task("beam_pocket", 241.0, None, pocket=Pocket(5.5, Band(-1.0, 10.0)))]
    (finding,) = [f for f in set_out(house(()), tasks)[0].findings if f.key == "clear"]
    assert (finding.at_in, finding.amount_in) == (240.0, 2.5)


def test_a_plate_stands_beside_every_joist_on_the_side_without_a_web() -> None:
    """A plate 0.1 in thick is 0.75 + 0.05 in off a joist. Joist at 18.7: far side 19.5, too near the web at 20; near side 17.9."""
    entry = set_out(
        house((), 4), [task("cast_in_plate", 0.0, 48.0, line=line(first_joist_in=18.7), plates=Plates(0.05))]
    )[0]
    assert [(round(m.at_in, 3), m.note) for m in entry.of("plate")] == [
        (17.9, "on the joist's near side"),
        (33.9, "on the joist's near side"),
    ]
    assert entry.holds


def test_plates_that_meet_a_web_on_both_sides_say_what_shift_clears_them_all() -> None:
    """Joists at webs: 4, 20, 36 in. Plates 0.8 in off, 1.55 in to keep (1 1/2 and half a plate): 3/4 in short; an inch mends it."""
    entry = set_out(
        house((), 4), [task("cast_in_plate", 0.0, 48.0, line=line(first_joist_in=4.0), plates=Plates(0.05))]
    )[0]
    stuck = [f for f in entry.findings if f.key == "clear"]
    assert [f.at_in for f in stuck] == pytest.approx([4.8, 20.8, 36.8])
    assert stuck[0].amount_in == pytest.approx(0.75)
    (shift,) = [f for f in entry.findings if f.key == "shift"]
    assert (shift.amount_in, shift.note) == (1.0, True)
    assert not entry.holds


def test_plates_surveyed_after_the_pour_are_checked_for_place_and_number() -> None:
    """Three joists at 8, 24, 40 in; the plate of the second was left out, that of the third stands 1/2 in off."""
    entry = set_out(
        house((), 4), [task("cast_in_plate", 0.0, 48.0, line=line(first_joist_in=8.0), plates=Plates(0.05))]
    )[0]
    assert entry.review("plate", entry.stations("plate"), reading_in=1 / 32) == ()
    found = entry.review("plate", [8.8, 41.3], reading_in=1 / 32)
    assert [(f.key, f.at_in) for f in found] == [("unserved", 24.0), ("unserved", 40.0)]
    assert found[1].amount_in == pytest.approx(0.5)


def test_a_stirrup_stands_in_the_middle_of_every_web_space() -> None:
    """Webs at 4, 12, …, 44 in 4 ft: five spaces; the 4 in at each end are no more than half a module."""
    entry = set_out(house((), 4), [task("veneer_ledge", 0.0, 48.0, stirrups=Stirrups(1, Band(-24, -12), 0.5))])[0]
    assert entry.stations("stirrup") == (8.0, 16.0, 24.0, 32.0, 40.0)
    assert entry.review("stirrup", entry.stations("stirrup")) == ()


def test_a_part_space_wider_than_half_a_module_has_its_own_stirrup() -> None:
    """From 5 in on: the first web at 12 leaves 7 in, its middle 8 1/2."""
    entry = set_out(house((), 4), [task("veneer_ledge", 5.0, 48.0, stirrups=Stirrups(1, Band(-24, -12), 0.5))])[0]
    assert entry.stations("stirrup")[:2] == (8.5, 16.0)


def test_a_stirrup_to_every_second_space_and_more_at_the_corners() -> None:
    entry = set_out(house((), 4), [task("veneer_ledge", 0.0, 48.0, stirrups=Stirrups(2, Band(-24, -12), 0.5, 1))])[0]
    assert entry.stations("stirrup") == (8.0, 24.0, 40.0)
    assert entry.count("stirrup") == 3 + 2
    free = set_out(
        house((), 4, near_end="free"), [task("veneer_ledge", 0.0, 48.0, stirrups=Stirrups(2, Band(-24, -12), 0.5, 1))]
    )[0]
    assert free.count("stirrup") == 3 + 1


def test_brackets_stand_at_webs_where_the_wall_steps() -> None:
    """16 in apart at most, the end ones within 8 in, at webs 4 in, 12 in, …, 92 in: 4 and 92, and 88 / 16 = 5.5, so 6 spaces."""
    own = set_out(house((), 8), [])[0]
    assert (own.kind, own.level) == ("wall", 1)
    places = own.stations("bracket")
    assert set(places) <= set(webs(TYPES["upper"], 0, 96))
    assert max(b - a for a, b in pairwise(places)) <= 16
    assert len(places) == 7
    assert max(places[0], 96 - places[-1]) <= 8


def test_a_wall_of_one_type_has_no_brackets() -> None:
    plain = wall("W1", WallLine(length_ft=8), [Storey("upper"), Storey("upper")], (), TYPES)
    assert set_out(plain, []) == ()


def test_brackets_moved_by_hand_are_checked() -> None:
    own = set_out(house((), 8), [], brackets={1: {"bracket": (4.0, 20.0, 44.0, 52.0, 68.0, 84.0, 92.0)}})[0]
    (finding,) = own.findings
    assert (finding.key, finding.at_in, finding.amount_in) == ("spacing", 44.0, 8.0)


def test_extra_bars_stand_beside_openings_one_for_each_curtain() -> None:
    """No. 5, ACI 318-19 11.7.5.1: 1 1/2 in of cover and half of 5/8 in from the jambs at 72 and 132 in."""
    own = set_out(house((Opening(6, 5, 3, 7),)), [])[0]
    assert own.stations("bar") == (72 - 1.8125, 132 + 1.8125)
    assert own.count("bar") == 2
    two = {"lower": replace(TYPES["lower"], curtains="two"), "upper": TYPES["upper"]}
    thick = wall("W1", WallLine(length_ft=42), [Storey("lower"), Storey("upper")], [Opening(6, 5, 3, 7)], two)
    assert set_out(thick, [])[0].count("bar") == 4


def test_bars_beside_a_pocket_go_outward_by_turns() -> None:
    """Pocket 6 in wide at 120 in, bars 1/2 in: 3 + 1 1/2 + 1/4 = 4 3/4 in off its middle, the third 1 1/2 in farther."""
    entry = set_out(house(()), [task("beam_pocket", 120.0, None, pocket=Pocket(6.0, Band(-1, 10), 0, 3))])[0]
    assert entry.stations("bar") == (120 - 6.25, 120 - 4.75, 120 + 4.75)


def test_a_pocket_says_which_bars_and_webs_it_meets() -> None:
    """Vertical bars from 8 in every 16 in: one at 120 in, in the pocket from 117 to 123; no web between 116 and 124."""
    entry = set_out(house(()), [task("beam_pocket", 120.0, None, pocket=Pocket(6.0, Band(-1, 10)))])[0]
    assert [f.text() for f in entry.findings] == [
        "The pocket at 10-0 meets 1 vertical bar of the wall; its check has 0 cut."
    ]
    entry = set_out(house(()), [task("beam_pocket", 124.0, None, pocket=Pocket(6.0, Band(-1, 10)))])[0]
    assert [f.text() for f in entry.findings] == ["The pocket at 10-4 cuts 1 web."]


def test_pockets_in_each_others_way_and_in_openings_are_found() -> None:
    tasks = [
        replace(task("beam_pocket", at, None, pocket=Pocket(6.0, Band(-1, 10), 0)), tag=f"P{n}")
        for n, at in enumerate((240.0, 244.0, 170.0))
    ]
    found = set_out(house(), tasks)
    assert [(f.key, f.amount_in) for f in found[1].findings if not f.note] == [("clear", 4.0)]  # 3 + 3 + 2 to keep - 4
    assert [(f.key, f.amount_in) for f in found[2].findings if not f.note] == [("off", 2.0)]


def test_anchored_plates_stand_at_their_spacing() -> None:
    entry = set_out(house(()), [task("anchored_plate", 24.0, 200.0, anchored=Spaced(10.0, Band(-10, 0), 48.0))])[0]
    assert entry.stations("anchored") == (24.0, 72.0, 120.0, 168.0)
    lone = set_out(house(()), [task("anchored_plate", 3.0, None, anchored=Spaced(10.0, Band(-10, 0)))])[0]
    (finding,) = lone.findings
    assert (finding.key, finding.amount_in) == ("end least", 2.0)


def test_ties_stand_at_bolts() -> None:
    bolts = replace(SILL, spacing_in=16.0, tie_in=48.0, ties_at_bolts=True)
    entry = set_out(house(()), [task(bolts=bolts)])[0]
    assert set(entry.stations("tie")) <= set(entry.stations("anchor"))
    assert max(b - a for a, b in pairwise(entry.stations("tie"))) <= 48


def test_rows_of_bolts_count_every_bolt() -> None:
    one, two = (set_out(house(()), [task(bolts=replace(SILL, each=each))])[0] for each in (1, 2))
    assert two.stations("anchor") == one.stations("anchor")
    assert two.count("anchor") == 2 * one.count("anchor")


def test_bolts_of_a_ledger_keep_to_the_end_distance_checked_where_they_can() -> None:
    """Checked with 8 in. With joists out of the way they do; a hanger over the last 8 in lets them go out to 12 with a note."""
    bolts = replace(SILL, spacing_in=16.0, end_checked_in=8.0, worse="farther", beside="hanger")
    free = set_out(house((), 12), [task(end=144.0, bolts=bolts)])[0]
    assert max(free.chain("anchor")[0], free.chain("anchor")[-1]) <= 8
    held = set_out(house((), 12), [task(end=144.0, bolts=bolts, line=line(first_joist_in=5.0, depth_in=1.0))])[0]
    (note,) = [f for f in held.findings if f.key == "end checked"]
    assert note.note
    assert note.amount_in == held.chain("anchor")[0] - 8 > 0


def test_a_spacing_longer_than_the_run_is_said() -> None:
    entry = set_out(house((), 3), [task(end=36.0, bolts=SILL)])[0]
    (note,) = [f for f in entry.findings if f.key == "spacing idle"]
    assert (note.note, note.amount_in) == (True, 12.0)


def test_two_runs_of_joists_on_one_stretch_are_found() -> None:
    first = task(end=240.0, line=line(end_ft=20.0))
    second = replace(task(start=228.0, end=504.0, line=line(start_ft=19.0)), tag="A2")
    found = set_out(house(()), [first, second])
    assert [(f.key, f.at_in, f.amount_in) for f in found[1].findings] == [("overlap", 228.0, 12.0)]


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (task(end=510.0), "6 in past the end"),
        (task(end=0.0), "beyond the start"),
        (task("beam_pocket", 506.0, None, pocket=Pocket(6.0, Band(-1, 10))), "2 in off the end"),
        (task(end=504.0, line=line(end_ft=43.0)), "1 ft past the end"),
        (task(bolts=replace(SILL, spacing_in=1.0)), "1 in less than the least distance"),
        (replace(task(), level=4), "levels 1 to 2"),
    ],
)
def test_a_task_that_cannot_be_set_is_refused_and_the_others_are_set(wrong: Task, said: str) -> None:
    found = set_out(house(()), [wrong, replace(task(bolts=SILL), tag="A2")])
    (finding,) = found[0].findings
    assert finding.key == "refused"
    assert said in finding.text()
    assert not found[0].holds
    assert found[1].count("anchor") > 2


def test_a_kind_of_mark_that_is_not_set_has_no_review() -> None:
    with pytest.raises(BadInput, match="Known: anchor"):
        set_out(house(()), [task(bolts=SILL)])[0].review("stirrup", [1.0])


def test_a_tag_with_braces_stays_as_typed_but_harmless() -> None:
    tasks = [
        replace(task("beam_pocket", 240.0, None, pocket=Pocket(6.0, Band(-1, 10))), tag="{x}"),
        replace(task("beam_pocket", 244.0, None, pocket=Pocket(6.0, Band(-1, 10))), tag="P2"),
    ]
    assert any("pocket (x)" in f.text() for f in set_out(house(()), tasks)[1].findings)


@given(
    at=st.lists(st.integers(0, 1900), min_size=1, max_size=20, unique=True),
    spacing=st.integers(8, 72), first=st.integers(1, 40),
)  # fmt: skip
@settings(max_examples=60)
def test_whatever_the_openings_nothing_is_set_in_one(at: list[int], spacing: int, first: int) -> None:
    """Openings of 4 ft that reach the floor, wherever they do not touch: no joist, bolt, stirrup or bracket stands in one."""
    openings: list[Opening] = []
    for start in sorted(at):
        if start + 48 <= 1920 and (not openings or start > openings[-1].end_ft * 12 + 2):
            openings.append(Opening(start / 12, 4, 0, 9))
    tasks = [
        task(end=1920.0, line=line(first_joist_in=float(first)), bolts=replace(SILL, spacing_in=float(spacing))),
        replace(task("veneer_ledge", end=1920.0, stirrups=Stirrups(1, Band(-24, -12), 0.5)), tag="V"),
    ]
    for entry in set_out(house(tuple(openings), 160), tasks):
        for mark in entry.marks:
            assert not any(o.start_ft * 12 < mark.at_in < o.end_ft * 12 for o in openings if mark.what != "bracket")
        for finding in entry.findings:
            assert "{" not in finding.text() + finding.text("mm")


def test_a_long_wall_with_many_openings_is_set_out_at_once() -> None:
    """200 ft, 20 openings: 50 ms asked."""
    openings = tuple(Opening(3 + 10 * n, 4, 0, 9 if n % 2 else 7) for n in range(20))
    long = house(openings, 200)
    tasks = [task(end=2400.0, line=line(), bolts=SILL)]
    assert pace.seconds(lambda: set_out(long, tasks), rounds=7) < 0.05


def test_habits_are_kept() -> None:
    entry = set_out(house(()), [task(bolts=SILL)], Habits(grid_in=3.0, web_clear_in=2.0))[0]
    assert all(at % 3 == 0 for at in entry.stations("anchor"))
    assert all(min(abs(at - web) for web in webs(TYPES["lower"], 0, 504)) >= 2 for at in entry.stations("anchor"))
