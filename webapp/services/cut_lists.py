"""Cut lists of those kinds of attachment that have one, as tables."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from engine import attachments
from engine.attachments.gable_end import CutList, Offcut, Piece
from engine.errors import BadInput
from engine.units import System, show

HEADINGS = (
    "piece", "course", "lower edge", "upper edge", "height", "cut along", "webs", "form", "cut from", "turned", "leaves",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Row:
    """One piece in words: see HEADINGS. origin: what it is cut from."""

    piece: Piece
    lower: str
    upper: str
    height: str
    origin: str
    turned: str
    leaves: str

    @property
    def texts(self) -> tuple[object, ...]:
        """Under HEADINGS."""
        one = self.piece
        return (
            one.number, one.course, self.lower, self.upper, self.height, one.cuts, one.webs, one.form, self.origin, self.turned,
            self.leaves,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Table:
    """A cut list with its rows; `cut` are those that are not whole forms."""

    list: CutList
    rows: tuple[Row, ...]

    @property
    def cut(self) -> tuple[Row, ...]:
        """Pieces that a saw makes."""
        return tuple(row for row in self.rows if row.piece.cuts != "none")

    @property
    def whole(self) -> int:
        """Pieces that are whole forms."""
        return len(self.rows) - len(self.cut)


def table(kind_key: str, inputs: Any, system: System) -> Table | None:
    """The cut list of an attachment; None for a kind without one, or inputs that give none."""
    make = getattr(attachments.kind(kind_key).module, "cut_list", None)
    if make is None or inputs is None:
        return None
    try:
        found: CutList = make(inputs)
    except BadInput:
        return None
    return Table(found, tuple(_rows(found, system)))


def _rows(found: CutList, system: System) -> Iterator[Row]:
    sources = {offcut.goes_to: offcut for offcut in found.offcuts}
    goals = {offcut.source: offcut for offcut in found.offcuts}
    for piece in found.pieces:
        yield Row(
            piece,
            show(piece.lower_in, "in", system),
            show(piece.upper_in, "in", system),
            show(piece.height, "in", system),
            _origin(piece, sources.get(piece.number)),
            piece.turned if piece.of else "",
            _leaves(goals.get(piece.number)),
        )


def _origin(piece: Piece, offcut: Offcut | None) -> str:
    if offcut is None:
        return "whole form" if piece.cuts == "none" else "a new form"
    return f"offcut {offcut.letter} of {offcut.source}"


def _leaves(offcut: Offcut | None) -> str:
    return "" if offcut is None else f"{offcut.letter} for {offcut.goes_to}"
