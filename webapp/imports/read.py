"""A whole import judged: what its sheet would make in a job as it is now, or what is wrong, cell by cell."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from engine.job import HEIGHT
from webapp.forms.quantities import default
from webapp.imports.columns import Match
from webapp.imports.entries import entries
from webapp.imports.rows import Wrong, lines
from webapp.imports.sheets import Row, Table, cell_name
from webapp.imports.subjects import Subject, Target
from webapp.services.attachments import MOST
from webapp.services.imports import Batch, State
from webapp.services.refusals import Refused


@dataclass(frozen=True, slots=True)
class Problem:
    """Something wrong. Args: cell: its name, or "row 14" where the sheet has no such column. what: the input's words."""

    row: int
    cell: str
    what: str
    message: str

    @property
    def anchor(self) -> str:
        """Where the preview shows it."""
        return f"row-{self.row}" if self.cell.startswith("row") else f"cell-{self.cell}"


@dataclass(frozen=True)
class Review:
    """An import before it is kept. Args: complaints: of the sheet as a whole. wrong: messages by row number and input."""

    subject: Subject
    table: Table
    matches: tuple[Match, ...]
    batch: Batch
    complaints: tuple[str, ...] = ()
    wrong: Mapping[int, Mapping[str, str]] = field(default_factory=dict)

    @property
    def holds(self) -> bool:
        """Whether every row can be kept."""
        return not self.complaints and not self.wrong and self.batch.count > 0

    @cached_property
    def taken(self) -> tuple[Match, ...]:
        """The columns that are taken for something."""
        return tuple(match for match in self.matches if match.target)

    @property
    def usual(self) -> tuple[Target, ...]:
        """What no column is taken for, where a usual value stands in."""
        keys = {match.key for match in self.taken}
        return tuple(t for t in self.subject.targets if t.key not in keys and _stands_in(t, keys))

    def problems(self) -> Iterator[Problem]:
        """What is wrong with the rows, in the sheet's order."""
        columns = {match.key: match.column for match in self.taken}
        for number, messages in sorted(self.wrong.items()):
            for key, message in messages.items():
                target = self.subject.target(key)
                cell = cell_name(columns[key], number) if key in columns else f"row {number}"
                yield Problem(number, cell, self.subject.label(target.spec) if target else "", message)

    def rows(self, good: bool) -> Iterator[Row]:
        """The rows that hold, or those that do not."""
        return (row for row in self.table.rows if (row.number not in self.wrong) is good)

    def batch_or_refusal(self) -> Batch:
        """What to keep. Raises: Refused unless every row holds."""
        if not self.holds:
            raise Refused({"": "Not every row holds; nothing was kept."})
        return self.batch


def review(subject: Subject, table: Table, matches: tuple[Match, ...], state: State) -> Review:
    """Read a sheet for a job as it is now."""
    complaints = [
        f"Column {m.letter}, “{m.heading}”: {m.complaint}" for m in matches if m.complaint
    ] + _left_out(subject, matches)  # fmt: skip
    if subject.kind and state.attachments + len(table.rows) > MOST:
        complaints.append(f"A job holds at most {MOST:,} attachments; this one has {state.attachments:,}.")
    if complaints:
        return Review(subject, table, matches, Batch(), tuple(complaints))
    wrong = Wrong()
    batch = entries(subject, lines(table, matches, wrong), state, wrong)
    return Review(subject, table, matches, batch, wrong=wrong)


def _left_out(subject: Subject, matches: tuple[Match, ...]) -> list[str]:
    taken = {match.key for match in matches}
    return [
        f"No column is taken for “{target.spec.label}”, which every {subject.one} needs."
        for target in subject.targets
        if target.needed and target.key not in taken
    ]


def _stands_in(target: Target, taken: set[str]) -> bool:
    """Whether a usual value is used: those of storeys only where the sheet gives the storey."""
    storey = target.key.startswith("storeys-") and target.key.replace(HEIGHT.name, "type") not in taken
    return bool(default(target.spec)) and not storey
