"""Ready to place: what blocks is said with who can clear it, and only when nothing does can the go-ahead be given."""

from typing import Any

import pytest

from tests.webapp.test_revisions import SEEN, submitted
from tests.world import World, house
from webapp.models import ReviewItem
from webapp.services import log, ready, reviews, revisions
from webapp.services.refusals import Refused
from webapp.store import reading, writing

WALL = {"near_end": "corner", "far_end": "corner", "storeys-0-type": "Ten", "storeys-1-type": "Six"}  # of its selects


def job_of(at: World) -> int:
    """A house whose one attachment on W1 passes, with forms whose pressure is known."""
    document = house()
    for kind in document["wall_types"].values():
        kind["form_pressure_psf"] = "1500 psf"
    document["attachments"] = document["attachments"][:1]
    document["placing"] = {"brace_capacity_lb": "20000", "pump_yd3_per_h": "4"}
    return at.job(**document)


def blocking(at: World, job: int) -> list[str]:
    return [need.words for need in ready.of_wall(at.db, job, 1, 1).blocking]


def ticked(at: World, job: int) -> None:
    """Every line that work waits for before placing, ticked at the first storey of W1."""
    with writing(at.db) as session:
        review = reviews.look(session, SEEN, job, 1)
        for place in review.places:
            for row in review.lines(place, "before placing"):
                key = f"{place.key}-{row['key']}"
                session.add(
                    ReviewItem(
                        revision_id=review.revision.id, key=key, content="", place=place.key, stage="before placing", kind="tick",
                        item=row["key"], value={"on": True}, who="Iris Moor", role="inspector", device_at="",
                    )
                )  # fmt: skip


def released(at: World, job: int) -> None:
    """Everything a person can release."""
    for need in ready.of_wall(at.db, job, 1, 1).needs:
        if need.point:
            form = {"point": need.point, "words": "50 °F, dry"}
            assert at.as_("inspector").post(f"/jobs/{job}/ready/1/1/points", data=form).status_code == 303


def accepted(at: World, job: int) -> None:
    submitted(at, job)
    with writing(at.db) as session:
        revisions.decide(session, SEEN, revisions.find(session, job, 1), True, log.Said("accepted"))


def test_before_anything_is_done_everything_a_person_must_do_blocks(at: World) -> None:
    job = job_of(at)
    found = ready.of_wall(at.db, job, 1, 1)
    said = {need.words: need for need in found.needs}
    assert said["Every attachment passes, or an engineer's design covers it"].met
    assert not said["What stands here is accepted by its reviewer"].met
    assert said["The day's weather is entered"].who == ("office", "designer", "inspector")
    text = at.reader.get(f"/jobs/{job}/ready/1/1").text
    assert "no revision is accepted yet" in text
    assert "Give the go-ahead" not in text


def test_the_go_ahead_is_refused_while_a_line_blocks_and_logged_when_none_does(at: World) -> None:
    job = job_of(at)
    answer = at.as_("office").post(f"/jobs/{job}/ready/1/1/go", data={"words": "go"})
    assert answer.status_code == 422
    assert "This still blocks" in answer.text
    accepted(at, job)
    released(at, job)
    assert blocking(at, job) == ["Inspected before placing: every line that work waits for is ticked"]
    ticked(at, job)
    assert blocking(at, job) == []
    assert at.as_("designer").post(f"/jobs/{job}/ready/1/1/go").status_code == 403
    answer = at.as_("office").post(f"/jobs/{job}/ready/1/1/go", data={"words": "go", "conditions": "No frost"})
    assert answer.status_code == 303
    with reading(at.db) as session:
        row = log.of_job(session, job)[0]
    assert (row.what, row.places, row.conditions, row.revision) == ("go-ahead", ["W1, storey 1"], "No frost", "A")
    assert "Go-ahead given" in at.reader.get(f"/jobs/{job}/ready").text


def test_a_hold_point_can_be_held_again(at: World) -> None:
    job = job_of(at)
    released(at, job)
    before = len(blocking(at, job))
    point = next(n.point for n in ready.of_wall(at.db, job, 1, 1).needs if n.point)
    at.reader.post(f"/jobs/{job}/ready/1/1/points", data={"point": point, "held": "yes"})
    assert len(blocking(at, job)) == before + 1


def test_a_change_after_acceptance_blocks_again(at: World) -> None:
    from tests.webapp.test_revisions import lengthened

    job = job_of(at)
    accepted(at, job)
    assert "What stands here is accepted by its reviewer" not in blocking(at, job)
    lengthened(at, job, {"lap_in": "40"})
    need = next(n for n in ready.of_wall(at.db, job, 1, 1).needs if "accepted" in n.words)
    assert need.says == "changed since revision A: A1"


