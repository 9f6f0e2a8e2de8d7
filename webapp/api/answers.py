"""What every answer of the API carries, and which refusals a route has."""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from engine import VERSION
from engine.result import LOCAL_CODE

Number = Annotated[
    float | Literal["infinite"] | None, Field(description='A number; "infinite" for something over nothing.')
]
LONGEST = 400
Words = Annotated[str, Field(max_length=LONGEST, pattern=r"^[^\x00]*$")]
Texts = dict[Words, Words]


class Answer(BaseModel):
    """What every answer carries."""

    engine: str = Field(default=VERSION, description="Version of the calculation engine.")
    caution: str = Field(default=LOCAL_CODE, description="What governs beside every result.")


class Body(BaseModel):
    """What is sent; a name that is not known is refused."""

    model_config = ConfigDict(extra="forbid")


class Entry(BaseModel):
    """One line of a job file that can't be used."""

    line: int = Field(description="Line of the text that was sent, from 1.")
    path: str = Field(description='Where in the document: "walls[0].line.length_ft".')
    reason: str = Field(description="What is wrong there, or what to write.")


class Problem(Answer):
    """Why something was not done. Nothing has been changed."""

    error: str = Field(
        description='A word that stays the same: "not_found", "changed", "in_use", "unusable" and so on.'
    )
    detail: str = Field(description="What to do, in a sentence.")
    fields: dict[str, str] = Field(description='What to enter instead, by field; "" for the whole.')
    version: int | None = Field(default=None, description="With 409: the version that is kept now.")
    problems: list[Entry] | None = Field(default=None, description="Of a job file: everything that is wrong with it.")


class Gone(Answer):
    """What was deleted."""

    deleted: str = Field(description="Its name or tag.")
    restore: str = Field(description="Where to POST to bring it back.")


WHY = {
    401: "Nobody is signed in, or the token is no longer good.",
    403: "Whoever is signed in has not the role for this, or another site sent it.",
    404: "There is no such thing in your office, or it has been deleted.",
    409: "Somebody changed it since that version, or something else still needs it.",
    422: "Something in it can't be used; by field, what to enter instead.",
}
READ, WRITE = (401, 403, 404, 422), (401, 403, 404, 409, 422)


def refusals(*statuses: int) -> dict[int | str, dict[str, Any]]:
    """The refusals of a route, for its description."""
    return {status: {"model": Problem, "description": WHY[status]} for status in statuses}
