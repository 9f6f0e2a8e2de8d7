"""Whether a group of anchors can be built at all: in the concrete, clear of each other, within its thickness."""

from itertools import combinations
from math import hypot, isfinite
from typing import TYPE_CHECKING

from engine import units
from engine.errors import BadInput, OutOfScope

if TYPE_CHECKING:
    from engine.clauses.us.anchors_model import AnchorGroup

POSITIVE = ("d_a_in", "h_ef_in", "f_c_psi", "lambda_a")
EDGE_DISTANCES = ("c_x1_in", "c_x2_in", "c_y1_in", "c_y2_in")


def check(group: "AnchorGroup") -> None:
    """Raises: BadInput naming what clashes and by how many inches, OutOfScope for what chapter 17 leaves out."""
    _numbers(group)
    _scope(group)
    _side_faces(group)
    _neighbours(group)
    _depth(group)
    if group.head.kind == "hooked":
        _hooks(group)


def _inches(value: float) -> str:
    return units.show(value, "in")


def _numbers(group: "AnchorGroup") -> None:
    if not group.positions_in:
        raise BadInput("positions_in", "Give the place of at least one anchor.")
    for x, y in group.positions_in:
        if not (isfinite(x) and isfinite(y)):
            raise BadInput("positions_in", "Give every place as a number of inches.")
    for name in POSITIVE:
        if not (isfinite(getattr(group, name)) and getattr(group, name) > 0):
            raise BadInput(name, "Enter a number above zero.")
    for name in (*EDGE_DISTANCES, "h_a_in", "next_x1_in", "next_x2_in"):
        value = getattr(group, name)
        if value is not None and not (isfinite(value) and value > 0):
            raise BadInput(name, "Enter a distance above zero, or leave it out where the concrete goes on.")
    if not (isfinite(group.cover_in) and group.cover_in >= 0):
        raise BadInput("cover_in", "Enter a cover of zero or more.")


def _scope(group: "AnchorGroup") -> None:
    if group.d_a_in > 4:
        raise OutOfScope(
            "ACI 318-19 17.3.2",
            "anchors above 4 in diameter are outside chapter 17; bring them to a licensed engineer.",
        )
    if group.f_c_psi < 2500:  # 19.2.1.1, memory
        raise OutOfScope(
            "ACI 318-19 19.2.1.1",
            "structural concrete has at least 2,500 psi; bring test results of the concrete to a licensed engineer.",
        )


def _side_faces(group: "AnchorGroup") -> None:
    half = max(group.d_a_in, group.head.width_in) / 2
    for name, edge in zip(EDGE_DISTANCES, group.edge_names, strict=True):
        distance = getattr(group, name)
        if distance is not None and distance < half:
            raise BadInput(
                name,
                f"The anchor's steel comes {_inches(half - distance)} out of the concrete at {edge}: "
                f"{_inches(distance)} to its centre, {_inches(half)} from centre to steel.",
            )


def _neighbours(group: "AnchorGroup") -> None:
    width = max(group.d_a_in, group.head.width_in)
    for (x1, y1), (x2, y2) in combinations(group.positions_in, 2):
        # a hypotenuse only where a square of that width does not already tell them apart
        if abs(x1 - x2) < width and abs(y1 - y2) < width and (apart := hypot(x1 - x2, y1 - y2)) < width:
            raise BadInput("positions_in", f"Two anchors {_inches(apart)} apart overlap by {_inches(width - apart)}.")
    for name in ("next_x1_in", "next_x2_in"):
        apart_in = getattr(group, name)
        if apart_in is not None and apart_in < width:
            raise BadInput(name, f"Anchors {_inches(apart_in)} apart overlap by {_inches(width - apart_in)}.")


def _depth(group: "AnchorGroup") -> None:
    if group.h_a_in is None:
        return
    needed = group.h_ef_in + group.head.thickness_in + group.cover_in
    if needed > group.h_a_in + 1e-9:
        raise BadInput(
            "h_ef_in",
            f"Embedment {_inches(group.h_ef_in)}, {group.head.label} {_inches(group.head.thickness_in)} and cover "
            f"{_inches(group.cover_in)} need {_inches(needed)}; the concrete is {_inches(group.h_a_in)} thick, "
            f"{_inches(needed - group.h_a_in)} short.",
        )


def _hooks(group: "AnchorGroup") -> None:
    """A hook may turn any of the four ways; each needs one that keeps its tip inside the cover."""
    leg = group.d_a_in / 2 + group.head.e_h_in
    x1, x2, y1, y2 = group.outline_in
    for x, y in group.positions_in:
        ways = [None if e is None else abs(a - e) for a, e in ((x, x1), (x, x2), (y, y1), (y, y2))]
        known = [way for way in ways if way is not None]
        if len(known) == len(ways) and max(known) + 1e-9 < leg + group.cover_in:
            raise BadInput(
                "head",
                f"The hook reaches {_inches(leg)} from the bolt's centre and needs {_inches(group.cover_in)} cover; the "
                f"farthest face is {_inches(max(known))} away, {_inches(leg + group.cover_in - max(known))} short.",
            )
