"""The approvals log on the page: logged by the office, found by words and days, held against the newest revision, verified."""

import csv
import io
import json
from pathlib import Path
from typing import Any

import pytest

from tests.webapp.test_revisions import lengthened, submitted
from tests.world import World
from webapp.__main__ import main
from webapp.pages import log as log_pages
from webapp.services import log, log_search
from webapp.services.log_search import Sought
from webapp.store import reading


def logged(at: World, job: int, **texts: str) -> None:
    answer = at.as_("office").post(f"/jobs/{job}/log", data={"what": "permit", "number": "1"} | texts)
    assert answer.status_code == 303, answer.text


def found(at: World, **sought: Any) -> list[int]:
    with reading(at.db) as session:
        return [e.seq for e in log_search.search(session, 1, Sought(**sought)).rows]


def test_office_logs_a_permit_with_its_file_and_finds_it_by_its_number(at: World, job: int) -> None:
    submitted(at, job)
    office = at.as_("office")
    form = {
        "what": "permit",
        "number": "1",
        "permit": "BP-2026-118",
        "authority": "Harbour County",
        "conditions": "No frost",
    }
    answer = office.post(
        f"/jobs/{job}/log", data=form, files={"files": ("permit.pdf", b"%PDF-1.7 x", "application/pdf")}
    )
    assert answer.status_code == 303, answer.text
    text = office.get("/log?permit=BP-2026-118").text
    assert "BP-2026-118" in text
    assert "No frost" in text
    assert found(at, permit="BP-2026-118") == [2]
    with reading(at.db) as session:
        mark = log.of_job(session, job)[0].files[0]["sha256"]
    kept = office.get(f"/log/files/{mark}")
    assert kept.content == b"%PDF-1.7 x"
    assert kept.headers["content-disposition"].startswith("attachment")
    assert at.stranger().get(f"/log/files/{mark}").status_code == 404


@pytest.mark.parametrize(
    ("form", "said"),
    [
        ({"what": "permit"}, "Enter the permit&#39;s number."),
        ({"what": "approved"}, "Enter who approved it."),
        ({"what": "note"}, "Say what is to be kept."),
        ({"what": "accepted"}, "Choose what is logged."),
        ({"what": "note", "words": "x" * 5001}, "Use at most 5000 characters."),
    ],
)
def test_what_is_not_whole_is_not_logged_and_stays_typed(at: World, job: int, form: dict[str, str], said: str) -> None:
    answer = at.reader.post(f"/jobs/{job}/log", data=form | {"conditions": "kept as typed"})
    assert answer.status_code == 422
    assert said in answer.text
    assert "kept as typed" in answer.text
    assert found(at) == []


def test_a_designer_cannot_log_and_a_revision_of_another_job_cannot_be_named(at: World, job: int) -> None:
    submitted(at, job)
    other = at.job(name="Another house")
    assert at.as_("designer").post(f"/jobs/{job}/log", data={"what": "note", "words": "x"}).status_code == 403
    assert at.reader.post(f"/jobs/{other}/log", data={"what": "note", "words": "x", "number": "1"}).status_code == 404


def test_rows_are_found_by_words_by_days_and_by_what_they_record(at: World, job: int) -> None:
    submitted(at, job, "First thoughts")
    logged(at, job, permit="P-1", authority="Harbour County", words="Footings poured")
    logged(at, job, permit="P-2", authority="Hill Town", words="Walls")
    assert found(at) == [3, 2, 1]
    assert found(at, q="footings pou") == [2]
    assert found(at, q="thought") == [1]
    assert found(at, q='"; drop table -- *') == []
    assert found(at, q="P-2") == [3]
    assert found(at, what="submitted") == [1]
    assert found(at, authority="harbour") == [2]
    assert found(at, permit="P-1", q="walls") == []
    assert found(at, since="2030-01-01") == []
    assert found(at, until="2030-01-01") == [3, 2, 1]
    assert at.reader.get("/log?since=soon").status_code == 422


@pytest.mark.parametrize(
    ("written", "sought"),
    [
        ("P-2", "P-2"),
        ("P-2", "2"),
        ("Café", "cafe"),
        ("cafe\u0301", "CAFÉ"),
        ("Ångström", "angstr"),
        ("Straße", "STRASSE"),
        ("Łódź", "łodz"),
        ("ЙОД", "йод"),
        ("Ἀθῆναι", "αθηναι"),
        ("wall_type", "wall type"),
        ("1e5 -3.2", "1e5 3 2"),
        ("http://x.org/a?b=c", "org b"),
        ("don't", "don't"),
        ("½ in", "½"),
        ("東京 2", "東京"),
        ("x" * 4000, "x" * 300),
        ("a'b\\:* | & ! <-> c", "a'b\\:* | & ! <-> c"),
    ],
)
def test_words_are_found_without_their_case_and_accents_on_every_database(
    at: World, job: int, written: str, sought: str
) -> None:
    logged(at, job, number="", permit="X", words=written)
    logged(at, job, number="", permit="X", words="something other")
    assert found(at, q=sought) == [1]
    assert found(at, q=f"zz {sought}") == []


