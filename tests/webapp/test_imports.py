"""Spreadsheets into a job: shown before anything is kept, kept whole or not at all, taken back in one go."""

import base64
import csv
import html
import io
import json
import re
from datetime import timedelta
from typing import Any

import pytest
from httpx2 import Response
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.result import LOCAL_CODE
from tests import pace
from tests.webapp.test_sheets import workbook
from tests.webapp.test_walls import wall_ids
from tests.world import Page, World
from webapp.imports.subjects import subjects
from webapp.models import Wall
from webapp.services import imports
from webapp.services.refusals import Refused
from webapp.store import writing

WALLS = "Name,Length,Storey 1 type,Storey 1 height,Storey 2 type\n"
SEATS = "Wall,Level,Start,End,Joist depth (in),Lap into the wall above (in)\n"
SEAT = "attachments-ledge_seat"


def shown(at: World, job: int, what: str, text: str, **more: str) -> Response:
    """The preview of a pasted sheet."""
    return at.reader.post(f"/jobs/{job}/import", data={"what": what, "text": text, "units": "ft in", **more})


def again(preview: Response, **changes: str) -> dict[str, str]:
    """The preview's form as it would be sent."""
    fields = {name: text for name, text in Page(preview.text).values.items() if name != "back"}
    columns = {f"column-{n}": key for n, key in enumerate(fields["matched"].split()) if key != "-"}
    return fields | columns | changes


def imported(at: World, job: int, what: str, text: str, **more: str) -> Response:
    """A sheet previewed, then imported."""
    preview = shown(at, job, what, text, **more)
    assert preview.status_code == 200, preview.text[:2000]
    return at.reader.post(f"/jobs/{job}/import", data=again(preview, do="import"))


def kept(at: World, job: int) -> dict[str, Any]:
    """The job as its file."""
    found: dict[str, Any] = at.reader.get(f"/jobs/{job}/job.json").json()
    return found


def problems(preview: Response) -> list[str]:
    """What the summary of a preview says, line by line."""
    return [
        html.unescape(" ".join(text.split()))
        for text in re.findall(r'<li><a href="#(?:row-\d+|cell-[A-Z]+\d+|columns)">(.*?)</a>', preview.text, re.S)
    ]


def test_walls_are_shown_and_nothing_is_kept_until_they_are_imported(at: World, job: int) -> None:
    before = kept(at, job)
    preview = shown(at, job, "walls", WALLS + "W8,30,Ten,9,Six\nW9,12-6,Six,8-6,\n")
    assert "Import 2 walls" in preview.text
    assert kept(at, job) == before
    answer = at.reader.post(f"/jobs/{job}/import", data=again(preview, do="import"))
    assert "2 walls are imported." in at.reader.follow(answer).text
    w8, w9 = kept(at, job)["walls"][-2:]
    assert (w8["name"], w8["line"]["length_ft"]) == ("W8", "30 ft")
    assert [s["type"] for s in w8["storeys"]] == ["Ten", "Six"]
    assert w8["line"]["near_end"] == "corner", "the usual value where there is no column"
    assert w9["line"]["length_ft"] == "12-6"
    assert w9["storeys"] == [{"type": "Six", "height_ft": "8-6"}]


def test_openings_are_added_to_the_walls_they_name_beside_those_there_are(at: World, job: int) -> None:
    head = "Wall,Start,Width,Sill,Head\n"
    imported(at, job, "openings", head + "W1,4,3,3,7\n")
    answer = imported(at, job, "openings", head + "W1,10,3,3,7\nW2,2,3,0,6-8\n")
    assert "2 openings are imported." in at.reader.follow(answer).text
    walls = {wall["name"]: wall for wall in kept(at, job)["walls"]}
    assert [o["start_ft"] for o in walls["W1"]["openings"]] == ["4 ft", "10 ft"]
    assert walls["W2"]["openings"][0]["head_ft"] == "6-8"


def test_floor_lines_are_imported_with_their_joists(at: World, job: int) -> None:
    preview = shown(
        at, job, "floor_lines", "Name,Wall,Floor,From,To,Joist depth,o.c.,Span,LL\nF1,W1,1,1,11,11 7/8,16,14,40\n"
    )
    assert "Import 1 floor line" in preview.text, problems(preview)
    at.reader.post(f"/jobs/{job}/import", data=again(preview, do="import"))
    line = kept(at, job)["floor_lines"][0]
    assert (line["name"], line["wall"], line["level"], line["end"]) == ("F1", "W1", 1, "11 ft")
    assert (line["inputs"]["depth_in"], line["inputs"]["spacing_in"]) == ("11 7/8 in", "16 in")
    assert "There is a floor line F1 in the job already" in shown(at, job, "floor_lines", "Name,Wall\nF1,W1\n").text


