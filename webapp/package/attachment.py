"""An attachment's sheets: the drawing, what was given, every limit with its working, what is to be minded, what was not checked."""

import re
from collections.abc import Mapping, Sequence
from html import unescape
from json import dumps
from types import MappingProxyType
from typing import Any

from engine import fields
from engine.errors import BadInput
from engine.placed import Place
from webapp.drawings import section_svg
from webapp.package import mathematics as maths
from webapp.package.frozen import (
    Attachment,
    Frozen,
    designed_by,
    governing,
    place_words,
    ratio,
    specs,
    value_words,
)
from webapp.package.once import elsewhere
from webapp.package.paper import drawn, on_paper

MISSING = "Not drawn: "
PT_IN_PX, LEAST_PT = 0.75, 60.0
HEAD_PT, ROW_PT, LINE = 21.0, 12.3, 27  # of the table beside the drawing; letters that fit on a line of it


def sheet(frozen: Frozen, one: Attachment, first: Mapping[bytes, str] = MappingProxyType({})) -> dict[str, Any]:
    """All that the template sets of one attachment. Args: first: where each working stands in full, `once.first_places`."""
    result, leads = one["result"], governing(one)
    shared = elsewhere(result.get("lines", ()), one["tag"], first)
    drawing, why = _drawing(frozen, one)
    return {
        "tag": one["tag"],
        "name": one["name"],
        "place": place_words(one),
        "verdict": result["verdict"],
        "ratio": ratio(result.get("ratio")),
        "says": leads["says"] if leads else "",
        "lines_verdict": result.get("lines_verdict", ""),
        "governs": leads["title"] if leads else "",
        "drawing": drawing,
        "alt": alt_of(one, drawing),
        "undrawn": why,
        "given": _split(_given(one), drawing),
        "refused": _refused(one),
        "lines": limits(result.get("lines", ()), shared),
        "shared": _shared(result.get("lines", ()), shared),
        "cautions": [caution_words(caution) for caution in result.get("cautions", ())],
        "outside": list(result.get("not_checked", ())),
        "designs": [
            f"{d['who']}, {d['licence']}, {d['dated']}: {d['scope']} File {d['file']}, SHA-256 {d['sha256']}."
            for d in designed_by(frozen, one)
        ],
    }


def _drawing(frozen: Frozen, one: Attachment) -> tuple[str, str]:
    """The drawing for paper, or why there is none."""
    found = frozen.checked(one)
    if found is not None:
        inputs, result = found
        title = f"Section across wall {one['wall']}, floor level {one['level']}"
        made = drawn(
            lambda: section_svg(one["kind"], inputs, result, width_class="letter", tag=one["tag"], title=title),
            one["tag"],
        )
        return made, "" if made else f"{MISSING}its geometry could not be laid out."
    if one["drawing"] and not frozen.same_engine:
        return on_paper(one["drawing"]), ""
    wrong = [label for label, _ in _refused(one)]
    return "", f"{MISSING}{', '.join(wrong) or 'its inputs'} can't be used as entered."


def alt_of(one: Attachment, drawing: str) -> str:
    """What the drawing shows, in the words it carries itself."""
    said = [unescape(part) for part in re.findall(r"<(?:title|desc) id=[^>]*>([^<]*)</", drawing)]
    return " ".join(filter(None, said)) or f"Drawing of {one['tag']}, {one['name']}"


def _given(one: Attachment) -> list[list[Any]]:
    """What was entered and what followed the wall, by group: [heading, rows of label and value]."""
    known, texts = specs(one["kind"]), one["inputs"]
    values = _values(known, texts)
    groups: dict[str, list[list[str]]] = {}
    for spec in known:
        if spec.name in texts and fields.applies(spec, values):
            groups.setdefault(spec.group, []).append([spec.label, value_words(spec, texts[spec.name])])
    names = {spec.name for spec in known}
    others = [[name, text] for name, text in texts.items() if name not in names]
    return [[group, rows] for group, rows in groups.items()] + ([["As entered", others]] if others else [])


