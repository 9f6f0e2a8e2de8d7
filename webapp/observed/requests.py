"""Every request gets an id, which its answer carries, and a line in the log: no names, no addresses, routes instead of paths."""

import logging
import secrets
from time import perf_counter

from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from webapp.observed.metrics import Metrics

log = logging.getLogger("wallseat.request")
UNROUTED = "none"
WATCHED = ("/healthz", "/readyz")  # asked for every few seconds: only worth a line where they fail


class Observed:
    """The outermost layer. Args: metrics: counts, where they are asked for."""

    def __init__(self, app: ASGIApp, metrics: Metrics | None = None) -> None:
        self.app = app
        self.metrics = metrics

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on and note how it ended; an answer that never began counts as 500."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        # never the client's own: what it sends must not get into our log
        request_id = secrets.token_hex(8)
        scope.setdefault("state", {})["request_id"] = request_id
        status, began = 500, perf_counter()

        async def marked(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
                MutableHeaders(scope=message)["x-request-id"] = request_id
            await send(message)

        try:
            await self.app(scope, receive, marked)
        finally:
            self._note(scope, request_id, status, perf_counter() - began)

    def _note(self, scope: Scope, request_id: str, status: int, seconds: float) -> None:
        place = route(scope)
        said = {"request": request_id, "method": method(scope), "route": place, "status": status}
        if place not in WATCHED or status >= 400:
            log.info("answered", extra={"said": said | {"ms": round(seconds * 1000, 1)}})
        if self.metrics:
            self.metrics.answered(method(scope), place, status, seconds)


def method(scope: Scope) -> str:
    """The method, where it is a known one: anything can be sent as one, and each would be counted for itself."""
    return scope["method"] if scope["method"] in ("GET", "HEAD", "POST", "PUT", "DELETE", "OPTIONS") else "other"


def route(scope: Scope) -> str:
    """The pattern of an address, "/jobs/{job_id}"; tokens, names and numbers stay out."""
    found = getattr(scope.get("route"), "path", "")
    if found:
        return str(found)
    path: str = scope["path"]
    if path in WATCHED:
        return path
    return "/static" if path.startswith("/static/") else UNROUTED