def test_attachments_are_imported_with_new_tags_and_checked(at: World, job: int) -> None:
    answer = imported(at, job, SEAT, SEATS + "W1,1,12,20,9 1/4,48\nW2,1,12,20,9 1/4,\n")
    assert "2 attachments are imported." in at.reader.follow(answer).text
    found = {row["tag"]: row for row in at.reader.get(f"/api/jobs/{job}").json()["verdicts"]}
    assert found["A3"]["verdict"] == "pass"
    assert found["A4"]["verdict"] in ("pass", "flag")
    a3, a4 = kept(at, job)["attachments"][-2:]
    assert (a3["start"], a3["inputs"]["lap_in"]) == ("12 ft", "48 in")
    assert a4["inputs"].keys() == a3["inputs"].keys(), "an empty cell takes the usual value"
    assert "core_in" not in a3["inputs"], "what follows the wall stays with it"


@pytest.mark.parametrize("what", list(subjects()))
@pytest.mark.parametrize("system", ["ft in", "mm"])
def test_a_sheet_to_fill_in_can_be_imported_as_it_comes(at: World, job: int, what: str, system: str) -> None:
    at.reader.cookies.set("wallseat_units", system)
    text = at.reader.get(f"/jobs/{job}/import/template.csv?what={what}").text
    assert LOCAL_CODE in text
    preview = shown(at, job, what, text, units=system)
    assert f"Import 1 {subjects()[what].one}" in preview.text, problems(preview)
    assert at.reader.post(f"/jobs/{job}/import", data=again(preview, do="import")).status_code == 303


BAD = [
    ("walls", WALLS + "W8,30,Ten,9,Six\nW9,twelve,Six,9,\n", "B3, Length: “twelve” can't be read."),
    ("walls", WALLS + "W8,30,Ten,900,\n", "D2, Storey 1 height: Enter 1 ft to 40 ft."),
    ("walls", WALLS + "W8,,Ten,9,\n", "B2, Length: Enter"),
    ("walls", WALLS + "W8,30,Brick,9,\n", "C2, Storey 1 wall type: No wall type 'Brick'. Known: Ten, Six, Twelve."),
    ("walls", WALLS + "W8,30,,9,\n", "C2, Storey 1 wall type: Name a wall type: Ten, Six, Twelve."),
    ("walls", WALLS + "W1,30,Ten,9,\n", "A2, Name: There is a wall W1 in the job already."),
    ("walls", WALLS + "W8,30,Ten,9,\n\nW8,30,Ten,9,\n", "A4, Name: There is a wall W8 in row 2 already."),
    ("walls", WALLS + f"{'W' * 81},30,Ten,9,\n", "A2, Name: Use at most 80 characters."),
    ("walls", "Length,Name,Storey 1 type\n30,,Ten\n", "B2, Name: Enter a name for the wall."),
    ("openings", "Wall,Start,Width\nW1,39,3\n", "B2, Starts at: The opening of W1 at 39.00 ft runs 2.00 ft past the end"),
    ("openings", "Wall,Start,Width\nW1,4,3\nW1,5,3\n", "B3, Starts at: Two openings of W1 overlap by 2.00 ft"),
    ("openings", "Wall,Start,Width\nW1,4,3\nW7,5,3\n", "A3, Wall: No wall “W7” in this job. Known: W1, W2, W3."),
    ("openings", "Wall,Start,Width\n,5,3\n", "A2, Wall: Name a wall: W1, W2, W3."),
    (SEAT, SEATS + "W3,1,0,13,9 1/4,48\n", "D2, Ends at: Wall W3 is 12 ft long."),
    (SEAT, SEATS + "W1,3,0,13,9 1/4,48\n", "B2, Floor level, 1 at the top of the first storey: Wall W1 has floor levels 1 to 2."),
    (SEAT, SEATS + "W1,low,0,13,9 1/4,48\n", "B2, Floor level, 1 at the top of the first storey: “low” can't be read."),
    (SEAT, SEATS + "W1,1,0,13,900,48\n", "E2, Joist depth: Enter"),
    (SEAT, "Kind,Wall,End\nBeam pocket,W1,9\n", "A2, Kind: This import takes “Joists on a ledge” only."),
    (SEAT, "Wall,Start\nW1,30\n", "row 2, Ends at: Enter where it ends, up to 40 ft."),
    ("floor_lines", "Name,Wall,To\nF1,W3,13\n", "C2, Ends at: Wall W3 is 12 ft long."),
    ("floor_lines", "Name,Wall,o.c.\nF1,W3,2\n", "C2, Spacing: Enter 6 in to 96 in."),
]  # fmt: skip


