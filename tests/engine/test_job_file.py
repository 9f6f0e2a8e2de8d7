"""The job file: the same job out and in, everything unusable named by line, path and reason."""

import json
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine import job, job_file, set_job
from engine.editions import US_2024
from engine.fields import Spec
from engine.job_file import BadJobFile, reading, with_unit
from engine.json_lines import NotJson, line_of, load
from tests.world import house


def text(**changes: Any) -> str:
    return json.dumps(house() | changes, indent=1)


def problems(source: str) -> list[str]:
    with pytest.raises(BadJobFile) as caught:
        job_file.read(source)
    return [str(problem) for problem in caught.value.problems]


def changed(path: str, value: Any) -> str:
    """The house's file with one value replaced."""
    document: Any = house()
    *way, last = path.split("/")
    at = document
    for part in way:
        at = at[int(part)] if part.isdecimal() else at[part]
    at[last] = value
    return json.dumps(document, indent=1)


def test_a_job_written_and_read_again_is_the_same_job() -> None:
    found = job_file.read(text())
    assert job_file.read(job_file.write(found)) == found


def test_every_quantity_is_written_with_its_unit() -> None:
    found = job_file.read(changed("wall_types/Ten/core_in", "9 1/4"))
    again = json.loads(job_file.write(found))
    assert again["wall_types"]["Ten"]["core_in"] == "9 1/4 in"
    assert again["walls"][0]["line"]["length_ft"] == "40 ft"


def test_a_job_is_checked_by_its_own_edition_or_another() -> None:
    found = job_file.read(text())
    own, other = job.check(found), job.check(found, US_2024.key)
    assert [c.result.edition.key for c in own if c.result] == ["US 2021"] * 2
    assert [c.result.edition.key for c in other if c.result] == ["US 2024"] * 2


@pytest.mark.parametrize(
    ("path", "value", "reason"),
    [
        ("edition", "US 1999", "edition: No edition set 'US 1999'. Known sets: US 2021, US 2024."),
        ("name", 3, "name: Write name as text."),
        ("walls", {}, "walls: Write it as a list"),
        ("wall_types", [], 'wall_types: Write it as {"name"'),
        ("colour", "blue", "colour: Unknown key. Known here: wallseat_job, name"),
        ("site/wind", "fast", "site.wind: No such input. Known: seismic, "),
        ("wall_types/Ten/core_in", 10, "wall_types.Ten.core_in: Write it as text with its unit"),
        ("wall_types/Ten/core_in", "10 psf", "wall_types.Ten.core_in: “psf” does not fit here"),
        ("wall_types/Ten/core", "10 in", "wall_types.Ten.core: No such input. Known: core_in"),
        ("walls/1/line/length_ft", "0 ft", "walls[1].line.length_ft: Enter 1 ft to 400 ft."),
        ("walls/1/storeys", [], "walls[1].storeys: Give wall W2 at least one storey."),
        ("walls/1/storeys/0/type", "Brick", "walls[1].storeys[0].type: No wall type 'Brick'. Known: Ten, Six, Twelve."),
        ("walls/1/storeys/0/colour", "red", "walls[1].storeys[0].colour: No such input. Known: type, height_ft."),
        ("walls/1/name", "W1", "walls[1].name: There are two walls named 'W1'."),
        ("attachments/0/kind", "magic", "attachments[0].kind: No attachment kind 'magic'. Known: ledge_seat"),
        ("attachments/0/wall", "W8", "attachments[0].wall: No wall 'W8'. Known: W1, W2, W3."),
        ("attachments/0/level", 5, "attachments[0].level: Wall W1 has floor levels 1 to 2."),
        ("attachments/0/level", "1", "attachments[0].level: Write the floor level as a whole number"),
        ("attachments/0/level", True, "attachments[0].level: Write the floor level as a whole number"),
        ("attachments/0/start", "41 ft", "attachments[0].start: Wall W1 is 40 ft long."),
        ("attachments/0/end", "1 ft", "attachments[0].end: Enter a station beyond the start."),
        ("attachments/0/tag", "A2", "attachments[1].tag: Give every attachment its own tag"),
        ("attachments/0/tag", "first", "attachments[0].tag: Give every attachment its own tag"),
        ("attachments/0/inputs/span_ft", "far", "attachments[0].inputs.span_ft: “far” can't be read."),
        ("attachments/0/inputs/sponge", "1", "attachments[0].inputs.sponge: No such input."),
        ("attachments/0/inputs/joist_species", "oak", "attachments[0].inputs.joist_species: Choose one of"),
        ("attachments/0/inputs/lower_core_in", "8 in", "attachments[0].inputs.lower_core_in: This follows the wall"),
        ("wallseat_job", 99, "wallseat_job: Version 99 is not known; this program reads up to 2."),
        ("wallseat_job", "1", "wallseat_job: Version '1' is not known"),
    ],
)
def test_what_cannot_be_used_is_named_with_its_line(path: str, value: Any, reason: str) -> None:
    source = changed(path, value)
    found = problems(source)
    assert any(reason in problem for problem in found), found
    line = int(found[0].split(":")[0].removeprefix("line "))
    assert 1 <= line <= source.count("\n") + 1


