"""`wallseat verify-log`: walk every office's log and say whether each row is as it was written."""

import argparse
import json
import sys

from webapp.commands.serve import settings_or_reason
from webapp.services import log
from webapp.store import open_database

HOLDS, BROKEN, UNUSABLE = 0, 1, 2


def run(options: argparse.Namespace) -> int:
    """Print how each chain stands. Returns: 0 all hold, 1 a problem, 2 a database that can't be read."""
    settings = settings_or_reason()
    if settings is None:
        return UNUSABLE
    db = open_database(settings.database_url)
    try:
        found = log.verify_all(db, options.office, options.anchor or "", options.rows)
    except log.Unreadable:
        print(
            "wallseat: the database can't be read, or is older than this program. Run `wallseat serve` once.",
            file=sys.stderr,
        )
        return UNUSABLE
    finally:
        db.close()
    if options.json:
        rows = [{"office": n, "rows": v.rows, "head": v.head, "problems": list(v.problems)} for n, v in found.items()]
        print(json.dumps({"logs": rows}, indent=2))
    else:
        for number, one in found.items():
            print(f"Office {number}: {one.rows} rows, head {one.head}")
            print(
                "".join(f"  {problem}\n" for problem in one.problems) or "  Every row is as it was written.\n", end=""
            )
    return BROKEN if any(one.problems for one in found.values()) else HOLDS
