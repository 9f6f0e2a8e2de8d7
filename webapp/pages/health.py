"""For whatever watches over the servers: does this process answer, and may it be sent visitors.

Plain routes, not asked who comes: that would take a thread and the database, and both may be what is amiss.
"""

import anyio
from fastapi import APIRouter, Request
from starlette.responses import PlainTextResponse

from webapp.services import outages

router = APIRouter(include_in_schema=False)
MOST_S = 1.0
# One at a time, beside the threads of the visitors: a database that hangs must not use those up.
_one = anyio.CapacityLimiter(1)


async def healthz(request: Request) -> PlainTextResponse:
    """The process answers."""
    return PlainTextResponse("ok\n")


async def readyz(request: Request) -> PlainTextResponse:
    """The database answers within a second and has this program's tables; else 503."""
    ready = False
    with anyio.move_on_after(MOST_S):
        ready = await anyio.to_thread.run_sync(
            outages.ready, request.app.state.db, abandon_on_cancel=True, limiter=_one
        )
    return PlainTextResponse("ready\n") if ready else PlainTextResponse("not ready\n", 503, {"Retry-After": "5"})


router.add_route("/healthz", healthz, methods=["GET"])
router.add_route("/readyz", readyz, methods=["GET"])
