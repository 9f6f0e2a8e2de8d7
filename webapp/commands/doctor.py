"""`wallseat doctor`: what is wrong with the database, its disk and its backups, and what to do."""

import argparse
import json
from dataclasses import asdict

from webapp.commands.backup import NOT_DONE, not_done
from webapp.commands.serve import settings_or_reason
from webapp.keeping import health
from webapp.keeping.places import NotDone, named

WELL, FOUND = 0, 1


def run(options: argparse.Namespace) -> int:
    """Examine. Returns: 0 nothing found, 1 something found, 2 settings that can't be used."""
    settings = settings_or_reason()
    if settings is None:
        return NOT_DONE
    try:
        where = named(settings.database_url)
        found = health.examine(settings.database_url, options.backups, options.hours)
    except NotDone as error:
        return not_done(error)
    if options.json:
        print(json.dumps({"database": where} | asdict(found), indent=2))
    else:
        print(f"{where}: looked at {', '.join(found.looked_at) or 'nothing'}.")
        for one in found.findings:
            print(f"{one.about}: {one.what}\n  {one.do}")
        if not found.findings:
            print("Nothing is wrong.")
    return FOUND if found.findings else WELL
