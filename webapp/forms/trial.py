"""A check that belongs to no job, as its address or its form holds it."""

from collections.abc import Mapping
from dataclasses import dataclass

from engine.attachments import Kind
from engine.editions import EDITIONS, US_2021
from engine.fields import Spec, specs
from engine.job import Checked
from engine.solve import Remedy
from engine.units import System
from webapp.forms import attachment as forms
from webapp.forms.quantities import keep_all, shown

EDITION = Spec(
    name="edition",
    label="Code editions",
    group="Judged by",
    kind="choice",
    options=tuple((key, key) for key in EDITIONS),
    default=US_2021.key,
)


@dataclass(frozen=True, slots=True)
class Trial:
    """What is to be checked.

    Args: raw: what was typed. typed_in: the system of its bare numbers. units: the system to show it in. today: the day that
    listings are judged by until another is typed.
    """

    kind: Kind
    raw: Mapping[str, str]
    typed_in: System
    units: System
    today: str

    @property
    def specs(self) -> tuple[Spec, ...]:
        """The kind's inputs, and the editions to judge by."""
        return (*specs(self.kind.inputs), EDITION)

    @property
    def kept(self) -> dict[str, str]:
        """All texts with their units."""
        usual = forms.defaults(self.kind, self.today) | {EDITION.name: US_2021.key}
        return usual | keep_all(self.specs, self.raw, self.typed_in)

    @property
    def edition(self) -> str:
        """The key of the editions to judge by."""
        chosen = self.kept[EDITION.name]
        return chosen if chosen in EDITIONS else US_2021.key

    @property
    def inputs(self) -> dict[str, str]:
        """The kind's own texts."""
        return {name: text for name, text in self.kept.items() if name != EDITION.name}

    @property
    def shown(self) -> dict[str, str]:
        """All texts as the form shows them; what was typed stays as typed."""
        kept = self.kept
        as_typed = self.raw if self.typed_in == self.units else {}
        return {s.name: as_typed.get(s.name, shown(s, kept[s.name], self.units)) for s in self.specs}

    def with_remedy(self, remedy: Remedy) -> dict[str, str]:
        """The address's values with a remedy filled in."""
        changes = {s.name: shown(s, remedy.changes[s.name], self.units) for s in remedy.specs}
        return {"units": self.units, **forms.overridden(self.shown, changes)}

    def sheet(self, address: str, checked: Checked) -> forms.Sheet:
        """The form beside the result."""
        return forms.Sheet(
            "attachment",
            address,
            "get",
            self.specs,
            self.shown,
            address,
            {"units": self.units},
            checked.refused if self.raw else {},
            summaries=forms.summaries(self.specs, self.kept, self.units),
        )
