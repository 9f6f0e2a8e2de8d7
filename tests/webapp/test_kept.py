"""What is kept by all that it rests on: worked out once, forgotten in turn, never handed out for anything else."""

from itertools import pairwise

from tests.webapp.test_walls import wall_ids
from tests.world import World
from webapp.services import setting_out
from webapp.services.kept import Kept
from webapp.store import reading

CHANGED = ("wall", "level", "start", "end", "inputs", "version", "name", "line", "storeys", "openings")


def test_a_result_is_worked_out_once_and_the_one_not_asked_for_longest_goes_first() -> None:
    kept, made = Kept[str](2), list[str]()

    def of(key: str) -> str:
        return kept.of(key, lambda: (made.append(key), key.upper())[1])

    assert [of(key) for key in ("a", "b", "a", "c", "a", "b")] == ["A", "B", "A", "C", "A", "B"]
    assert made == ["a", "b", "c", "b"]


def test_an_empty_result_is_kept_too() -> None:
    kept, made = Kept[tuple[int, ...]](2), []
    for _ in range(3):
        assert kept.of("none", lambda: (made.append(1), ())[1]) == ()
    assert made == [1]


def test_a_wall_is_set_out_anew_when_anything_it_rests_on_changes(at: World, job: int) -> None:
    first = wall_ids(at, job)["W1"]

    def anchors() -> tuple[object, ...]:
        with reading(at.db) as session:
            return setting_out.of_wall(session, job, first).entries

    before = anchors()
    assert anchors() is before, "nothing changed"
    habits = at.reader.page("/office/habits").values
    changed = habits | {"web_clear_in": "2 1/2 in"}
    assert at.reader.post("/office/habits", data=changed).status_code == 303
    assert anchors() is not before


def test_what_is_kept_takes_no_more_room_than_it_may() -> None:
    kept, made = Kept[str](100, 10, len), list[str]()
    for key in ("aaaa", "bbbb", "cccc", "bbbb", "aaaa"):
        assert kept.of(key, lambda key=key: (made.append(key), key)[1]) == key  # type: ignore[misc]
    assert made == ["aaaa", "bbbb", "cccc", "aaaa"]
    assert kept.of("a" * 11, lambda: "a" * 11) == "a" * 11, "too large to keep, handed out all the same"
    assert kept.of("bbbb", lambda: "made anew") == "bbbb", "and nothing else goes for it"


def test_pages_show_every_change_at_once(at: World, job: int) -> None:
    list_, sheet = f"/jobs/{job}", f"/jobs/{job}/attachments/A1"

    def both() -> tuple[str, str]:
        found = at.reader.page(list_).text, at.reader.page(sheet).text
        assert found == (at.reader.page(list_).text, at.reader.page(sheet).text), "nothing changed"
        return found

    def put(address: str, **changes: object) -> None:
        kept = at.reader.get(f"/api{address}").json()
        answer = at.reader.put(f"/api{address}", json={n: v for n, v in kept.items() if n in CHANGED} | changes)
        assert answer.status_code == 200, answer.text

    seen = [both()]
    put(f"/jobs/{job}/attachments/A1", inputs={"required_bearing_in": "5 in", "member": "i_joist"})
    seen.append(both())
    put(f"/jobs/{job}/attachments/A1", start="2 ft")
    seen.append(both())
    put(f"/jobs/{job}/walls/{wall_ids(at, job)['W1']}", name="North")
    seen.append(both())
    at.reader.cookies.set("wallseat_units", "mm")
    assert both()[1] != seen[-1][1], "the reader's units"
    at.reader.cookies.delete("wallseat_units")
    assert both() == seen[-1]
    for older, newer in pairwise(seen):
        assert older[0] != newer[0]
        assert older[1] != newer[1]
    at.reader.delete(f"/api/jobs/{job}/attachments/A2?version=1")
    assert f"{list_}/attachments/A2" not in at.reader.page(list_).text
