"""Writes come from our own pages only.

Browsers say so in Sec-Fetch-Site; where that is absent (older ones), Origin must name this host. A client that sends neither, such
as a command-line tool, carries no cookies of a visitor and is let through.
"""

from urllib.parse import urlsplit

from starlette.datastructures import Headers
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from webapp.problem import ELSEWHERE, about_api, problem

SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
REFUSAL = "This change was sent from another site and was not made. Open the page here and send it again."


class SameOrigin:
    """Refuses writes from elsewhere. Args: public_origin: scheme and host as browsers see them; "" for those of the request."""

    def __init__(self, app: ASGIApp, public_origin: str = "") -> None:
        self.app = app
        self.public_origin = public_origin.rstrip("/")

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on, or answer 403."""
        if scope["type"] != "http" or scope["method"] in SAFE or self._own(scope):
            await self.app(scope, receive, send)
            return
        headers = {"Vary": "Sec-Fetch-Site, Origin"}
        refusal: Response = PlainTextResponse(REFUSAL, 403, headers)
        if about_api(scope["path"]):
            refusal = JSONResponse(problem(403, REFUSAL, error=ELSEWHERE), 403, headers)
        await refusal(scope, receive, send)

    def _own(self, scope: Scope) -> bool:
        headers = Headers(scope=scope)
        site = headers.get("sec-fetch-site")
        if site is not None:
            return site in ("same-origin", "none")
        origin = headers.get("origin")
        if origin is None:
            return True
        if self.public_origin:
            return origin == self.public_origin
        return urlsplit(origin).netloc == headers.get("host", "") and origin != "null"
