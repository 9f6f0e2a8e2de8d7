"""The description of the API: every route, every refusal, every field in words."""

from collections.abc import Iterator
from typing import Any

import pytest
from fastapi.routing import APIRoute

from tests.world import World
from webapp.api.routed import ROUTED
from webapp.permissions import ANYONE, ROWS

ROUTES = sorted(
    (method, route.path)
    for module in ROUTED
    for route in module.router.routes
    if isinstance(route, APIRoute)
    for method in route.methods
)
WRITES = ("POST", "PUT", "DELETE")


@pytest.fixture
def described(at: World) -> dict[str, Any]:
    found: dict[str, Any] = at.nobody().get("/api/openapi.json").json()
    return found


def operations(described: dict[str, Any]) -> Iterator[tuple[str, str, dict[str, Any]]]:
    for path, methods in described["paths"].items():
        for method, operation in methods.items():
            yield method.upper(), path, operation


def expected_refusals(method: str, path: str) -> set[str]:
    """What a route may refuse, told from its address and from who may use it."""
    row = ROWS[f"{method} {path}"]
    found = set() if row is ANYONE else {"401", "403"}
    if method in WRITES:
        found.add("403")  # another site sent it
    if "{" in path:
        found.add("404")
    if method in ("PUT", "DELETE") or path.endswith("/restore"):
        found.add("409")
    if path != "/api/kinds":
        found.add("422")
    return found


def test_it_names_every_route_of_the_api_and_no_page(described: dict[str, Any]) -> None:
    assert sorted((method, path) for method, path, _ in operations(described)) == ROUTES


@pytest.mark.parametrize(("method", "path"), ROUTES, ids=[f"{m} {p}" for m, p in ROUTES])
def test_every_route_declares_its_refusals_in_the_one_shape(described: dict[str, Any], method: str, path: str) -> None:
    operation = described["paths"][path][method.lower()]
    refusals = {status: answer for status, answer in operation["responses"].items() if status[0] == "4"}
    assert set(refusals) == expected_refusals(method, path)
    for answer in refusals.values():
        assert answer["content"]["application/json"]["schema"]["$ref"].endswith("/Problem")
    assert operation["summary"]
    assert operation["description"]


def test_every_answer_carries_the_engine_and_the_caution(described: dict[str, Any]) -> None:
    schemas = described["components"]["schemas"]
    for method, path, operation in operations(described):
        for status, answer in operation["responses"].items():
            schema = answer.get("content", {}).get("application/json", {}).get("schema", {})
            if "$ref" in schema:
                properties = schemas[schema["$ref"].rpartition("/")[2]]["properties"]
                assert {"engine", "caution"} <= set(properties), (method, path, status)


def test_every_field_and_every_parameter_is_explained(described: dict[str, Any]) -> None:
    silent = [
        f"{name}.{field}"
        for name, schema in described["components"]["schemas"].items()
        for field, of in schema.get("properties", {}).items()
        if not of.get("description")
    ]
    silent += [
        f"{method} {path} {parameter['name']}"
        for method, path, operation in operations(described)
        for parameter in operation.get("parameters", [])
        if not parameter.get("description")
    ]
    assert silent == []


def test_lengths_forces_and_times_name_their_unit(described: dict[str, Any]) -> None:
    units = {"_in": "in", "_ft": "ft", "_psf": "psf", "_yd3": "yd³", "_min": "minutes"}
    unsaid = [
        f"{name}.{field}"
        for name, schema in described["components"]["schemas"].items()
        for field, of in schema.get("properties", {}).items()
        for ending, unit in units.items()
        if field.endswith(ending) and unit not in of["description"].replace(".", " ").replace(";", " ").lower()
    ]
    assert unsaid == []


def test_it_needs_nothing_from_outside(at: World, described: dict[str, Any]) -> None:
    assert "http" not in str(described).replace("HTTPBearer", "").replace("'http'", "")
    assert at.reader.get("/docs").status_code == 404
