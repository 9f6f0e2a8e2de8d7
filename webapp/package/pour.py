"""Sheets of the placing plan: how fast to pump, what presses on the forms, lift by lift; of the walls it was kept for."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from engine import fields
from engine.editions import edition
from engine.errors import BadInput
from engine.placing import Inputs, LiftRow, PlacingPlan, placing_plan, runs
from engine.units import show
from engine.wall import Wall
from webapp.documents import result_json
from webapp.drawings.pressure import clock, pressure_svg
from webapp.package.attachment import alt_of, caution_words, limits
from webapp.package.frozen import Frozen, governing, ratio, value_words
from webapp.package.paper import drawn

OTHER_ENGINE = "Not planned: the job was frozen by engine {}, which is not this one."
UNREADABLE = "Not planned: the job as it was frozen can't be read."


@dataclass(frozen=True, slots=True)
class Pour:
    """One placement. Args: walls: empty where the engine can't build them. texts: answers to `engine.placing.Inputs`."""

    title: str
    names: str
    level: int
    walls: Sequence[Wall]
    texts: Mapping[str, str]


def pours(frozen: Frozen) -> list[Pour]:
    """What is planned: every storey of the whole circuit by the job's answers, and each wall that has answers of its own."""
    shared, walls = frozen.job.get("placing", {}), frozen.job.get("walls", ())
    own = {wall["name"]: wall["placing"] for wall in walls if wall.get("placing")}
    if frozen.typed is None:
        return [Pour("Placing plan", "", 1, (), shared)] if shared or own else []
    built = frozen.typed[1].walls
    found = [*_of("Placing plan", list(built.values()), shared)] if shared else []
    for name, texts in own.items():
        if name in built:
            found += _of(f"Placing plan, wall {name}", [built[name]], {**shared, **texts})
    return found


def _of(title: str, walls: Sequence[Wall], texts: Mapping[str, str]) -> Iterator[Pour]:
    for level in range(1, max((len(wall.storeys) for wall in walls), default=0) + 1):
        there = [wall for wall in walls if level <= len(wall.storeys)]
        names = ", ".join(wall.name for wall in there)
        yield Pour(f"{title}, storey {level}", names, level, there, texts)


def sheets(frozen: Frozen) -> list[dict[str, Any]]:
    """All the template sets of each placement."""
    return [_sheet(frozen, one, number) for number, one in enumerate(pours(frozen), 1)]


def _sheet(frozen: Frozen, one: Pour, number: int) -> dict[str, Any]:
    made = {"title": one.title, "count": f"Placing {number}, ", "names": one.names, "given": _given(one.texts)}
    plan = _plan(frozen, one)
    if isinstance(plan, str):
        return made | {"why": plan}
    result = result_json.result(plan.result)
    leads = governing({"result": result})
    drawing = drawn(lambda: pressure_svg(plan, width_class="letter", prefix=f"pour{number}"), one.title)
    return made | {
        "why": "",
        "verdict": result["verdict"],
        "ratio": ratio(result["ratio"]),
        "governs": leads["title"] if leads else "",
        "says": leads["says"] if leads else "",
        "drawing": drawing,
        "alt": alt_of({"tag": one.title, "name": "pressure on the forms"}, drawing),
        "facts": _facts(plan),
        "lifts": [_lift(row) for row in plan.lifts],
        "note": _note(plan),
        "points": [_point(point) for point in frozen.document.get("hold_points", ())],
        "lines": limits(result["lines"]),
        "cautions": [caution_words(caution) for caution in result["cautions"]],
        "outside": result["not_checked"],
    }


def _plan(frozen: Frozen, one: Pour) -> PlacingPlan | str:
    """The plan, or why there is none."""
    if frozen.typed is None:
        return UNREADABLE if frozen.same_engine else OTHER_ENGINE.format(frozen.document["engine"])
    inputs, errors = fields.read(Inputs, one.texts)
    if inputs is None:
        labels = {spec.name: spec.label for spec in fields.specs(Inputs)}
        return " ".join(f"{labels.get(name, name)}: {why}" for name, why in errors.items())
    try:
        return placing_plan(inputs, runs(one.walls, one.level), edition(frozen.document["edition"]))
    except BadInput as error:
        return error.message


def _given(texts: Mapping[str, str]) -> list[list[Any]]:
    """Every answer by group; what was not entered is the usual value, and says so."""
    inputs, _ = fields.read(Inputs, texts)
    groups: dict[str, list[list[str]]] = {}
    for spec in fields.specs(Inputs):
        if inputs is None and spec.name not in texts:
            continue
        if inputs is not None and not fields.applies(
            spec, {s.name: getattr(inputs, s.name) for s in fields.specs(Inputs)}
        ):
            continue
        said = value_words(spec, texts.get(spec.name, fields.write_one(spec, spec.default)))
        usual = spec.name not in texts and spec.default is not None
        groups.setdefault(spec.group, []).append([spec.label, said + (", usual" if usual else "")])
    return [[group, rows] for group, rows in groups.items()]


def _facts(plan: PlacingPlan) -> list[list[str]]:
    most, bracing = plan.largest, plan.bracing
    if most is None:
        at_most = "not known"
    elif most.any_rate:
        at_most = "as fast as it goes"
    else:
        at_most = show(most.yd3_per_h, "yd³/h") if most.limit_yd3_per_h else "no rate holds"
    return [
        ["Pump", show(plan.inputs.pump_yd3_per_h, "yd³/h")],
        ["At most", at_most],
        ["In the forms", show(plan.volume_yd3, "yd³")],
        ["To order", show(plan.order_yd3, "yd³")],
        ["Trucks", f"{plan.trucks}, one every {plan.truck_every_min:.0f} min"],
        ["From first to last", f"{clock(plan.hours * 60)} h"],
        ["Brace", f"{show(bracing.axial_lb, 'lb')} along it, {show(bracing.vertical_lb, 'lb')} upright"],
    ]


def _lift(row: LiftRow) -> list[str]:
    filling = row.filling
    return [
        str(filling.number),
        f"{show(filling.from_ft, 'ft')} to {show(filling.to_ft, 'ft')}",
        show(filling.volume_yd3, "yd³"),
        clock(filling.starts_min),
        f"{filling.minutes:.0f}",
        show(filling.average_ft_per_h, "ft/h") if filling.minutes else "at once",
        show(row.aci_psf, "psf"),
        "liquid" if row.ciria_psf is None else show(row.ciria_psf, "psf"),
        "not known" if row.ratio is None else ratio(row.ratio) + (" FLAG" if row.ratio > 1 else ""),
        row.wall,
    ]


def _point(texts: Mapping[str, str]) -> list[str]:
    """A hold point of the office as a row: when, whether work waits, what is looked at, by what."""
    source = f"{texts['family']} {texts['section']}".strip() or "common practice"
    return [texts["stage"], "Stop" if texts["stop"] == "yes" else "", texts["words"], source]


def _note(plan: PlacingPlan) -> str:
    more = (
        f" of each circuit; these walls take {plan.circuits} circuits, one after another" if plan.circuits > 1 else ""
    )
    return (
        f"Times are hours and minutes from the first concrete{more}. What rises is over all concrete not yet set; the largest "
        "pressure is taken where the forms of the named wall are asked most. A corner is counted in both its walls."
    )
