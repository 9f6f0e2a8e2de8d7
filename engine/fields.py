"""Inputs that say what they are: label, unit, range, default, and where in a job the value comes from.

An attachment's `Inputs` is a frozen dataclass whose fields are made with `number`, `count`, `choice`, `yes`, `text` and `date`.
From that one declaration come the form, the job file, the stated ranges, the solver's bounds and the API's description.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, field, fields
from decimal import Decimal
from functools import wraps
from typing import Any, Literal, TypeVar

from engine import units
from engine.errors import BadInput

T = TypeVar("T")
LONGEST_WORDS = 120
Kind = Literal["number", "count", "choice", "yes", "text", "date"]


@dataclass(frozen=True, slots=True)
class Spec:
    """One input.

    Args:
        name, label, group: the field, its words (without the unit), and the heading it stands under.
        unit: engine unit. low, high: stated range, both included.
        options: (value, words) of a choice. optional: None is allowed and means "not given".
        step: what can be bought or set out; 0 where the input can't be adjusted by solving.
        wall: the wall fact it follows inside a job ("lower.core_in"), or "" where the attachment owns it.
        when: (other field, values) for which it applies; shown and asked only then.
        hint: one short sentence beside the field.
        change: how a new value is asked for, with {value} in it; a plain sentence is made where there is none.
    """

    name: str
    label: str
    group: str
    kind: Kind
    unit: str = ""
    low: float = 0.0
    high: float = 0.0
    options: tuple[tuple[str, str], ...] = ()
    optional: bool = False
    step: float = 0.0
    wall: str = ""
    when: tuple[str, tuple[Any, ...]] | None = None
    hint: str = ""
    change: str = ""
    default: Any = None

    @property
    def range_words(self) -> str:
        """The stated range as a reader sees it: "2 in to 24 in"."""
        if self.kind == "count":
            return f"{self.low:.0f} to {self.high:.0f}"
        return f"{units.show(self.low, self.unit)} to {units.show(self.high, self.unit)}"


def _field(default: Any, **spec: Any) -> Any:
    if spec["optional"] and default is MISSING:
        default = None
    return field(default=default, metadata={"spec": spec}) if default is not MISSING else field(metadata={"spec": spec})


def number(
    label: str,
    unit: str,
    low: float,
    high: float,
    default: Any = MISSING,
    *,
    group: str,
    optional: bool = False,
    step: float = 0.0,
    wall: str = "",
    when: tuple[str, tuple[Any, ...]] | None = None,
    hint: str = "",
    change: str = "",
) -> Any:
    """A quantity in `unit` between low and high; see `Spec`."""
    return _field(
        default, label=label, unit=unit, low=low, high=high, group=group, optional=optional, step=step, wall=wall,
        when=when, hint=hint,
        change=change, kind="number",
    )  # fmt: skip


def count(
    label: str,
    low: int,
    high: int,
    default: Any = MISSING,
    *,
    group: str,
    optional: bool = False,
    step: float = 0.0,
    wall: str = "",
    when: tuple[str, tuple[Any, ...]] | None = None,
    hint: str = "",
) -> Any:
    """A whole number between low and high."""
    return _field(
        default, label=label, low=low, high=high, group=group, optional=optional, step=step, wall=wall, when=when,
        hint=hint, kind="count",
    )  # fmt: skip


def choice(
    label: str,
    options: tuple[tuple[str, str], ...],
    default: Any = MISSING,
    *,
    group: str,
    step: float = 0.0,
    wall: str = "",
    when: tuple[str, tuple[Any, ...]] | None = None,
    hint: str = "",
    change: str = "",
) -> Any:
    """One of several named values. Args: options: (value, words) pairs; step: 1 where solving may try the others."""
    return _field(
        default,
        label=label,
        options=options,
        group=group,
        step=step,
        optional=False,
        wall=wall,
        when=when,
        hint=hint,
        change=change,
        kind="choice",
    )


def yes(
    label: str,
    default: bool = False,
    *,
    group: str,
    wall: str = "",
    when: tuple[str, tuple[Any, ...]] | None = None,
    hint: str = "",
) -> Any:
    """A fact that is so or not."""
    return _field(default, label=label, group=group, optional=False, wall=wall, when=when, hint=hint, kind="yes")


def text(
    label: str,
    *,
    group: str,
    wall: str = "",
    when: tuple[str, tuple[Any, ...]] | None = None,
    hint: str = "",
) -> Any:
    """Words, such as a report's number; "" where none is given."""
    return _field("", label=label, group=group, optional=True, wall=wall, when=when, hint=hint, kind="text")


def date(
    label: str,
    *,
    group: str,
    wall: str = "",
    when: tuple[str, tuple[Any, ...]] | None = None,
    hint: str = "",
) -> Any:
    """A day as "2026-05-27", which sorts as text; "" where none is given."""
    return _field("", label=label, group=group, optional=True, wall=wall, when=when, hint=hint, kind="date")


def _once(build: Callable[[type], T]) -> Callable[[type], T]:
    """Compute per class once."""
    known: dict[type, T] = {}

    @wraps(build)
    def look_up(inputs: type) -> T:
        if inputs not in known:
            known[inputs] = build(inputs)
        return known[inputs]

    return look_up


@_once
def specs(inputs: type) -> tuple[Spec, ...]:
    """The inputs of a dataclass in order."""
    return tuple(
        Spec(name=f.name, default=None if f.default is MISSING else f.default, **f.metadata["spec"])
        for f in fields(inputs)
        if "spec" in f.metadata
    )


def spec(inputs: type, name: str) -> Spec:
    """One input by name. Raises: BadInput naming the known ones."""
    for known in specs(inputs):
        if known.name == name:
            return known
    raise BadInput(name, f"No such input. Known: {', '.join(s.name for s in specs(inputs))}.")


