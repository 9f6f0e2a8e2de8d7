"""A spreadsheet as a plain table of texts: pasted, or a file in CSV or XLSX. Row numbers and cell names are the spreadsheet's own.

Nothing here knows what the cells mean. What can't be read is refused in one sentence; nothing is read in part.
"""

import codecs
import csv
import io
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from engine.result import LOCAL_CODE

MOST_ROWS, MOST_COLUMNS, MOST_TEXT = 5000, 120, 700_000
PARTED = {"tab": "\t", "comma": ",", "semicolon": ";"}
ENCODINGS = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))
TRIED = 40  # records looked at to tell what parts the columns
_STRANGE = re.compile(r"[\x00-\x08\x0e-\x1f\x7f-\x9f\ud800-\udfff]")


class Unreadable(Exception):
    """What is no usable sheet; the message says what to do."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row that holds something. Args: number: as the spreadsheet shows it."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True)
class Table:
    """A sheet: its headings, and the rows below that hold something, each as wide as the headings.

    Args: parted: what parts its columns, by the names of `PARTED`. where: which sheet of a file it is, in words.
    """

    head: Row
    rows: tuple[Row, ...]
    parted: str
    where: str = ""

    @property
    def headings(self) -> tuple[str, ...]:
        """The texts above the columns."""
        return self.head.cells

    @cached_property
    def text(self) -> str:
        """The same as CSV, empty rows kept, so that `read_text` gives the same table back."""
        out = io.StringIO()
        writer = csv.writer(out, delimiter=PARTED[self.parted])
        number = 1
        for row in (self.head, *self.rows):
            out.write("\r\n" * (row.number - number))
            writer.writerow(row.cells)
            number = row.number + 1
        return out.getvalue()


def letters(column: int) -> str:
    """A column as spreadsheets call it: 0 is A, 26 is AA."""
    name, left = "", column + 1
    while left:
        left, rest = divmod(left - 1, 26)
        name = chr(ord("A") + rest) + name
    return name


def cell_name(column: int, row: int) -> str:
    """A cell as spreadsheets call it: C14."""
    return f"{letters(column)}{row}"


def tabled(grid: Iterable[Sequence[str]], parted: str, where: str = "") -> Table:
    """A grid, from its first row, as a table. What follows this program's own note at the foot of a list is left out.

    Raises: Unreadable.
    """
    rows: list[Row] = []
    for number, cells in enumerate(grid, 1):
        cleaned = [_clean(cell) for cell in cells]
        if cleaned and cleaned[0] == LOCAL_CODE:
            break
        if not any(cleaned):
            continue
        if number > MOST_ROWS + 1:
            raise Unreadable(
                f"The sheet goes on to row {number:,} and beyond. Import at most {MOST_ROWS:,} rows at a time."
            )
        rows.append(Row(number, tuple(cleaned)))
    if len(rows) < 2:
        raise Unreadable("A heading over each column and at least one row below are needed.")
    table = _squared(rows, parted, where)
    if len(table.text) > MOST_TEXT:
        raise Unreadable(f"The sheet holds more than {MOST_TEXT:,} characters. Import it in parts.")
    return table


def _clean(cell: str) -> str:
    return " ".join(_STRANGE.sub("", cell).split())


def _squared(rows: list[Row], parted: str, where: str) -> Table:
    width = max(max((i for i, cell in enumerate(row.cells, 1) if cell), default=0) for row in rows)
    if width > MOST_COLUMNS:
        raise Unreadable(f"The sheet has {width} columns; at most {MOST_COLUMNS} are read.")
    head, *below = (Row(row.number, (*row.cells, *[""] * width)[:width]) for row in rows)
    return Table(head, tuple(below), parted, where)


def read_text(text: str, parted: str = "") -> Table:
    """Pasted text, or that of a CSV file. Args: parted: what parts the columns, where it is known. Raises: Unreadable."""
    chosen = parted if parted in PARTED else _parting(text)
    return tabled(_records(text, chosen), chosen)


def _records(text: str, parted: str) -> Iterable[list[str]]:
    try:
        yield from csv.reader(io.StringIO(text, newline=""), delimiter=PARTED[parted])
    except csv.Error:
        raise Unreadable("A cell of it is longer than a cell can be; look for a quotation mark left open.") from None


def _parting(text: str) -> str:
    """What parts the columns: the sign that gives the most columns most evenly, on first records with something in them."""
    return max(PARTED, key=lambda parted: _columns(text, parted))


def _columns(text: str, parted: str) -> float:
    widths: list[int] = []
    try:
        for record in _records(text, parted):
            if any(cell.strip() for cell in record):
                widths.append(len(record))
            if len(widths) == TRIED:
                break
    except Unreadable:
        return 0.0
    if not widths:
        return 0.0
    usual = max(set(widths), key=lambda width: (widths.count(width), width))
    return usual * widths.count(usual) / len(widths) if usual > 1 else 0.0


def decoded(data: bytes) -> str:
    """A text file's text: by its mark, else UTF-8, else the Western code page of older spreadsheets. Raises: Unreadable."""
    for mark, encoding in (*ENCODINGS, (b"", "utf-8"), (b"", "cp1252")):
        if not data.startswith(mark):
            continue
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\x00" not in text:
            return text
    raise Unreadable(
        "This is neither a CSV file nor an XLSX workbook. Save the sheet as one of these and choose it again."
    )
