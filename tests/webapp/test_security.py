"""What every request passes and every answer carries."""

from pathlib import Path
from typing import Any

import pytest
from anyio.from_thread import start_blocking_portal
from pydantic import ValidationError

from tests.world import World, world
from webapp.security.body_limit import BodyLimit
from webapp.settings import Settings

NEW = {"name": "Lot 9", "edition": "US 2021", "seismic": "B"}


@pytest.mark.parametrize("path", ["/", "/nothing", "/static/wallseat.css", "/api/kinds"])
def test_every_answer_allows_nothing_from_outside(at: World, path: str) -> None:
    headers = at.reader.get(path).headers
    policy = headers["content-security-policy"]
    assert policy.startswith("default-src 'none'")
    assert "unsafe" not in policy
    assert "http:" not in policy
    assert "https:" not in policy
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "same-origin"
    assert "frame-ancestors 'none'" in policy


def test_a_change_from_another_site_is_refused(at: World) -> None:
    for site in ("cross-site", "same-site"):
        answer = at.reader.post("/jobs/new", data=NEW, headers={"Sec-Fetch-Site": site})
        assert answer.status_code == 403
    assert "There is no job yet" in at.reader.get("/jobs").text


@pytest.mark.parametrize(
    ("origin", "status"),
    [
        ("http://127.0.0.1", 303),
        ("http://elsewhere.example", 403),
        ("null", 403),
        ("http://127.0.0.1.elsewhere.example", 403),
        ("http://127.0.0.1:81", 403),
    ],
)
def test_where_a_browser_does_not_say_the_site_its_origin_counts(at: World, origin: str, status: int) -> None:
    del at.reader.headers["Sec-Fetch-Site"]
    assert at.reader.post("/jobs/new", data=NEW, headers={"Origin": origin}).status_code == status


def test_behind_a_proxy_the_public_origin_counts_and_browsers_are_kept_on_https(tmp_path: Path) -> None:
    with world(tmp_path, public_origin="https://checks.example") as at:
        del at.reader.headers["Sec-Fetch-Site"]
        assert at.reader.post("/jobs/new", data=NEW, headers={"Origin": "https://checks.example"}).status_code == 303
        assert at.reader.post("/jobs/new", data=NEW, headers={"Origin": "http://127.0.0.1"}).status_code == 403
        assert at.reader.get("/").headers["strict-transport-security"]


def test_reading_from_another_site_is_no_change_and_allowed(at: World) -> None:
    assert at.reader.get("/", headers={"Sec-Fetch-Site": "cross-site"}).status_code == 200


def test_a_body_beyond_one_megabyte_is_refused_by_its_announced_length(at: World) -> None:
    answer = at.reader.post("/jobs/open", data={"text": "x" * 1_000_001})
    assert answer.status_code == 413


def test_a_body_beyond_one_megabyte_is_refused_when_it_comes_in_pieces(at: World) -> None:
    def pieces() -> object:
        for _ in range(30):
            yield b"x" * 50_000

    answer = at.reader.post(
        "/jobs/open", content=pieces(), headers={"Content-Type": "application/x-www-form-urlencoded"}
    )
    assert answer.status_code == 413


@pytest.mark.parametrize(("announced", "taken"), [(1_500_000, 30), (30_000_000, 0)], ids=["a little", "far"])
def test_whoever_sends_too_much_may_finish_before_the_answer_unless_it_is_far_too_much(
    announced: int, taken: int
) -> None:
    """An answer that comes while a proxy still sends is lost: it says 502 in its own words."""
    pieces = [{"type": "http.request", "body": b"x" * 50_000, "more_body": n < 29} for n in range(30)]
    sent: list[Any] = []

    async def receive() -> Any:
        return pieces.pop(0)

    async def send(message: Any) -> None:
        sent.append((message, 30 - len(pieces)))

    async def unused(*_: Any) -> None:
        raise AssertionError("what is too large is not passed on")

    headers = [(b"content-length", str(announced).encode())]
    scope = {"type": "http", "method": "POST", "path": "/x", "headers": headers}
    with start_blocking_portal() as portal:  # a thread of its own: a browser test leaves a loop running in this one
        portal.call(BodyLimit(unused), scope, receive, send)
    assert (sent[0][0]["status"], sent[0][1]) == (413, taken)


def test_a_form_of_countless_fields_is_refused(at: World) -> None:
    answer = at.reader.post("/try/ledge_seat", data={f"f{n}": "1" for n in range(2000)})
    assert answer.status_code == 400
    assert "That could not be read" in answer.text


def test_a_form_with_a_zero_byte_is_refused(at: World) -> None:
    assert at.reader.post("/jobs/new", data=NEW | {"name": "a\x00b"}).status_code == 400


def test_static_files_are_kept_a_year_when_asked_for_by_fingerprint(at: World) -> None:
    text = at.reader.page("/").text
    start = text.index("/static/wallseat.css")
    address = text[start : text.index('"', start)]
    assert "?v=" in address
    assert "immutable" in at.reader.get(address).headers["cache-control"]
    assert at.reader.get("/static/wallseat.css").headers["cache-control"] == "no-cache"


@pytest.mark.parametrize(
    "path", ["/static/../pyproject.toml", "/static/%2e%2e/pyproject.toml", "/static/..%2fMakefile"]
)
def test_nothing_beside_the_static_files_is_served(at: World, path: str) -> None:
    assert at.reader.get(path).status_code == 404


@pytest.mark.parametrize("host", ["0.0.0.0", "192.0.2.7", "office", "::"])
def test_the_demo_stays_on_this_machine(host: str) -> None:
    with pytest.raises(ValidationError, match="in the demo anyone may sign in"):
        Settings(host=host, demo=True)
    assert Settings(host=host).host == host


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost", "::1", "127.8.9.1"])
def test_this_machine_alone_needs_no_permission(host: str) -> None:
    assert Settings(host=host).host == host


def test_settings_come_from_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    for name, value in (("HOST", "localhost"), ("PORT", "8123"), ("DATABASE_URL", "sqlite:////tmp/x.sqlite")):
        monkeypatch.setenv(name, value)
    settings = Settings()
    assert (settings.host, settings.port, settings.database_url) == ("localhost", 8123, "sqlite:////tmp/x.sqlite")


def test_over_https_every_cookie_is_sent_over_https_only(tmp_path: Path) -> None:
    with world(tmp_path, public_origin="https://checks.example") as at:
        own = {"Origin": "https://checks.example"}
        answers = [
            at.reader.post("/units", data={"units": "mm", "back": "/"}, headers=own),
            at.reader.post("/jobs/new", data=NEW, headers=own),
        ]
        cookies = [cookie for answer in answers for cookie in answer.headers.get_list("set-cookie")]
    assert len(cookies) == 2
    assert all(cookie.lower().split("; ").count("secure") == 1 for cookie in cookies), cookies


def test_the_page_of_components_is_for_the_demo_and_for_administrators(at: World) -> None:
    assert at.reader.get("/components").status_code == 200
    assert at.as_("designer").get("/components").status_code == 404
    assert at.nobody().get("/components").status_code == 404
