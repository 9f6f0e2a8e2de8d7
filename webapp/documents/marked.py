"""Answers that never change under their mark: whoever has one already is told so, and gets nothing of it again."""

from collections.abc import Callable, Mapping

from starlette.requests import Request
from starlette.responses import Response

JSON = "application/json"


def known(request: Request, mark: str) -> bool:
    """Whether whoever asks has the answer of that mark."""
    return f'"{mark}"' in request.headers.get("if-none-match", "")


def marked(request: Request, mark: str, body: Callable[[], str], headers: Mapping[str, str]) -> Response:
    """A JSON text under its mark, or 304. Args: body: asked for only where it is sent."""
    dressed = {"ETag": f'"{mark}"', "Cache-Control": "private, no-cache", **headers}
    if known(request, mark):
        return Response(status_code=304, headers=dressed)
    return Response(body().encode(), media_type=JSON, headers=dressed)
