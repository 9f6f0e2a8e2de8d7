"""`wallseat restore FROM`: put a backup in the place of the database."""

import argparse

from webapp.commands.backup import NOT_DONE, not_done, print_logs, tell_broken
from webapp.commands.serve import settings_or_reason
from webapp.keeping import restoring
from webapp.keeping.places import NotDone, named


def run(options: argparse.Namespace) -> int:
    """Restore. Returns: 0; 1 where a log does not hold, as it did not in the backup; 2 with nothing changed."""
    settings = settings_or_reason()
    if settings is None:
        return NOT_DONE
    try:
        done = restoring.restore(options.folder, settings.database_url, options.replace)
    except NotDone as error:
        return not_done(error)
    print(f"{named(settings.database_url)} holds the backup of {done.backup.at:%Y-%m-%d %H:%M} UTC.")
    print_logs(done.backup.holds)
    for number, rows in done.newer.items():
        later = "row" if rows == 1 else "rows"
        print(f"Office {number}: {rows} later {later} of the log only in what was there before.")
    if done.kept:
        print(f"What was there before is kept: {done.kept}. Delete it when it is not needed any more.")
    print(
        "People, sessions, review links and tokens are those of that day again: put away and take back anew whoever and "
        "whatever was since."
    )
    return tell_broken(done.backup.holds)
