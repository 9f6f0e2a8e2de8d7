"""Published tables as CSV files, one a table. The head lines carry the pedigree:

    # title: ...   # edition: ...   # where: ...   # provenance: read | memory | derived   # note: ... (optional)

then a header row and the values. A column named `provenance` overrides the head's for its row.
"""

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

HEAD = ("title", "edition", "where", "provenance")


@dataclass(frozen=True, slots=True)
class Table:
    """A published table: its pedigree and its rows, values as text in column order."""

    name: str
    pedigree: Mapping[str, str]
    columns: tuple[str, ...]
    rows: tuple[Mapping[str, str], ...]


def names() -> tuple[str, ...]:
    """Every table there is, by file name without its ending."""
    return tuple(
        sorted(f.name.removesuffix(".csv") for f in files("engine.tables").iterdir() if f.name.endswith(".csv"))
    )


@cache
def load(name: str) -> Table:
    """Read a table once. Raises: FileNotFoundError for an unknown name, ValueError for a head line missing."""
    lines = files("engine.tables").joinpath(f"{name}.csv").read_text(encoding="utf-8").splitlines()
    head = [line for line in lines if line.startswith("#")]
    pedigree = {key.strip(): value.strip() for key, _, value in (line[1:].partition(":") for line in head)}
    for key in HEAD:
        if not pedigree.get(key):
            raise ValueError(f"table {name} does not say its {key}")
    reader = csv.DictReader(line for line in lines if line and not line.startswith("#"))
    rows = tuple(reader)
    return Table(name, pedigree, tuple(reader.fieldnames or ()), rows)
