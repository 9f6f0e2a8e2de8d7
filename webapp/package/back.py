"""The last sheets: setting out wall by wall, takeoff, checklists, and where every rule stands."""

from collections.abc import Mapping, Sequence
from typing import Any

from engine import set_job, units
from engine.errors import EngineError
from engine.setting_out import WORDS
from engine.takeoff import GROUPS, ITEMS, OUTSIDE, bar_list, bar_weights, takeoff, totals
from engine.takeoff.rows import EACH, FEET, Total
from webapp.drawings.elevation import elevation_svg
from webapp.package.attachment import alt_of
from webapp.package.front import tags_words
from webapp.package.frozen import Frozen
from webapp.package.paper import drawn

TOGETHER = 60  # rows of stations typeset together
PROVENANCE = {
    "read": "read at the source",
    "memory": "from memory, to be read again",
    "derived": "derived",
    "common practice": "common practice, no source",
    "geometry": "geometry",
}


Row = Mapping[str, Any]


def sheets(frozen: Frozen, lists: Sequence[Row]) -> dict[str, Any]:
    """All the template sets of the last sheets. Args: lists: the office's checklists as they stood, of walls and kinds."""
    return {"takeoff": _takeoff(frozen), "checklists": _checklists(frozen, lists), "sources": _sources(frozen)}


def by_walls(frozen: Frozen) -> list[Sequence[Row]]:
    """What is set out, wall by wall, in lots that are typeset apart: one at least, each a chapter of its own."""
    entries: Sequence[Row] = frozen.document["setting_out"]
    rows = [one for wall in dict.fromkeys(one["wall"] for one in entries) for one in entries if one["wall"] == wall]
    return [rows[at : at + TOGETHER] for at in range(0, max(len(rows), 1), TOGETHER)]


def chapters(frozen: Frozen) -> list[str]:
    """What the chapters of setting out are called."""
    lots = len(by_walls(frozen))
    return [f"Setting out {n}" for n in range(1, lots + 1)] if lots > 1 else ["Setting out"]


def setting_out(frozen: Frozen, lot: int) -> dict[str, Any]:
    """One lot: each wall's elevation where the wall begins, and every row of stations."""
    lots = by_walls(frozen)
    begun = {one["wall"] for one in lots[lot - 1]} if lot else set()
    walls = [
        {"wall": f"{wall}, continued", "drawing": "", "alt": ""} if wall in begun else {"wall": wall, **_elevation(frozen, wall)}
        for wall in dict.fromkeys(one["wall"] for one in lots[lot])
    ]  # fmt: skip
    rows = [
        [_set_out(one) for one in lots[lot] if one["wall"] == wall]
        for wall in dict.fromkeys(one["wall"] for one in lots[lot])
    ]
    return {
        "title": chapters(frozen)[lot],
        "walls": [wall | {"rows": own} for wall, own in zip(walls, rows, strict=True)],
    }


def _elevation(frozen: Frozen, wall: str) -> dict[str, str]:
    built = frozen.typed[1].walls.get(wall) if frozen.typed else None
    if built is None:
        return {"drawing": "", "alt": ""}
    made = drawn(lambda: elevation_svg(built, frozen.set_out(wall), width_class="letter", tag=wall), f"wall {wall}")
    return {"drawing": made, "alt": alt_of({"tag": wall, "name": "elevation"}, made)}


def _set_out(one: Mapping[str, Any]) -> dict[str, Any]:
    """One attachment's stations, a row a kind: [what and how many, stations, the same in mm, notes]."""
    kinds = []
    for what in dict.fromkeys(mark["what"] for mark in one["marks"]):
        marks = [mark for mark in one["marks"] if mark["what"] == what]
        count = sum(mark["count"] for mark in marks)
        words = WORDS.get(what, (what, what))[count != 1]
        stations = [_mark(mark) for mark in marks]
        kinds.append([f"{count} {words}", stations, [f"{mark['mm']:,}" for mark in marks], _notes(marks)])
    tag = one["tag"] or f"wall, storey {one['level']}"
    return {"tag": tag, "level": str(one["level"]), "kinds": kinds, "findings": list(one["findings"])}


