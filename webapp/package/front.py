"""The first sheets: cover, editions, assumptions and cautions, summary by wall, plan."""

from collections import Counter
from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any

from engine import attachments, fields
from engine.errors import BadInput
from engine.placed import Place, Site
from webapp.drawings.plan import plan_svg
from webapp.drawings.plan_words import Carried
from webapp.package.attachment import alt_of, caution_words
from webapp.package.frozen import Attachment, Frozen, governing, ratio, value_words
from webapp.package.paper import drawn

ORDER = ("flag", "refer", "not checked", "pass")


def sheets(frozen: Frozen, counts: Mapping[str, int]) -> dict[str, Any]:
    """All the template sets of the first sheets. Args: counts: how many sheets each attachment takes, by tag."""
    return {
        "job": _job(frozen),
        "editions": [[family, title] for family, title in frozen.document["editions"].items()],
        "engine": frozen.document["engine"],
        "judged_on": frozen.document["judged_on"],
        "verdicts": _verdicts(frozen),
        "assumptions": _assumptions(frozen),
        "cautions": _gathered(frozen, lambda one: [caution_words(c) for c in one["result"].get("cautions", ())]),
        "outside": _gathered(frozen, lambda one: one["result"].get("not_checked", ())),
        "designs": [
            [d["who"], d["licence"], d["dated"], d["scope"], ", ".join(d["covers"]), d["file"], d["sha256"]]
            for d in frozen.document["designs"]
        ],
        "summary": _summary(frozen, counts),
        "plans": _plans(frozen),
        "note": frozen.job.get("notes", ""),
    }


def _job(frozen: Frozen) -> list[list[str]]:
    job = frozen.job
    rows = [["Client", job.get("client", "")], ["Place", job.get("place", "")]]
    return [row for row in rows if row[1]]


def _verdicts(frozen: Frozen) -> list[list[Any]]:
    found = Counter(one["result"]["verdict"] for one in frozen.attachments)
    return [[verdict, found[verdict]] for verdict in ORDER if found[verdict]]


def _assumptions(frozen: Frozen) -> list[list[str]]:
    """What holds for the whole job: site and walls' types as typed or as they are by default."""
    site = frozen.job.get("site", {})
    return [
        [spec.label, value_words(spec, site.get(spec.name, fields.write_one(spec, spec.default)))
         + ("" if spec.name in site else ", not entered: taken")]
        for spec in fields.specs(Site)
    ]  # fmt: skip


def _gathered(frozen: Frozen, of: Any) -> list[list[str]]:
    """What several attachments say alike, once, with who says it."""
    found: dict[str, list[str]] = {}
    for one in frozen.attachments:
        for text in of(one):
            found.setdefault(text, []).append(one["tag"])
    return [[text, tags_words(tags, len(frozen.attachments))] for text, tags in found.items()]


def tags_words(tags: Sequence[str], of: int) -> str:
    """Tags in a line: all of them, or the first few and how many more."""
    tags = list(dict.fromkeys(tags))
    if len(tags) == of and of > 1:
        return "all"
    return ", ".join(tags) if len(tags) <= 8 else f"{', '.join(tags[:7])} and {len(tags) - 7} more"


def _summary(frozen: Frozen, counts: Mapping[str, int]) -> list[dict[str, Any]]:
    """Attachments by wall, in the job's order of walls."""
    walls = [wall["name"] for wall in frozen.job.get("walls", ())]
    walls += [name for name in dict.fromkeys(one["wall"] for one in frozen.attachments) if name not in walls]
    return [
        {"wall": name, "rows": [_row(one, counts) for one in frozen.attachments if one["wall"] == name]}
        for name in walls
    ]


def _row(one: Attachment, counts: Mapping[str, int]) -> dict[str, Any]:
    leads = governing(one)
    along = f"{one['start']} to {one['end']}" if one["end"] else one["start"]
    return {
        "tag": one["tag"],
        "name": one["name"],
        "level": str(one["level"]),
        "along": along,
        "verdict": one["result"]["verdict"],
        "governs": leads["title"] if leads else "; ".join(one["result"].get("errors", {}).values()),
        "ratio": ratio(one["result"].get("ratio")),
        "sheets": counts.get(one["tag"], 0),
    }


def _plans(frozen: Frozen) -> list[list[str]]:
    """Each floor level's plan: [its words, the drawing, what it shows]."""
    walls = list(frozen.typed[1].walls.values()) if frozen.typed else []
    rows = [row for one in frozen.attachments if (row := _carried(one))]
    found = []
    for level in range(1, levels(frozen) + 1):
        made = drawn(partial(plan_svg, walls, rows, {}, width_class="letter", level=level), f"the plan, level {level}")
        found.append([f"Plan, floor level {level}", made, alt_of({"tag": f"P{level}", "name": "plan"}, made)])
    return found


def levels(frozen: Frozen) -> int:
    """How many floor levels are drawn in plan."""
    return max((len(wall.storeys) for wall in frozen.typed[1].walls.values()), default=0) if frozen.typed else 0


def _carried(one: Attachment) -> Carried | None:
    place, _ = fields.read(Place, {"level": str(one["level"]), "start_ft": one["start"], "end_ft": one["end"]})
    try:
        kind = attachments.kind(one["kind"])
    except BadInput:
        return None
    if place is None:
        return None
    end = None if kind.point else place.end_ft
    return Carried(
        one["tag"], one["kind"], kind.name, one["wall"], place.level, place.start_ft, end, one["result"]["verdict"]
    )
