"""The application: routers, middleware, error pages. Nothing happens when this is imported."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from functools import cache

import anyio
import anyio.to_thread
from fastapi import APIRouter, Depends, FastAPI
from starlette.middleware import Middleware
from starlette.routing import BaseRoute

from engine import VERSION
from webapp import heap
from webapp.api import ABOUT, problems
from webapp.api.routed import ROUTED as API_ROUTED
from webapp.folders import STATIC
from webapp.observed.metrics import Metrics
from webapp.observed.requests import Observed
from webapp.observed.slow import watch
from webapp.package.builds import Builds
from webapp.pages import (
    account,
    attachments,
    audit,
    components,
    copying,
    currency,
    cut_list,
    designs,
    drawings,
    drawings_placing,
    errors,
    floor_line_moves,
    floor_lines,
    health,
    hold_points,
    home,
    imports,
    job,
    job_tables,
    jobs,
    joining,
    log,
    log_paper,
    office,
    office_checklists,
    office_habits,
    office_rates,
    office_second,
    office_tables,
    opening,
    options,
    packages,
    people,
    placing,
    proving,
    ready,
    review,
    review_built,
    review_items,
    review_link,
    review_list,
    review_offline,
    revision_again,
    revisions,
    setting_out,
    sign_in,
    takeoff,
    try_check,
    wall_types,
    walls,
)
from webapp.pages.ask import permitted
from webapp.pages.static import Fingerprinted
from webapp.pages.view import environment
from webapp.security.body_limit import BodyLimit
from webapp.security.headers import SecurityHeaders
from webapp.security.rate import RateLimit
from webapp.security.same_origin import SameOrigin
from webapp.services.kept import PIECES, Kept, bytes_of
from webapp.services.searches import Searches
from webapp.settings import Settings
from webapp.store import open_database

# Order counts: "/jobs/open" before "/jobs/{job_id}".
ROUTED = (
    *API_ROUTED,
    health,
    home,
    job_tables,
    office_tables,
    opening,
    jobs,
    imports,
    job,
    wall_types,
    walls,
    floor_lines,
    floor_line_moves,
    options,
    attachments,
    copying,
    cut_list,
    setting_out,
    drawings,
    drawings_placing,
    placing,
    takeoff,
    revisions,
    revision_again,
    designs,
    packages,
    ready,
    review_built,
    review_items,
    review,
    review_list,
    review_offline,
    review_link,
    currency,
    log,
    log_paper,
    office_habits,
    office_rates,
    hold_points,
    office_checklists,
    office_second,
    office,
    sign_in,
    joining,
    account,
    audit,
    people,
    try_check,
    proving,
    components,
)


def _middleware(settings: Settings, metrics: Metrics | None) -> list[Middleware]:
    """What every request passes, outermost first."""
    return [
        Middleware(Observed, metrics=metrics),
        Middleware(SecurityHeaders, https=settings.public_origin.startswith("https://")),
        Middleware(errors.CatchAll),
        Middleware(SameOrigin, public_origin=settings.public_origin),
        Middleware(RateLimit, a_minute=settings.open_rate),
        Middleware(BodyLimit),
    ]


@cache
def _routes() -> list[BaseRoute]:
    """Every route, asking first who may; what each needs is found out when one is first asked for, once a process."""
    every = APIRouter(dependencies=[Depends(permitted)])
    for module in ROUTED:
        every.include_router(module.router)
    return every.routes


def create_app(settings: Settings) -> FastAPI:
    """An application over its own database. The tables must be up to date: see `webapp.migrate`."""
    db = open_database(settings.database_url, pool_size=settings.threads + 1)
    metrics = Metrics() if settings.metrics_port else None
    watch(db.engine, settings.slow_ms, metrics)

    @asynccontextmanager
    async def life(app: FastAPI) -> AsyncIterator[None]:
        # More threads than this only contend for the interpreter lock and for database connections.
        anyio.to_thread.current_default_thread_limiter().total_tokens = settings.threads
        async with anyio.create_task_group() as beside:
            beside.start_soon(heap.trim_now_and_then)
            yield
            beside.cancel_scope.cancel()
        app.state.searches.close()
        app.state.builds.close()
        db.close()

    app = FastAPI(
        title="Wallseat",
        version=VERSION,
        description=ABOUT,
        lifespan=life,
        openapi_url="/api/openapi.json",
        docs_url=None,
        redoc_url=None,
        middleware=_middleware(settings, metrics),
    )
    app.state.db = db
    app.state.metrics = metrics
    app.state.searches = Searches()
    app.state.builds = Builds(settings.packages)
    app.state.demo = settings.demo
    app.state.plans = Kept(64, PIECES, lambda drawn: bytes_of(drawn.drawing))
    app.state.public_origin = settings.public_origin.rstrip("/")
    app.state.https = settings.public_origin.startswith("https://")
    app.state.templates = environment()
    app.mount("/static", Fingerprinted(directory=STATIC), name="static")
    app.router.routes.extend(_routes())
    errors.register(app)
    problems.register(app)
    return app
