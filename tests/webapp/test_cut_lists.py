"""The cut list of a gable: under its drawing, in a file, and for nobody else."""

import csv
import io
from collections.abc import Mapping

import pytest

from engine import attachments
from engine.attachments.gable_end import Inputs, cut_list
from tests.world import World


@pytest.fixture
def gable(at: World, job: int) -> str:
    """A gable of the usual numbers on the first wall of the job. Returns: its address."""
    wall = next(iter(at.reader.page(f"/jobs/{job}/attachments/new?kind=gable_end").of("option")))[1]["value"]
    place = {"kind": "gable_end", "wall": wall, "level": "2", "start_ft": "0 ft", "end_ft": "28 ft"}
    answer = at.reader.post(f"/jobs/{job}/attachments/new", data=place | {"do": "save"})
    assert answer.status_code == 303, answer.text
    return answer.headers["location"]


def rows(text: str) -> list[Mapping[str, str]]:
    return [row for row in csv.DictReader(io.StringIO(text)) if (row["piece"] or "").isdecimal()]


def test_the_page_of_a_gable_shows_its_cut_pieces_and_leads_to_the_file(at: World, gable: str) -> None:
    text = at.reader.page(gable).text
    assert ">Cut list</h2>" in text
    assert f'href="{gable}/cut-list.csv"' in text
    assert "with offcuts used again" in text


def test_the_file_holds_every_piece_as_the_engine_cuts_it(at: World, gable: str) -> None:
    answer = at.reader.get(f"{gable}/cut-list.csv")
    assert answer.headers["content-type"].startswith("text/csv")
    found = rows(answer.text)
    cut = cut_list(Inputs())
    assert [int(row["piece"]) for row in found] == [piece.number for piece in cut.pieces]
    assert [int(row["form"]) for row in found] == [piece.form for piece in cut.pieces]
    assert found[-1]["upper edge"] == "0 in"
    assert "Local code and the authority having jurisdiction govern" in answer.text
    for row in found:
        if row["cut from"].startswith("offcut"):
            letter, _, source = row["cut from"].removeprefix("offcut ").partition(" of ")
            assert found[int(source) - 1]["leaves"] == f"{letter} for {row['piece']}"


def test_the_file_speaks_the_reader_s_units(at: World, gable: str) -> None:
    at.reader.cookies.set("wallseat_units", "mm")
    assert rows(at.reader.get(f"{gable}/cut-list.csv").text)[1]["lower edge"].endswith("mm")


def test_a_kind_without_a_cut_list_has_no_such_file(at: World, job: int) -> None:
    assert at.reader.get(f"/jobs/{job}/attachments/A1/cut-list.csv").status_code == 404
    assert "Cut list" not in at.reader.page(f"/jobs/{job}/attachments/A1").text


def test_a_trial_shows_the_cut_list_without_a_file(at: World) -> None:
    text = at.reader.page("/try/gable_end").text
    assert ">Cut list</h2>" in text
    assert "cut-list.csv" not in text


def test_only_a_gable_has_a_cut_list() -> None:
    assert {key for key, kind in attachments.KINDS.items() if hasattr(kind.module, "cut_list")} == {"gable_end"}
