"""The setting-out pages put together: rows of stations, what stands against them, the wall's elevation."""

import logging
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from fastapi import Request
from markupsafe import Markup
from starlette.responses import Response

from engine.attachments import KINDS
from engine.setting_out import WALL, WORDS, Finding, Mark, SettingOut, station
from engine.setting_out.rules import EPS
from engine.units import System, show
from webapp.drawings.elevation import elevation_svg
from webapp.drawings.elevation_strips import key_of
from webapp.forms.setting_out import Draft
from webapp.models import Job
from webapp.pages.results import UNDRAWN
from webapp.pages.view import page, seen
from webapp.permissions import allowed
from webapp.services.setting_out import DIFFERS, Layout, Spot, WallOut, counts, mark_of, movable
from webapp.services.stations import SINGLE, nearest_clear

AT_A_STATION = ("off", "clear", "end least", "place")  # findings that moving one station alone can mend
TALLEST = 20  # rows of a column
HEADED_OFF = "headed off at an opening"
log = logging.getLogger("wallseat")


@dataclass(frozen=True, slots=True)
class Row:
    """One station of a table. Args: before: from the one before, in the reader's units; "" at the first."""

    number: int
    at_in: float
    station: str
    mm: str
    before: str
    count: int
    note: str
    against: tuple[str, ...] = ()
    near: str = ""
    text: str = ""
    error: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """Everything of one kind that one entry sets."""

    what: str
    name: str
    rows: tuple[Row, ...]
    movable: bool
    moved: bool

    @property
    def noted(self) -> bool:
        """Whether any row has something to say in its note."""
        return any(row.note or row.against or row.count > 1 for row in self.rows)

    @property
    def columns(self) -> tuple[tuple[Row, ...], ...]:
        """Its rows in columns of about equal height."""
        height = ceil(len(self.rows) / ceil(len(self.rows) / TALLEST))
        return tuple(self.rows[n : n + height] for n in range(0, len(self.rows), height))


@dataclass(frozen=True, slots=True)
class Part:
    """One entry of a wall for its page: its words, findings and tables."""

    mark: str
    title: str
    place: str
    counts: str
    against: tuple[str, ...]
    notes: tuple[str, ...]
    tables: tuple[Table, ...]

    @property
    def state(self) -> str:
        """How it stands, as a verdict's mark is named."""
        return "flag" if self.against else "pass"


def title_of(entry: SettingOut) -> str:
    """What an entry is called: "A4, joists on a bolted ledger"."""
    if entry.kind == WALL:
        return f"The wall itself, floor level {entry.level}"
    kind = KINDS.get(entry.kind)
    return f"{entry.tag}, {kind.name[:1].lower()}{kind.name[1:]}" if kind else entry.tag


def place_of(entry: SettingOut, system: System) -> str:
    """Where it runs."""
    start, end = station(entry.start_in, system), station(entry.end_in, system)
    return (
        f"level {entry.level}, at {start}"
        if entry.end_in <= entry.start_in
        else f"level {entry.level}, {start} to {end}"
    )


def said(findings: Sequence[Finding], note: bool, system: System) -> tuple[str, ...]:
    """Findings in words, in order along the wall."""
    found = sorted((f for f in findings if f.note is note), key=lambda f: f.at_in)
    return tuple(dict.fromkeys(f.text(system) for f in found))


def marks_of(entry: SettingOut, what: str) -> tuple[Mark, ...]:
    """Marks of one kind in order, numbered along the wall; joists that an opening takes are among them, none of each set."""
    headed = [Mark(what, at, 0, 0, HEADED_OFF) for at in entry.headered] if what == "joist" else []
    marks = sorted((*entry.of(what), *headed), key=lambda mark: mark.at_in)
    return tuple(Mark(what, mark.at_in, n, mark.count, mark.note) for n, mark in enumerate(marks, 1))


def rows_of(entry: SettingOut, what: str, system: System) -> tuple[Row, ...]:
    """One kind of thing as a table."""
    rows = []
    last: float | None = None
    for mark in marks_of(entry, what):
        own = [f for f in entry.findings if not f.note and f.what == what and abs(f.at_in - mark.at_in) < EPS]
        near = _near(entry, what, own, system)
        gap = "" if last is None else show(mark.at_in - last, "in", system)
        rows.append(
            Row(
                mark.number, mark.at_in, mark.text, f"{mark.mm:,}", gap, mark.count, mark.note,
                tuple(f.text(system) for f in own), near,
            )
        )  # fmt: skip
        last = mark.at_in
    return tuple(rows)


def _near(entry: SettingOut, what: str, own: Sequence[Finding], system: System) -> str:
    """The nearest clear place for a station that stands where it may not; "" where moving it alone does not help."""
    row = entry.rows.get(what)
    if row is None or not any(f.key in AT_A_STATION for f in own):
        return ""
    at = own[0].at_in
    found = nearest_clear(row, at)
    return "" if found is None or abs(found - at) < EPS else station(found, system)


def part_of(layout: Layout, out: WallOut, entry: SettingOut, system: System) -> Part:
    """An entry for the wall's page."""
    tables = tuple(
        Table(
            what, WORDS[what][1], rows_of(entry, what, system), what in movable(entry),
            layout.moved(out.row.id, Spot(mark_of(entry), what)) is not None,
        )
        for what in dict.fromkeys(mark.what for mark in (*marks_of(entry, "joist"), *entry.marks))
    )  # fmt: skip
    return Part(
        mark_of(entry), title_of(entry), place_of(entry, system), counts(entry), said(entry.findings, False, system),
        said(entry.findings, True, system), tables,
    )  # fmt: skip


