"""What is kept by all that it rests on: worked out once, forgotten in turn, never handed out for anything else."""

from tests.webapp.test_walls import wall_ids
from tests.world import World
from webapp.services import setting_out
from webapp.services.kept import Kept
from webapp.store import reading


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