def _values(known: Sequence[fields.Spec], texts: Mapping[str, str]) -> dict[str, Any]:
    found = {spec.name: spec.default for spec in known}
    for spec in known:
        if spec.name in texts:
            try:
                found[spec.name] = fields.read_one(spec, texts[spec.name])
            except BadInput:
                found[spec.name] = texts[spec.name]
    return found


def _refused(one: Attachment) -> list[tuple[str, str]]:
    """Fields that can't be used, by their labels, with why."""
    labels = {spec.name: spec.label for spec in (*fields.specs(Place), *specs(one["kind"]))}
    errors = one["result"].get("errors", {})
    return [(labels.get(name, name.replace("_", " ").capitalize()), why) for name, why in errors.items()]


def _split(groups: list[list[Any]], drawing: str) -> dict[str, list[Any]]:
    """Groups that stand beside the drawing, as many as are no taller than it, and those below."""
    found = re.search(r'viewBox="0 0 [\d.]+ ([\d.]+)"', drawing)
    left = float(found[1]) * PT_IN_PX if found else LEAST_PT
    beside = 0
    for _, rows in groups:
        left -= HEAD_PT + sum(ROW_PT * (2 if len(label) > LINE or len(value) > LINE else 1) for label, value in rows)
        if left < 0 and beside:
            break
        beside += 1
    return {"beside": groups[:beside], "below": _halves(groups[beside:])}


def _halves(groups: list[list[Any]]) -> list[list[list[Any]]]:
    """Groups in two columns about as tall as each other; nothing of nothing."""
    tall = [len(rows) + 2 for _, rows in groups]
    cut = min(range(len(groups) + 1), key=lambda at: max(sum(tall[:at]), sum(tall[at:])))
    return [groups[:cut], groups[cut:]] if groups else []


def _shared(lines: Sequence[Mapping[str, Any]], shared: Mapping[str, str]) -> list[list[str]]:
    """Where limits are worked in full: [tag, their titles]."""
    titles = {line["key"]: line["title"] for line in lines}
    return [
        [tag, "; ".join(titles[key] for key, at in shared.items() if at == tag)]
        for tag in dict.fromkeys(shared.values())
    ]


def limits(
    lines: Sequence[Mapping[str, Any]], shared: Mapping[str, str] = MappingProxyType({})
) -> list[dict[str, Any]]:
    """Lines with their working; what an earlier line or attachment has already, number for number, is not set again."""
    made, seen = [], dict[str, str]()
    for line in lines:
        steps = []
        for step in () if line["key"] in shared else line["working"]:
            mark = dumps(step, sort_keys=True)
            if mark in seen and seen[mark] != line["title"]:
                steps.append(
                    {"t": step["title"], "g": maths.gives(step["result"], step["unit"]), "as": seen[mark], "l": 0}
                )
            else:
                seen[mark] = line["title"]
                steps.append(maths.step(step))
        made.append(_line(line) | {"steps": steps, "shared": line["key"] in shared})
    return made


def _line(line: Mapping[str, Any]) -> dict[str, Any]:
    spread = line.get("spread")
    shown = ratio(line["ratio"])
    if spread and line["verdict"] == "advisory":
        shown = f"{ratio(spread[0])} to {ratio(spread[1])}"
    return {
        "verdict": line["verdict"],
        "title": line["title"],
        "asked": maths.amount(line["demand"], line["unit"]),
        "there": maths.amount(line["capacity"], line["unit"]),
        "ratio": shown,
        "at": _share(line["ratio"]),
        "source": line["source"],
        "says": line["says"],
        "combination": line["combination"],
    }


def _share(value: Any) -> float | None:
    """Where a ratio stands on its strip, which ends at 1.6."""
    if value is None:
        return None
    return 1.7 if value == "infinite" else min(float(value), 1.7)


def caution_words(caution: Mapping[str, Any]) -> str:
    """A caution with where it comes from."""
    source = caution["source"] or ("common practice" if caution["common_practice"] else "")
    return f"{caution['text']} ({source})" if source else str(caution["text"])
