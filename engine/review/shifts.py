"""Bolts and anchors found off their place: what a shift in one direction does to an attachment's inputs.

The wood or the member stays where it is drawn; only the steel in the concrete moved. Signs: along the wall to the right, up, across
the wall toward the room. Geometry alone; what the codes then ask is asked by the kind's own check.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from engine import attachments, fields
from engine.errors import BadInput

ALONG, UP, ACROSS = "shift_along_in", "shift_up_in", "shift_across_in"


@dataclass(frozen=True, slots=True)
class Moves:
    """What a shift changes, by names of inputs [in].

    Args: more, less: grow or shrink by the shift with its sign. nearer: lose its size, since it is not known which side is meant;
    in a row of bolts they are tried farther too.
    spaced: one neighbour is nearer by its size, the other farther; both are tried. multiples: stay as many times `spaced`.
    """

    more: tuple[str, ...] = ()
    less: tuple[str, ...] = ()
    nearer: tuple[str, ...] = ()
    spaced: str = ""
    multiples: tuple[str, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """Every input that moves."""
        return tuple(filter(None, (*self.more, *self.less, *self.nearer, self.spaced)))


MOVES: Mapping[str, Mapping[str, Moves]] = {
    "ledge_seat": {
        ALONG: Moves(nearer=("bolt_end_in",), spaced="bolt_spacing_in"),
        ACROSS: Moves(more=("bolt_from_back_in",)),
    },
    "bolted_ledger": {
        ALONG: Moves(nearer=("end_in",), spaced="spacing_in", multiples=("tie_spacing_in",)),
        UP: Moves(more=("below_in",), less=("top_edge_in", "top_in")),
    },
    "anchored_plate": {
        ALONG: Moves(more=("left_in",), less=("right_in", "off_in"), nearer=("next_in",), spaced="spacing_in"),
        UP: Moves(more=("bottom_edge_in",), less=("top_edge_in", "f_top_in")),
    },
    "sill_plate": {
        ALONG: Moves(nearer=("end_in",), spaced="spacing_in"),
        ACROSS: Moves(more=("across_in",)),
    },
    "gable_end": {ALONG: Moves(nearer=("bolt_end_in",), spaced="bolt_spacing_in")},
}


def shifted(kind: str, inputs: Any, key: str, by_in: float) -> tuple[Any, ...]:
    """The inputs with steel off its place; several where ends and neighbours on either side count, and all must hold.

    Raises: BadInput where an input would leave its stated range.
    """
    moves = MOVES[kind][key]
    if not by_in:
        return (inputs,)
    size = abs(by_in)
    changes = {
        **dict.fromkeys(moves.more, by_in),
        **dict.fromkeys(moves.less, -by_in),
        **dict.fromkeys(moves.nearer, -size),
    }
    if not moves.spaced or moves.spaced not in moving(kind, inputs, key):
        return (_changed(inputs, key, changes),)
    # toward the end with its neighbour left behind, the nearer neighbour, away from the end: a code may bound an end both ways
    ways = ((max(size - _room_in(kind, inputs, moves.spaced), 0.0), -size), (-size, -size), (-size, size))
    return tuple(
        _changed(
            _multiplied(inputs, moves, way), key, {**changes, **dict.fromkeys(moves.nearer, end), moves.spaced: way}
        )
        for way, end in ways
    )


def moving(kind: str, inputs: Any, key: str) -> tuple[str, ...]:
    """Names of the inputs that a shift changes here: those that are asked for and filled in."""
    values = {spec.name: getattr(inputs, spec.name) for spec in fields.specs(type(inputs))}
    return tuple(
        name
        for name in MOVES[kind][key].names
        if values[name] is not None
        and fields.applies(fields.spec(type(inputs), name), values)
        and not _held(inputs, name)
    )


def _room_in(kind: str, inputs: Any, spaced: str) -> float:
    """How much nearer to each other bolts are drawn than they may stand, being spread evenly over a piece [in]."""
    try:
        places = getattr(attachments.kind(kind).module.geometry(inputs), "places", ())
    except BadInput:  # the check says so
        return 0.0
    widest = max((right - left for left, right in pairwise(places)), default=getattr(inputs, spaced))
    return float(max(getattr(inputs, spaced) - widest, 0.0))


def _held(inputs: Any, name: str) -> bool:
    """An angle's member is fastened to its leg and goes where the angle goes."""
    return name == "off_in" and inputs.form == "angle"


def _changed(inputs: Any, key: str, changes: Mapping[str, float]) -> Any:
    values = {spec.name: getattr(inputs, spec.name) for spec in fields.specs(type(inputs))}
    new: dict[str, float] = {}
    for name, change in changes.items():
        asked = fields.spec(type(inputs), name)
        if values[name] is None or not fields.applies(asked, values) or _held(inputs, name):
            continue
        new[name] = values[name] + change
        if not asked.low - 1e-9 <= new[name] <= asked.high + 1e-9:
            raise BadInput(key, f"{asked.label}: this is farther off than the check reaches. Bring it to the designer.")
    return replace(inputs, **new)


def _multiplied(inputs: Any, moves: Moves, way_in: float) -> Any:
    """Ties on every so manieth bolt stay on it."""
    spaced = getattr(inputs, moves.spaced)
    if spaced + way_in <= 0:
        return inputs
    return replace(inputs, **{name: getattr(inputs, name) * (spaced + way_in) / spaced for name in moves.multiples})
