"""The office's own rates, none of them known here: hours and prices are counted only where they are typed."""

from dataclasses import dataclass

from engine.fields import number, specs
from engine.options.quantities import Quantities

HOURS, PRICES = "Hours", "Prices"


@dataclass(frozen=True, slots=True)
class Rates:
    """Of one of each, in hours or in the office's currency; None where the office has none. See each field's label and unit."""

    anchor_hours: float | None = number("To set an anchor", "", 0, 100, group=HOURS, optional=True)
    plate_hours: float | None = number("To set a plate or part", "", 0, 100, group=HOURS, optional=True)
    hanger_hours: float | None = number("To set a hanger", "", 0, 100, group=HOURS, optional=True)
    tie_hours: float | None = number("To fix a tie", "", 0, 100, group=HOURS, optional=True)
    fastener_hours: float | None = number("To drive a fastener", "", 0, 100, group=HOURS, optional=True)
    cut_hours: float | None = number("To cut a foot of foam", "", 0, 100, group=HOURS, optional=True)
    anchor_price: float | None = number("An anchor", "", 0, 10000, group=PRICES, optional=True)
    plate_price: float | None = number("A plate or part", "", 0, 10000, group=PRICES, optional=True)
    hanger_price: float | None = number("A hanger", "", 0, 10000, group=PRICES, optional=True)
    tie_price: float | None = number("A tie", "", 0, 10000, group=PRICES, optional=True)
    fastener_price: float | None = number("A fastener", "", 0, 10000, group=PRICES, optional=True)
    steel_price: float | None = number("A pound of steel", "", 0, 10000, group=PRICES, optional=True)
    concrete_price: float | None = number("A cubic foot of concrete", "", 0, 10000, group=PRICES, optional=True)
    hour_price: float | None = number("An hour of work", "", 0, 10000, group=PRICES, optional=True)


@dataclass(frozen=True, slots=True)
class Total:
    """Hours and price by the rates that were typed, None where none was; missing: what is taken but has no rate."""

    hours: float | None
    price: float | None
    missing: tuple[str, ...] = ()


def total(quantities: Quantities, rates: Rates) -> Total:
    """Hours and price of a floor line; work counts into the price where an hour has one."""
    hours, no_hours = _sum(quantities, rates, HOURS)
    price, no_price = _sum(quantities, rates, PRICES)
    if hours is not None and rates.hour_price is not None:
        price = (price or 0.0) + hours * rates.hour_price
    missing = (no_hours if hours is not None else ()) + (no_price if price is not None else ())
    return Total(hours, price, missing)


def _sum(q: Quantities, rates: Rates, group: str) -> tuple[float | None, tuple[str, ...]]:
    taken = {
        "anchor": q.anchors, "plate": q.plates, "hanger": q.hangers, "tie": q.ties, "fastener": q.fasteners,
        "cut": q.cut_ft, "steel": q.steel_lb, "concrete": q.concrete_ft3,
    }  # fmt: skip
    found, missing = None, []
    for spec in specs(Rates):
        amount, rate = taken.get(spec.name.partition("_")[0], 0.0), getattr(rates, spec.name)
        if spec.group != group or not amount:
            continue
        if rate is None:
            missing.append(spec.label)
        else:
            found = (found or 0.0) + amount * rate
    return found, tuple(missing)
