"""Headers of every answer: nothing from outside, nothing inline, no framing."""

from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

CONTENT_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "form-action 'self'",
        "frame-ancestors 'none'",
        "base-uri 'none'",
        "object-src 'none'",
    )
)
ALWAYS = {
    "content-security-policy": CONTENT_POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=()",
}
HSTS = "max-age=31536000; includeSubDomains"


class SecurityHeaders:
    """Adds the headers; pages are not kept by shared caches. Over https browsers are asked to stay there with all cookies."""

    def __init__(self, app: ASGIApp, https: bool = False) -> None:
        self.app = app
        self.extra = {"strict-transport-security": HSTS} if https else {}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on and dress the answer."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return

        async def dressed(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in (ALWAYS | self.extra).items():
                    headers[name] = value
                headers.setdefault("cache-control", "no-store")
                if self.extra:
                    message["headers"] = [_over_https(*pair) for pair in message["headers"]]
            await send(message)

        await self.app(scope, receive, dressed)


def _over_https(name: bytes, value: bytes) -> tuple[bytes, bytes]:
    """A header as it is, a cookie such that browsers send it over https only."""
    if name.lower() == b"set-cookie" and b"secure" not in value.lower().split(b"; "):
        value += b"; Secure"
    return name, value
