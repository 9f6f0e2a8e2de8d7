"""What whoever runs an installation sees: one line a request that names nobody, ids on answers, slow statements, counts."""

import json
import logging
import sys
from pathlib import Path

import pytest
from prometheus_client import generate_latest
from sqlalchemy import text
from sqlalchemy.exc import OperationalError

from tests.world import World, world
from webapp.observed.lines import JsonLines
from webapp.store import reading


def said(caplog: pytest.LogCaptureFixture, name: str = "wallseat.request") -> list[dict[str, object]]:
    return [json.loads(JsonLines().format(record)) for record in caplog.records if record.name == name]


@pytest.fixture(autouse=True)
def listening(caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.INFO, "wallseat")


def test_a_request_leaves_one_line_with_its_route_and_nothing_of_the_person(
    at: World, job: int, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.clear()
    answer = at.reader.get(f"/jobs/{job}/walls?q=Ada", headers={"X-Request-Id": "mine\nforged"})
    (line,) = said(caplog)
    assert line["route"] == "/jobs/{job_id}/walls"
    assert (line["method"], line["status"]) == ("GET", 200)
    assert line["request"] == answer.headers["x-request-id"] != "mine\nforged"
    assert not any(word in json.dumps(line) for word in ("Ada", "Stone", "127.0.0.1", "testclient", "forged"))


def test_a_secret_in_an_address_stays_out_of_the_log(at: World, caplog: pytest.LogCaptureFixture) -> None:
    at.nobody().get("/r/secret-token-of-a-link")
    assert said(caplog)[-1]["route"] == "/r/{token}"
    assert "secret-token" not in caplog.text


@pytest.mark.parametrize(
    ("path", "route"), [("/nothing/here", "none"), ("/static/wallseat.css", "/static"), ("/static/none.css", "/static")]
)
def test_addresses_without_a_route_are_one(at: World, path: str, route: str, caplog: pytest.LogCaptureFixture) -> None:
    assert at.reader.get(path).headers["x-request-id"]
    assert said(caplog)[-1]["route"] == route


def test_an_error_page_says_the_id_the_log_knows_it_by(
    at: World, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise RuntimeError("the secret words of Ada Stone")

    monkeypatch.setattr("webapp.services.people.of_office", fail)
    answer = at.reader.get("/people")
    assert answer.status_code == 500
    assert f"Request {answer.headers['x-request-id']}" in answer.text
    (failed,) = said(caplog, "wallseat")
    assert failed["request"] == answer.headers["x-request-id"]
    assert failed["error"] == "RuntimeError"
    assert any("webapp/pages/people.py" in str(place) for place in list(failed["where"]))  # type: ignore[call-overload]
    assert "Ada" not in json.dumps(failed)


def test_a_line_can_not_be_forged_by_what_is_logged() -> None:
    record = logging.LogRecord("wallseat", logging.INFO, "", 0, 'x\n{"level": "error"}', (), None)
    assert len(JsonLines().format(record).splitlines()) == 1


def test_the_words_of_a_database_error_stay_out_of_the_log() -> None:
    try:
        raise OperationalError("INSERT", {"name": "Ada"}, ValueError("Ada"))
    except OperationalError:
        record = logging.LogRecord("wallseat", logging.ERROR, "", 0, "failed", (), sys.exc_info())
    line = JsonLines().format(record)
    assert "OperationalError" in line
    assert "Ada" not in line


def test_slow_statements_are_noted_without_their_values(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    with world(tmp_path, slow_ms=1, metrics_port=9) as at:
        at.reader.get("/jobs")
        caplog.clear()
        with reading(at.db) as session:
            slow = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 100000) SELECT max(i), :who FROM n"
            session.execute(text(slow), {"who": "Ada"})
        (line,) = said(caplog, "wallseat.slow")
        assert "RECURSIVE" in str(line["statement"])
        assert "Ada" not in json.dumps(line)
        counts = generate_latest(at.app.state.metrics.registry).decode()
    assert "wallseat_slow_statements_total" in counts


def test_counts_name_routes_and_are_kept_only_where_a_port_is_set(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    with world(tmp_path / "a", metrics_port=9) as at:
        at.reader.get("/jobs/7")
        counts = generate_latest(at.app.state.metrics.registry).decode()
        assert 'wallseat_answers_total{method="GET",route="/jobs/{job_id}",status="404"} 1.0' in counts
        assert at.reader.get("/metrics").status_code == 404
    with world(tmp_path / "b") as at:
        assert at.app.state.metrics is None