@pytest.mark.parametrize(("what", "text", "said"), BAD)
def test_one_bad_row_keeps_all_of_them_out_and_says_which_cell(
    at: World, job: int, what: str, text: str, said: str
) -> None:
    before = kept(at, job)
    preview = shown(at, job, what, text)
    assert any(line.startswith(said) for line in problems(preview)), problems(preview)
    assert 'value="import"' not in preview.text
    answer = at.reader.post(f"/jobs/{job}/import", data=again(preview, do="import"))
    assert answer.status_code == 422
    assert "needs mending; nothing is kept" in answer.text
    assert kept(at, job) == before


@pytest.mark.parametrize(
    ("what", "text", "said"),
    [
        ("walls", "Name,Storey 1 type\nW8,Ten\n", "No column is taken for “Length”, which every wall needs."),
        ("walls", "Name,Length (psf),Storey 1 type\nW8,3,Ten\n", "Column B, “Length (psf)”: psf does not fit “Length”"),
    ],
)
def test_a_sheet_whose_columns_cannot_be_taken_so_is_told_before_its_rows(
    at: World, job: int, what: str, text: str, said: str
) -> None:
    preview = shown(at, job, what, text)
    assert any(line.startswith(said) for line in problems(preview)), problems(preview)
    assert 'value="import"' not in preview.text


def test_a_column_can_be_taken_for_something_else_and_is_then_shown_before_it_is_imported(at: World, job: int) -> None:
    preview = shown(at, job, "walls", "Bez,Lang (mm),Art\nW8,7315,Ten\n")
    assert "No column is taken for “Name”" in preview.text
    chosen = {"column-0": "name", "column-1": "length_ft", "column-2": "storeys-1-type"}
    second = at.reader.post(f"/jobs/{job}/import", data=again(preview, do="import", **chosen))
    assert second.status_code == 200, "what was not shown yet is not imported"
    assert "Import 1 wall" in second.text
    at.reader.follow(at.reader.post(f"/jobs/{job}/import", data=again(second, do="import")))
    assert kept(at, job)["walls"][-1]["line"]["length_ft"] == "7315 mm"


def test_the_rows_come_back_to_be_changed(at: World, job: int) -> None:
    preview = shown(at, job, "walls", WALLS + "\nW8,<30>,Ten,9,\n")
    answer = at.reader.post(f"/jobs/{job}/import", data=again(preview, do="change"))
    assert answer.status_code == 200
    found = re.search(r"<textarea[^>]*>(.*?)</textarea>", answer.text, re.S)
    assert found
    assert html.unescape(found[1]).splitlines() == [WALLS.strip(), "", "W8,<30>,Ten,9,"]
    assert '<option value="walls" selected>' in answer.text


def test_a_workbook_is_imported_like_pasted_rows(at: World, job: int) -> None:
    data = workbook(("Name", "Length", "Storey 1 type"), ("W8", 30.5, "Ten"), Notes=(("a", "b"), ("c", "d")))
    preview = at.reader.post(
        f"/jobs/{job}/import", data={"what": "walls", "units": "ft in"}, files={"file": ("walls.xlsx", data)}
    )
    assert "sheet Sheet, one of 2: Sheet, Notes" in preview.text
    at.reader.follow(at.reader.post(f"/jobs/{job}/import", data=again(preview, do="import")))
    assert kept(at, job)["walls"][-1]["line"]["length_ft"] == "30.5 ft"


@pytest.mark.parametrize(
    ("fields", "data", "at_field", "said"),
    [
        ({}, b"", "text", "Paste the rows with the headings above them, or choose a file."),
        ({"text": "Name,Length"}, b"", "text", "at least one row below are needed"),
        ({"text": WALLS + "W8,3,Ten"}, b"Name,Length\nW9,3\n", "file", "Choose a file or paste rows, not both."),
        ({}, b"PK\x03\x04 and no more", "file", "This is no XLSX workbook"),
        ({"sheet": "Walls"}, workbook(("a", "b"), ("c", "d")), "file", "has no sheet 'Walls'. Its sheets: Sheet."),
        ({"what": "roofs"}, b"", "what", "Choose what the rows are."),
    ],
)
def test_what_is_no_sheet_is_said_beside_its_field_and_nothing_typed_is_lost(
    at: World, job: int, fields: dict[str, str], data: bytes, at_field: str, said: str
) -> None:
    files = {"file": ("sheet", data)} if data else None
    answer = at.reader.post(f"/jobs/{job}/import", data={"what": "walls"} | fields, files=files)
    assert answer.status_code == 422
    assert said.replace("'", "&#39;") in answer.text
    assert f'href="#f-{at_field}"' in answer.text
    assert fields.get("text", "").strip() in answer.text


