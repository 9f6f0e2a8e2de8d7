"""CSV that spreadsheets read as data: quoted where needed, nothing taken for a formula, the caution at its end."""

import csv
import io
from collections.abc import Iterable, Sequence
from typing import TextIO

from engine.result import LOCAL_CODE

FORMULA = ("=", "+", "-", "@", "\t", "\r")


def cell(value: object) -> str:
    """A value as text; a text that a spreadsheet would compute gets an apostrophe before it."""
    if value is None:
        return ""
    text = str(value)
    return f"'{text}" if isinstance(value, str) and text.startswith(FORMULA) else text


def write(columns: Sequence[str], rows: Iterable[Sequence[object]], *notes: str) -> str:
    """A table as CSV. Args: notes: lines after the caution."""
    out = io.StringIO()
    write_into(out, columns, rows, *notes)
    return out.getvalue()


def write_into(out: TextIO, columns: Sequence[str], rows: Iterable[Sequence[object]], *notes: str) -> None:
    """The same into a file, a row at a time."""
    writer = csv.writer(out)
    writer.writerow(columns)
    writer.writerows([cell(value) for value in row] for row in rows)
    writer.writerow([])
    writer.writerows([cell(line)] for line in (LOCAL_CODE, *notes))
