"""Filters and macros: words in the reader's units, sound markup, fields that keep what was typed, workings that are there."""

import re
from collections import Counter
from html.parser import HTMLParser
from math import inf
from pathlib import Path
from typing import Any

import pytest
from jinja2 import Environment, FileSystemLoader, StrictUndefined, UndefinedError
from markupsafe import Markup

from engine.editions import US_2021, US_2024, Citation
from engine.fields import Spec
from engine.result import LOCAL_CODE, Caution, CheckResult, LimitState, ratio_words
from tests.webapp.steps import a_line, a_step
from webapp import filters, showcase

TEMPLATES = Path(__file__).parents[2] / "templates"


def environment() -> Environment:
    env = Environment(loader=FileSystemLoader(TEMPLATES), autoescape=True, undefined=StrictUndefined)
    filters.register(env)
    return env


@pytest.mark.parametrize(
    ("value", "shown"),
    [(1.1666, "1.17"), (0.0, "0.00"), (1.0, "1.00"), (0.999, "1.00"), (1.003, "1.003"), (1.00004, "1.00004"),
     (5214.0, "5,214.00"), (inf, "∞"), (None, "no ratio")],
)  # fmt: skip
def test_a_ratio_above_one_never_reads_as_one(value: float | None, shown: str) -> None:
    assert ratio_words(value) == shown


def filled(template: str, **context: Any) -> str:
    return environment().from_string(template).render(**{"units": "ft in", **context})


def test_a_sentence_is_filled_in_the_readers_units() -> None:
    state = LimitState(
        "k",
        "T",
        Citation("x"),
        3.5,
        3.0,
        "in",
        say="{capacity} of {demand}, at {where}.",
        facts={"where": (12.0, "ft")},
    )
    assert filled("{{ state|sentence }}", state=state) == "3 in of 3 1/2 in, at 12 ft."
    assert filled("{{ state|sentence }}", state=state, units="mm") == "76 mm of 89 mm, at 3.66 m."


def test_what_is_referred_or_not_judged_says_why() -> None:
    assert (
        filled("{{ s|sentence }}", s=LimitState("k", "T", Citation("x"), refer="Bring the reaction."))
        == "Bring the reaction."
    )
    assert filled("{{ s|sentence }}", s=LimitState("k", "T", Citation("x"), unchecked="No span.")) == "No span."


def test_a_source_is_named_as_its_edition_prints_it() -> None:
    moved = Citation("IRC", "R317.1", (("US 2024", "R304.1"),))
    assert filters.label(moved, US_2024) == "IRC 2024 R304.1"
    assert filters.short(moved, US_2024) == "IRC R304.1"
    assert filters.short(moved, US_2021) == "IRC R317.1"


def test_flags_come_first_then_advice_then_by_ratio() -> None:
    states = [
        a_line(0.2), a_line(0.9), LimitState("v", "T", Citation("x"), unchecked="no"),
        LimitState("h", "T", Citation("x"), holds=True),
        a_line(1.4, advisory=True, spread=(1, 2)), a_line(1.1), LimitState("m", "T", Citation("x"), holds=False),
        LimitState("r", "T", Citation("x"), refer="why"),
    ]  # fmt: skip
    found = [(state.verdict.value, state.ratio) for state in filters.in_order(states)]
    assert found == [
        ("refer", None), ("flag", None), ("flag", 1.1), ("advisory", 1.4), ("pass", 0.9), ("pass", 0.2), ("pass", None),
        ("not checked", None),
    ]  # fmt: skip


# Pages


def a_result() -> CheckResult:
    values: dict[str, object] = {"a_in": 1.0, "b_in": 2.0}
    step = a_step("a + b", values, 3.0, "memory", family="IRC", title="Sum of <two>", symbol="s", unit="in")
    states = (
        LimitState(
            "low",
            "Low & short",
            Citation("IRC", "1"),
            3.5,
            3.0,
            "in",
            say="{capacity} of {demand}.",
            steps=(step,),
        ),
        a_line(0.5),
        LimitState("why", "Outside", Citation("IRC", "R1"), refer="It is outside."),
    )
    return CheckResult("x", US_2021, states, (Caution("Mind <this>.", practice=True),), ("fire",))


SPECS = (
    Spec("kind", "What", "Carried", "choice", options=(("a", "an a"), ("b", "a b"))),
    Spec("width_in", "Width", "Carried", "number", "in", 0, 24, hint="Across.", when=("kind", ("b",))),
    Spec("tall", "Tall", "Wall", "yes"),
)


def the_page(**more: Any) -> str:
    form = {
        "id": "check", "action": "/a", "method": "post", "specs": SPECS, "errors": {}, "inherited": {}, "summaries": {},
        "values": {"kind": "a", "width_in": "9 1/4", "tall": "yes"}, "live": "/live", "hidden": {}, **more.pop("form", {}),
    }  # fmt: skip
    context = {
        "nav": [("Jobs", "/", True)], "here": "/a", "local_code": LOCAL_CODE, "footer_right": "US 2021", "result": a_result(),
        "drawing": {"wide": Markup("<svg></svg>")}, "compare_href": "/c", "open_key": "", "form": form,
        "remedies": [{"text": "Do this", "note": "", "ratio": 0.5, "href": "/u"}], **more,
    }  # fmt: skip
    page = (
        '{% extends "base.html" %}{% from "macros/page.html" import page_head %}'
        '{% from "macros/field.html" import error_summary with context %}{% block title %}Joists{% endblock %}'
        "{% block main %}{{ error_summary(form.errors, form.specs|labels) }}{{ page_head('Joists') }}"
        '{% include "partials/attachment.html" %}{% endblock %}'
    )
    context["fields"] = Markup(filled('{% include "partials/attachment_fields.html" %}', **context))
    if context["result"]:
        context["working"] = Markup(filled('{% include "partials/result_working.html" %}', **context))
    return filled(page, **context)


