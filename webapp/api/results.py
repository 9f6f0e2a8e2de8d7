"""The result of a check as the API gives it: `documents.result_json`, described."""

from typing import Any

from pydantic import BaseModel, Field

from engine.result import CheckResult
from webapp.api.answers import Answer, Number
from webapp.documents import result_json


class Step(BaseModel):
    """One use of a clause."""

    title: str = Field(description="What is computed.")
    source: str = Field(description="Standard, edition and clause.")
    symbol: str = Field(description="The standard's own symbol.")
    formula: str | None = Field(
        description="The formula that was computed; null where the clause is a table or a condition."
    )
    rule: str | None = Field(description="The rule in words, where there is no formula.")
    values: dict[str, Any] = Field(description="What went in, by symbol, in the units of the clause.")
    result: Any = Field(description="What came out, in `unit`.")
    unit: str = Field(description='Unit of the result: "lb", "in", "psi"; "" where it has none.')
    provenance: str = Field(description='How the rule is known: "read", "memory", "common practice" or "geometry".')


class Fact(BaseModel):
    """A number a sentence names."""

    value: Number = Field(description="In `unit`.")
    unit: str = Field(description="Its unit.")


class Line(BaseModel):
    """One limit: what is asked, what there is."""

    key: str = Field(description="A name that stays the same.")
    title: str = Field(description="What is limited.")
    source: str = Field(description="Standard, edition and clause.")
    verdict: str = Field(description='"pass", "flag", "refer" or "advisory" (measure on site).')
    says: str = Field(description="The line in a sentence, in feet and inches.")
    demand: Number = Field(description="What is asked, in `unit`.")
    capacity: Number = Field(description="What there is, in `unit`.")
    unit: str = Field(description="Unit of demand and capacity.")
    ratio: Number = Field(description="Demand over capacity; above 1 it flags.")
    combination: str | None = Field(description="The load combination that governs, where loads are combined.")
    facts: dict[str, Fact] = Field(description="Further numbers the sentence names.")
    spread: list[Number] | None = Field(
        description="Least and largest ratio over the tolerances, for an advisory line."
    )
    working: list[Step] = Field(description="Every clause that was used, in order.")


class Caution(BaseModel):
    """Something to know beside the result."""

    text: str = Field(description="The caution.")
    source: str | None = Field(description="Where it is published; null where nowhere.")
    common_practice: bool = Field(description="Whether it is a rule of the trade without a published source.")


class Checked(Answer):
    """The result of a check with its working."""

    kind: str = Field(description="Key of the kind of attachment.")
    edition: str = Field(description='Edition set it was judged by: "US 2021".')
    editions: dict[str, str] = Field(description="Titles of the standards in that set.")
    verdict: str = Field(description='"pass", "flag", or "refer" where a licensed engineer must decide.')
    lines_verdict: str = Field(description="What the lines alone say, where the verdict is refer.")
    governing: str | None = Field(description="Key of the line that governs.")
    ratio: Number = Field(description="Its ratio of demand to capacity.")
    lines: list[Line] = Field(description="Every limit that was looked at.")
    cautions: list[Caution] = Field(description="What to know beside it.")
    not_checked: list[str] = Field(description="What this check does not look at at all.")


def checked(found: CheckResult) -> Checked:
    """A result of the engine."""
    return Checked.model_validate({n: value for n, value in result_json.result(found).items() if n != "local_code"})