def test_what_the_job_has_become_meanwhile_counts_when_it_is_imported(at: World, job: int) -> None:
    preview = shown(at, job, "walls", WALLS + "W8,30,Ten,9,\n")
    assert "Import 1 wall" in preview.text
    imported(at, job, "walls", WALLS + "W8,12,Six,9,\n")
    before = kept(at, job)
    answer = at.reader.post(f"/jobs/{job}/import", data=again(preview, do="import"))
    assert answer.status_code == 422
    assert any(line.startswith("A2, Name: There is a wall W8 in the job already") for line in problems(answer))
    assert kept(at, job) == before


def test_rows_are_read_again_when_the_job_changes_between_reading_and_keeping(at: World, job: int) -> None:
    seen: list[int] = []

    def read(found: imports.State) -> imports.Batch:
        seen.append(found.standing.job.changes)
        if len(seen) == 1:
            imported(at, job, "walls", WALLS + "W8,30,Ten,9,\n")
        return imports.Batch()

    assert imports.keep(at.db, job, read) == (0, seen[1] + 1)
    assert seen[1] > seen[0]


def test_a_job_that_never_rests_is_left_alone(at: World, job: int) -> None:
    def read(found: imports.State) -> imports.Batch:
        imported(at, job, "walls", WALLS + f"V{found.standing.job.changes},30,Ten,9,\n")
        return imports.Batch()

    with pytest.raises(Refused, match="changed by others just now"):
        imports.keep(at.db, job, read)


def undo(answer: Response) -> str:
    """Where the notice of what was done posts to take it back."""
    found: dict[str, str] = json.loads(base64.urlsafe_b64decode(answer.cookies["wallseat_notice"].strip('"')))
    return found["undo"]


@pytest.mark.parametrize(
    ("what", "text", "part"),
    [
        ("walls", WALLS + "W8,30,Ten,9,\nW9,30,Ten,9,\n", "walls"),
        ("floor_lines", "Name,Wall\nF1,W1\nF2,W2\n", "floor_lines"),
        (SEAT, SEATS + "W1,1,12,20,9 1/4,48\nW2,1,12,20,9 1/4,48\n", "attachments"),
    ],
)
def test_an_import_is_taken_back_in_one_go_and_brought_back_in_one(
    at: World, job: int, what: str, text: str, part: str
) -> None:
    before = kept(at, job)
    answer = imported(at, job, what, text)
    after = kept(at, job)
    assert len(after[part]) == len(before[part]) + 2
    back = at.reader.post(undo(answer))
    assert kept(at, job) == before
    at.reader.post(undo(back))
    assert kept(at, job) == after


def test_what_was_changed_since_stays_when_an_import_is_taken_back(at: World, job: int) -> None:
    answer = imported(at, job, "walls", WALLS + "W8,30,Ten,9,\nW9,30,Ten,9,\n")
    back = undo(answer)
    w9 = wall_ids(at, job)["W9"]
    version = at.reader.page(f"/jobs/{job}/walls/{w9}").values["version"]
    fields = {"name": "W9", "length_ft": "31", "storeys-0-type": "Ten", "storeys-0-height_ft": "9", "version": version}
    at.reader.follow(at.reader.post(f"/jobs/{job}/walls/{w9}", data=fields))
    assert "1 row of the import is put away." in at.reader.follow(at.reader.post(back)).text
    assert {"W8", "W9"} & set(wall_ids(at, job)) == {"W9"}


def test_walls_that_carry_something_by_now_stay_all_of_them(at: World, job: int) -> None:
    back = undo(imported(at, job, "walls", WALLS + "W8,30,Ten,9,Six\nW9,30,Ten,9,Six\n"))
    imported(at, job, SEAT, SEATS + "W9,1,12,20,9 1/4,48\n")
    assert "W9 carry something by now" in at.reader.follow(at.reader.post(back)).text
    assert {"W8", "W9"} <= set(wall_ids(at, job))


