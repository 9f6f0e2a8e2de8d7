"""The codes on paper, read as a phone reads them: each leads to the page that says whether it is the one to build from."""

import shutil
import subprocess
from pathlib import Path
from urllib.parse import urlsplit

import pytest
import zxingcpp
from PIL import Image

from tests.webapp.test_package import build
from tests.world import World, house
from webapp.models import Job, Revision
from webapp.package import orders
from webapp.store import reading

ORIGIN = "https://wallseat.test:8443"
DPI = 110  # coarser than any printer: what is read here is read from a photograph of the sheet

pytestmark = [
    pytest.mark.only("sqlite"),
    pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="nothing here turns sheets into pictures"),
]


def codes(pdf: bytes, folder: Path) -> list[list[str]]:
    """What a reader finds on each sheet."""
    path = folder / "sheets.pdf"
    path.write_bytes(pdf)
    subprocess.run(["pdftoppm", "-r", str(DPI), "-gray", str(path), str(folder / "sheet")], check=True)
    found = []
    for sheet in sorted(folder.glob("sheet-*.pgm")):
        with Image.open(sheet) as picture:
            found.append([one.text for one in zxingcpp.read_barcodes(picture)])
    return found


def one_attachment() -> dict[str, list[object]]:
    return {"walls": house()["walls"][:1], "attachments": house()["attachments"][:1]}


def test_the_code_on_every_sheet_opens_the_page_that_says_whether_it_is_current(at: World, tmp_path: Path) -> None:
    job_id = at.job(**one_attachment())
    at.reader.post(f"/jobs/{job_id}/revisions")
    with reading(at.db) as session:
        job, first = session.get_one(Job, job_id), session.query(Revision).one()
    _, load = orders.of_revision(at.db, job, first, ORIGIN)
    sheets = codes(build(load()), tmp_path)

    assert len(sheets) > 4
    address = f"{ORIGIN}/print/{first.fingerprint}"
    assert all(set(one) == {address} for one in sheets), sheets
    assert len(sheets[0]) == 2, "the cover has a large one beside that of its title block"
    path = urlsplit(sheets[0][0]).path

    def said(path: str) -> str:
        return at.nobody().get(path).text

    assert "This print is current" in said(path)
    at.reader.post(f"/jobs/{job_id}/attachments/A1/delete", data={"version": "1"})
    at.reader.post(f"/jobs/{job_id}/revisions")
    assert "This print is superseded" in said(path)
    assert "This print is not known here" in said(path[:-1] + ("0" if path[-1] != "0" else "1"))


def test_a_draft_has_nothing_to_scan(at: World, tmp_path: Path) -> None:
    job_id = at.job(**one_attachment())
    with reading(at.db) as session:
        job = session.get_one(Job, job_id)
    _, load = orders.of_draft(at.db, job, ORIGIN)
    sheets = codes(build(load()), tmp_path)
    assert len(sheets) > 4
    assert not any(sheets), sheets
