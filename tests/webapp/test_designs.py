"""Engineers' designs: what refers or flags is covered, never passed, until it changes."""

import csv
import io

import pytest

from tests.webapp.test_revisions import lengthened, submitted
from tests.world import World
from webapp.services import designs, log, revisions
from webapp.store import reading

FORM = {"who": "R. Sand, PE", "licence": "XX 12345", "dated": "2026-11-02", "scope": "Bearing of A2", "tags": "A2"}
PDF = ("design.pdf", b"%PDF-1.7 drawn", "application/pdf")


def kept(at: World, job: int, **changes: str) -> int:
    answer = at.reader.post(f"/jobs/{job}/designs", data=FORM | changes, files={"file": PDF})
    assert answer.status_code == 303, answer.text
    with reading(at.db) as session:
        return designs.of_job(session, job)[0].id


def shown(at: World, job: int) -> dict[str, tuple[str, str]]:
    rows = csv.DictReader(io.StringIO(at.reader.get(f"/jobs/{job}/attachments.csv").text))
    return {row["tag"]: (row["verdict"], row["by engineer's design"]) for row in rows if row["kind"]}


def test_what_flags_can_be_covered_and_still_does_not_pass(at: World, job: int) -> None:
    assert shown(at, job)["A2"] == ("flag", "")
    number = kept(at, job)
    assert shown(at, job)["A2"] == ("flag", "R. Sand, PE")
    assert "By engineer&#39;s design" in at.reader.get(f"/jobs/{job}").text
    document = at.reader.get(f"/jobs/{job}/designs/{number}/file")
    assert document.content == PDF[1]
    with reading(at.db) as session:
        row = log.of_job(session, job)[0]
        assert (row.what, row.places, row.files[0]["name"]) == ("designed", ["A2"], "design.pdf")


def test_a_design_ends_when_what_it_covers_changes(at: World, job: int) -> None:
    kept(at, job)
    lengthened(at, job, {"lap_in": "50"})
    assert shown(at, job)["A2"] == ("flag", "R. Sand, PE"), "another attachment changed"
    types = at.reader.page(f"/jobs/{job}/types/1").values
    answer = at.reader.post(f"/jobs/{job}/types/1", data=types | {"core_in": "11", "do": "save"})
    assert answer.status_code == 303
    assert shown(at, job)["A2"][1] == ""
    assert "no longer covered: A2" in at.reader.get(f"/jobs/{job}/designs").text


def test_taking_a_design_out_of_use_is_logged_and_can_be_undone(at: World, job: int) -> None:
    number = kept(at, job)
    assert at.reader.post(f"/jobs/{job}/designs/{number}/delete").status_code == 303
    assert shown(at, job)["A2"][1] == ""
    at.reader.post(f"/jobs/{job}/designs/{number}/restore")
    assert shown(at, job)["A2"][1] == "R. Sand, PE"
    with reading(at.db) as session:
        assert len(log.of_job(session, job)) == 3


def test_a_revision_keeps_which_design_covered_what(at: World, job: int) -> None:
    kept(at, job)
    frozen = revisions.document(submitted(at, job))
    one = next(a for a in frozen["attachments"] if a["tag"] == "A2")
    assert frozen["designs"][0]["covers"]["A2"] == one["hash"]


@pytest.mark.parametrize(
    ("changes", "file", "said"),
    [
        ({"who": ""}, PDF, "Enter the engineer&#39;s name."),
        ({"licence": " "}, PDF, "Enter the licence"),
        ({"dated": "2026-02-30"}, PDF, "Enter a date as year-month-day"),
        ({"tags": "A1"}, PDF, "A1 is pass: there is nothing for a design to cover."),
        ({"tags": "A99"}, PDF, "There is no attachment A99."),
        ({}, None, "Add the document itself"),
        ({}, ("design.pdf", b"<html>", "application/pdf"), "This is no PDF, PNG or JPEG file."),
    ],
)
def test_a_design_that_is_not_whole_is_not_kept_and_stays_typed(
    at: World, job: int, changes: dict[str, str], file: tuple[str, bytes, str] | None, said: str
) -> None:
    files = {"file": file} if file else {"file": ("", b"", "application/octet-stream")}
    answer = at.reader.post(f"/jobs/{job}/designs", data=FORM | changes, files=files)
    assert answer.status_code == 422
    assert said in answer.text
    assert "Bearing of A2" in answer.text
    with reading(at.db) as session:
        assert designs.of_job(session, job) == []


def test_a_design_of_another_job_is_not_there(at: World, job: int) -> None:
    number = kept(at, job)
    other = at.job(name="Another house")
    assert at.reader.get(f"/jobs/{other}/designs/{number}/file").status_code == 404
