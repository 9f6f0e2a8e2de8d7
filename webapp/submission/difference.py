"""How two frozen revisions differ, place by place: what changed in value and in verdict."""

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from typing import Any

from engine import attachments, fields
from engine.errors import BadInput

PLACE = (("name", "Kind"), ("wall", "Wall"), ("level", "Floor level"), ("start", "Starts at"), ("end", "Ends at"))


@dataclass(frozen=True, slots=True)
class Change:
    """One value that is another one now; "" where there was or is none. unit: the engine's unit of both."""

    label: str
    before: str
    after: str
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """One attachment or wall that changed. what: "added", "removed" or "changed". Verdicts are "" where there is none."""

    tag: str
    name: str
    wall: str
    what: str
    before: str
    after: str
    ratio_before: Any = None
    ratio_after: Any = None
    changes: tuple[Change, ...] = ()

    @property
    def turned(self) -> bool:
        """Whether the verdict is another one."""
        return self.before != self.after


def differences(before: Mapping[str, Any], after: Mapping[str, Any]) -> tuple[Place, ...]:
    """Every place that differs, in the order of tags; then walls, and the job's own head. Args: two documents."""
    was, now = (_by(document["attachments"], "tag") for document in (before, after))
    tags = sorted(was.keys() | now.keys(), key=lambda tag: (len(tag), tag))
    by_hand = [_by(document["job"]["attachments"], "tag") for document in (before, after)]
    moved = {tag: _moved(*(rows.get(tag, {}).get("moved", {}) for rows in by_hand)) for tag in tags}
    places = [place for tag in tags if (place := _attachment(tag, was.get(tag), now.get(tag), moved[tag]))]
    return (*places, *_walls(before["job"], after["job"]), *_head(before, after))


def _by(rows: list[dict[str, Any]], key: str) -> dict[str, dict[str, Any]]:
    return {row[key]: row for row in rows}


def _moved(was: Mapping[str, list[str]], now: Mapping[str, list[str]]) -> tuple[Change, ...]:
    """Stations moved by hand, by what they are; "" where they are as calculated."""
    return tuple(
        Change(f"Moved by hand: {what}", ", ".join(was.get(what, ())), ", ".join(now.get(what, ())))
        for what in sorted(was.keys() | now.keys())
        if was.get(what) != now.get(what)
    )


def _attachment(
    tag: str, was: dict[str, Any] | None, now: dict[str, Any] | None, moved: tuple[Change, ...]
) -> Place | None:
    one = now or was
    if one is None:
        return None
    verdicts = [row["result"]["verdict"] if row else "" for row in (was, now)]
    ratios = [row["result"].get("ratio") if row else None for row in (was, now)]
    what = "changed" if was and now else "added" if now else "removed"
    changes = (*_changes(was, now), *moved) if was and now else ()
    if was and now and not changes and verdicts[0] == verdicts[1] and ratios[0] == ratios[1]:
        return None
    return Place(tag, one["name"], one["wall"], what, verdicts[0], verdicts[1], ratios[0], ratios[1], changes)


def _changes(was: dict[str, Any], now: dict[str, Any]) -> tuple[Change, ...]:
    known = {}
    with suppress(BadInput):  # a kind this program no longer has: its names are shown as they are
        known = {spec.name: spec for spec in fields.specs(attachments.kind(now["kind"]).inputs)}
    place = [Change(words, str(was[name]), str(now[name])) for name, words in PLACE if was[name] != now[name]]
    names = [*now["inputs"], *(name for name in was["inputs"] if name not in now["inputs"])]
    inputs = [
        Change(
            known[name].label if name in known else name,
            was["inputs"].get(name, ""),
            now["inputs"].get(name, ""),
            known[name].unit if name in known else "",
        )
        for name in names
        if was["inputs"].get(name, "") != now["inputs"].get(name, "")
    ]
    return (*place, *inputs)


def _walls(before: Mapping[str, Any], after: Mapping[str, Any]) -> tuple[Place, ...]:
    was, now = (_by(job["walls"], "name") for job in (before, after))
    places = []
    for name in sorted(was.keys() | now.keys()):
        old, new = was.get(name), now.get(name)
        if old == new:
            continue
        what = "changed" if old and new else "added" if new else "removed"
        places.append(Place("", "Wall", name, what, "", "", changes=_flat_changes(old or {}, new or {})))
    return tuple(places)


def _head(before: Mapping[str, Any], after: Mapping[str, Any]) -> tuple[Place, ...]:
    parts = ("site", "wall_types", "edition", "name", "placing", "floor_lines")
    was, now = ({part: document["job"].get(part) for part in parts} for document in (before, after))
    for name in ("engine", "judged_on", "habits", "designs", "hold_points"):
        was[name], now[name] = before.get(name), after.get(name)
    changes = _flat_changes(was, now)
    return (Place("", "The job itself", "", "changed", "", "", changes=changes),) if changes else ()


def _flat_changes(was: Any, now: Any, at: str = "") -> tuple[Change, ...]:
    """Leaves that differ, with the way to each."""
    if was == now:
        return ()
    if isinstance(was, Mapping) and isinstance(now, Mapping):
        names = sorted(was.keys() | now.keys())
        return tuple(c for n in names for c in _flat_changes(was.get(n), now.get(n), f"{at} {n}".strip()))
    if isinstance(was, list) and isinstance(now, list):
        longest = range(max(len(was), len(now)))
        return tuple(
            c
            for n in longest
            for c in _flat_changes(
                was[n] if n < len(was) else None, now[n] if n < len(now) else None, f"{at} {n + 1}".strip()
            )
        )
    if isinstance(was, Mapping | list) or isinstance(now, Mapping | list):
        empty: Any = {} if isinstance(was, Mapping) or isinstance(now, Mapping) else []
        return _flat_changes(was if was is not None else empty, now if now is not None else empty, at)
    return (Change(at, "" if was is None else str(was), "" if now is None else str(now)),)
