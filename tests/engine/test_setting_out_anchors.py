"""Anchors along a piece: held against every possible choice on small walls, by hand, and by property."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, pairwise
from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.clauses.us.irc_sills import sill_bolt_count
from engine.errors import BadInput
from engine.setting_out import Change, Kept, Piece, Row, Rule, remedies
from engine.setting_out.places import allowed, layers_of
from engine.setting_out.rules import barred

# IRC R403.1.6: two bolts or more a piece, 6 ft apart at most, the end ones 7 diameters to 12 in from the ends; 1/2 in bolts.
SILL = Rule("anchor", 72.0, 3.5, 12.0, 2.0, least=2)


def squares(piece: Piece, stations: tuple[float, ...]) -> float:
    """Sum of squared gaps, both end distances counted."""
    places = (piece.start_in, *stations, piece.end_in)
    return sum((b - a) ** 2 for a, b in pairwise(places))


def choices(piece: Piece, rule: Rule) -> Iterator[tuple[float, ...]]:
    """Every set of places on the grid that holds the rule, written out from its words."""
    step = rule.grid_in
    first, last = int(piece.start_in / step) - 1, int(piece.end_in / step) + 1
    grid = [n * step for n in range(first, last + 1)]
    free = [
        x
        for x in grid
        if x - piece.start_in >= rule.end_min_in - 1e-6
        and piece.end_in - x >= rule.end_min_in - 1e-6
        and all(abs(x - at) >= k.half_in + k.clear_in - 1e-6 for k in rule.keeps for at in k.at_in)
    ]
    for count in range(max(rule.least, 1), len(free) + 1):
        for some in combinations(free, count):
            gaps = [b - a for a, b in pairwise(some)]
            ends = some[0] - piece.start_in, piece.end_in - some[-1]
            if max(ends) <= rule.end_max_in + 1e-6 and all(
                rule.apart_in - 1e-6 <= gap <= rule.spacing_in + 1e-6 for gap in gaps
            ):
                yield some


def lengths(low: float, high: float) -> st.SearchStrategy[float]:
    """Sixteenths of an inch."""
    return st.integers(round(low * 16), round(high * 16)).map(lambda n: n / 16)


@st.composite
def small_walls(draw: st.DrawFn) -> tuple[Piece, Rule]:
    """A piece of at most fourteen steps of its grid, and a rule that may or may not be kept on it."""
    step = draw(st.sampled_from([0.5, 1.0, 1.5]))
    start = draw(lengths(0, 6))
    piece = Piece(start, start + draw(lengths(1, 14)) * step)
    inside = lengths(piece.start_in, piece.end_in)
    keeps = tuple(
        Kept(what, tuple(sorted(draw(st.lists(inside, max_size=3)))), draw(lengths(0, 0.5)), draw(lengths(0, 1)) * step)
        for what in ("a web", "the joist")
    )
    nearest, apart = draw(lengths(0, 2)) * step, draw(lengths(0.25, 3)) * step
    return piece, Rule(
        "anchor", apart + draw(lengths(0, 6)) * step, nearest, nearest + draw(lengths(0, 5)) * step, apart,
        draw(st.integers(0, 3)), step, keeps,
    )  # fmt: skip


@given(small_walls())
@settings(max_examples=600)
def test_no_other_choice_has_fewer_anchors_or_is_more_even(wall: tuple[Piece, Rule]) -> None:
    piece, rule = wall
    every = sorted(choices(piece, rule), key=lambda some: (len(some), squares(piece, some)))
    row = Row((piece,), rule)
    placed = row.place(explain=False)
    if not every:
        assert placed.stations == ()
        assert [f.key for f in placed.findings] == ["no place"]
        return
    best = every[0]
    assert len(placed.stations) == len(best)
    assert squares(piece, placed.stations) == pytest.approx(squares(piece, best), abs=1e-6)
    assert placed.stations in every
    assert row.review(placed.stations) == ()


def plainly(piece: Piece, rule: Rule) -> tuple[int, float] | None:
    """Fewest anchors and least squares by trying every predecessor of every place, for pieces too long to try every set."""
    places = allowed(piece, rule, barred(rule.keeps))
    found: list[list[tuple[int, float]]] = []  # for each place: (anchors, squares) with one, with two or more
    for n, place in enumerate(places):
        one = (1, (place - piece.start_in) ** 2) if place - piece.start_in <= rule.end_max_in + 1e-6 else None
        more = [
            (count + 1, cost + (place - before) ** 2)
            for before, ways in zip(places[:n], found, strict=True)
            if rule.apart_in - 1e-6 <= place - before <= rule.spacing_in + 1e-6
            for count, cost in ways
        ]
        found.append([*([one] if one else []), *([min(more)] if more else [])])
    ends = [
        (count, cost + (piece.end_in - place) ** 2)
        for place, ways in zip(places, found, strict=True)
        if piece.end_in - place <= rule.end_max_in + 1e-6
        for count, cost in ways
        if count >= rule.least
    ]
    return min(ends, default=None)


@given(
    length=lengths(10, 180), spacing=lengths(12, 72), first_web=lengths(0, 8), first_joist=lengths(1, 16),
    clear=st.tuples(lengths(0, 3), lengths(0, 5)), start=lengths(0, 20),
)  # fmt: skip
@settings(max_examples=150)
def test_a_whole_plate_among_webs_and_joists_is_set_as_well_as_can_be(
    length: float, spacing: float, first_web: float, first_joist: float, clear: tuple[float, float], start: float
) -> None:
    webs = tuple(first_web + 8 * n for n in range(26))
    joists = tuple(start + first_joist + 16 * n for n in range(12))
    keeps = (Kept("a web", webs, 0.0, clear[0]), Kept("the joist", joists, 0.75, clear[1]))
    piece, rule = Piece(start, start + length), replace(SILL, spacing_in=spacing, keeps=keeps)
    best = plainly(piece, rule)
    stations = Row((piece,), rule).place(explain=False).stations
    assert (best is None) == (stations == ())
    if best is not None:
        assert len(stations) == best[0]
        assert squares(piece, stations) == pytest.approx(best[1], abs=1e-6)


@given(small_walls(), st.data())
@settings(max_examples=300)
def test_the_review_finds_a_fault_exactly_where_the_rule_is_broken(
    wall: tuple[Piece, Rule], data: st.DataObject
) -> None:
    """Any places on the grid: without a finding when, and only when, they are among the choices the rule leaves."""
    piece, rule = wall
    step = rule.grid_in
    grid = [n * step for n in range(int(piece.start_in / step), int(piece.end_in / step) + 2)]
    moved = tuple(sorted(data.draw(st.sets(st.sampled_from(grid), min_size=1, max_size=4))))
    assert (Row((piece,), rule).review(moved) == ()) == (moved in set(choices(piece, rule)))


@given(small_walls())
@settings(max_examples=200)
def test_a_remedy_is_enough_and_a_sixteenth_less_is_not(wall: tuple[Piece, Rule]) -> None:
    piece, rule = wall
    if layers_of(piece, rule, allowed(piece, rule, barred(rule.keeps))) is not None:
        return
    found = remedies(piece, rule)
    for way in found:
        assert any(choices(piece, relaxed(rule, way))), way
        if len(way) == 1:
            (change,) = way
            back = max(change.by_in - 1 / 16, 0.0)
            less = replace(change, to_in=change.now_in + back * (1 if change.to_in > change.now_in else -1))
            assert not any(choices(piece, relaxed(rule, (less,)))), way


def relaxed(rule: Rule, way: tuple[Change, ...]) -> Rule:
    """The rule with a remedy applied."""
    names = {"spacing": "spacing_in", "end most": "end_max_in", "end least": "end_min_in", "apart": "apart_in"}
    for change in way:
        if change.constraint == "clear":
            keeps = tuple(replace(k, clear_in=change.to_in) if k.what == change.what else k for k in rule.keeps)
            rule = replace(rule, keeps=keeps)
        else:
            rule = replace(rule, **{names[change.constraint]: change.to_in})
    return rule


@pytest.mark.parametrize(("length_in", "count"), [(24, 2), (96, 2), (144, 3), (192, 4)])
def test_a_bare_plate_takes_as_many_bolts_as_the_code_counts(length_in: float, count: int) -> None:
    """max(2, ceil((L - 24) / 72) + 1): 24 in 2; 96 in 72/72 + 1 = 2; 144 in 120/72 -> 2 + 1; 192 in 168/72 -> 3 + 1."""
    stations = Row((Piece(0.0, length_in),), SILL).place().stations
    assert len(stations) == count == sill_bolt_count(length_in, 72.0)


def test_bolts_of_a_bare_plate_stand_as_even_as_the_half_inch_lets_them() -> None:
    """144 in, three bolts. Gaps x, y, y, x with 2 x + 2 y = 144: squares fall as x rises to its 12 in; y = 60."""
    assert Row((Piece(0.0, 144.0),), SILL).place().stations == (12.0, 72.0, 132.0)


def test_a_joist_over_the_best_place_moves_the_bolt_beside_it() -> None:
    """A joist at 72 in, 3/4 in to its side and 1 1/2 in more: 72 +- 2 1/4; the nearest half inch is 69 1/2 or 74 1/2."""
    rule = replace(SILL, keeps=(Kept("the joist", (72.0,), 0.75, 1.5),))
    stations = Row((Piece(0.0, 144.0),), rule).place().stations
    assert stations in ((12.0, 69.5, 132.0), (12.0, 74.5, 132.0))


def test_a_piece_for_which_one_bolt_would_reach_both_ends_still_has_two() -> None:
    """20 in: one in the middle is 10 in from each end. Two: 3 1/2 in at the least from the ends; 6 1/2, 7, 6 1/2 is most even."""
    stations = Row((Piece(0.0, 20.0),), SILL).place().stations
    assert stations in ((6.5, 13.5), (6.5, 13.0), (7.0, 13.5))
    assert squares(Piece(0.0, 20.0), stations) == pytest.approx(6.5**2 + 7.0**2 + 6.5**2)


def test_every_piece_has_bolts_of_its_own() -> None:
    placed = Row((Piece(0.0, 144.0), Piece(144.0, 200.0)), SILL).place()
    assert len(placed.stations) == 3 + 2
    assert not any(144 - 3.5 < at < 144 + 3.5 for at in placed.stations)


def test_a_piece_too_short_for_two_bolts_says_what_would_give() -> None:
    """6 in with ends of 3 1/2 in: nothing stands. Two 2 in apart leave 4 in for two ends: 2 in each."""
    placed = Row((Piece(0.0, 6.0),), SILL).place()
    ((piece, ways),) = placed.remedies
    assert piece == Piece(0.0, 6.0)
    assert (Change("end least", "", 3.5, 2.0),) in ways
    (finding,) = placed.findings
    assert finding.key == "no place"
    assert "let one stand as near an end as 2 in instead of 3 1/2 in" in finding.text()


def test_webs_too_close_for_their_clearance_say_by_how_much() -> None:
    """Webs 8 in apart from 4 in on, 5 in to keep from each: nothing is free. Midway is 4 in from both, so 4 in would do."""
    webs = Kept("a web", tuple(4.0 + 8 * n for n in range(18)), 0.0, 5.0)
    placed = Row((Piece(0.0, 144.0),), replace(SILL, keeps=(webs,))).place()
    ((_, ways),) = placed.remedies
    assert (Change("clear", "a web", 5.0, 4.0),) in ways
    assert placed.findings[0].amount_in == 1.0


def test_where_no_single_change_is_enough_two_together_are_named() -> None:
    """Webs and joists at the same places, each to be kept 5 in clear of: neither alone frees a place."""
    places = tuple(4.0 + 8 * n for n in range(18))
    rule = replace(SILL, keeps=(Kept("a web", places, 0.0, 5.0), Kept("the joist", places, 0.0, 5.0)))
    ((_, ways),) = Row((Piece(0.0, 144.0),), rule).place().remedies
    assert (Change("clear", "a web", 5.0, 4.0), Change("clear", "the joist", 5.0, 4.0)) in ways
    assert "and keep clear of the joist by 4 in" in Row((Piece(0.0, 144.0),), rule).place().findings[0].text()


def test_a_longer_wall_is_set_piece_by_piece_the_same() -> None:
    """Ten pieces alike give ten times the bolts of one, each shifted by its piece."""
    one = Row((Piece(0.0, 96.0),), SILL).place().stations
    ten = Row(tuple(Piece(96.0 * n, 96.0 * n + 96) for n in range(10)), SILL).place().stations
    assert ten == tuple(96.0 * n + at for n in range(10) for at in one)


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"spacing_in": 0.0}, "spacing_in"),
        ({"spacing_in": float("nan")}, "spacing_in"),
        ({"end_min_in": -1.0}, "end_min_in"),
        ({"end_min_in": inf}, "end_min_in"),
        ({"end_max_in": 3.0}, "end_max_in"),
        ({"spacing_in": 1.0}, "spacing_in"),
        ({"apart_in": 0.0}, "apart_in"),
        ({"grid_in": 0.0}, "grid_in"),
        ({"least": -1}, "least"),
        ({"keeps": (Kept("a web", (4.0,), 0.0, -1.0),)}, "clear_in"),
    ],
)
def test_a_rule_that_contradicts_itself_is_refused(changes: dict, field: str) -> None:
    with pytest.raises(BadInput) as refusal:
        Row((Piece(0.0, 144.0),), replace(SILL, **changes)).place()
    assert refusal.value.field == field


def test_bolts_of_two_pieces_may_not_crowd_their_joint() -> None:
    """Half an inch from each end leaves an inch across the joint, an inch less than the 2 in two bolts need."""
    with pytest.raises(BadInput, match="1 in too near"):
        Row((Piece(0.0, 48.0), Piece(48.0, 96.0)), replace(SILL, end_min_in=0.5)).place()


def test_a_bolt_moved_by_hand_is_checked_against_everything_at_once() -> None:
    """A web at 68 in with 1 1/2 in to keep. Moved to 69: 1/2 in too near it; from 69 to 143 is 74; 143 is 1 in from the end."""
    rule = replace(SILL, keeps=(Kept("a web", (68.0,), 0.0, 1.5),))
    found = {f.key: f for f in Row((Piece(0.0, 144.0),), rule).review([12.0, 69.0, 143.0])}
    assert set(found) == {"clear", "spacing", "end least"}
    assert (found["clear"].at_in, found["clear"].amount_in) == (69.0, 0.5)
    assert (found["spacing"].at_in, found["spacing"].amount_in) == (143.0, 2.0)
    assert (found["end least"].at_in, found["end least"].amount_in) == (143.0, 2.5)
    assert found["spacing"].text() == "From 5-9 to 11-11 is 74 in, 2 in more than the 72 in allowed between two."
    assert found["clear"].text("mm") == "The anchor bolt at 1,753 mm is 13 mm too near a web at 1,727 mm."


def test_a_bolt_past_the_end_or_in_an_opening_says_how_far_off_it_is() -> None:
    row = Row((Piece(0.0, 60.0), Piece(96.0, 144.0)), SILL)
    found = {f.at_in: f for f in row.review([6.0, 54.0, 70.0, 104.0, 136.0, 150.0]) if f.key == "off"}
    assert {at: f.amount_in for at, f in found.items()} == {70.0: 10.0, 150.0: 6.0}


def test_a_missing_bolt_is_named_with_its_piece() -> None:
    (finding,) = [f for f in Row((Piece(0.0, 24.0),), SILL).review([12.0]) if f.key == "least"]
    assert finding.text() == "The piece at 0-0, 2 ft long, has 1 of the 2 anchor bolts it needs."


def test_a_survey_read_to_a_sixteenth_is_not_faulted_for_the_reading() -> None:
    """A bolt at its 12 in, read 1/32 in farther; a sixteenth farther is a fault of its own."""
    row = Row((Piece(0.0, 144.0),), SILL)
    assert row.review([12.0 + 1 / 32, 72.0, 132.0], reading_in=1 / 32) == ()
    assert [f.key for f in row.review([12.0 + 1 / 16, 72.0, 132.0], reading_in=1 / 32)] == ["end most"]


def test_places_chosen_from_others_are_only_those() -> None:
    """Ties at bolts: bolts at 8, 24, … and ties 48 in apart at most; a tie elsewhere says how far it is off."""
    bolts = tuple(8.0 + 16 * n for n in range(9))
    row = Row((Piece(0.0, 144.0),), Rule("tie", 48.0, 0.0, 24.0, 2.0, only_at=bolts))
    placed = row.place().stations
    assert set(placed) <= set(bolts)
    assert all(b - a <= 48 for a, b in pairwise(placed))
    (finding,) = [f for f in row.review([24.0, 70.0, 104.0, 136.0]) if f.key == "place"]
    assert (finding.at_in, finding.amount_in) == (70.0, 2.0)


def test_a_station_that_is_no_number_is_refused() -> None:
    with pytest.raises(BadInput, match="from the named end"):
        Row((Piece(0.0, 144.0),), SILL).review([float("nan")])
