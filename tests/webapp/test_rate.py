"""Checks open to anybody have a limit for each address, told with when to come back; nothing else is held up by it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.world import World, world
from webapp.security import rate
from webapp.security.rate import Buckets

CHECK = {"kind": "ledge_seat", "inputs": {}}


@pytest.fixture
def tight(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[World]:
    """A world whose clock stands still."""
    monkeypatch.setattr(rate, "monotonic", lambda: 7.0)
    with world(tmp_path, open_rate=60) as at:
        yield at


def test_beyond_the_limit_a_program_is_told_when_to_come_back(tight: World, monkeypatch: pytest.MonkeyPatch) -> None:
    answers = [tight.nobody().post("/api/checks", json=CHECK) for _ in range(rate.AT_ONCE + 1)]
    assert {a.status_code for a in answers[:-1]} == {200}
    assert answers[-1].status_code == 429
    assert answers[-1].json()["error"] == "too_many"
    assert answers[-1].headers["retry-after"] == "1"
    assert tight.nobody().get("/try/ledge_seat").status_code == 429
    assert tight.reader.get("/jobs").status_code == 200
    monkeypatch.setattr(rate, "monotonic", lambda: 8.0)
    assert tight.nobody().post("/api/checks", json=CHECK).status_code == 200
    assert tight.nobody().post("/api/checks", json=CHECK).status_code == 429


def test_another_address_is_not_held_up() -> None:
    buckets = Buckets(2, 60)
    assert [buckets.wait_s("a", 0), buckets.wait_s("a", 0)] == [0, 0]
    assert buckets.wait_s("a", 0) == 1
    assert buckets.wait_s("b", 0) == 0


@given(st.lists(st.floats(0, 5), min_size=1, max_size=200))
def test_no_address_gets_more_than_its_first_lot_and_what_was_filled_up_since(pauses_s: list[float]) -> None:
    buckets, now_s, passed = Buckets(5, 60), 0.0, 0
    for pause_s in pauses_s:
        now_s += pause_s
        passed += buckets.wait_s("a", now_s) == 0
    assert passed <= 5 + now_s + 1e-6


def test_addresses_not_seen_longest_make_room(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(rate, "MOST_ADDRESSES", 3)
    buckets = Buckets(1, 60)
    for address in "abcd":
        assert buckets.wait_s(address, 0) == 0
    assert buckets.wait_s("d", 0) > 0
    assert buckets.wait_s("a", 0) == 0
