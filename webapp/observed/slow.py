"""Statements that took long are noted with their text, which holds placeholders and none of the values."""

import logging
from time import perf_counter
from typing import Any

from sqlalchemy import Engine, event

from webapp.observed.metrics import Metrics

log = logging.getLogger("wallseat.slow")
MOST_LETTERS = 1000


def watch(engine: Engine, most_ms: int, metrics: Metrics | None = None) -> None:
    """Note statements of an engine slower than that; 0 notes none."""
    if not most_ms:
        return

    def before(conn: Any, cursor: Any, statement: str, parameters: Any, context: Any, many: bool) -> None:
        conn.info["began"] = perf_counter()

    def after(conn: Any, cursor: Any, statement: str, parameters: Any, context: Any, many: bool) -> None:
        ms = (perf_counter() - conn.info.pop("began", perf_counter())) * 1000
        if ms >= most_ms:
            words = " ".join(statement.split())[:MOST_LETTERS]
            log.warning("slow statement", extra={"said": {"ms": round(ms, 1), "statement": words}})
            if metrics:
                metrics.slow()

    event.listen(engine, "before_cursor_execute", before)
    event.listen(engine, "after_cursor_execute", after)
