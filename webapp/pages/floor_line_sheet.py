"""What pages say of a floor line: its joists, what it brings to the wall, what of it is carried."""

import re
from typing import Any

from starlette.responses import Response

from engine import attachments as kinds
from engine import fields
from engine.fields import Spec
from engine.floor import LOADS, Floor
from engine.setting_out import station
from engine.units import System, show
from webapp.models import Attachment
from webapp.services.floor_lines import Line, Stretch
from webapp.services.standing import Standing

Pairs = list[tuple[str, str]]


def joists_words(line: Line, system: System) -> str:
    """ "11 at 16 in"; "" where the line can't be used."""
    floor = line.laid.floor
    return f"{line.count} at {show(floor.spacing_in, 'in', system)}" if floor else ""


def bare_words(line: Line, system: System) -> str:
    """Which joists nothing carries; "" where all are carried."""
    return "; ".join(_stretch(stretch, system) for stretch in line.bare)


def _stretch(stretch: Stretch, system: System) -> str:
    first, last = station(stretch.start_in, system), station(stretch.end_in, system)
    return f"1 joist at {first}" if stretch.joists == 1 else f"{stretch.joists} joists from {first} to {last}"


def run_words(line: Line) -> str:
    """Where it runs, as typed."""
    return f"{line.row.start} to {line.row.end or 'the far end'}"


def facts(standing: Standing, line: Line, system: System) -> dict[str, Any]:
    """Context of `pages/floor_line.html`."""
    floor = line.laid.floor
    return {
        "joists": joists_words(line, system),
        "bare": bare_words(line, system),
        "run": run_words(line),
        "notes": [note.text(system) for note in line.joists.findings] if line.joists else [],
        "floor": _as_typed(floor, system) if floor else [],
        "reactions": _reactions(floor, system) if floor else [],
        "loads": _loads(floor, system) if floor else [],
        "carriers": [(row, _kind(row), _at(row)) for row in line.carriers],
        "wall": standing.walls.get(line.row.wall_id),
    }


def _kind(row: Attachment) -> str:
    return kinds.kind(row.kind).name


def _at(row: Attachment) -> str:
    return f"{row.start} to {row.end}" if row.end else f"at {row.start}"


def _as_typed(floor: Floor, system: System) -> Pairs:
    """The joists' own numbers, those that were given."""
    return [
        (spec.label, _value(spec, floor, system))
        for spec in fields.specs(Floor)
        if spec.group != LOADS and fields.applies(spec, _values(floor)) and getattr(floor, spec.name) is not None
    ]


def _values(floor: Floor) -> dict[str, Any]:
    return {spec.name: getattr(floor, spec.name) for spec in fields.specs(Floor)}


def _value(spec: Spec, floor: Floor, system: System) -> str:
    value = getattr(floor, spec.name)
    if spec.kind == "choice":
        return dict(spec.options).get(value, str(value))
    return ("yes" if value else "no") if spec.kind == "yes" else show(value, spec.unit, system)


def _reactions(floor: Floor, system: System) -> Pairs:
    """At a joist's end, by type of load."""
    found = (
        ("Dead", floor.end_dead_lb), ("Live", floor.end_live_lb), ("Snow", floor.end_snow_lb),
        ("Wind across the wall", floor.pull_wind_lb), ("Earthquake across the wall", floor.pull_seismic_lb),
    )  # fmt: skip
    return [(words, show(value, "lb", system)) for words, value in found if value]


def _loads(floor: Floor, system: System) -> list[tuple[str, str, str]]:
    """Along the line by type of load: from the joists, and from above."""
    found = (
        ("Dead", floor.line_dead_plf, floor.wall_dead_plf), ("Live", floor.line_live_plf, floor.wall_live_plf),
        ("Snow", floor.line_snow_plf, floor.wall_snow_plf), ("Wind uplift", 0.0, floor.uplift_plf),
        ("Wind across the wall", floor.across_wind_plf, 0.0), ("Earthquake across the wall", floor.across_seismic_plf, 0.0),
    )  # fmt: skip

    def plf(value: float) -> str:
        return show(value, "plf", system) if value else "none"

    return [(words, plf(own), plf(above)) for words, own, above in found if own or above]


def csv_row(line: Line, system: System) -> list[object]:
    """A row of the list as a file."""
    row, floor = line.row, line.laid.floor
    place: list[object] = [row.name, line.wall, row.level, row.start, row.end]
    if floor is None:
        return [*place, *[""] * 6, line.why, "", ""]
    loads = (floor.end_dead_lb, floor.end_live_lb, floor.end_snow_lb)
    tags = ", ".join(f"{a.tag} {a.verdict}" for a in line.carriers)
    return [
        *place, line.count, show(floor.spacing_in, "in", system), show(floor.span_ft, "ft", system), *(f"{v:.1f}" for v in loads),
        tags, line.carried, bare_words(line, system),
    ]  # fmt: skip


def csv_file(text: str, name: str) -> Response:
    """A table as a download."""
    plain = re.sub(r"[^A-Za-z0-9]+", "-", name).strip("-").lower()[:80] or "table"
    headers = {"Content-Disposition": f'attachment; filename="{plain}.csv"'}
    return Response(text, media_type="text/csv; charset=utf-8", headers=headers)
