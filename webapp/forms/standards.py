"""What the office always takes for a kind of attachment: whatever neither wall, floor line nor search settles, all optional."""

from collections.abc import Mapping
from dataclasses import replace

from engine import attachments as kinds
from engine import fields
from engine.errors import BadInput
from engine.fields import Spec, specs
from engine.options import OFFERS, Offer
from engine.units import System, show

KINDS = tuple(dict.fromkeys(offer.kind for offer in OFFERS))
# what belongs to one place and not to an office: what it carries there, and what was found after the pour
OF_A_PLACE = ("Loads", "Place", "After the pour")
ANYWHERE = ("anchor_route", "stretch_in", "place_tolerance_in")
SETTLED = {
    "ledge_seat": ("seat_depth_in", "notch_in"),
    "bolted_ledger": (
        "wall_height_ft", "hole_in", "direction", "first_joist_in", "strip_ft", "offset_in", "top_in", "below_in", "ground_in",
    ),
    "anchored_plate": ("wood", "off_in"),
}  # fmt: skip
LISTING = "The part's own listing"
AS_USUAL = ("", "as usual")


def known(kind_key: str, system: System = "ft in") -> tuple[Spec, ...]:
    """The fields of a kind's page, those of a listing first; each may be left empty."""
    offers = [offer for offer in OFFERS if offer.kind == kind_key]
    listed = {name for offer in offers for name in offer.listed}
    free = [s for s in specs(kinds.kind(kind_key).inputs) if not s.wall and _free(s, offers, kind_key)]
    first = [replace(s, group=LISTING) for s in free if s.name in listed]
    return tuple(_asked(s, s.name in listed, system) for s in (*first, *(s for s in free if s.name not in listed)))


def _free(spec: Spec, offers: list[Offer], kind_key: str) -> bool:
    """Whether an office may settle an input: some way of this kind asks for it and leaves it open."""
    if spec.name in SETTLED.get(kind_key, ()) or (spec.group in OF_A_PLACE and spec.name not in ANYWHERE):
        return False
    return any(spec.name not in _settled(offer) and _applies(spec, offer) for offer in offers)


def _applies(spec: Spec, offer: Offer) -> bool:
    return spec.when is None or spec.when[0] not in offer.fixed or offer.fixed[spec.when[0]] in spec.when[1]


def _settled(offer: Offer) -> set[str]:
    varied = {name for axis in offer.axes for name in (axis.fields if hasattr(axis, "fields") else axis.names)}
    return {*offer.taken, *offer.fixed, *varied}


def _asked(spec: Spec, listed: bool, system: System) -> Spec:
    """A field that may stay empty, and what holds then."""
    usual = "" if listed else _usual(spec, system)
    if spec.kind in ("choice", "yes"):
        options = spec.options if spec.kind == "choice" else (("yes", "yes"), ("no", "no"))
        empty = ("", f"as usual: {usual}" if usual else "not given")
        return replace(
            spec, kind="choice", options=(empty, *(o for o in options if o[0])), default="", hint="", when=None
        )
    hint = f"Else {usual}." if usual else ("Not compared without it." if _first(spec) else spec.hint)
    return replace(spec, optional=True, default=None, hint=hint, when=None)


def _first(spec: Spec) -> bool:
    return any(offer.listed[:1] == (spec.name,) for offer in OFFERS)


def _usual(spec: Spec, system: System) -> str:
    if spec.default in (None, ""):
        return ""
    if spec.kind == "choice":
        return dict(spec.options).get(spec.default, "")
    if spec.kind == "yes":
        return "yes" if spec.default else "no"
    return show(spec.default, spec.unit, system) if spec.kind == "number" else str(spec.default)


def read(kind_key: str, texts: Mapping[str, str]) -> tuple[dict[str, str], dict[str, str]]:
    """Texts to keep, those that were given; and by field what can't be used."""
    own = {s.name: s for s in specs(kinds.kind(kind_key).inputs)}
    found = {s.name: texts[s.name].strip() for s in known(kind_key) if texts.get(s.name, "").strip()}
    errors = {}
    for name, text in found.items():
        try:
            fields.read_one(own[name], text)
        except BadInput as error:
            errors[name] = error.message
    return found, errors
