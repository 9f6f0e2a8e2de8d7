"""The office's values and wastes for its takeoffs, between their form and their keeper."""

from collections.abc import Mapping

from engine import fields
from engine.errors import BadInput
from engine.fields import Spec
from engine.takeoff import GROUPS, ITEMS, Office
from engine.units import System
from webapp.forms.quantities import keep_all, shown_all
from webapp.services.refusals import Refused
from webapp.services.takeoff import MOST_PERCENT, WASTED

Texts = Mapping[str, str]
LONGEST_NAME = 120
VALUES = fields.specs(Office)


def waste_field(item: str) -> str:
    """What a form calls the waste of an item."""
    return f"waste-{item.replace(' ', '-')}"


def _waste_spec(item: str) -> Spec:
    hint = "On the length and weight of a size; cut bars are listed as cut." if item == "bar" else ""
    group = next(name for name, items in GROUPS.items() if item in items)
    return Spec(
        waste_field(item), f"{ITEMS[item][0]}, %", group, "number", "", 0.0, MOST_PERCENT, optional=True, hint=hint
    )


WASTE = tuple(_waste_spec(item) for item in WASTED)
SPECS = (*VALUES, *WASTE)


def typed(form: Texts) -> dict[str, str]:
    """What came back."""
    return {s.name: form.get(s.name, "") for s in SPECS}


def shown(values: Texts, waste: Texts, system: System) -> dict[str, str]:
    """What is kept, as its form shows it."""
    return shown_all(VALUES, values, system) | {waste_field(item): waste.get(item, "") for item in WASTED}


def kept(form: Texts, system: System, before: Texts) -> tuple[dict[str, str], dict[str, str]]:
    """Values and wastes to keep. Args: before: values kept so far. Raises: Refused with a message by field."""
    values = keep_all(VALUES, form, system, before)
    _, errors = fields.read(Office, values)
    waste: dict[str, str] = {}
    for item, spec in zip(WASTED, WASTE, strict=True):
        try:
            percent = fields.read_one(spec, form.get(spec.name, "").strip().removesuffix("%"))
        except BadInput as error:
            errors = {**errors, spec.name: error.message}
        else:
            if percent:
                waste[item] = f"{percent:g}"
    if errors:
        raise Refused(errors)
    return values, waste


def name(text: str) -> str:
    """The office's name. Raises: Refused."""
    found = " ".join(text.split())
    if not found:
        raise Refused({"name": "Enter the office's name."})
    if len(found) > LONGEST_NAME:
        raise Refused({"name": f"Enter at most {LONGEST_NAME} characters."})
    return found
