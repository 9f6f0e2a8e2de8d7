"""`wallseat backup TO`: a verified copy of the database in a folder of its own, while the server runs."""

import argparse
import sys

from webapp.commands.serve import settings_or_reason
from webapp.keeping import backups
from webapp.keeping.contents import Contents
from webapp.keeping.places import NotDone

DONE, BROKEN, NOT_DONE = 0, 1, 2


def run(options: argparse.Namespace) -> int:
    """Make a backup. Returns: 0; 1 where it is made but a log in it does not hold; 2 not made."""
    settings = settings_or_reason()
    if settings is None:
        return NOT_DONE
    try:
        made = backups.make(settings.database_url, options.folder)
    except NotDone as error:
        return not_done(error)
    rows = sum(one.rows for one in made.holds.tables.values())
    print(f"{made.folder}: {rows} rows, {made.size / 1e6:.1f} MB, read again and verified.")
    print_logs(made.holds)
    print(
        "Write the heads down elsewhere: `wallseat verify-log --office ID --anchor HEAD --rows N` tells later what is missing."
    )
    return tell_broken(made.holds)


def not_done(error: NotDone) -> int:
    """Say why, on the error stream. Returns: the exit code."""
    print(f"wallseat: {error}", file=sys.stderr)
    return NOT_DONE


def print_logs(holds: Contents) -> None:
    """Every office's head, which is worth writing down."""
    for number, one in holds.logs.items():
        print(f"Office {number}: {one.rows} rows of the log, head {one.head}")


def tell_broken(holds: Contents) -> int:
    """Say which logs do not hold: they were copied as they are. Returns: the exit code."""
    for problem in holds.broken:
        print(f"wallseat: The log was copied as it is, but it does not hold. {problem}", file=sys.stderr)
    return BROKEN if holds.broken else DONE
