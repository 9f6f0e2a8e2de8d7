"""Spreadsheets as tables: what is read of CSV and XLSX, under the spreadsheet's own names, and what is refused."""

import io
import zipfile
from collections.abc import Callable
from datetime import datetime
from itertools import product
from typing import Any

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.result import LOCAL_CODE
from webapp.imports.sheets import MOST_COLUMNS, MOST_ROWS, PARTED, Table, Unreadable, cell_name, letters, read_text
from webapp.imports.workbook import MOST_UNPACKED, read_file, shown

HEAD = "Name,Length\n"


def workbook(*rows: tuple[Any, ...], **more: tuple[tuple[Any, ...], ...]) -> bytes:
    """An XLSX file of one sheet, and of more by their names."""
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    for name, extra in more.items():
        sheet = book.create_sheet(name)
        for row in extra:
            sheet.append(row)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def altered(data: bytes, change: dict[str, bytes]) -> bytes:
    """The same file with parts of it replaced."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for part in old.infolist():
            new.writestr(part.filename, change.get(part.filename, old.read(part)))
    return out.getvalue()


def said(read: Callable[[], Table]) -> str:
    """Why something is no table; "" where it is one."""
    try:
        assert read().rows
    except Unreadable as refused:
        return str(refused) or "nothing"
    return ""


def cells(table: Table) -> list[tuple[str, ...]]:
    return [row.cells for row in table.rows]


def test_columns_are_named_as_spreadsheets_name_them() -> None:
    assert [letters(n) for n in (0, 25, 26, 51, 52, 701, 702)] == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]
    assert cell_name(2, 14) == "C14"


def test_every_column_name_is_the_library_s_own() -> None:
    from openpyxl.utils import get_column_letter

    assert [letters(n) for n in range(800)] == [get_column_letter(n + 1) for n in range(800)]


@pytest.mark.parametrize("parted", PARTED)
def test_what_parts_the_columns_is_found(parted: str) -> None:
    sign = PARTED[parted]
    text = f'Name{sign}"Length, ft; clear"{sign}Note\nW1{sign}40{sign}"a, b; c"\nW2{sign}24{sign}"d, e"\n'
    table = read_text(text)
    assert table.parted == parted
    assert table.headings == ("Name", "Length, ft; clear", "Note")
    assert cells(table)[0] == ("W1", "40", "a, b; c")


def test_cells_pasted_from_a_spreadsheet_keep_their_inch_marks() -> None:
    table = read_text('Name\tDepth\tStart\nW1\t9 1/4"\t12\' 6 1/2"\n')
    assert cells(table) == [("W1", '9 1/4"', "12' 6 1/2\"")]


def test_row_numbers_are_those_of_the_spreadsheet_whatever_is_empty_above_and_between() -> None:
    table = read_text("\n,,\nName,Length\n\nW1,40\n,\nW2,24\n")
    assert table.head.number == 3
    assert [row.number for row in table.rows] == [5, 7]


def test_a_cell_of_several_lines_is_one_row() -> None:
    table = read_text('Name,Note\nW1,"one\ntwo"\nW2,x\n')
    assert [(row.number, row.cells) for row in table.rows] == [(2, ("W1", "one two")), (3, ("W2", "x"))]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_csv_file_is_read_in_the_encodings_spreadsheets_write(encoding: str) -> None:
    table = read_file("Näme,Länge\nWändé,12½\n".encode(encoding))
    assert table.headings == ("Näme", "Länge")
    assert cells(table) == [("Wändé", "12½")]


def test_what_this_program_writes_at_the_foot_of_its_lists_is_not_a_row() -> None:
    assert cells(read_text(f"Name,Length\nW1,40\n\n{LOCAL_CODE}\nSmall house\n")) == [("W1", "40")]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "at least one row below"),
        ("Name,Length\n", "at least one row below"),
        (HEAD + "W1,1\n" * (MOST_ROWS + 1), "at most 5,000 rows"),
        (",".join(["x"] * (MOST_COLUMNS + 1)) + "\n1\n", f"at most {MOST_COLUMNS}"),
        (HEAD + 'W1,"' + "9" * 140_000, "quotation mark left open"),
        (HEAD + f"W1,{'9' * 100_000}\n" * 8, "Import it in parts"),
    ],
)
def test_a_sheet_that_is_none_or_too_large_is_refused_in_a_sentence(text: str, said: str) -> None:
    with pytest.raises(Unreadable, match=said):
        read_text(text)


def test_five_thousand_rows_are_read() -> None:
    assert len(read_text(HEAD + "W1,1\n" * MOST_ROWS).rows) == MOST_ROWS


@given(st.text(), st.sampled_from(["", *PARTED]))
def test_whatever_is_pasted_is_a_table_or_refused(text: str, parted: str) -> None:
    why = said(lambda: read_text(text, parted))
    assert not why or why.endswith(".")
    if why:
        return
    table = read_text(text, parted)
    assert {len(row.cells) for row in table.rows} == {len(table.headings)}
    again = read_text(table.text, table.parted)
    assert (again.head, again.rows) == (table.head, table.rows)


@given(
    st.lists(st.lists(st.text(alphabet="ab ,;\t\"\n'1=", max_size=6), min_size=2, max_size=4), min_size=2, max_size=6),
    st.sampled_from(list(PARTED)),
)
def test_a_table_comes_back_from_its_own_text(grid: list[list[str]], parted: str) -> None:
    import csv

    out = io.StringIO()
    csv.writer(out, delimiter=PARTED[parted]).writerows(grid)
    try:
        table = read_text(out.getvalue(), parted)
    except Unreadable:
        assert sum(any(cell.split() for cell in row) for row in grid) < 2
        return
    found = {row.number: row.cells for row in (table.head, *table.rows)}
    for number, row in enumerate(grid, 1):
        wanted = [" ".join(cell.split()) for cell in row]
        padded = tuple((wanted + [""] * 4)[: len(table.headings)])
        assert found.get(number, ()) == (padded if any(wanted) else ())
    again = read_text(table.text, parted)
    assert (again.head, again.rows) == (table.head, table.rows)


@given(st.binary(max_size=400), st.sampled_from([b"", b"PK\x03\x04", b"\xff\xfe", b"\xef\xbb\xbf"]))
def test_random_bytes_are_a_table_or_refused(data: bytes, start: bytes) -> None:
    assert said(lambda: read_file(start + data)) != "nothing"


WORKBOOK = workbook(("Name", "Length"), ("W1", 40.5), ("W2", datetime(2026, 5, 27)))


@given(st.integers(0, len(WORKBOOK) - 1), st.integers(0, 255), st.integers(0, len(WORKBOOK) - 1))
def test_a_damaged_workbook_is_a_table_or_refused(at: int, byte: int, end: int) -> None:
    damaged = bytearray(WORKBOOK)
    damaged[at] = byte
    assert said(lambda: read_file(bytes(damaged))) != "nothing"
    assert said(lambda: read_file(WORKBOOK[:end]))


@given(
    st.sampled_from(["xl/workbook.xml", "xl/worksheets/sheet1.xml", "xl/styles.xml", "[Content_Types].xml"]), st.data()
)
def test_a_workbook_with_a_part_rewritten_is_a_table_or_refused(name: str, data: st.DataObject) -> None:
    with zipfile.ZipFile(io.BytesIO(WORKBOOK)) as archive:
        part = archive.read(name)
    cut = data.draw(st.integers(0, len(part)))
    rest = data.draw(st.binary(max_size=20))
    assert said(lambda: read_file(altered(WORKBOOK, {name: part[:cut] + rest + part[cut + len(rest) :]}))) != "nothing"


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (None, ""), ("W1", "W1"), (12, "12"), (9.25, "9.25"), (0.1 + 0.2, "0.3"), (40.0, "40"), (True, "yes"), (False, "no"),
        (datetime(2026, 5, 27), "2026-05-27"), (datetime(2026, 5, 27, 14, 5), "2026-05-27 14:05"), ("=1+1", "=1+1"),
    ],
)  # fmt: skip
def test_a_cell_reads_as_it_is_shown(value: object, text: str) -> None:
    assert shown(value) == text


def test_a_workbook_s_first_sheet_is_read_with_its_own_row_numbers() -> None:
    table = read_file(workbook((), ("Name", "Length"), (), ("W1", 40)))
    assert (table.head.number, [row.number for row in table.rows]) == (2, [4])
    assert cells(table) == [("W1", "40")]


def test_a_sheet_is_chosen_by_its_name_and_the_others_are_named() -> None:
    data = workbook(("Name", "Length"), ("W1", 40), Second=(("Name", "Length"), ("W2", 24)))
    assert cells(read_file(data, "Second")) == [("W2", "24")]
    assert "one of 2: Sheet, Second" in read_file(data).where
    with pytest.raises(Unreadable, match="Its sheets: Sheet, Second"):
        read_file(data, "Third")


def test_a_formula_counts_by_its_result_and_one_without_a_result_is_refused_by_its_cell() -> None:
    data = workbook(("Name", "Length"), ("W1", "=20+20"))
    with pytest.raises(Unreadable, match="B2 is a formula whose result is not in the file"):
        read_file(data)
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        sheet = archive.read("xl/worksheets/sheet1.xml")
    calculated = sheet.replace(b"<v></v>", b"<v>40</v>").replace(b"<v />", b"<v>40</v>").replace(b"<v/>", b"<v>40</v>")
    assert calculated != sheet
    assert cells(read_file(altered(data, {"xl/worksheets/sheet1.xml": calculated}))) == [("W1", "40")]


def test_a_workbook_far_larger_unpacked_is_refused_before_it_is_parsed() -> None:
    bomb = altered(WORKBOOK, {"xl/worksheets/sheet1.xml": b" " * (MOST_UNPACKED + 1)})
    assert len(bomb) < 100_000
    with pytest.raises(Unreadable, match="Unpacked, this workbook is larger than 40 MB"):
        read_file(bomb)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_a_workbook_that_declares_entities_is_refused(encoding: str) -> None:
    text = (
        '<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;">]><worksheet>&b;</worksheet>'
    )
    with pytest.raises(Unreadable, match="no XLSX workbook"):
        read_file(altered(WORKBOOK, {"xl/worksheets/sheet1.xml": text.encode(encoding)}))


@pytest.mark.parametrize(
    ("where", "row", "why"),
    [
        ("A1048576", 1_048_576, "beyond row 100,000"),
        ("A99999999999", 99_999_999_999, "beyond row 100,000"),
        ("ZZZZZZZ3", 3, "no XLSX workbook"),
        ("XFD3", 3, ""),
    ],
)
def test_a_cell_far_away_costs_no_memory(where: str, row: int, why: str) -> None:
    sheet = (
        '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>'
        '<row r="1"><c r="A1"><v>1</v></c></row><row r="2"><c r="A2"><v>2</v></c></row>'
        f'<row r="{row}"><c r="{where}"><v>3</v></c></row></sheetData></worksheet>'
    )
    refusal = said(lambda: read_file(altered(WORKBOOK, {"xl/worksheets/sheet1.xml": sheet.encode()})))
    assert why in refusal
    assert bool(why) == bool(refusal)


def test_other_workbooks_are_told_apart() -> None:
    with pytest.raises(Unreadable, match="older kind"):
        read_file(b"\xd0\xcf\x11\xe0" + b"\x00" * 600)
    with pytest.raises(Unreadable, match="neither a CSV file nor an XLSX"):
        read_file(b"\x00\x01\x02" * 50)
    other = io.BytesIO()
    with zipfile.ZipFile(other, "w") as archive:
        archive.writestr("content.xml", "<office/>")
    with pytest.raises(Unreadable, match="no XLSX workbook"):
        read_file(other.getvalue())


def test_signs_no_text_has_are_left_out() -> None:
    assert cells(read_text("Name,Length\nW\x071\x85,4\ud8000\n")) == [("W1", "40")]
    assert all(read_text(f"Name,Length\n{a}W{b},1\n").rows for a, b in product("\u202e\u200f😀", repeat=2))
