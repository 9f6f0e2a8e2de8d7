"""`wallseat package JOB.json --out FILE.pdf`: the calculation package of a job file, a draft."""

import argparse
import sys
from io import BytesIO

from engine import fields
from engine.job_file import BadJobFile
from engine.setting_out import Habits
from webapp.commands.check import job_text, unusable
from webapp.package import orders
from webapp.package.build import PartFailed, build

MADE, FAILED = 0, 1


def run(options: argparse.Namespace) -> int:
    """Write the PDF. Returns: 0, or 1 where it could not be made or written, 2 for an unusable file."""
    try:
        order = orders.of_file(job_text(options.file), fields.write(Habits()))
    except BadJobFile as error:
        return unusable(options.file, error.problems)
    try:
        made = BytesIO()
        build(order, made)
        options.out.write_bytes(made.getvalue())
    except PartFailed as error:
        print(f"wallseat: the package could not be typeset.\n{error}", file=sys.stderr)
        return FAILED
    except OSError as error:
        print(f"wallseat: {options.out} can't be written: {error.strerror}.", file=sys.stderr)
        return FAILED
    print(f"{options.out}: a draft, {made.tell() / 1e6:.1f} MB")
    return MADE
