"""`wallseat demo`: the demo job, as a file or into the database."""

import argparse
import sys

from webapp.commands.serve import settings_or_reason
from webapp.migrate import migrate
from webapp.services import demo
from webapp.store import open_database


def run(options: argparse.Namespace) -> int:
    """Write the demo job's file, or load it. Returns: the exit code."""
    if options.write is not None:
        try:
            options.write.write_text(demo.text(), encoding="utf-8")
        except OSError as error:
            print(f"wallseat: {options.write}: {error.strerror}", file=sys.stderr)
            return 2
        print(f"The demo job is written to {options.write}.")
        return 0
    settings = settings_or_reason()
    if settings is None:
        return 2
    db = open_database(settings.database_url)
    try:
        migrate(db)
        print(f"The demo job is loaded as job {demo.load(db)}.")
    finally:
        db.close()
    return 0
