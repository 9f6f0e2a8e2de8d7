"""Writes come from our own pages only.

Browsers say so in Sec-Fetch-Site; where that is absent (older ones), Origin must name this host. A client that sends neither, such
as a command-line tool, carries no cookies of a visitor and is let through.
"""

from urllib.parse import urlsplit

from starlette.datastructures import Headers
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Receive, Scope, Send

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
        await PlainTextResponse(REFUSAL, status_code=403, headers=headers)(scope, receive, send)

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
