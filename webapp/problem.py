"""The one shape in which the API says that something was not done, and why."""

from collections.abc import Mapping
from typing import Any

from engine import VERSION
from engine.result import LOCAL_CODE

# Status -> a word a program can rely on, and a sentence for whoever reads it.
SAID: Mapping[int, tuple[str, str]] = {
    400: ("unreadable", "The request could not be read. Send what the description at /api/openapi.json names."),
    401: ("not_signed_in", "Nobody is signed in, or the session has ended. Sign in, or send a token of your account."),
    403: ("not_yours", "Your role has no part in this. Ask an administrator of your office."),
    404: ("not_found", "There is no such thing, or it has been deleted."),
    405: ("no_such_method", "This address does not take that method. See /api/openapi.json."),
    409: ("changed", "Somebody changed this since you read it. Read it again and go on from its version."),
    413: ("too_large", "This is larger than is read here."),
    422: ("unusable", "Some of this can't be used; see what to enter instead."),
    429: ("too_many", "One address has asked for more than it may in so short a time. Wait, then send it again."),
    503: (
        "unavailable",
        "The database can't take this just now. Nothing of this request was kept. Send it again later.",
    ),
    500: ("failed", "The program met an error it did not expect. Nothing of this request was kept."),
}
IN_USE = "in_use"  # with 409: something else still needs it, or stands where it would go
ELSEWHERE = "other_site"  # with 403: a page of another site sent it


def about_api(path: str) -> bool:
    """Whether an address is the API's."""
    return path.startswith("/api/")


def problem(
    status: int, detail: str = "", fields: Mapping[str, str] | None = None, error: str = "", **more: Any
) -> dict[str, Any]:
    """What the API answers with that status. Args: error: another word than the status's own. more: what only some answers say."""
    word, sentence = SAID.get(status, SAID[400 if status < 500 else 500])
    said = {"error": error or word, "detail": detail or sentence, "fields": dict(fields or {})}
    return said | more | {"engine": VERSION, "caution": LOCAL_CODE}