SHEETS = {"wide": "desk", "tablet": "tablet", "phone": "phone"}


def drawings(out: WallOut, system: System, focus: str = "", sheets: Mapping[str, str] = SHEETS) -> dict[str, Markup]:
    """The wall's elevation for each width of sheet. Args: sheets: the width class of each."""
    if out.built is None:
        return {}
    try:
        return {
            width: Markup(elevation_svg(out.built, out.entries, system, width_class, focus=focus))
            for width, width_class in sheets.items()
        }
    except Exception:  # stations without their drawing are worth more than neither
        log.exception("no elevation of wall %s", out.row.name)
        return {"wide": UNDRAWN}


def line_of(job_id: int, wall_id: int, entry: SettingOut | None, system: System) -> dict[str, object]:
    """Context of `partials/set_out_line.html`: empty where nothing is set out."""
    if entry is None or not (entry.marks or entry.findings):
        return {}
    own = f"/jobs/{job_id}/setting-out/walls/{wall_id}"
    return {
        "counts": counts(entry),
        "against": sum(not finding.note for finding in entry.findings),
        "differs": [finding.text(system) for finding in entry.findings if finding.key in DIFFERS],
        "href": f"{own}/{entry.tag}" if movable(entry) else f"{own}#{entry.tag}",
    }


def wall_page(request: Request, job: Job, layout: Layout, out: WallOut, system: System) -> Response:
    """A wall with everything set out on it."""
    parts = [part_of(layout, out, entry, system) for entry in out.entries]
    return page(
        request,
        "pages/setting_out_wall.html",
        job=job,
        units=system,
        out=out,
        drawing=drawings(out, system, sheets=SHEETS | {"paper": "letter"}),
        parts=parts,
        against=[(part.mark, part.title, words) for part in parts for words in part.against],
    )


def spot_page(
    request: Request,
    job: Job,
    layout: Layout,
    out: WallOut,
    spot: Spot,
    draft: Draft,
    system: System,
    *,
    version: int,
    status: int = 200,
    changed: bool = False,
    errors: dict[str, str] | None = None,
    heading: str = "",
) -> Response:
    """One kind of thing at one attachment, to be moved by hand. Args: out: the wall with the draft's stations on it."""
    entry = out.entry(spot.mark)
    rows = rows_of(entry, spot.what, system)
    others = [other for other in out.entries if other is not entry and not other.holds]
    return page(
        request,
        "pages/setting_out_spot.html",
        part="pages/parts/setting_out_spot.html",
        status=status,
        job=job,
        units=system,
        out=out,
        spot=spot,
        title=title_of(entry),
        place=place_of(entry, system),
        kinds=[(what, WORDS[what][1], entry.count(what), what == spot.what) for what in movable(entry)],
        words=WORDS[spot.what],
        rows=_typed(rows, draft),
        draft=draft,
        errors={field or "list": message for field, message in (draft.errors if errors is None else errors).items()},
        heading=heading,
        labels=_labels(spot, draft),
        version=version,
        may_move=may(request, "POST", request.scope["route"].path),
        changed=changed,
        moved=layout.moved(out.row.id, spot) is not None,
        single=spot.what in SINGLE,
        against=said(entry.findings, False, system),
        notes=said(entry.findings, True, system),
        elsewhere=[(title_of(o), mark_of(o), said(o.findings, False, system)) for o in others],
        step=_step(layout, entry, spot.what, system),
        grid_in=layout.asked.habits.grid_in,
        drawing=drawings(out, system, key_of(entry)),
        focus=key_of(entry),
    )  # fmt: skip


def may(request: Request, method: str, path: str) -> bool:
    """Whether whoever is signed in may use that route."""
    reader, roles = seen(request), allowed(method, path)
    return reader is not None and roles is not None and reader.role in roles


def _labels(spot: Spot, draft: Draft) -> dict[str, str]:
    """The fields' words for the list of errors."""
    one = WORDS[spot.what][0].capitalize()
    return {f"at-{n}": f"{one} {n + 1}" for n in range(len(draft.rows))} | {"add": "Another station"}


def _step(layout: Layout, entry: SettingOut, what: str, system: System) -> str:
    """What one press of a button moves a station by, in words."""
    row = entry.rows.get(what)
    if row is not None and row.rule.only_at is not None:
        return "to the next place it may stand at"
    return f"by {show(layout.asked.habits.grid_in, 'in', system)}"


def _typed(rows: Sequence[Row], draft: Draft) -> list[Row]:
    """The draft's stations, each with what the check says of it where it stands."""
    found = []
    for n, typed in enumerate(draft.rows):
        at = typed.tried_in
        known = next((row for row in rows if at is not None and abs(row.at_in - at) < EPS), None)
        found.append(
            Row(
                n + 1, at or 0.0, known.station if known else "", known.mm if known else "", known.before if known else "",
                known.count if known else 1, known.note if known else "", known.against if known else (),
                known.near if known else "", typed.text, typed.error,
            )
        )  # fmt: skip
    return found
