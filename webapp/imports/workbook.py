"""One sheet of an XLSX workbook as a table. The file is measured before anything in it is parsed."""

import io
import warnings
import zipfile
from collections.abc import Iterator
from datetime import datetime, time
from typing import Any

from webapp.imports.sheets import Table, Unreadable, cell_name, decoded, read_text, tabled

ZIP, OLD_WORKBOOK = b"PK\x03\x04", b"\xd0\xcf\x11\xe0"
MOST_UNPACKED, MOST_PARTS = 40_000_000, 500
WIDEST = 256  # columns looked at; more than a table may have, so that one too wide is refused
BLANK = (None,) * WIDEST
LAST_ROW = 100_000  # looked at, for rows that hold nothing but their look
MARKS_OF_16_BITS = (b"\xff\xfe", b"\xfe\xff")
NO_WORKBOOK = (
    "This is no XLSX workbook, or a damaged one. Open it in a spreadsheet, save it as XLSX or CSV, and choose it again."
)


def read_file(data: bytes, sheet: str = "") -> Table:
    """A file in CSV or XLSX, told by its first bytes.

    Args: sheet: of a workbook; the first where none is named. Raises: Unreadable.
    """
    if data.startswith(OLD_WORKBOOK):
        raise Unreadable("This is a workbook of the older kind, or one with a password. Save it as XLSX or CSV.")
    if data.startswith(ZIP):
        return read_workbook(data, sheet)
    return read_text(decoded(data))


def read_workbook(data: bytes, sheet: str = "") -> Table:
    """A sheet of a workbook as it was last calculated. Raises: Unreadable."""
    try:
        formulas = _measured(data)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # about styles and charts, which are not read
            return _read(data, sheet, formulas)
    except Unreadable:
        raise
    except Exception as error:  # the parser has no common error for files made to break it
        raise Unreadable(NO_WORKBOOK) from error


def _measured(data: bytes) -> bool:
    """Whether the file is no larger unpacked than it may be, and declares no entities. Returns: whether it holds formulas."""
    formulas = False
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        parts = archive.infolist()
        if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > MOST_UNPACKED:
            raise Unreadable(
                f"Unpacked, this workbook is larger than {MOST_UNPACKED // 1_000_000} MB. Keep one sheet of it."
            )
        for part in parts:
            if not part.filename.endswith((".xml", ".rels")):
                continue
            text = archive.read(part)
            if b"<!DOCTYPE" in text or text.startswith(MARKS_OF_16_BITS):
                raise Unreadable(NO_WORKBOOK)
            formulas = formulas or b"<f>" in text or b"<f " in text
    return formulas


def _read(data: bytes, sheet: str, formulas: bool) -> Table:
    book = _opened(data, results=True)
    names = [found.title for found in book.worksheets]
    if not names:
        raise Unreadable("The workbook has no sheet with cells.")
    if sheet and sheet not in names:
        raise Unreadable(f"The workbook has no sheet {sheet!r}. Its sheets: {', '.join(names)}.")
    chosen = sheet or names[0]
    if formulas:
        _refuse_uncalculated(book[chosen], _opened(data, results=False)[chosen])
    where = f"sheet {chosen}" if len(names) == 1 else f"sheet {chosen}, one of {len(names)}: {', '.join(names)}"
    return tabled(([shown(value) for value in row] for row in _values(book[chosen])), "comma", where)


def _opened(data: bytes, results: bool) -> Any:
    from openpyxl import load_workbook  # type: ignore[import-untyped]  # a fifth of a second: only when a workbook comes

    return load_workbook(io.BytesIO(data), read_only=True, data_only=results, keep_links=False)


def _values(sheet: Any) -> Iterator[tuple[Any, ...]]:
    """Rows from the first, whatever the sheet says of its size."""
    sheet.reset_dimensions()
    for number, row in enumerate(sheet.iter_rows(min_row=1, min_col=1, max_col=WIDEST, values_only=True), 1):
        if number > LAST_ROW:
            raise Unreadable(
                f"The sheet goes on beyond row {LAST_ROW:,}. Delete the rows below the last one that counts."
            )
        yield () if row == BLANK else row


def _refuse_uncalculated(results: Any, formulas: Any) -> None:
    """A formula whose result is not in the file would read as an empty cell."""
    for number, (values, entries) in enumerate(zip(_values(results), _values(formulas), strict=False), 1):
        for column, (value, entry) in enumerate(zip(values, entries, strict=False)):
            if value is None and entry is not None:
                raise Unreadable(
                    f"{cell_name(column, number)} is a formula whose result is not in the file. "
                    "Open it in a spreadsheet, save it there, and choose it again."
                )


def shown(value: Any) -> str:
    """A cell's value as text: numbers without the last bits of their float, days as 2026-05-27."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return format(value, ".15g")
    if isinstance(value, datetime):
        return value.strftime("%Y-%m-%d" if value.time() == time() else "%Y-%m-%d %H:%M")
    return str(value)
