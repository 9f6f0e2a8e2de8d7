"""What anybody may have computed without signing in has a limit an address: a few at once, then so many a minute."""

from collections import OrderedDict
from math import ceil
from threading import Lock
from time import monotonic

from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from webapp.problem import about_api, problem

AT_ONCE = 120
MOST_ADDRESSES = 10_000
OPEN = ("/api/checks", "/try/")
REFUSAL = "This is more than one address may have computed in so short a time. Wait {seconds} s, then send it again."


class Buckets:
    """Tokens of each address, refilled as time goes on; the address not seen longest makes room."""

    def __init__(self, at_once: int, a_minute: float) -> None:
        self.at_once = at_once
        self.a_second = a_minute / 60
        self._left: OrderedDict[str, tuple[float, float]] = OrderedDict()
        self._lock = Lock()

    def wait_s(self, address: str, now_s: float) -> float:
        """Take a token. Returns: 0, or the seconds until there is one."""
        with self._lock:
            left, at = self._left.pop(address, (float(self.at_once), now_s))
            left = min(left + (now_s - at) * self.a_second, self.at_once)
            wait = 0.0 if left >= 1 else (1 - left) / self.a_second
            self._left[address] = (left if wait else left - 1, now_s)
            if len(self._left) > MOST_ADDRESSES:
                self._left.popitem(last=False)
        return wait


class RateLimit:
    """Refuses with 429 what goes beyond. Args: a_minute, at_once: how many of an address; 0 a minute for no limit."""

    def __init__(self, app: ASGIApp, a_minute: int, at_once: int = AT_ONCE) -> None:
        self.app = app
        self.buckets = Buckets(at_once, a_minute) if a_minute else None

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on, or answer 429 with when to come back."""
        if scope["type"] == "http" and self.buckets and _computes(scope):
            client = Request(scope).client
            if wait := self.buckets.wait_s(client.host if client else "", monotonic()):
                await _refusal(scope["path"], ceil(wait))(scope, receive, send)
                return
        await self.app(scope, receive, send)


def _computes(scope: Scope) -> bool:
    return str(scope["path"]).startswith(OPEN)


def _refusal(path: str, seconds: int) -> Response:
    words, headers = REFUSAL.format(seconds=seconds), {"retry-after": str(seconds)}
    if about_api(path):
        return JSONResponse(problem(429, words), 429, headers)
    return PlainTextResponse(words, 429, headers)
