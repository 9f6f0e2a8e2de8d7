"""What every drawing handed out as a file has: its name, its title block, the words of caution in it."""

import re
from collections.abc import Sequence

from starlette.responses import Response

from engine import VERSION
from engine.result import LOCAL_CODE
from engine.units import System
from webapp.drawings.dxf_title import TitleBlock
from webapp.drawings.paper import Sheet
from webapp.models import Job
from webapp.pages.ask import Db
from webapp.pages.drafted import checked_by, drafted

DXF, SVG = "image/vnd.dxf", "image/svg+xml"


def file_of(content: bytes | str, kind: str, *named: str) -> Response:
    """A file to keep, its name made of these words. Args: kind: `DXF` or `SVG`."""
    ending = "dxf" if kind == DXF else "svg"
    plain = re.sub(r"[^A-Za-z0-9]+", "-", " ".join(named)).strip("-").lower()[:80] or "drawing"
    return Response(
        content, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{plain}.{ending}"'}
    )


def _notes(job: Job) -> tuple[str, ...]:
    return f"{job.name}. {job.edition}, engine {VERSION}.", LOCAL_CODE


def said(db: Db, job: Job) -> str:
    """What stands in an SVG file, which has no title block: whoever opens the file reads it among its properties."""
    return f"{job.name}. {drafted(db, job)}. {checked_by(job)}. {LOCAL_CODE}"


def title_of(db: Db, job: Job, wall: str, drawing: str, units: System) -> TitleBlock:
    """The title block of a drawing of the job as it stands, which is always a draft. Args: wall: "" for more than one."""
    rows = (
        ("Job", job.name),
        ("Wall", wall or "all"),
        ("Drawing", drawing),
        ("Scale", f"1 to 1, drawn in {'millimetres' if units == 'mm' else 'inches'}"),
        ("Revision", drafted(db, job)),
        ("Checked by", checked_by(job)),
    )
    return TitleBlock(rows, LOCAL_CODE)


def dxf_of(sheets: Sequence[Sheet], job: Job, units: System, block: TitleBlock) -> bytes:
    """Sheets to scale in one DXF file."""
    from webapp.drawings import dxf  # here, so that a server starts without what writes such files

    return dxf.render(sheets, _notes(job), units, block)
