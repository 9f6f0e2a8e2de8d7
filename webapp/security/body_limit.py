"""No request is larger than a form of this program can be."""

import re

from starlette.datastructures import Headers
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from webapp.problem import about_api, problem

MOST_BYTES = 1_000_000
# Where files are sent: addresses, and how much may come.
LARGER = ((re.compile(r"/jobs/\d+/(log|log/\d+/correct|designs|review/\d+/items)"), 15_000_000),)
MOST_DRAINED = 20_000_000  # more than a proxy passes on (deploy/nginx.conf)
REFUSAL = "This is larger than {most:.0f} MB and was not read."


class _TooLarge(Exception):
    """More came than was announced or allowed. Args: more: whether the rest is still to come."""

    def __init__(self, more: bool = True) -> None:
        super().__init__("too large")
        self.more = more


class BodyLimit:
    """Refuses larger bodies: by their announced length, and by counting where none or a false one is announced."""

    def __init__(self, app: ASGIApp, most: int = MOST_BYTES) -> None:
        self.app = app
        self.most = most

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on, or answer 413."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        most = next((limit for path, limit in LARGER if path.fullmatch(scope["path"])), self.most)
        announced = Headers(scope=scope).get("content-length", "")
        begun = False

        async def watched(message: Message) -> None:
            nonlocal begun
            begun = True
            await send(message)

        try:
            if announced.isdecimal() and int(announced) > most:
                raise _TooLarge
            await self.app(scope, _counted(receive, most), watched)
        except _TooLarge as error:
            if not begun:
                if error.more:
                    await _drained(receive, announced)
                await _refusal(scope["path"], REFUSAL.format(most=most / 1e6))(scope, receive, send)


async def _drained(receive: Receive, announced: str) -> None:
    """Let what is on its way arrive, and drop it: a proxy or browser still sending never reads an answer that comes before."""
    left = MOST_DRAINED
    if announced.isdecimal() and int(announced) > left:
        return
    while left > 0:
        message = await receive()
        left -= len(message.get("body", b"")) + 1
        if message["type"] == "http.disconnect" or not message.get("more_body", False):
            return


def _refusal(path: str, text: str) -> Response:
    headers = {"connection": "close"}
    if about_api(path):
        return JSONResponse(problem(413, text), 413, headers)
    return PlainTextResponse(text, 413, headers)


def _counted(receive: Receive, most: int) -> Receive:
    seen = 0

    async def counted() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > most:
            raise _TooLarge(message.get("more_body", False))
        return message

    return counted
