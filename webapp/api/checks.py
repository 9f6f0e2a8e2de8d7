"""Checks over JSON: of typed numbers, kept nowhere, open to everybody."""

from typing import Annotated, Any

from fastapi import APIRouter
from fastapi import Body as Sent
from pydantic import BaseModel, Field

from engine import fields
from engine.editions import EDITIONS, US_2021
from engine.fields import Spec
from webapp.api.answers import Answer, Body, Texts, Words, refusals
from webapp.api.results import Checked, checked
from webapp.services import checks
from webapp.services.refusals import Refused

router = APIRouter(prefix="/api", tags=["checks"])


class Asked(Body):
    """What to check: every input as text with its unit; one left out takes its default."""

    kind: Words = Field(description="Key of a kind of attachment; see /api/kinds.", examples=["ledge_seat"])
    edition: Words = Field(default=US_2021.key, description="Edition set to judge by.", examples=list(EDITIONS))
    inputs: Texts = Field(
        default_factory=dict,
        max_length=200,
        description="Texts by input; see /api/kinds for labels, units and ranges.",
        examples=[{"lower_core_in": "10 in", "span_ft": "14 ft"}],
    )


class Input(BaseModel):
    """One input of a kind."""

    name: str = Field(description="Its name; the ending is its unit.")
    label: str = Field(description="What a form calls it.")
    group: str = Field(description="Where a form has it.")
    kind: str = Field(description='"number", "count", "choice", "yes", "text" or "date".')
    unit: str = Field(description="Unit a bare number is in, and of the range.")
    range: tuple[float | None, float | None] | None = Field(description="Least and largest value, in `unit`.")
    options: dict[str, str] | None = Field(description="Values of a choice with their words.")
    optional: bool = Field(description="Whether it may be left empty.")
    default: str | None = Field(description="As text.")
    applies_when: dict[str, list[Any]] | None = Field(
        description="Another input, and its values with which this one counts."
    )
    follows: str | None = Field(description="The fact of the wall it takes inside a job.")


class Kind(BaseModel):
    """A kind of attachment."""

    key: str = Field(description="Its key in requests.")
    name: str = Field(description="What the trade calls it.")
    inputs: list[Input] = Field(description="What it is computed from.")


class Kinds(Answer):
    """Everything that can be checked."""

    kinds: list[Kind] = Field(description="Kinds of attachment in the order they are offered.")
    editions: list[str] = Field(description="Edition sets that can be judged by.")


@router.post("/checks", summary="Check typed numbers", responses=refusals(403, 422))
def check(asked: Annotated[Asked, Sent()]) -> Checked:
    """The result of one check, with its working and its cautions. Nothing is kept."""
    found = checks.judge(asked.kind, asked.inputs, asked.edition)
    if found.result is None:
        raise Refused(found.refused)
    return checked(found.result)


@router.get("/kinds", summary="Kinds of attachment")
def kinds() -> Kinds:
    """The kinds of attachment and their inputs: label, unit, stated range, options, default."""
    found = [
        Kind(key=kind.key, name=kind.name, inputs=[_input(s) for s in fields.specs(kind.inputs)])
        for kind in checks.offered()
    ]
    return Kinds(kinds=found, editions=list(EDITIONS))


def _input(spec: Spec) -> Input:
    return Input(
        name=spec.name, label=spec.label, group=spec.group, kind=spec.kind, unit=spec.unit,
        range=(spec.low, spec.high) if spec.kind in ("number", "count") else None, options=dict(spec.options) or None,
        optional=spec.optional, default=None if spec.default is None else fields.write_one(spec, spec.default),
        applies_when={spec.when[0]: list(spec.when[1])} if spec.when else None, follows=spec.wall or None,
    )  # fmt: skip
