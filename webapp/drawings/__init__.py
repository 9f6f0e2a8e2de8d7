"""Drawings: an attachment's own geometry, to scale, as markup."""

from dataclasses import replace
from importlib import import_module
from typing import Any

from engine import attachments
from engine.errors import BadInput
from engine.result import CheckResult
from engine.units import System
from webapp.drawings import svg, words
from webapp.drawings.compose import compose
from webapp.drawings.layout import WIDTHS
from webapp.drawings.paper import Sheet
from webapp.drawings.scene import Frame, ViewPlan
from webapp.drawings.sections import bare_wall


def plans(kind_key: str, inputs: Any, system: System) -> tuple[ViewPlan, ...]:
    """The views of an attachment; of inputs whose geometry contradicts itself, the bare wall with the reason.

    Raises: BadInput naming the known kinds.
    """
    attachments.kind(kind_key)
    section = import_module(f"webapp.drawings.sections.{kind_key}")
    try:
        views: tuple[ViewPlan, ...] = section.plan(inputs, system)
    except BadInput as error:
        return bare_wall.plan(inputs, error.message)
    return views


def section_sheet(
    kind_key: str,
    inputs: Any,
    result: CheckResult | None,
    system: System = "ft in",
    width_class: str = "desk",
    tag: str = "A1",
    title: str = "",
) -> Sheet:
    """An attachment's drawing for any renderer.

    Args: kind_key, inputs: the kind and its inputs. result: of its check; None draws without a verdict. width_class: one of
    `WIDTHS`. tag, title: the number in the circle and the words beside it.
    """
    governing = result.governing if result else None
    shown = title or attachments.kind(kind_key).name
    sheet, scenes = compose(plans(kind_key, inputs, system), governing, WIDTHS[width_class], system, tag, shown)
    sheet.finding = words.finding(attachments.kind(kind_key).name, title, result, system)
    sheet.description = words.description(scenes, system)
    return sheet


def single_sheets(
    kind_key: str,
    inputs: Any,
    result: CheckResult | None,
    system: System = "ft in",
    tag: str = "A1",
    title: str = "",
) -> list[Sheet]:
    """An attachment's views a sheet each, every one at its own scale and without a lens: for renderers true to scale."""
    governing = result.governing if result else None
    views = [
        replace(view, row=0, share=1.0, tall=1.0, aligned=False, lens=False) for view in plans(kind_key, inputs, system)
    ]
    shown = title or attachments.kind(kind_key).name
    finding = words.finding(attachments.kind(kind_key).name, title, result, system)
    sheets = []
    for number, view in enumerate(views):
        scene = view.build(Frame(WIDTHS["desk"].width, WIDTHS["desk"].tall))
        here = governing is not None and (governing.spot in scene.spots if governing.spot else number == 0)
        name = f"{shown}: {scene.name[:1].lower()}{scene.name[1:]}" if len(views) > 1 and scene.name else shown
        sheet, scenes = compose([view], governing if here else None, WIDTHS["desk"], system, tag, name)
        sheet.finding = "" if number else finding
        sheet.description = words.description(scenes, system)
        sheets.append(sheet)
    return sheets


def section_svg(
    kind_key: str,
    inputs: Any,
    result: CheckResult | None,
    system: System = "ft in",
    width_class: str = "desk",
    tag: str = "A1",
    title: str = "",
    prefix: str = "",
) -> str:
    """An attachment's drawing as SVG. Args: as `section_sheet`; prefix: of its ids, by default made of tag and width class."""
    sheet = section_sheet(kind_key, inputs, result, system, width_class, tag, title)
    return svg.render(sheet, prefix or svg.slug(f"{tag}-{width_class}"))
