"""A sheet to fill in: every heading of a subject with its unit, and one row that holds in the job."""

from collections.abc import Mapping

from engine.units import System
from webapp.forms.quantities import default, shown
from webapp.imports.columns import headings
from webapp.imports.subjects import KIND, WALL, Subject
from webapp.services.imports import State


def example(subject: Subject, state: State, system: System) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The headings, and a row at the usual values on the job's first wall, in the reader's units."""
    given = _given(subject, state)
    row = tuple(shown(t.spec, given.get(t.key, default(t.spec)), system) for t in subject.targets)
    return headings(subject, system), row


def _given(subject: Subject, state: State) -> Mapping[str, str]:
    walls, types = list(state.standing.plan.walls.values()), [row.name for row in state.standing.types]
    number = len(state.standing.walls) + 1
    usual = {"name": f"W{number}" if subject.key == "walls" else f"F{len(state.lines) + 1}", WALL: "W1"}
    usual |= {"length_ft": "24 ft", "start_ft": "4 ft", "width_ft": "3 ft", KIND: subject.name}
    if types:
        usual |= {"storeys-1-type": types[0], "storeys-2-type": types[-1]}
    usual |= {f"storeys-{n}-height_ft": "" for n in range(3, 9)}
    if walls:
        usual |= {WALL: walls[0].name, "at_end_ft": f"{walls[0].line.length_ft:g} ft"}
    return usual
