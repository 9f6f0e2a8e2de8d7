"""`wallseat serve`: migrate, load the demo job where asked, say where it is, serve."""

import argparse
import gc
import os
import socket
import sys
from contextlib import suppress
from multiprocessing.reduction import DupFd
from typing import Any

import uvicorn
from fastapi import FastAPI
from pydantic import ValidationError
from uvicorn.supervisors import Multiprocess

from webapp import heap
from webapp.main import create_app
from webapp.migrate import migrate
from webapp.observed import lines
from webapp.services import audit, people
from webapp.services import demo as demo_job
from webapp.settings import Settings
from webapp.store import open_database

METRICS_HOST = "127.0.0.1"


def settings_or_reason(demo: bool = False) -> Settings | None:
    """The settings; None when they can't be used, with the reason printed. Args: demo: asked for on the command line."""
    try:
        return Settings(demo=True) if demo else Settings()
    except ValidationError as error:
        for found in error.errors():
            name = ".".join(map(str, found["loc"]))
            reason = found["msg"].removeprefix("Value error, ")
            print(f"wallseat: {name + ': ' if name else ''}{reason}", file=sys.stderr)
        return None


def run(options: argparse.Namespace) -> int:
    """Serve until stopped. Returns: the exit code."""
    settings = settings_or_reason(demo=options.demo)
    if settings is None:
        return 2
    code = prepare(settings)
    listener = _listen(settings)
    if listener is None:
        return 2
    host, port = listener.getsockname()[:2]
    print(f"Wallseat serves on http://{f'[{host}]' if ':' in host else host}:{port}  (stop with Ctrl+C)", flush=True)
    if code:
        print(f"Nobody is here yet. Open that page and set up with this code, which works once: {code}", flush=True)
    if settings.metrics_port:
        print(f"Counts for Prometheus are on http://{METRICS_HOST}:{settings.metrics_port}/metrics", flush=True)
    if settings.demo:
        os.environ["WALLSEAT_DEMO"] = "true"  # for the processes that serve, which read the settings anew
    # a line a request is written by the application itself, without paths or addresses
    config = uvicorn.Config(
        "webapp.commands.serve:application",
        factory=True,
        workers=settings.processes,
        log_config=None,
        access_log=False,
        server_header=False,
    )
    with suppress(KeyboardInterrupt):
        if settings.processes > 1:
            Multiprocess(config, sockets=[listener]).run()
        else:
            uvicorn.Server(config).run(sockets=[listener])
    return 0


def application() -> FastAPI:
    """The application of one process, with all it needs loaded."""
    settings = Settings()
    lines.to_stderr()
    heap.bounded()
    app = create_app(settings)
    if app.state.metrics:
        app.state.metrics.serve(METRICS_HOST, settings.metrics_port)
    gc.collect()
    gc.freeze()  # what is loaded stays: walking it again and again would slow a search of ways by a third
    return app


def prepare(settings: Settings) -> str:
    """Bring the tables up to date, once; in the demo, load its job and its people into an empty database.

    Returns: the setup code, where nobody is here yet.
    """
    db = open_database(settings.database_url)
    try:
        migrate(db)
        audit.forget(db)
        if settings.demo:
            people.make_demo(db)
            if demo_job.load_if_empty(db) is not None:
                print("The demo job is loaded.", flush=True)
        return people.new_setup_code(db)
    finally:
        db.close()


class Listener(socket.socket):
    """An address that several processes serve: each takes one caller at a time and lets the others have theirs.

    Otherwise asyncio takes everybody who waits at once, and sixteen readers are all served by one process beside an idle one.
    """

    _took = False

    def accept(self) -> tuple[socket.socket, Any]:
        """The next caller. Raises: BlockingIOError every other time, which sends asyncio round by way of the others."""
        self._took = not self._took
        if not self._took:
            raise BlockingIOError
        return super().accept()

    def __reduce__(self) -> tuple[Any, ...]:
        return _listener, (DupFd(self.fileno()), self.family, self.type, self.proto)


def _listener(handle: Any, family: int, kind: int, protocol: int) -> Listener:
    """The same in another process."""
    return Listener(family, kind, protocol, handle.detach())


def _listen(settings: Settings) -> Listener | None:
    """The address, taken before it is announced; None with the reason printed when it can't be had."""
    family = socket.AF_INET6 if ":" in settings.host else socket.AF_INET
    # named as TCP, or asyncio does not send small answers at once (TCP_NODELAY) and each waits 40 ms for the reader
    listener = Listener(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((settings.host, settings.port))
        listener.listen()  # whoever reads the address may ask at once
    except OSError as error:
        print(
            f"wallseat: {settings.host}:{settings.port} can't be used: {error.strerror}. Set PORT to another number.",
            file=sys.stderr,
        )
        listener.close()
        return None
    return listener
