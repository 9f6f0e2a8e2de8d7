"""Log lines as JSON on standard error: when, what, and what was handed along; of an error its type and where, never its words.

The words of an error may hold what somebody typed, so they stay out of the log.
"""

import json
import logging
import traceback
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]


class JsonLines(logging.Formatter):
    """One JSON object a line. What a call hands along as `extra={"said": {...}}` becomes fields of it."""

    def format(self, record: logging.LogRecord) -> str:
        """The line."""
        said: dict[str, Any] = {
            "at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "from": record.name,
            "what": record.getMessage(),
            **getattr(record, "said", {}),
        }
        if record.exc_info and record.exc_info[1]:
            said |= _error(record.exc_info[1])
        return json.dumps(said, ensure_ascii=True, default=str)


def _error(error: BaseException) -> dict[str, Any]:
    # without the source's lines: they are not said, and whole modules would be read and kept for them
    frames = traceback.StackSummary.extract(traceback.walk_tb(error.__traceback__), lookup_lines=False)
    return {"error": type(error).__name__, "where": [f"{_near(f.filename)}:{f.lineno} {f.name}" for f in frames]}


def _near(file: str) -> str:
    path = Path(file)
    return str(path.relative_to(ROOT)) if path.is_relative_to(ROOT) else "/".join(path.parts[-3:])


def to_stderr() -> None:
    """Send all that is logged there; of libraries only warnings and worse."""
    handler = logging.StreamHandler()
    handler.setFormatter(JsonLines())
    logging.basicConfig(level=logging.WARNING, handlers=[handler], force=True)
    logging.getLogger("wallseat").setLevel(logging.INFO)
