"""What templates may call: figures in the reader's units, sentences, rules as MathML, labels, marks.

The reader's unit system is the page context's `units` ("ft in" or "mm"); macros that write figures are imported "with context".
"""

from collections.abc import Iterable, Mapping
from functools import cache
from hashlib import sha256
from math import inf
from pathlib import Path
from typing import Any

from jinja2 import Environment, pass_context
from jinja2.runtime import Context
from markupsafe import Markup

from engine import units
from engine.editions import Citation, Edition
from engine.fields import Spec
from engine.result import LimitState, Verdict, ratio_words
from engine.worksheet import Step
from webapp import marks, mathml
from webapp.folders import STATIC
from webapp.ruler import ruler_line

# How the engine came by a rule, where a reader must know: small words beside the source.
TAGS: Mapping[str, str] = {"memory": "from memory", "common practice": "common practice", "derived": "derived"}


def _system(context: Context) -> units.System:
    return "mm" if context.get("units") == "mm" else "ft in"


@pass_context
def show(context: Context, value: float | None, unit: str) -> str:
    """A value in the reader's unit: "3 1/2 in", "89 mm"; "none" where there is none."""
    return "none" if value is None else units.show(value, unit, _system(context))


@pass_context
def sentence(context: Context, state: LimitState) -> str:
    """What a line says, in the reader's units."""
    return state.sentence(_system(context))


def label(citation: Citation, edition: Edition) -> str:
    """Where a rule is published: title, year and section as the edition set prints them."""
    return citation.label(edition)


def short(citation: Citation, edition: Edition) -> str:
    """The same without the year, for rows: the page's foot names the editions."""
    section = dict(citation.moved).get(edition.key, citation.section)
    return f"{citation.family} {section}".strip()


def tags(item: Step | LimitState) -> tuple[str, ...]:
    """Words beside a source: how the rule came into the engine, where that isn't by reading it."""
    if isinstance(item, Step):
        word = TAGS.get(item.clause.provenance)
        return (word,) if word else ()
    found = (word for step in item.steps if step.clause.citation == item.source for word in tags(step))
    return tuple(dict.fromkeys(found))


_RANK = {Verdict.REFER: 0, Verdict.FLAG: 1, Verdict.ADVISORY: 2, Verdict.PASS: 3, Verdict.UNCHECKED: 4}


def in_order(states: Iterable[LimitState]) -> list[LimitState]:
    """Lines as the strip lists them: what refers, flags, advisory lines, the rest by ratio, what was not checked."""

    def place(state: LimitState) -> tuple[int, float]:
        value = state.ratio
        if value is None:
            value = inf if state.verdict in (Verdict.REFER, Verdict.FLAG) else -1.0
        return _RANK[state.verdict], -value

    return sorted(states, key=place)


def in_groups(specs: Iterable[Spec]) -> list[tuple[str, list[Spec]]]:
    """Inputs under their headings, headings in order of first appearance."""
    found: dict[str, list[Spec]] = {}
    for spec in specs:
        found.setdefault(spec.group, []).append(spec)
    return list(found.items())


def labels(specs: Iterable[Spec]) -> dict[str, str]:
    """Field name -> its words, for the list of errors."""
    return {spec.name: spec.label for spec in specs}


@pass_context
def reader_unit(context: Context, unit: str) -> str:
    """The unit a label names and a bare number in its field is read in."""
    if _system(context) == "mm" and unit in units.METRIC:
        return units.METRIC[unit][0]
    return "ft in" if unit == "ft" else unit


@pass_context
def range_words(context: Context, spec: Spec) -> str:
    """The stated range of an input in the reader's units."""
    if spec.kind == "count":
        return spec.range_words
    system = _system(context)
    return f"{units.show(spec.low, spec.unit, system)} to {units.show(spec.high, spec.unit, system)}"


def when_values(values: Iterable[Any]) -> str:
    """Values an input depends on, as one attribute: parted by bars, yes and no as forms write them."""
    return "|".join(("yes" if value else "no") if isinstance(value, bool) else str(value) for value in values)


@pass_context
def gives(context: Context, step: Step) -> Markup:
    """What a step came to, in the code's unit and the reader's."""
    return mathml.gives(step, _system(context))


def ratio_gives(state: LimitState) -> Markup:
    """The ratio of a line against 1.0, as mathematics."""
    return mathml.ratio_gives(state, ratio_words(state.ratio))


@cache
def _fingerprint(path: Path) -> str:
    return sha256(path.read_bytes()).hexdigest()[:10]


def static_url(name: str) -> str:
    """Address of a static file, with its fingerprint so that a new release is fetched anew."""
    return f"/static/{name}?v={_fingerprint(STATIC / name)}"


def register(env: Environment) -> None:
    """Give an environment every filter and function the templates use."""
    env.filters.update(
        show=show, sentence=sentence, ratio=ratio_words, label=label, short=short, tags=tags, in_order=in_order,
        in_groups=in_groups, labels=labels, reader_unit=reader_unit, range_words=range_words, when_values=when_values,
        mathml=mathml.rule, mathml_numbers=mathml.numbers, lines=mathml.lines, gives=gives, ratio_numbers=mathml.ratio_numbers,
        ratio_gives=ratio_gives,
        verdict_class=lambda verdict: marks.sign(verdict).css, verdict_name=lambda verdict: marks.sign(verdict).word,
    )  # fmt: skip
    env.globals.update(
        verdict_mark=marks.verdict_mark, dimension_line=marks.dimension_line, dimension_scale=marks.dimension_scale,
        progress_line=marks.progress_line, ruler_line=ruler_line, ratio_rule=mathml.ratio_rule, static_url=static_url,
    )  # fmt: skip