def test_weather_without_words_and_points_nobody_set_are_refused(at: World) -> None:
    job = job_of(at)
    for form, said in (
        ({"point": "weather"}, "Enter the weather"),
        ({"point": "made up"}, "There is no such hold point"),
    ):
        answer = at.reader.post(f"/jobs/{job}/ready/1/1/points", data=form)
        assert answer.status_code == 422
        assert said in answer.text


def test_a_storey_the_wall_has_not_is_not_there(at: World) -> None:
    job = job_of(at)
    for path in ("1/9", "99/1"):
        assert at.reader.get(f"/jobs/{job}/ready/{path}").status_code == 404


def test_the_list_takes_as_many_queries_for_many_placings_as_for_few(at: World) -> None:
    sent = []
    for count in (1, 3):
        document = house()
        document["walls"] = document["walls"][:count]
        document["attachments"] = [a for a in document["attachments"] if a["wall"] in ("W1", "W2")[:count]]
        job = at.job(**document)
        at.reader.get(f"/jobs/{job}/ready")
        with at.counted() as statements:
            assert at.reader.get(f"/jobs/{job}/ready").status_code == 200
        sent.append(len(statements))
    assert sent[0] == sent[1]


def test_a_role_that_has_no_part_in_a_hold_point_cannot_release_it(at: World) -> None:
    job = job_of(at)
    found = ready.of_wall(at.db, job, 1, 1)
    need = next(n for n in found.needs if n.point and "designer" not in n.who)
    answer = at.as_("designer").post(f"/jobs/{job}/ready/1/1/points", data={"point": need.point, "words": "seen"})
    assert answer.status_code == 422
    assert "This is for inspector or office to release." in answer.text
    assert len(blocking(at, job)) == len(found.blocking)


def cleared(at: World) -> int:
    """A job whose first placing has its go-ahead."""
    job = job_of(at)
    accepted(at, job)
    released(at, job)
    ticked(at, job)
    assert at.as_("office").post(f"/jobs/{job}/ready/1/1/go", data={"words": "go"}).status_code == 303
    return job


def test_a_go_ahead_no_longer_stands_when_something_blocks_again_and_can_be_given_again(at: World) -> None:
    job = cleared(at)
    point = next(n.point for n in ready.of_wall(at.db, job, 1, 1).needs if n.point)
    at.reader.post(f"/jobs/{job}/ready/1/1/points", data={"point": point, "held": "yes"})
    assert "The go-ahead no longer stands" in at.reader.get(f"/jobs/{job}/ready/1/1").text
    assert "since the go-ahead" in at.reader.get(f"/jobs/{job}/ready").text
    at.reader.post(f"/jobs/{job}/ready/1/1/points", data={"point": point, "words": "seen again"})
    assert at.as_("office").post(f"/jobs/{job}/ready/1/1/go", data={"words": "go"}).status_code == 303


def test_a_point_held_between_looking_and_giving_stops_the_go_ahead(at: World, monkeypatch: pytest.MonkeyPatch) -> None:
    job = cleared(at)
    look = ready.of_wall

    def then_held(*asked: Any) -> ready.Ready:
        found = look(*asked)
        ready.release(at.db, SEEN, found, next(n.point for n in found.needs if n.point), "", held=True)
        return found

    monkeypatch.setattr(ready, "of_wall", then_held)
    with pytest.raises(Refused, match="Something changed this moment"):
        ready.go_ahead(at.db, SEEN, job, 1, 1, "go", "")


@pytest.mark.parametrize("change", ["another length", "taken away"])
def test_a_wall_changed_or_an_attachment_taken_away_since_acceptance_blocks(at: World, change: str) -> None:
    job = job_of(at)
    accepted(at, job)
    if change == "taken away":
        assert at.reader.post(f"/jobs/{job}/attachments/A1/delete").status_code == 303
        said = "A1 (taken away)"
    else:
        typed = at.reader.page(f"/jobs/{job}/walls/1").values
        answer = at.reader.post(f"/jobs/{job}/walls/1", data=typed | WALL | {"length_ft": "41", "do": "save"})
        assert answer.status_code == 303, answer.text
        said = "wall W1 itself"
    need = next(n for n in ready.of_wall(at.db, job, 1, 1).needs if "accepted" in n.words)
    assert said in need.says
