"""Edition sets: which published edition each family of rules is read in. Chosen per job, recorded in every result."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from engine.errors import BadInput


@dataclass(frozen=True, slots=True)
class Edition:
    """One set of code editions used together.

    Args: key: the name shown ("US 2021"). titles: family -> printed title with year. notes: what this set changed that the engine
    does not hold, shown with every result.
    """

    key: str
    titles: Mapping[str, str] = field(compare=False)
    notes: tuple[str, ...] = ()

    def title(self, family: str) -> str:
        """Printed title of a family of rules in this set; a family without editions is its own title."""
        return self.titles.get(family, family)


@dataclass(frozen=True, slots=True)
class Citation:
    """A place in a published rule: family ("IRC"), section, and the sections of editions that moved it."""

    family: str
    section: str = ""
    moved: tuple[tuple[str, str], ...] = ()

    def label(self, edition: Edition) -> str:
        """Title, year and section as this edition set prints them, e.g. "IRC 2024 R304.1"."""
        section = dict(self.moved).get(edition.key, self.section)
        return f"{edition.title(self.family)} {section}".strip()


US_2021 = Edition(
    "US 2021",
    MappingProxyType(
        {
            "IRC": "IRC 2021",
            "IBC": "IBC 2021",
            "ACI 318": "ACI 318-19",
            "NDS": "NDS 2018",
            "ASCE 7": "ASCE 7-16",
            "ACI 347R": "ACI 347R-14",
        }
    ),
)
US_2024 = Edition(
    "US 2024",
    MappingProxyType(
        {
            "IRC": "IRC 2024",
            "IBC": "IBC 2024",
            "ACI 318": "ACI 318-19(22)",
            "NDS": "NDS 2024",
            "ASCE 7": "ASCE 7-22",
            "ACI 347R": "ACI 347R-14",
        }
    ),
    (
        # AWC, 2024 design standards overview, awc.org (read): shear of bending members rewritten, 12.3.8 added.
        "NDS 2024 rewrote the shear of bending members and added a rule for connections of four or more members; the 2018 forms "
        "are used here.",
    ),
)
EDITIONS: Mapping[str, Edition] = MappingProxyType({e.key: e for e in (US_2021, US_2024)})


def edition(key: str) -> Edition:
    """The edition set of that name. Raises: BadInput naming the known sets."""
    try:
        return EDITIONS[key]
    except KeyError:
        raise BadInput("edition", f"No edition set {key!r}. Known sets: {', '.join(EDITIONS)}.") from None
