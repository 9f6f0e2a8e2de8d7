"""The parsers, each taking bytes. Whatever is not one of their own refusals comes through."""

from collections.abc import Callable, Mapping
from contextlib import suppress

from engine import job_file, units
from engine.errors import BadInput
from engine.job_file import BadJobFile
from webapp.forms import setting_out
from webapp.imports.sheets import Unreadable
from webapp.imports.workbook import read_file
from webapp.services import photos
from webapp.services.refusals import Refused

UNITS = ("in", "ft", "psf", "lb", "psi", "deg")


def quantity(data: bytes) -> None:
    """A typed number with its unit."""
    for unit in UNITS:
        with suppress(BadInput):
            units.parse(data.decode(errors="replace"), unit)


def job(data: bytes) -> None:
    """A job file."""
    with suppress(BadJobFile):
        job_file.read(data.decode(errors="replace"))


def sheet(data: bytes) -> None:
    """A spreadsheet: CSV, or XLSX by its mark."""
    with suppress(Unreadable):
        read_file(data)


def picture(data: bytes) -> None:
    """A photograph."""
    with suppress(Refused):
        photos.prepare(data)


def stations(data: bytes) -> None:
    """Stations of a row as its form brings them back: what is wrong becomes a message beside the field."""
    texts = data.decode(errors="replace").split("\n")
    form = {"stations": texts[0]} | {f"at-{n}": text for n, text in enumerate(texts[1:])} | {"add": texts[-1]}
    for system in ("ft in", "mm"):
        setting_out.on_wall(setting_out.typed(form, system), "W1", 480.0, system)


TARGETS: Mapping[str, Callable[[bytes], None]] = {
    "quantity": quantity,
    "job": job,
    "sheet": sheet,
    "picture": picture,
    "stations": stations,
}
