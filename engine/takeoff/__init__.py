"""Takeoff of a job: what to buy, cut and place, from its walls and from what was set out on them."""

from dataclasses import dataclass

from engine import attachments, fields
from engine.errors import BadInput
from engine.job import AttachmentEntry, Job, Plan, plan
from engine.set_job import Asked, set_wall
from engine.setting_out import WALL, SettingOut
from engine.takeoff.bar_list import BAR_HEADINGS, BarLine, bar_list, bar_records
from engine.takeoff.kinds import KINDS, Here, special_ft
from engine.takeoff.rows import (
    CUT_PIECES,
    GROUPS,
    HEADINGS,
    ITEMS,
    TOTAL_HEADINGS,
    WORK,
    BarWeight,
    Maker,
    Office,
    Row,
    Total,
    Waste,
    bar_weights,
    checked_waste,
    records,
    total_records,
    totals,
)
from engine.takeoff.wall_rows import wall_rows

__all__ = [
    "BAR_HEADINGS",
    "CUT_PIECES",
    "GROUPS",
    "HEADINGS",
    "ITEMS",
    "OUTSIDE",
    "TOTAL_HEADINGS",
    "WORK",
    "BarLine",
    "BarWeight",
    "LeftOut",
    "Office",
    "Row",
    "Takeoff",
    "Total",
    "Waste",
    "bar_list",
    "bar_records",
    "bar_weights",
    "checked_waste",
    "records",
    "takeoff",
    "total_records",
    "totals",
]

# What is not counted here at all.
OUTSIDE = (
    "joists, beams and other members, and the veneer with its ties and flashing",
    "dowels from the footing",
    "lintel bars beyond those round openings",
    "bracing, wall ties and fasteners of the forms",
    "concrete that plates and pockets take the place of",
    "what shared corners count twice: every wall has its whole length",
)


@dataclass(frozen=True, slots=True)
class LeftOut:
    """An attachment or wall without rows, and why."""

    wall: str
    tag: str
    why: str


@dataclass(frozen=True, slots=True)
class Takeoff:
    """Rows wall by wall, what was set out, and what could not be counted."""

    rows: tuple[Row, ...]
    set_out: tuple[SettingOut, ...]
    left_out: tuple[LeftOut, ...] = ()

    def of(self, wall: str = "", kind: str = "", tag: str = "") -> tuple[Row, ...]:
        """Rows of one wall, one kind or one attachment; "" leaves that open."""
        return tuple(
            row
            for row in self.rows
            if (not wall or row.wall == wall) and (not kind or row.kind == kind) and (not tag or row.tag == tag)
        )


def takeoff(job: Job, asked: Asked | None = None, office: Office | None = None, edition_key: str = "") -> Takeoff:
    """Everything a job takes, without waste; see `totals` for what to buy.

    Raises: BadInput for an unknown edition, or a value of the office out of its range.
    """
    asked, office = asked or Asked(), office or Office()
    fields.validate(office)
    standing = plan(job, edition_key)
    rows: list[Row] = []
    placed: list[SettingOut] = []
    left = [LeftOut(name, "", why) for name, why in standing.unfit.items()]
    left += [
        LeftOut(e.wall, e.tag, "Stands on a wall that can't be built.")
        for e in job.attachments
        if e.wall in standing.unfit
    ]
    for name in standing.walls:
        entries = [entry for entry in job.attachments if entry.wall == name]
        found = set_wall(standing, name, entries, asked)
        _wall(standing, name, entries, found, asked, office, rows, left)
        placed += found
    return Takeoff(tuple(rows), tuple(placed), tuple(left))


def _wall(
    standing: Plan,
    name: str,
    entries: list[AttachmentEntry],
    found: tuple[SettingOut, ...],
    asked: Asked,
    office: Office,
    rows: list[Row],
    left: list[LeftOut],
) -> None:
    """Rows of a wall, then of its attachments in order."""
    wall = standing.walls[name]
    special: dict[int, float] = {}
    of_attachments: list[Row] = []
    for entry, set_out in zip(entries, found, strict=False):
        try:
            made = _attachment(standing, entry, set_out, office, special)
        except BadInput as error:
            left.append(LeftOut(name, entry.tag, error.message))
            continue
        if made is None:
            refused = "; ".join(f.text() for f in set_out.findings if f.key == "refused")
            left.append(
                LeftOut(name, entry.tag, refused or f"Nothing is counted yet for {attachments.kind(entry.kind).name}.")
            )
        else:
            of_attachments += made
    own = [entry for entry in found if entry.kind == WALL]
    try:
        rows += wall_rows(wall, own, special, asked.habits, office)
    except BadInput as error:
        left.append(LeftOut(name, "", error.message))
    rows += of_attachments


def _attachment(
    standing: Plan, entry: AttachmentEntry, found: SettingOut, office: Office, special: dict[int, float]
) -> list[Row] | None:
    """Rows of one attachment; None where it could not be set out."""
    inputs = standing.inputs(entry).inputs
    if inputs is None or entry.kind not in KINDS or any(f.key == "refused" for f in found.findings):
        return None
    maker, here = Maker(entry.wall, entry.level, entry.kind, entry.tag), Here(found, standing.walls[entry.wall], office)
    KINDS[entry.kind](maker, inputs, here)
    special[entry.level] = special.get(entry.level, 0.0) + special_ft(entry.kind, inputs, here)
    return maker.made
