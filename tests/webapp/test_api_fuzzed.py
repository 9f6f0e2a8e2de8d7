"""The whole described API, each operation with made-up requests, as each role and as nobody: refused or answered, never broken."""

from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st
from schemathesis.checks import not_a_server_error

from tests.world import World
from webapp.pages.view import SESSION
from webapp.permissions import ROLES

SEED = 20261125
EXAMPLES = 8
ALL_READ = {"GET /api/jobs", "GET /api/jobs/{job_id}", "GET /api/jobs/{job_id}/takeoff"}
OPEN = {"POST /api/checks", "GET /api/kinds"}


def statuses(operation: Any, there: dict[str, Any], headers: dict[str, str]) -> set[int]:
    """What one operation answers to made-up requests, some of them about what is there. Raises where it breaks."""
    found = set()

    @seed(SEED)
    @settings(
        max_examples=EXAMPLES, deadline=None, database=None, derandomize=False, phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(st.data())
    def ask(data: st.DataObject) -> None:
        case = data.draw(operation.as_strategy())
        for name in case.path_parameters:
            if data.draw(st.booleans()):
                case.path_parameters[name] = there.get(name, 1)
        case.headers.pop("authorization", None)  # a made-up token would stand in for the session
        answer = case.call(headers=headers)
        found.add(answer.status_code)
        case.validate_response(answer, checks=[not_a_server_error])

    ask()
    return found


@pytest.mark.parametrize("role", [*ROLES, "nobody"])
def test_no_request_the_description_allows_breaks_the_program(at: World, job: int, role: str) -> None:
    schema = schemathesis.openapi.from_asgi("/api/openapi.json", at.app)
    headers = {"Sec-Fetch-Site": "same-origin"}
    if role in ROLES:
        headers["Cookie"] = f"{SESSION}={at.as_(role).cookies[SESSION]}"
    operations = [found.ok() for found in schema.get_all_operations()]
    asked = {one.label: statuses(one, {"job_id": job, "tag": "A1"}, headers) for one in operations}
    described = at.reader.get("/api/openapi.json").json()["paths"]
    assert len(asked) == sum(len(methods) for methods in described.values())
    answered = {label for label, codes in asked.items() if codes & {200, 201}}
    assert answered <= OPEN if role == "nobody" else answered >= ALL_READ, answered
