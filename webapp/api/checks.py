"""Checks over JSON."""

from typing import Annotated, Any

from fastapi import APIRouter, Body
from pydantic import BaseModel, ConfigDict, Field
from starlette.responses import JSONResponse

from engine import fields
from engine.editions import EDITIONS, US_2021
from engine.errors import BadInput
from engine.fields import Spec
from engine.result import LOCAL_CODE
from webapp.documents import result_json
from webapp.services import checks

router = APIRouter(prefix="/api", tags=["checks"])
MOST_TEXT = 100


class Asked(BaseModel):
    """What to check: every input as text with its unit; one left out takes its default."""

    model_config = ConfigDict(extra="forbid")

    kind: str = Field(max_length=MOST_TEXT, examples=["ledge_seat"])
    edition: str = Field(US_2021.key, max_length=MOST_TEXT, examples=list(EDITIONS))
    inputs: dict[str, Annotated[str, Field(max_length=MOST_TEXT)]] = Field(
        default_factory=dict, max_length=200, examples=[{"lower_core_in": "10 in", "span_ft": "14 ft"}]
    )


@router.post("/checks", responses={422: {"description": "What to enter instead, by field."}})
def check(asked: Annotated[Asked, Body()]) -> JSONResponse:
    """The result of one check, with its working and its cautions."""
    try:
        found = checks.judge(asked.kind, asked.inputs, asked.edition)
    except BadInput as error:
        return JSONResponse({"errors": {error.field: error.message}, "local_code": LOCAL_CODE}, 422)
    if found.result is None:
        return JSONResponse({"errors": dict(found.refused), "local_code": LOCAL_CODE}, 422)
    return JSONResponse(result_json.result(found.result))


@router.get("/kinds")
def kinds() -> JSONResponse:
    """The kinds of attachment and their inputs: label, unit, stated range, options, default."""
    found = [
        {"key": kind.key, "name": kind.name, "inputs": [_input(s) for s in fields.specs(kind.inputs)]}
        for kind in checks.offered()
    ]
    return JSONResponse({"kinds": found, "editions": list(EDITIONS), "local_code": LOCAL_CODE})


def _input(spec: Spec) -> dict[str, Any]:
    numeric = spec.kind in ("number", "count")
    return {
        "name": spec.name,
        "label": spec.label,
        "group": spec.group,
        "kind": spec.kind,
        "unit": spec.unit,
        "range": [spec.low, spec.high] if numeric else None,
        "options": dict(spec.options) or None,
        "optional": spec.optional,
        "default": None if spec.default is None else fields.write_one(spec, spec.default),
        "applies_when": {spec.when[0]: list(spec.when[1])} if spec.when else None,
        "follows": spec.wall or None,
    }
