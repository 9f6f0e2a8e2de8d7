"""Lines about the part's listing: its capacity, whether it is current, and every condition it stands under. Nothing is invented."""

from engine.attachments.cast_in_plate.geometry import Plate
from engine.attachments.cast_in_plate.inputs import Inputs
from engine.clauses.us.loads import Combination, Loads, allowable_combinations, load_duration_factor
from engine.editions import Citation, Edition
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite, clause

LISTING = Citation("the part's own listing")


@clause(
    "the part's own listing", "", title="Listed capacity for this duration", symbol="P'", unit="lb",
    formula="P * min(C_D / C_D_listed, 1)", provenance="derived",
    note="Less where the load lasts longer than the listing's; never more than is listed.",
)  # fmt: skip
def listed_for_duration_lb(P_lb: float, C_D: float, C_D_listed: float) -> float:
    """Args: P_lb: listed, allowable [lb]. C_D: of the combination. C_D_listed: the listing's. Source: NDS 2018 2.3.2, reversed."""
    return P_lb * min(C_D / C_D_listed, 1.0)


def conditions(i: Inputs, p: Plate) -> tuple[LimitState, ...]:
    """Report, and what the listing asks of concrete, foam, embedment, spacing and screws."""
    foam = (i.listed_foam_least_in, i.listed_foam_most_in)
    return (
        _report(i),
        _least("listing-strength", "Concrete strength", i.listed_f_c_psi, i.f_c_psi, "psi", "concrete"),
        _foam(i, foam),
        _least("listing-embedment", "Embedment", i.listed_embedment_in, i.embedment_in, "in", "concrete"),
        _least("listing-spacing", "Spacing along the wall", i.listed_spacing_in, p.spacing_built, "in", "plate"),
        _count(i),
        _gauge(i),
    )


def _blank(key: str, title: str, what: str, spot: str) -> LimitState:
    return LimitState(key, title, LISTING, holds=False, say=f"Enter {what}, from the part's listing.", spot=spot)


def capacity(sheet: Worksheet, i: Inputs, reaction: Loads, edition: Edition, how: tuple[Step, ...]) -> LimitState:
    """What the part is listed for at this load duration. Args: how: the steps that gave the reaction."""
    title = "Listed capacity"
    if i.listed_lb is None:
        return _blank("listed", title, "the allowable capacity", "plate")
    basis, listed = float(i.basis), i.listed_lb

    def asked(combination: Combination) -> float:
        C_D = load_duration_factor(combination, reaction)
        return combination.total(reaction) / listed_for_duration_lb(listed, C_D, basis)

    worst = max(allowable_combinations(edition), key=asked)
    C_D = load_duration_factor(worst, reaction)
    able = sheet.use(listed_for_duration_lb, P_lb=listed, C_D=C_D, C_D_listed=basis)
    return LimitState(
        "listed", title, cite(listed_for_duration_lb), worst.total(reaction), able, "lb",
        say="The joist's end brings {demand}; the part is listed for {capacity} at this load duration.",
        combination=f"{worst.label}, C_D {C_D:g}", spot="plate", steps=how + sheet.take(),
    )  # fmt: skip


def _report(i: Inputs) -> LimitState:
    """A listing without number or end is no listing. Days are compared as text, which sorts."""
    number = i.report.strip().replace("{", "(").replace("}", ")")
    key, title = "report", "Report in force"
    if not number:
        return _blank(key, title, "the report's number", "plate")
    if not i.expires:
        return _blank(key, title, "the day the report runs until", "plate")
    if not i.today:
        return LimitState(
            key, title, LISTING, unchecked="No day to judge on is given.", spot="plate",
            say=f"Report {number} runs until {i.expires}; it was not compared with a day.",
        )  # fmt: skip
    if i.issued > i.today:
        return LimitState(
            key, title, LISTING, holds=False, spot="plate",
            say=f"Report {number} is dated {i.issued}, after {i.today}: enter its own date, or bring the one in force.",
        )  # fmt: skip
    current = i.today <= i.expires
    return LimitState(
        key, title, LISTING, holds=current, spot="plate",
        say=f"Report {number} runs until {i.expires}, which covers {i.today}."
        if current
        else f"Report {number} ended on {i.expires}, before {i.today}: bring the one in force.",
    )  # fmt: skip


def _least(key: str, title: str, least: float | None, there: float, unit: str, spot: str) -> LimitState:
    if least is None:
        return _blank(key, f"{title}, by the listing", f"the least {title[0].lower()}{title[1:]} (0 for none)", spot)
    return LimitState(
        key, f"{title}, by the listing", LISTING, least, there, unit,
        say=f"{title}: {{capacity}} here; the listing asks for {{demand}} or more.", spot=spot,
    )  # fmt: skip


def _foam(i: Inputs, listed: tuple[float | None, float | None]) -> LimitState:
    least, most = listed
    key, title = "listing-foam", "Foam, by the listing"
    if least is None or most is None:
        return _blank(key, title, "the least and the most foam", "foam")
    return LimitState(
        key, title, LISTING, i.foam_in, most, "in", holds=least <= i.foam_in,
        say="The foam is {demand}; the listing holds from {least} to {capacity}.", facts={"least": (least, "in")}, spot="foam",
    )  # fmt: skip


def _count(i: Inputs) -> LimitState:
    if i.listed_screws is None:
        return _blank("listing-screws", "Screws, by the listing", "the count of screws", "screws")
    return LimitState(
        "listing-screws", "Screws, by the listing", LISTING, holds=i.screws >= i.listed_screws, spot="screws",
        say="The joist's end has {there} screws; the listing asks for {asked}.",
        facts={"there": (float(i.screws), ""), "asked": (float(i.listed_screws), "")},
    )  # fmt: skip


def _gauge(i: Inputs) -> LimitState:
    if not i.listed_gauge:
        return _blank("listing-gauge", "Screw gauge, by the listing", "the screw gauge", "screws")
    return LimitState(
        "listing-gauge", "Screw gauge, by the listing", LISTING, holds=int(i.gauge) >= int(i.listed_gauge), spot="screws",
        say="The screws are No. {there}; the listing asks for No. {asked} or more.",
        facts={"there": (float(i.gauge), ""), "asked": (float(i.listed_gauge), "")},
    )  # fmt: skip