def test_only_what_an_import_made_can_be_taken_back(at: World, job: int) -> None:
    assert at.reader.post(f"/jobs/{job}/import/types/1/undo").status_code == 404
    assert (
        "Nothing is left of that import" in at.reader.follow(at.reader.post(f"/jobs/{job}/import/walls/99/undo")).text
    )
    with writing(at.db) as session:  # W3 was made earlier, and changed last by the same change as an import might be
        row = session.get_one(Wall, wall_ids(at, job)["W3"])
        row.created_at -= timedelta(hours=1)
        row.version = 50
    answer = at.reader.post(f"/jobs/{job}/import/walls/50/undo")
    assert "Nothing is left of that import" in at.reader.follow(answer).text
    assert "W3" in wall_ids(at, job)


NAMES = ['<script>alert("1")</script>', "\u202eW\u200f8", "👩🏽‍🔧 W8", "=1+1", "@SUM(A1)", "W8' OR 1=1 --", "Ｗ８"]


@pytest.mark.parametrize("name", NAMES)
def test_a_name_is_kept_and_shown_as_text_whatever_it_is(at: World, job: int, name: str) -> None:
    out = io.StringIO()
    csv.writer(out).writerow([name, "30", "Ten", "9", ""])
    preview = shown(at, job, "walls", WALLS + out.getvalue())
    assert "<script>alert" not in preview.text
    at.reader.follow(at.reader.post(f"/jobs/{job}/import", data=again(preview, do="import")))
    assert kept(at, job)["walls"][-1]["name"] == name


@pytest.mark.parametrize("column", range(6))
def test_a_cell_of_five_hundred_characters_is_refused_by_name(at: World, job: int, column: int) -> None:
    cells = ["W1", "1", "12", "20", "9 1/4", "48"]
    cells[column] = "9" * 500
    preview = shown(at, job, SEAT, SEATS + ",".join(cells) + "\n")
    assert [line for line in problems(preview) if line.startswith(f"{'ABCDEF'[column]}2, ")], problems(preview)


def test_bad_rows_are_shown_first_and_all_of_them_are_counted(at: World, job: int) -> None:
    rows = "".join(f"V{n},{'what' if n % 3 == 2 else 30},Ten,9,\n" for n in range(300))
    preview = shown(at, job, "walls", WALLS + rows)
    assert "100 rows need mending" in preview.text
    assert "And 88 more." in preview.text
    order = [int(number) for number in re.findall(r'<tr id="row-(\d+)"', preview.text)]
    assert order == [n + 2 for n in range(300) if n % 3 == 2][:50] + [n + 2 for n in range(300) if n % 3 != 2][:10]


def test_a_job_takes_no_more_attachments_than_it_holds(at: World, job: int) -> None:
    preview = shown(at, job, SEAT, SEATS + "W1,1,12,20,9 1/4,48\n" * 1999)
    assert "A job holds at most 2,000 attachments; this one has 2." in preview.text
    assert 'value="import"' not in preview.text


def test_an_inspector_imports_nothing(at: World, job: int) -> None:
    data = {"what": "walls", "text": WALLS + "W8,30,Ten,9,\n"}
    assert at.as_("inspector").post(f"/jobs/{job}/import", data=data).status_code == 403


def test_a_thousand_rows_are_shown_in_under_two_seconds(at: World, job: int) -> None:
    text = SEATS + "".join(f"W1,1,{n % 20},{n % 20 + 10},9 1/4,48\n" for n in range(1000))
    shown(at, job, SEAT, SEATS + "W1,1,12,20,9 1/4,48\n")  # what is built once is not counted
    previews = []
    took = pace.seconds(lambda: previews.append(shown(at, job, SEAT, text).text), rounds=1)
    assert all("Import 1,000 attachments" in preview for preview in previews)
    assert took < 2.0


CELL = st.one_of(
    st.sampled_from(
        ["W1", "W8", "30", "12-6", "9 1/4 in", "7315 mm", "Ten", "corner", "yes", "", "-1", "1e9", "∞", "½"]
    ),
    st.text(max_size=12),
)


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.sampled_from(list(subjects())),
    st.lists(st.lists(CELL, min_size=3, max_size=9), min_size=1, max_size=3),
    st.data(),
)
def test_any_sheet_is_shown_or_refused(
    at: World, job: int, what: str, grid: list[list[str]], data: st.DataObject
) -> None:
    heads = [target.spec.label for target in subjects()[what].targets]
    chosen = data.draw(st.lists(st.sampled_from(heads), min_size=3, max_size=9))
    out = io.StringIO()
    csv.writer(out).writerows([chosen, *grid])
    text = out.getvalue().replace("\x00", "").encode("utf-8", "ignore").decode()
    assert shown(at, job, what, text).status_code in (200, 422)
