"""`wallseat move-database --to URL`: an office's data into another kind of database."""

import argparse

from webapp.commands.backup import BROKEN, NOT_DONE, not_done, print_logs, tell_broken
from webapp.commands.serve import settings_or_reason
from webapp.keeping import moving
from webapp.keeping.places import NotDone, named


def run(options: argparse.Namespace) -> int:
    """Move. Returns: 0; 1 where the old one was written meanwhile or a log does not hold; 2 with nothing changed."""
    settings = settings_or_reason()
    if settings is None:
        return NOT_DONE
    try:
        moved, since = moving.move(settings.database_url, options.to)
        there = named(options.to)
    except NotDone as error:
        return not_done(error)
    for name, one in moved.tables.items():
        print(f"{name:<12} {one.rows:>9} rows")
    print_logs(moved)
    print(f"Every row is in {there}, compared there with what was sent.")
    print("Next: stop the server, set DATABASE_URL to the new address, start it, run `wallseat doctor`.")
    print(
        f"Keep {named(settings.database_url)} as it is until the first backup of the new one; nothing in it was changed."
    )
    if since:
        not_done(NotDone(_meanwhile(there)))
        return BROKEN
    return tell_broken(moved)


def _meanwhile(there: str) -> str:
    return f"The old database was written meanwhile, which {there} does not know of. Stop the server, empty that one, move again."