def test_the_line_is_that_of_the_value_at_fault() -> None:
    source = changed("attachments/1/inputs/required_bearing_in", "long")
    expected = source.split("\n").index('    "required_bearing_in": "long"') + 1
    assert problems(source) == [
        f"line {expected}: attachments[1].inputs.required_bearing_in: “long” can't be read. "
        "Enter a length, such as 9 1/4 in or 235 mm."
    ]


def test_every_problem_is_told_at_once_in_the_order_of_the_file() -> None:
    document = house() | {"edition": "none", "colour": "blue"}
    document["walls"][0]["line"]["length_ft"] = "long"
    found = problems(json.dumps(document, indent=1))
    assert len(found) == 3
    assert found == sorted(found, key=lambda problem: int(problem.split(":")[0].removeprefix("line ")))


@pytest.mark.parametrize(
    ("source", "reason"),
    [
        ("", "line 1: (whole file): Expecting value"),
        ("{\n\n x", "line 3: (whole file): Expecting property name"),
        ("[]", 'This is no job file: it lacks "wallseat_job".'),
        ('{"name": 1,\n "name": 2}', "line 2: (whole file): the key 'name' is given twice"),
        ('{"wallseat_job":\n NaN}', "line 2: (whole file): NaN is not a number"),
        ("[" * 100_000, "nested too deep"),
        ('{"wallseat_job": 1, "name": "\\ud800"}', "half of a character pair"),
    ],
)
def test_a_text_that_is_no_job_is_refused(source: str, reason: str) -> None:
    assert reason in problems(source)[0]


def test_an_older_version_is_upgraded_step_by_step(monkeypatch: pytest.MonkeyPatch) -> None:
    def from_minus_one(document: dict[str, Any]) -> dict[str, Any]:
        return {**document, "wallseat_job": 0}

    def from_zero(document: dict[str, Any]) -> dict[str, Any]:
        kept = {key: value for key, value in document.items() if key != "title"}
        return {**kept, "wallseat_job": 1, "name": document["title"]}

    monkeypatch.setattr(reading, "UPGRADES", reading.UPGRADES | {-1: from_minus_one, 0: from_zero})
    old = house() | {"wallseat_job": -1, "title": "Old house"}
    del old["name"]
    assert job_file.read(json.dumps(old)).name == "Old house"


def _problems(text: str) -> tuple[object, ...] | None:
    try:
        job_file.read(text)
    except BadJobFile as error:
        return error.problems
    return None


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.text(),
        lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
        max_leaves=12,
    )
)
def test_no_json_document_is_a_crash(document: Any) -> None:
    for candidate in (document, {"wallseat_job": 1, "name": "x", "walls": document, "wall_types": document}):
        problems = _problems(json.dumps(candidate))
        assert problems is None or problems


@given(
    st.sampled_from(["", "\n", " "]),
    st.recursive(
        st.integers() | st.text(), lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner), max_leaves=10
    ),
)
def test_every_value_of_a_document_has_its_line(lead: str, document: Any) -> None:
    source = lead + json.dumps(document, indent=1)
    assert load(source) == document
    lines = source.split("\n")

    def walk(value: Any, path: tuple[str | int, ...]) -> None:
        line = lines[line_of(source, path) - 1]
        shown = json.dumps(value)
        assert shown in line or isinstance(value, (list, dict))
        if isinstance(value, dict):
            for key, inner in value.items():
                walk(inner, (*path, key))
        if isinstance(value, list):
            for number, inner in enumerate(value):
                walk(inner, (*path, number))

    walk(document, ())


@given(st.text())
def test_no_text_is_a_crash(source: str) -> None:
    with suppress(NotJson):
        load(source)


@pytest.mark.parametrize(
    ("unit", "typed", "written"),
    [
        ("in", "9 1/4", "9 1/4 in"),
        ("in", "9-1/4", "9-1/4 in"),
        ("in", "38 mm", "38 mm"),
        ("ft", "12-6 1/2", "12-6 1/2"),
        ("ft", "12' 6\"", "12' 6\""),
        ("psf", "40", "40 psf"),
        ("", "0.42", "0.42"),
        ("in", "", ""),
        ("in", "wide", "wide"),
    ],
)
def test_a_bare_number_gets_its_unit_and_everything_else_stays(unit: str, typed: str, written: str) -> None:
    known = Spec(name="x", label="X", group="", kind="number", unit=unit, low=0, high=1e6)
    assert with_unit(known, typed) == written


