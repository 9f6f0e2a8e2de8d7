"""Every document that leaves the program says which program made it, and which frozen revision it belongs to or comes after."""

import re
import shutil
import subprocess
import time
from pathlib import Path

import pytest

from engine import VERSION
from tests.world import World
from webapp.submission.document import short

PATIENCE_S = 90.0
DOCUMENTS = (
    "revisions/1/package.pdf", "log.pdf", "attachments/A1/drawing.dxf", "attachments/A1/drawing.svg",
    "walls/{wall}/elevation.dxf", "walls/{wall}/elevation.svg", "plan.dxf", "plan.svg",
    "placing/pressure.dxf", "placing/pressure.svg", "placing/walls/{wall}/pressure.dxf", "attachments/{gable}/cut-list.csv",
)  # fmt: skip


@pytest.fixture
def submitted(at: World, job: int) -> dict[str, str]:
    """A job with a gable, submitted once: its wall's number, the gable's tag, the fingerprint in short."""
    base = f"/jobs/{job}"
    wall = next(iter(at.reader.page(f"{base}/attachments/new?kind=gable_end").of("option")))[1]["value"]
    place = {"kind": "gable_end", "wall": wall, "level": "2", "start_ft": "0 ft", "end_ft": "28 ft"}
    made = at.reader.post(f"{base}/attachments/new", data=place | {"do": "save"})
    gable = made.headers["location"].rpartition("/")[2].partition("?")[0]
    assert at.reader.post(f"{base}/revisions").status_code == 303
    mark = re.search(r"[0-9a-f]{64}", at.reader.get(f"{base}/revisions.csv").text)
    assert mark is not None
    return {"wall": wall, "gable": gable, "short": short(mark[0]), "whole": mark[0]}


def _words(at: World, path: str, tmp_path: Path) -> str:
    """All a document says, in one row of letters."""
    if path.endswith("package.pdf"):
        at.reader.post(path.removesuffix(".pdf"))
    until = time.monotonic() + PATIENCE_S
    while (answer := at.reader.get(path)).status_code != 200 and time.monotonic() < until:
        time.sleep(0.1)
    assert answer.status_code == 200
    if not path.endswith(".pdf"):
        return "".join(answer.text.split())
    file = tmp_path / "document.pdf"
    file.write_bytes(answer.content)
    if shutil.which("pdftotext") is None:
        pytest.skip("no reader of PDF on this machine")
    found = subprocess.run(["pdftotext", str(file), "-"], capture_output=True, check=True).stdout.decode()
    return "".join(found.replace("\u200b", "").split())


@pytest.mark.parametrize("document", DOCUMENTS)
def test_a_document_says_which_program_made_it_and_which_revision_it_belongs_to(
    document: str, at: World, job: int, submitted: dict[str, str], tmp_path: Path
) -> None:
    said = _words(at, f"/jobs/{job}/{document.format(**submitted)}", tmp_path)
    assert VERSION in said
    assert "".join(submitted["short"].split()) in said or submitted["whole"] in said
