"""The command line."""

import argparse
import sys
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path
from typing import Any

from engine import VERSION
from engine.editions import EDITIONS
from engine.result import LOCAL_CODE

ELSEWHERE = (
    "Keep copies of backups on another machine, in another building: what destroys a disk destroys all that lies on it."
)


def parser() -> argparse.ArgumentParser:
    """Commands and their options."""
    top = argparse.ArgumentParser(
        prog="wallseat",
        description="How floors, beams and veneer are carried by insulated concrete form walls: checked, drawn and kept.",
        epilog=LOCAL_CODE,
    )
    top.add_argument("--version", action="version", version=f"wallseat {VERSION}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")

    serve = commands.add_parser(
        "serve", help="serve the pages; HOST, PORT and DATABASE_URL are read from the environment"
    )
    serve.add_argument("--demo", action="store_true", help="load the demo job when the database is empty")
    _checking(commands)
    verify = commands.add_parser(
        "verify-log", help="walk the approvals log; exit 0 only when every row is as it was written"
    )
    verify.add_argument("--office", type=int, metavar="ID", help="one office's log instead of all")
    verify.add_argument(
        "--anchor", metavar="HASH", help="a head printed or kept elsewhere, which must be a row of the log"
    )
    verify.add_argument("--rows", type=int, metavar="N", help="how many rows there were then")
    verify.add_argument("--json", action="store_true", help="print JSON")
    demo = commands.add_parser("demo", help="load the demo job into the database, or write its file")
    demo.add_argument("--write", type=Path, metavar="FILE", help="write the job file instead of loading it")
    _keeping(commands)
    return top


def _keeping(commands: Any) -> None:
    """The commands that keep the data of DATABASE_URL safe."""

    def command(name: str, what: str) -> argparse.ArgumentParser:
        added: argparse.ArgumentParser = commands.add_parser(name, help=what, description=what, epilog=ELSEWHERE)
        return added

    backup = command(
        "backup", "write a verified backup into a folder, while the server may run; exit 0 only when it holds"
    )
    backup.add_argument("folder", type=Path, metavar="TO", help="a folder; each backup is a new folder in it")
    restore = command(
        "restore", "put a backup in the place of the database; exit 2 with nothing changed when it can't be"
    )
    restore.add_argument("folder", type=Path, metavar="FROM", help="one backup: a folder that `wallseat backup` made")
    restore.add_argument(
        "--replace", action="store_true", help="also where data are; they are kept beside it under a dated name"
    )
    move = command(
        "move-database", "copy everything into an empty database of another kind, verified before it is kept"
    )
    move.add_argument(
        "--to", required=True, metavar="URL",
        help="postgresql://name@host/database, its password in PGPASSWORD or ~/.pgpass; or sqlite:////folder/file.sqlite",
    )  # fmt: skip
    doctor = command("doctor", "say what is wrong with the database, its disk and backups; exit 0 only when nothing is")
    doctor.add_argument(
        "--backups", type=Path, metavar="FOLDER", help="where backups are written: the newest is looked at, too"
    )
    doctor.add_argument("--hours", type=float, default=26, metavar="N", help="how old the newest may be (26)")
    doctor.add_argument("--json", action="store_true", help="print JSON")


def _checking(commands: Any) -> None:
    """The commands that compute and print."""
    check = commands.add_parser(
        "check", help="print the verdicts of a job file; exit 0 all pass, 1 any flag or refer, 2 unusable"
    )
    check.add_argument("file", type=Path, metavar="JOB.json")
    check.add_argument("--json", action="store_true", help="print JSON, with every line and its working")
    known = ", ".join(EDITIONS)
    check.add_argument("--edition", metavar="SET", help=f"judge by another set than the job's own: {known}")
    package = commands.add_parser(
        "package", help="write the calculation package of a job file, a draft, as PDF; exit 2 for an unusable file"
    )
    package.add_argument("file", type=Path, metavar="JOB.json")
    package.add_argument("--out", type=Path, metavar="FILE", required=True, help="the PDF to write")
    prove = commands.add_parser("prove", help="compute published cases again; exit 0 only when none disagrees")
    prove.add_argument("--cases", type=Path, metavar="FILE", help="cases of a file instead of the program's own")
    prove.add_argument("--json", action="store_true", help="print JSON")
    prove.add_argument("--all", action="store_true", help="print the cases that agree, too")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. Returns: its exit code."""
    options = parser().parse_args(arguments)
    run = import_module(f"webapp.commands.{options.command.replace('-', '_')}").run
    try:
        code: int = run(options)
    except BrokenPipeError:  # the reader of a pipe had enough
        sys.stderr.close()
        return 1
    except KeyboardInterrupt:
        return 130
    return code


if __name__ == "__main__":
    sys.exit(main())