LINE = {
    "name": "Main floor",
    "wall": "W1",
    "level": 1,
    "start": "1 ft",
    "end": "",
    "inputs": {"spacing_in": "16 in", "span_ft": "14 ft"},
}


def test_floor_lines_moved_stations_and_placing_go_out_and_come_back() -> None:
    document = house() | {"floor_lines": [LINE], "placing": {"temperature_F": "50"}}
    document["attachments"][0]["moved"] = {"anchor": ["12-6 1/2", "160"]}
    document["walls"][0]["brackets"] = {"1": ["8 in"]}
    document["walls"][0]["placing"] = {"lift_ft": "2 ft"}
    found = job_file.read(json.dumps(document))
    again = json.loads(job_file.write(found))
    assert again["attachments"][0]["moved"] == {"anchor": ["12-6 1/2", "160 in"]}
    assert again["placing"] == {"temperature_F": "50 °F"}
    assert job_file.write(job_file.read(json.dumps(again))) == job_file.write(found)
    asked = set_job.asked(found, job.plan(found))
    assert asked.moved == {found.attachments[0].tag: {"anchor": (150.5, 160.0)}}
    assert asked.brackets == {("W1", 1): {"bracket": (8.0,)}}
    (line,) = asked.lines
    assert (line.wall, line.start_ft, line.joist_spacing_in) == ("W1", 1.0, 16.0)


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ({"wall": "W9"}, "floor_lines[0].wall: No wall 'W9'"),
        ({"level": 7}, "floor_lines[0].level: Wall W1 has floor levels 1 to 2."),
        ({"start": "99 ft"}, "floor_lines[0].start: Wall W1 is 40 ft long."),
        ({"inputs": {"spacing_in": "2 in"}}, "floor_lines[0].inputs.spacing_in: Enter 6 in to 96 in."),
        ({"end": "2 ft"}, "floor_lines[0].inputs.spacing_in: The spacing is 4 in more than the line is long."),
        ({"colour": "red"}, "floor_lines[0].colour: Unknown key."),
    ],
)
def test_a_floor_line_that_cannot_be_used_is_named(change: Any, reason: str) -> None:
    found = problems(json.dumps(house() | {"floor_lines": [LINE | change]}, indent=1))
    assert any(reason in problem for problem in found), found


@pytest.mark.parametrize(
    ("path", "value", "reason"),
    [
        ("attachments/0/moved", {"anchor": ["soon"]}, "attachments[0].moved.anchor[0]: “soon” can't be read"),
        ("attachments/0/moved", {"nail": ["1 in"]}, "attachments[0].moved.nail: Nothing of that kind. Known: joist"),
        ("attachments/0/moved", {"anchor": "1 in"}, "attachments[0].moved: Write it as"),
        ("walls/0/brackets", {"9": ["1 in"]}, "walls[0].brackets.9: Nothing of that kind. Known: 1, 2"),
        ("walls/0/placing", {"lift_ft": "90 ft"}, "walls[0].placing.lift_ft: Enter 0 ft 6 in to 40 ft."),
    ],
)
def test_moved_stations_and_placing_that_cannot_be_used_are_named(path: str, value: Any, reason: str) -> None:
    found = problems(changed(path, value))
    assert any(reason in problem for problem in found), found


def test_a_file_of_the_first_version_is_read() -> None:
    old = job_file.read(text(wallseat_job=1))
    assert (old.floor_lines, old.placing, old.attachments[0].moved) == ((), {}, {})
    assert json.loads(job_file.write(old))["wallseat_job"] == job_file.SCHEMA


# Files as the program of their day wrote them; a new version adds its own, none is ever changed.
STORED = sorted((Path(__file__).parent / "job_files").glob("version_*.json"))


def test_a_file_of_every_version_is_stored() -> None:
    assert [file.stem for file in STORED] == [f"version_{number}" for number in range(1, job_file.SCHEMA + 1)]


@pytest.mark.parametrize("file", STORED, ids=lambda file: file.stem)
def test_a_file_of_any_version_is_read_with_all_it_holds(file: Path) -> None:
    source = file.read_text(encoding="utf-8")
    then, found = json.loads(source), job_file.read(source)
    assert (found.name, len(found.walls)) == (then["name"], len(then["walls"]))
    assert [entry.tag for entry in found.attachments] == [entry["tag"] for entry in then["attachments"]]
    assert all(checked.result for checked in job.check(found)), "every attachment can still be judged"
    assert job_file.read(job_file.write(found)) == found


def test_a_file_of_a_newer_program_says_what_to_do() -> None:
    (problem,) = problems(text(wallseat_job=job_file.SCHEMA + 1))
    assert "update this one" in problem
