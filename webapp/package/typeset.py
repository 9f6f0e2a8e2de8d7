"""One part typeset: data in, a tagged PDF out. Only the typesetter's own fonts are used: every machine makes the same bytes."""

import json
from collections.abc import Mapping
from typing import Any, Literal

import typst

from webapp.folders import TEMPLATES
from webapp.package.letters import clean

FOLDER = TEMPLATES / "documents"
STANDARD: Literal["ua-1"] = "ua-1"  # PDF/UA-1: the typesetter refuses what can't be read aloud


def typeset(data: Mapping[str, Any], timestamp: int) -> bytes:
    """A part as PDF. Args: timestamp: seconds of the epoch printed as its making. Raises: typst.TypstError."""
    found = typst.compile(
        str(FOLDER / "package.typ"), root=str(FOLDER), ignore_system_fonts=True, pdf_standards=[STANDARD],
        timestamp=timestamp, sys_inputs=_inputs(data),
    )  # fmt: skip
    assert isinstance(found, bytes)
    return found


def pictures(data: Mapping[str, Any], ppi: float = 110) -> list[bytes]:
    """The same as one PNG a sheet, to look at."""
    found = typst.compile(
        str(FOLDER / "package.typ"), root=str(FOLDER), ignore_system_fonts=True, format="png", ppi=ppi,
        sys_inputs=_inputs(data),
    )  # fmt: skip
    assert found is not None
    return [found] if isinstance(found, bytes) else list(found)


def _inputs(data: Mapping[str, Any]) -> dict[str, str]:
    return {"data": json.dumps(clean(data), ensure_ascii=False)}