YES_TEXTS = ("yes", "true", "on", "1")


def _means(value: Any, wanted: Any) -> bool:
    if isinstance(wanted, bool):
        return (value is True or str(value).strip().lower() in YES_TEXTS) is wanted
    return bool(str(value) == str(wanted))


def applies(known: Spec, values: Mapping[str, Any]) -> bool:
    """Whether an input is asked for, given the others. `values` holds typed values or their texts."""
    if known.when is None:
        return True
    other, wanted = known.when
    return any(_means(values.get(other), w) for w in wanted)


@_once
def _bounds(inputs: type) -> tuple[tuple[str, float, float], ...]:
    return tuple((s.name, s.low, s.high) for s in specs(inputs) if s.kind in ("number", "count"))


@_once
def _choices(inputs: type) -> tuple[tuple[str, frozenset[str]], ...]:
    return tuple((s.name, frozenset(v for v, _ in s.options)) for s in specs(inputs) if s.kind == "choice")


def validate(inputs: Any) -> None:
    """Hold every value against its stated range.

    Raises: BadInput for the first number that is NaN, infinite or outside, or a choice that is not offered.
    """
    kind = type(inputs)
    for name, low, high in _bounds(kind):
        value = getattr(inputs, name)
        if value is None:
            if not spec(kind, name).optional:
                raise BadInput(name, _out_of_range(spec(kind, name)))
        elif not (isinstance(value, (int, float)) and low <= value <= high):
            raise BadInput(name, _out_of_range(spec(kind, name)))
    for name, known in _choices(kind):
        if getattr(inputs, name) not in known:
            raise BadInput(name, f"Choose one of: {', '.join(sorted(known))}.")


def _out_of_range(known: Spec) -> str:
    return f"Enter {known.range_words}."


def read_one(known: Spec, text: str) -> Any:
    """One typed text as its value. Raises: BadInput (field unnamed) saying what to enter."""
    text = text.strip()
    if known.kind == "yes":
        if text.lower() in YES_TEXTS:
            return True
        if text.lower() in ("no", "false", "off", "0", ""):
            return False
        raise BadInput(known.name, "Enter yes or no.")
    if known.kind == "choice":
        if text in dict(known.options):
            return text
        raise BadInput(known.name, f"Choose one of: {', '.join(words for _, words in known.options)}.")
    if known.kind == "text":
        if len(text) > LONGEST_WORDS:
            raise BadInput(known.name, f"Enter at most {LONGEST_WORDS} characters.")
        return text
    if known.kind == "date":
        return _read_date(known, text)
    if not text:
        if known.optional:
            return None
        raise BadInput(known.name, f"Enter {known.label[0].lower()}{known.label[1:]}, {known.range_words}.")
    try:
        value = units.parse(text, known.unit)
    except BadInput as error:
        raise BadInput(known.name, error.message) from None
    if not math.isfinite(value) or not known.low - 1e-9 <= value <= known.high + 1e-9:
        raise BadInput(known.name, _out_of_range(known))
    value = min(max(value, known.low), known.high)  # metric text may miss a bound by the last bits of a float
    if known.kind == "count":
        if value != int(value):
            raise BadInput(known.name, f"Enter a whole number, {known.range_words}.")
        return int(value)
    return value


def _read_date(known: Spec, text: str) -> str:
    """A day that exists. Leap years by the Gregorian rule; no clock is asked."""
    if not text:
        return ""
    parts = text.split("-")
    if len(text) == 10 and [len(p) for p in parts] == [4, 2, 2] and all(p.isascii() and p.isdigit() for p in parts):
        year, month, day = (int(p) for p in parts)
        leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
        if 1 <= month <= 12 and 1 <= day <= (31, 29 if leap else 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)[month - 1]:
            return text
    raise BadInput(known.name, "Enter a date as year-month-day, such as 2026-05-27.")


def read(inputs: type[T], texts: Mapping[str, str]) -> tuple[T | None, dict[str, str]]:
    """Typed texts as inputs.

    Args: texts: field name -> what was typed; a missing one takes its default.
    Returns: the inputs, or None with a message for each field that can't be read.
    """
    values: dict[str, Any] = {}
    errors: dict[str, str] = {}
    asked = {s.name: s.default for s in specs(inputs)} | dict(texts)
    for known in specs(inputs):
        if known.name not in texts:
            if known.default is None and not known.optional:
                errors[known.name] = f"Enter {known.label[0].lower()}{known.label[1:]}, {known.range_words}."
            continue
        if not applies(known, asked):
            continue  # not asked for: whatever an earlier choice left there stays out of the check
        try:
            values[known.name] = read_one(known, texts[known.name])
        except BadInput as error:
            errors[known.name] = error.message
    for name in texts:
        if name not in {s.name for s in specs(inputs)}:
            errors[name] = f"No such input. Known: {', '.join(s.name for s in specs(inputs))}."
    return (None if errors else inputs(**values)), errors


def write_one(known: Spec, value: Any) -> str:
    """A value as text that `read_one` reads back to the same value."""
    if value is None:
        return ""
    if known.kind == "yes":
        return "yes" if value else "no"
    if known.kind in ("choice", "count", "text", "date"):
        return str(value)
    if known.unit == "in" and value * 16 == round(value * 16):
        return units.fraction(value)
    return format(Decimal(repr(float(value))).normalize(), "f")  # every digit, never an exponent


def write(inputs: Any) -> dict[str, str]:
    """Inputs as texts, one a field."""
    return {s.name: write_one(s, getattr(inputs, s.name)) for s in specs(type(inputs))}
