"""What is done for each way of carrying a floor line, before the concrete is placed and after: a table. Common practice."""

from functools import cache
from typing import Any, NamedTuple


class Step(NamedTuple):
    """One operation along the line. Args: when: (input, values) for which it is done; always where there is none."""

    words: str
    before: bool
    when: tuple[str, tuple[Any, ...]] | None = None


PLATED = ("plate", ("2x4", "2x6", "2x8", "2x10", "3x4", "3x6"))
CUT_BEHIND = ("contact", ("tight", "grout"))

STEPS: dict[str, tuple[Step, ...]] = {
    "ledge_seat": (
        Step("cut the inner panel to the taper", True, ("top", ("taper",))),
        Step("cut the upper panel at each joist", True, ("upper_foam", ("cut_joist",))),
        Step("cut the upper panel along the line", True, ("upper_foam", ("cut_line",))),
        Step("set the plate's bolts", True, PLATED),
        Step("drill and bolt down the plate", False, PLATED),
        Step("lay a moisture barrier under the joists", False, ("plate", ("none",))),
        Step("set the joists", False),
        Step("close the cut foam round the joists", False, ("upper_foam", ("cut_joist", "cut_line"))),
    ),
    "bolted_ledger": (
        Step("cut the foam out at each bolt", True, ("contact", ("pads",))),
        Step("cut the foam away along the ledger", True, ("contact", ("strip",))),
        Step("set and hold the bolts", True),
        Step("drill and bolt on the ledger", False),
        Step("nail on the hangers", False, ("direction", ("perpendicular",))),
        Step("set the joists", False),
        Step("fix the ties", False, ("ties", ("listed",))),
    ),
    "anchored_plate": (
        Step("cut the foam out at each plate", True, CUT_BEHIND),
        Step("set the anchors through a template", True),
        Step("pack grout under the plates", False, ("contact", ("grout",))),
        Step("bolt on the plates", False),
        Step("bolt on the ledger", False, ("carried", ("ledger",))),
        Step("nail on the hangers", False, ("carried", ("ledger",))),
        Step("set the joists", False),
        Step("slot the joists' ends", False, ("legs", ("slot",))),
        Step("fasten the joists", False, ("carried", ("joist", "beam"))),
    ),
    "cast_in_plate": (
        Step("slit the foam at each joist", True, ("kind", ("plate",))),
        Step("set and brace the parts", True),
        Step("survey the parts", False, ("surveyed", (True,))),
        Step("set the joists", False),
        Step("drive the screws", False),
    ),
}  # fmt: skip


def steps(kind: str, inputs: Any) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Steps before and after placing, in order. Args: kind: of attachment. inputs: its inputs."""
    return _steps(
        kind, tuple([step.when is None or getattr(inputs, step.when[0]) in step.when[1] for step in STEPS[kind]])
    )


@cache
def _steps(kind: str, done: tuple[bool, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Args: done: which of the kind's steps."""
    found = [step for step, is_done in zip(STEPS[kind], done, strict=True) if is_done]
    return tuple(s.words for s in found if s.before), tuple(s.words for s in found if not s.before)