def _mark(mark: Mapping[str, Any]) -> str:
    return f"{mark['at']} ×{mark['count']}" if mark["count"] != 1 else str(mark["at"])


def _notes(marks: Sequence[Mapping[str, Any]]) -> list[str]:
    """What the crew must know of some stations, each note once with where it holds."""
    notes = dict.fromkeys(mark["note"] for mark in marks if mark["note"])
    return [f"{note}: at {', '.join(mark['at'] for mark in marks if mark['note'] == note)}" for note in notes]


def _takeoff(frozen: Frozen) -> dict[str, Any]:
    """Counted again from the frozen job by the program's usual values; words instead where it can't be."""
    if frozen.typed is None:
        return {"why": f"Not counted: the job was frozen by engine {frozen.document['engine']}, which is not this one."}
    job, standing = frozen.typed
    try:
        from engine import fields
        from engine.setting_out import Habits

        habits, _ = fields.read(Habits, frozen.document["habits"])
        found = takeoff(job, set_job.asked(job, standing, habits))
    except EngineError as error:
        return {"why": f"Not counted: {error}"}
    every = totals(found.rows)
    groups = [
        [name, [_total(total) for total in every if total.item in items]] for name, items in GROUPS.items() if name != "Bars"
    ]  # fmt: skip
    bars = [
        [b.mark, f"No. {b.shape.number}", b.shape.words, str(b.count), units.feet_inches(b.each_in), b.bends, b.hooks,
         f"{b.pounds:,.1f}", ", ".join(b.where)]
        for b in bar_list(found.rows)
    ]  # fmt: skip
    weights = [[w.size, f"{w.total_feet:,.1f}", f"{w.total_pounds:,.0f}"] for w in bar_weights(found.rows)]
    return {
        "why": "",
        "groups": [[name, rows] for name, rows in groups if rows],
        "bars": bars,
        "weights": weights,
        "left_out": [f"{left.wall} {left.tag}".strip() + f": {left.why}" for left in found.left_out],
        "outside": list(OUTSIDE),
    }


def _total(total: Total) -> list[str]:
    each = units.feet_inches(total.each_in) if total.each_in else ""
    weight = f"{total.pounds:,.1f}" if total.pounds is not None else ""
    return [ITEMS[total.item][0], total.size, each, _amount(total), weight]


def _amount(total: Total) -> str:
    if total.unit == EACH:
        whole = abs(total.net - round(total.net)) < 1e-6
        return f"{total.net:,.0f}" if whole else units.fraction(total.net)
    return f"{total.net:,.1f} ft" if total.unit == FEET else f"{total.net:,.2f} {total.unit}"


def _checklists(frozen: Frozen, lists: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Lists of what the job has, to tick on paper: its walls, then each kind with the tags it is walked for."""
    kinds = {one["kind"]: one["name"] for one in frozen.attachments}
    found = []
    for one in lists:
        if one["kind"] == "wall" and frozen.job.get("walls"):
            where = ", ".join(wall["name"] for wall in frozen.job["walls"])
            found.append({"name": "Walls", "stage": one["stage"], "where": where, "rows": list(one["rows"])})
        elif one["kind"] in kinds:
            tags = [a["tag"] for a in frozen.attachments if a["kind"] == one["kind"]]
            where = ", ".join(tags)
            found.append({"name": kinds[one["kind"]], "stage": one["stage"], "where": where, "rows": list(one["rows"])})
    return found


def _sources(frozen: Frozen) -> list[list[str]]:
    """Every rule that was used, where it stands, how the engine came by it, and who uses it."""
    found: dict[tuple[str, str, str], list[str]] = {}
    for one in frozen.attachments:
        for line in one["result"].get("lines", ()):
            for step in line["working"]:
                if step["provenance"] != "geometry":
                    found.setdefault((step["source"], step["title"], step["provenance"]), []).append(one["tag"])
    return [
        [source, title, PROVENANCE.get(provenance, provenance), tags_words(tags, len(frozen.attachments))]
        for (source, title, provenance), tags in sorted(found.items())
    ]