class Reader(HTMLParser):
    """Elements in order, with their attributes."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str]]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, {name: value or "" for name, value in attrs}))

    def all(self, tag: str) -> list[dict[str, str]]:
        return [attributes for name, attributes in self.elements if name == tag]


def ids(text: str) -> list[str]:
    return [attributes["id"] for _, attributes in Reader(text).elements if "id" in attributes]


PAGES = {
    "attachment": lambda: the_page(),
    "in mm": lambda: the_page(units="mm"),
    "with errors": lambda: the_page(form={"errors": {"width_in": "Enter 0 in to 24 in."}}),
    "refused": lambda: the_page(result=None, refused={"width_in": "Enter a width."}),
    "components": lambda: environment().get_template("pages/components.html").render(
        units="ft in", nav=[], here="/", local_code=LOCAL_CODE, footer_right="", **showcase.context()
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_sound(name: str) -> None:
    """One h1 that begins the title, unique ids, labelled controls, references that lead somewhere, no style attribute."""
    text = PAGES[name]()
    page = Reader(text)
    assert len(page.all("h1")) == 1
    heading, title = re.search(r"<h1>(.*?)</h1>", text), re.search(r"<title>(.*?)</title>", text)
    assert heading is not None
    assert title is not None
    assert title[1].startswith(heading[1])
    assert [key for key, count in Counter(ids(text)).items() if count > 1] == []
    known = set(ids(text))
    labelled = {label["for"] for label in page.all("label") if "for" in label}
    for control in page.all("input") + page.all("select") + page.all("textarea"):
        assert control.get("type") == "hidden" or control["id"] in labelled
        assert set(control.get("aria-describedby", "").split()) <= known
    for link in page.all("a"):
        assert not link["href"].startswith("#") or link["href"] == "#" or link["href"][1:] in known
    assert not any("style" in attributes for _, attributes in page.elements)


def test_every_row_of_the_strip_opens_a_working_that_is_there() -> None:
    page = Reader(the_page())
    rows = [a["href"] for a in page.all("a") if a.get("class") == "limit-link"]
    assert rows == ["#working-why", "#working-low", "#working-key"]
    opened = [section["id"] for section in page.all("section") if "open" in section.get("class", "").split()]
    assert opened == ["working-why"], "what governs is open"


def test_the_working_names_where_a_rule_was_remembered() -> None:
    text = the_page()
    assert 'IRC 2021 1 <span class="tag">from memory</span>' in text
    assert '<span class="tag">common practice</span>' in text
    assert "Sum of &lt;two&gt;" in text
    assert "Mind &lt;this&gt;." in text


def test_an_error_keeps_what_was_typed_and_is_read_with_its_field() -> None:
    typed = '"><script>alert(1)</script>'
    values = {"kind": "b", "width_in": typed, "tall": "no"}
    text = the_page(form={"values": values, "errors": {"width_in": "Enter 0 in to 24 in."}})
    assert "<script>alert" not in text
    field = next(f for f in Reader(text).all("input") if f.get("name") == "width_in")
    assert field["value"] == typed
    assert field["aria-invalid"] == "true"
    assert field["aria-describedby"].split() == ["e-width_in", "h-width_in", "r-width_in"]
    assert 'href="#f-width_in"' in text


def test_labels_and_ranges_follow_the_readers_units() -> None:
    assert '<span class="unit">, in</span>' in the_page()
    metric = the_page(units="mm")
    assert '<span class="unit">, mm</span>' in metric
    assert "0 mm to 610 mm" in metric


def test_a_field_says_when_it_applies_and_is_shown_without_script() -> None:
    fields = [f for f in Reader(the_page()).all("div") if "data-when" in f]
    assert [(f["data-when"], f["data-when-values"]) for f in fields] == [("kind", "b")]
    assert all("hidden" not in f for f in fields)
    assert filters.when_values((True, 0.5, "x")) == "yes|0.5|x"


def test_a_yes_that_is_not_ticked_is_sent_as_no() -> None:
    boxes = [
        f
        for f in Reader(the_page(form={"values": {"kind": "a", "width_in": "", "tall": "no"}})).all("input")
        if f.get("name") == "tall"
    ]
    assert [(f.get("type"), f["value"], "checked" in f) for f in boxes] == [
        ("hidden", "no", False),
        ("checkbox", "yes", False),
    ]


def test_a_live_form_works_without_script_and_only_its_result_is_replaced() -> None:
    form = next(f for f in Reader(the_page()).all("form") if f.get("id") == "check")
    assert (form["action"], form["method"]) == ("/a", "post")
    assert (form["hx-post"], form["hx-target"], form["hx-swap"]) == ("/live", "#result", "outerHTML")
    plain = next(f for f in Reader(the_page(form={"live": ""})).all("form") if f.get("id") == "check")
    assert not any(name.startswith("hx-") for name in plain)


def test_a_template_that_misses_its_context_fails_loudly() -> None:
    with pytest.raises(UndefinedError):
        environment().get_template("partials/result.html").render(units="ft in")


def test_the_caution_about_local_code_is_on_every_page() -> None:
    assert all(LOCAL_CODE in page() for page in PAGES.values())
