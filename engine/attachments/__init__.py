"""Every way of carrying something on the wall, by key. Each kind is a module of its own; they share only what is below them."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from importlib import import_module
from types import MappingProxyType, ModuleType
from typing import Any

from engine import fields
from engine.editions import Citation, Edition
from engine.errors import BadInput
from engine.result import Caution, CheckResult


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of attachment.

    Args: key: module name. name: what the trade calls it. point: at one station of the wall rather than along it. width: the input
    that says how much of the wall a point takes. repeats: at a point, but several of it may stand along a run.
    """

    key: str
    name: str
    point: bool = False
    width: str = ""
    repeats: bool = False

    @property
    def module(self) -> ModuleType:
        """The module with `Inputs`, `check` and `geometry`."""
        return import_module(f"engine.attachments.{self.key}")

    @property
    def inputs(self) -> type[Any]:
        """The frozen dataclass of inputs, made of `engine.fields`."""
        inputs: type[Any] = self.module.Inputs
        return inputs

    @property
    def check(self) -> Callable[..., CheckResult]:
        """`check(inputs, edition, recording=True)`."""
        check: Callable[..., CheckResult] = self.module.check
        return check


KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        kind.key: kind
        for kind in (
            Kind("ledge_seat", "Joists on a ledge"),
            Kind("bolted_ledger", "Bolted ledger"),
            Kind("anchored_plate", "Anchored plate", point=True, width="width_in", repeats=True),
            Kind("cast_in_plate", "Cast-in plate and screws"),
            Kind("beam_pocket", "Beam pocket", point=True, width="pocket_width_in"),
            Kind("sill_plate", "Sill plate"),
            Kind("veneer_ledge", "Veneer ledge"),
            Kind("gable_end", "Gable end"),
        )
    }
)


def kind(key: str) -> Kind:
    """The kind of that key. Raises: BadInput naming the known kinds."""
    try:
        return KINDS[key]
    except KeyError:
        raise BadInput("kind", f"No attachment kind {key!r}. Known: {', '.join(KINDS)}.") from None


# What holds for whatever is carried, with every result.
EVERYWHERE = (
    Caution(
        "Insulating-form walls are for buildings of one or two storeys; taller ones are designed.",
        Citation("ACI 318", "11.1.6"),
    ),
)


def check(key: str, inputs: Any, edition: Edition, recording: bool = True) -> CheckResult:
    """Validate the inputs against their stated ranges and check them. Raises: BadInput."""
    chosen = kind(key)
    fields.validate(inputs)
    result = chosen.check(inputs, edition, recording)
    notes = tuple(Caution(note) for note in edition.notes)
    return replace(result, cautions=(*result.cautions, *EVERYWHERE, *notes))
