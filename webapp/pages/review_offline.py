"""The service worker, from the root it controls; its version is the fingerprint of all it keeps."""

from functools import cache
from hashlib import sha256

from fastapi import APIRouter
from starlette.responses import Response

from webapp.folders import STATIC

router = APIRouter(include_in_schema=False)


@cache
def worker() -> str:
    """The worker's text, its version first: another release is another text, and browsers fetch it anew."""
    kept = sorted([*STATIC.glob("*.css"), *STATIC.glob("*.js"), *(STATIC / "review").glob("*.js")])
    version = sha256(b"".join(path.read_bytes() for path in kept)).hexdigest()[:12]
    return f'const VERSION = "{version}";\n' + (STATIC / "review" / "sw.js").read_text(encoding="utf-8")


@router.get("/sw.js")
def service_worker() -> Response:
    """Asked about by browsers at every visit."""
    headers = {"Cache-Control": "no-cache", "Service-Worker-Allowed": "/"}
    return Response(worker(), media_type="text/javascript", headers=headers)
