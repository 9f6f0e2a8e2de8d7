"""Comparing ways of carrying a floor line: the same verdicts as single checks, and an order that brute force confirms."""

from collections.abc import Sequence
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine import attachments
from engine.editions import US_2021
from engine.errors import BadInput
from engine.options import Candidate, Floor, Line, Search, compare
from engine.options.rank import fronts
from engine.placed import Place, Site
from engine.result import Verdict
from engine.wall import Storey, WallLine, WallType, wall

SAMPLE = 120


@pytest.fixture(scope="module")
def search() -> Search:
    """A 30 ft floor line on a 10 in wall under a 6 in one, searched to the end."""
    types = {"lower": WallType(core_in=10.0, vertical_bar="4"), "upper": WallType()}
    made = wall("W1", WallLine(length_ft=40.0), [Storey("lower"), Storey("upper")], [], types)
    place = Place(level=1, start_ft=2.0, end_ft=32.0)
    found = Search(Line(Floor(), place, made, Site(), US_2021, today="2026-11-25"))
    for _ in found.run():
        pass
    return found


def test_every_candidate_is_checked(search: Search) -> None:
    assert len(search.candidates) == search.total > 1000


def test_a_search_gives_what_single_checks_give(search: Search) -> None:
    for candidate in Random(1).sample(search.candidates, SAMPLE):
        try:
            alone = attachments.check(candidate.way.offer.kind, candidate.inputs, US_2021, recording=False)
        except BadInput:
            assert candidate.verdict is None
            continue
        assert candidate.verdict is alone.verdict
        assert candidate.governing is not None
        assert alone.governing is not None
        assert candidate.ratio == pytest.approx(alone.governing.ratio or 0.0, rel=1e-12)


def test_those_that_hold_are_ranked_and_those_that_fail_say_why(search: Search) -> None:
    found = compare(search)
    holding = [c for c in search.candidates if c.verdict is Verdict.PASS]
    assert len(found.ranked) == len(holding) > 0
    assert sum(f.count for f in found.failed) == len(search.candidates) - len(holding)
    assert all(f.why for f in found.failed)


def test_a_search_may_be_cancelled() -> None:
    types = {"lower": WallType(core_in=10.0), "upper": WallType()}
    made = wall("W1", WallLine(length_ft=40.0), [Storey("lower"), Storey("upper")], [], types)
    search = Search(Line(Floor(), Place(level=1, start_ft=2.0, end_ft=32.0), made, Site(), US_2021))
    done = next(search.run())
    assert 0 < done < search.total
    assert all(isinstance(c, Candidate) for c in search.candidates)


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
