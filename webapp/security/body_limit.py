"""No request is larger than a form of this program can be."""

from starlette.datastructures import Headers
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

MOST_BYTES = 1_000_000
REFUSAL = "This is larger than 1 MB and was not read."


class _TooLarge(Exception):
    """More came than was announced or allowed."""


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
        announced = Headers(scope=scope).get("content-length", "")
        if announced.isdecimal() and int(announced) > self.most:
            await self._refuse(scope, receive, send)
            return
        seen, begun = 0, False

        async def counted() -> Message:
            nonlocal seen
            message = await receive()
            seen += len(message.get("body", b""))
            if seen > self.most:
                raise _TooLarge
            return message

        async def watched(message: Message) -> None:
            nonlocal begun
            begun = True
            await send(message)

        try:
            await self.app(scope, counted, watched)
        except _TooLarge:
            if not begun:
                await self._refuse(scope, receive, send)

    @staticmethod
    async def _refuse(scope: Scope, receive: Receive, send: Send) -> None:
        await PlainTextResponse(REFUSAL, status_code=413, headers={"connection": "close"})(scope, receive, send)
