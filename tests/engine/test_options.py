"""Comparing ways of carrying a floor line: the same verdicts as single checks, and an order that brute force confirms."""

from collections.abc import Sequence
from dataclasses import replace
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine import attachments
from engine.editions import US_2021, US_2024, Edition
from engine.errors import BadInput
from engine.options import Candidate, Floor, Line, Search, compare
from engine.options.candidates import Candidates
from engine.options.quantities import QUANTITIES
from engine.options.rank import fronts
from engine.options.search import Checking
from engine.options.sizes import Choices
from engine.placed import Place, Site
from engine.result import Verdict
from engine.wall import Storey, WallLine, WallType, wall

SAMPLE = 60
LISTED = {
    "bolted_ledger": {
        "hanger_capacity_lb": "1400 lb", "hanger_report": "Report 1", "hanger_expires": "2027-06-01", "hanger_listed": "10",
        "tie_capacity_lb": "2000 lb", "tie_report": "Report 2", "tie_expires": "2027-06-01",
    },
    "cast_in_plate": {
        "listed_lb": "1500 lb", "report": "Report 3", "issued": "2025-06-01", "expires": "2027-06-01",
        "listed_f_c_psi": "2500 psi", "listed_foam_least_in": "1 in", "listed_foam_most_in": "4 in",
        "listed_embedment_in": "3 in", "listed_spacing_in": "8 in", "listed_screws": "4", "listed_gauge": "8",
    },
}  # fmt: skip
FLOORS = (
    (Floor(), Site(), US_2021),
    (Floor(depth_in=11.25, spacing_in=24.0, span_ft=11.5, uplift_plf=300.0), Site(), US_2024),
    (Floor(depth_in=7.25, across_seismic_plf=200.0), Site(seismic="D1"), US_2021),
    (Floor(member="i_joist", depth_in=9.5, width_in=2.5, across_wind_plf=0.0, snow_psf=30.0), Site(), US_2024),
)


def line(floor: Floor, site: Site = Site(), edition: Edition = US_2021, **more: Any) -> Line:
    """A 30 ft floor line on a 10 in wall under a 6 in one."""
    types = {"lower": WallType(core_in=10.0, vertical_bar="4"), "upper": WallType()}
    made = wall("W1", WallLine(length_ft=40.0), [Storey("lower"), Storey("upper")], [], types)
    return Line(floor, Place(level=1, start_ft=2.0, end_ft=32.0), made, site, edition, today="2026-11-25", **more)


def searched(of: Line) -> Search:
    """To the end."""
    found = Search(of)
    for _ in found.run():
        pass
    return found


def same_as_alone(candidate: Candidate, edition: Edition) -> None:
    """Verdict, governing line and quantities against the single check of the candidate's inputs."""
    kind, inputs = candidate.way.offer.kind, candidate.inputs
    if candidate.verdict is None:
        with pytest.raises(BadInput) as raised:
            attachments.check(kind, inputs, edition, recording=False)
        assert candidate.clash == str(raised.value)
        return
    alone = attachments.check(kind, inputs, edition, recording=False)
    assert candidate.verdict is alone.verdict
    assert candidate.governing == alone.governing
    if candidate.verdict is Verdict.PASS:
        standing = attachments.kind(kind).module.Standing(inputs, edition, recording=False)
        of = candidate.way.line
        assert candidate.quantities == QUANTITIES[kind](standing, of.place.length_in, of.floor.spacing_in)


@pytest.fixture(scope="module")
def search() -> Search:
    """A floor line searched to the end, by those ways that need no listing."""
    return searched(line(Floor()))


def test_every_candidate_is_checked(search: Search) -> None:
    assert len(search.candidates) == search.total > 1000


@pytest.mark.parametrize(("floor", "site", "edition"), FLOORS)
def test_a_search_gives_what_single_checks_give(floor: Floor, site: Site, edition: Edition) -> None:
    found = searched(line(floor, site, edition, standards=LISTED))
    assert len({way.offer.kind for way in found.ways}) >= 3
    first = 0
    for way in found.ways:
        numbers = range(first, first + way.count)
        for number in Random(1).sample(numbers, min(SAMPLE, way.count)):
            same_as_alone(found.candidates[number], edition)
        first += way.count
    assert first == found.total


def test_inputs_that_clash_are_told_as_a_single_check_tells_them() -> None:
    way = next(way for way in Search(line(Floor(), standards=LISTED)).ways if way.offer.key == "ledger")
    layouts = Choices(
        ("size", "rows", "top_edge_in", "gauge_in"),
        (
            ("2x8", 1, 4.5, 3.0),
            ("2x8", 2, 6.0, 3.0),
            ("2x12", 2, 6.0, 3.0),
        ),  # 9 in down lies off a ledger 7 1/4 in deep
    )
    way = replace(way, choices=(layouts, *way.choices[1:]))
    checked = [one for _, one in Checking(way).run() if one]
    candidates = Candidates(checked)
    for candidate in candidates:
        same_as_alone(candidate, US_2021)
    assert {c.sizes["size"] for c in candidates if c.verdict is None} == {"2x8"}
    assert sum(c.verdict is None for c in candidates) == way.count / 3


def test_candidates_are_a_sequence(search: Search) -> None:
    every, last = list(search.candidates), search.candidates[-1]
    assert [c.number for c in search.candidates[13:17]] == [c.number for c in every[13:17]] == [13, 14, 0, 1]
    assert (last.way, last.number) == (search.ways[-1], search.ways[-1].count - 1)
    assert last.sizes == {name: row for c in last.way.choices for name, row in zip(c.names, c.rows[-1], strict=True)}
    with pytest.raises(IndexError):
        search.candidates[search.total]


def test_those_that_hold_are_ranked_and_those_that_fail_say_why(search: Search) -> None:
    found = compare(search)
    holding = [c for c in search.candidates if c.verdict is Verdict.PASS]
    assert len(found.ranked) == len(holding) > 0
    assert sum(f.count for f in found.failed) == len(search.candidates) - len(holding)
    assert all(f.why for f in found.failed)


def test_a_search_may_be_cancelled() -> None:
    found = Search(line(Floor()))
    words = found.run()
    told = [next(words) for _ in range(20)]
    assert told == sorted(told)
    assert 0 < told[-1] < found.total
    assert len(found.candidates) == found.ways[0].count
    comparison = compare(found)
    assert not comparison.complete
    assert comparison.checked == len(found.candidates)
    *_, last = found.run()
    assert last == len(found.candidates) == found.total
    assert compare(found).complete


def by_brute_force(points: Sequence[tuple[float, ...]]) -> list[int]:
    """Peel off, front by front, the points that no remaining one dominates."""
    left, found, front = set(range(len(points))), [0] * len(points), 0

    def dominates(a: int, b: int) -> bool:
        p, q = points[a], points[b]
        return p != q and all(x <= y for x, y in zip(p, q, strict=True))

    while left:
        free = {n for n in left if not any(dominates(m, n) for m in left)}
        for n in free:
            found[n] = front
        left -= free
        front += 1
    return found


@given(st.lists(st.tuples(*[st.integers(0, 5).map(float)] * 3), max_size=40))
def test_fronts_are_those_of_brute_force(points: list[tuple[float, ...]]) -> None:
    assert fronts(points) == by_brute_force(points)