def test_old_rows_and_late_ones_are_found_alike(at: World, job: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """However few of the last rows are read through before the index is asked."""
    for number in range(1, 9):
        logged(at, job, number="", permit="X", words="ledge" if number % 2 else "gable short")
    for near in (0, 1, 4, 100):
        monkeypatch.setattr(log_search, "NEAR", near)
        assert found(at, q="gable") == [8, 6, 4, 2]
        assert found(at, q="led", before=6) == [5, 3, 1]
        with reading(at.db) as session:
            assert [e.seq for e in log_search.everything(session, 1, Sought(q="short"), step=1)] == [8, 6, 4, 2]


@pytest.mark.parametrize("sought", ["Å", "ålesund", "Alesund K", "alesundk", "ÅLESUND-KOMMUNE"])
def test_an_authority_is_found_as_it_begins(at: World, job: int, sought: str) -> None:
    logged(at, job, number="", permit="X", authority="Ålesund kommune")
    logged(at, job, number="", permit="X", authority="Kommune Ålesund", words="alesundkommune")
    assert found(at, authority=sought) == [1]
    assert found(at, authority="kommunen") == []


def test_earlier_rows_are_asked_for_by_number_so_that_none_is_shown_twice(at: World, job: int) -> None:
    for number in range(7):
        logged(at, job, permit=f"P-{number}", number="")
    with reading(at.db) as session:
        part = log_search.search(session, 1, Sought(), size=3)
    logged(at, job, permit="new", number="")
    with reading(at.db) as session:
        after = log_search.search(session, 1, Sought(before=part.before), size=3)
        assert [e.seq for e in (*part.rows, *after.rows)] == [7, 6, 5, 4, 3, 2]
        assert [e.seq for e in log_search.everything(session, 1, Sought(), step=2)] == [8, 7, 6, 5, 4, 3, 2, 1]


def test_an_approval_says_what_it_no_longer_covers(at: World, job: int) -> None:
    submitted(at, job)
    logged(at, job, permit="P-1")
    assert "Covers all of revision A" in at.reader.get(f"/jobs/{job}/log").text
    lengthened(at, job, {"lap_in": "30"})
    submitted(at, job)
    text = at.reader.get(f"/jobs/{job}/log").text
    assert "Of revision B it no longer covers" in " ".join(text.split())
    assert "A1 (changed)" in text


def test_a_row_is_put_right_by_a_row_of_its_own(at: World, job: int) -> None:
    logged(at, job, permit="P-1", number="")
    assert at.reader.post(f"/jobs/{job}/log/1/correct", data={"words": ""}).status_code == 422
    assert at.reader.post(f"/jobs/{job}/log/9/correct", data={"words": "x"}).status_code == 404
    assert at.reader.post(f"/jobs/{job}/log/1/correct", data={"words": "It is P-7."}).status_code == 303
    with reading(at.db) as session:
        last = log.of_job(session, job)[0]
        assert (last.what, last.corrects, last.words) == ("correction", 1, "It is P-7.")


def test_the_log_is_a_table_with_its_head(at: World, job: int) -> None:
    logged(at, job, permit="P-1", number="", words="=1+1")
    for path in ("/log.csv", f"/jobs/{job}/log.csv"):
        rows = list(csv.reader(io.StringIO(at.reader.get(path).text)))
        assert rows[1][7] == "P-1"
        assert rows[1][8] == "'=1+1"
    with reading(at.db) as session:
        assert log.head(session, 1)[1] in at.reader.get("/log.csv").text


def test_a_long_table_is_written_through_a_file_and_is_the_same(
    at: World, job: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    logged(at, job, permit="P-1", number="", words="Café\nin two lines")
    logged(at, job, permit="P-2", number="")
    in_memory = at.reader.get("/log.csv").content
    monkeypatch.setattr(log_pages, "MOST_IN_MEMORY", 1)
    monkeypatch.setattr(log_pages, "PART", 7)
    assert at.reader.get("/log.csv").content == in_memory
    with reading(at.db) as session:
        found = [row.permit for row in log_search.everything(session, 1, Sought(q="permit"), step=1)]
    assert found == ["P-2", "P-1"]


def test_verify_log_says_whether_every_row_is_as_it_was_written(
    at: World, job: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    logged(at, job, permit="P-1", number="")
    monkeypatch.setenv("DATABASE_URL", str(at.db.engine.url))
    assert main(["verify-log"]) == 0
    assert "Office 1: 1 rows" in capsys.readouterr().out
    assert main(["verify-log", "--json", "--office", "1", "--anchor", "ab" * 32]) == 1
    assert "no row of this log" in json.loads(capsys.readouterr().out)["logs"][0]["problems"][0]
    monkeypatch.setenv("DATABASE_URL", f"sqlite:///{tmp_path / 'none.sqlite'}")
    assert main(["verify-log"]) == 2
