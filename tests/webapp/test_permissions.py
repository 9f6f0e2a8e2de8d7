"""Every route as every role, as a stranger of another office, and as nobody: one table decides, and it has a row for each."""

import pytest
from fastapi.routing import APIRoute

from tests.world import World
from webapp import permissions
from webapp.main import ROUTED
from webapp.permissions import ANYONE, ROLES, ROWS

ROUTES = sorted(
    {
        (method, route.path)
        for module in ROUTED
        for route in module.router.routes
        if isinstance(route, APIRoute)
        for method in route.methods
    },
    key=lambda pair: (pair[1], pair[0]),
)
FILLED = {"tag": "A1", "kind_key": "ledge_seat", "name": "x", "what": "anchor"}


def path(routed: str, job: int) -> str:
    """An address of a route, its places filled with what is there, or with 1."""
    for part in {p.split("}")[0] for p in routed.split("{")[1:]}:
        name = part.split(":")[0]
        routed = routed.replace("{" + part + "}", str(job) if name == "job_id" else FILLED.get(name, "1"))
    return routed


def test_every_route_has_a_row_and_every_row_a_route() -> None:
    assert {f"{method} {routed}" for method, routed in ROUTES} == set(ROWS)


def test_a_route_without_a_row_is_for_nobody() -> None:
    assert permissions.allowed("GET", "/nowhere") is None


@pytest.mark.parametrize(("method", "routed"), ROUTES, ids=[f"{m} {p}" for m, p in ROUTES])
def test_a_route_answers_those_its_row_names_and_no_others(at: World, job: int, method: str, routed: str) -> None:
    row, address = ROWS[f"{method} {routed}"], path(routed, job)
    fresh = at.nobody()
    answer = fresh.request(method, address)
    if row is ANYONE:
        assert answer.status_code != 403
        assert answer.status_code != 401 or routed == "/sign-in"
        return
    turned_away = answer.status_code == 401 or answer.headers.get("location", "").startswith("/sign-in")
    assert turned_away, (answer.status_code, answer.headers.get("location"))
    for role in ROLES:
        if role not in row:
            assert at.as_(role).request(method, address).status_code == 403, role
    if "{job_id}" in routed:
        stranger = at.stranger().request(method, address)
        assert stranger.status_code == 404, "a job of another office is not there"


@pytest.mark.parametrize("role", ROLES)
def test_each_role_reads_the_job_of_its_office(at: World, job: int, role: str) -> None:
    reader = at.as_(role)
    assert reader.get(f"/jobs/{job}").status_code == 200
    assert "Small house" in reader.get("/jobs").text
    assert "Small house" not in at.stranger().get("/jobs").text
