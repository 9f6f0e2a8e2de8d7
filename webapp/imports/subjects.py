"""What can be imported, and what a column of it can be: inputs of the engine under the names their readers know."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from types import MappingProxyType

from engine.attachments import Kind
from engine.fields import Spec, specs
from engine.floor import Floor
from engine.job import HEIGHT
from engine.placed import Place, Site
from engine.wall import Opening, Storey, WallLine, WallType, wall
from webapp.forms.attachment import PLACE
from webapp.services import checks

MOST_STOREYS = 8
WALL = f"{PLACE}wall"
KIND = f"{PLACE}kind"
ATTACHMENTS = "attachments-"


@dataclass(frozen=True, slots=True)
class Target:
    """What a column can be. Args: spec: under the name of its key. needed: no row can do without it."""

    spec: Spec
    needed: bool = False

    @property
    def key(self) -> str:
        """Its name among the subject's targets."""
        return self.spec.name


@dataclass(frozen=True, slots=True)
class Subject:
    """One kind of thing to import. Args: lead: what it is for, in a sentence."""

    key: str
    name: str
    one: str
    many: str
    lead: str
    targets: tuple[Target, ...]
    kind: Kind | None = None

    def target(self, key: str) -> Target | None:
        """What a column can be, by its key."""
        return next((target for target in self.targets if target.key == key), None)

    def label(self, spec: Spec) -> str:
        """A target's words, with its heading before them where another's are the same."""
        alone = sum(target.spec.label == spec.label for target in self.targets) == 1
        return spec.label if alone else f"{spec.group}: {spec.label}"

    def counted(self, number: int) -> str:
        """So many of them: "1 wall", "37 walls"."""
        return f"{number:,} {self.one if number == 1 else self.many}"


def _words(name: str, label: str, group: str = "") -> Spec:
    return Spec(name=name, label=label, group=group, kind="text")


def _needing(known: tuple[Spec, ...]) -> tuple[Target, ...]:
    """Targets of which those without a usual value are needed."""
    return tuple(Target(s, s.default is None and not s.optional) for s in known)


def _walls() -> Subject:
    storeys = tuple(
        replace(spec, name=f"storeys-{n}-{spec.name}", label=f"Storey {n} {words}", group="Storeys, bottom up")
        for n in range(1, MOST_STOREYS + 1)
        for spec, words in ((_words("type", "wall type"), "wall type"), (HEIGHT, "height"))
    )
    targets = (
        Target(_words("name", "Name", "Wall"), needed=True),
        *_needing(specs(WallLine)),
        *(Target(s, needed=s.name == "storeys-1-type") for s in storeys),
    )
    return Subject(
        "walls", "Walls", "wall", "walls", "Straight walls: length, ends, storeys from the bottom up.", targets
    )


def _openings() -> Subject:
    targets = (Target(_words(WALL, "Wall", "Openings"), needed=True), *_needing(specs(Opening)))
    lead = "Windows, doors and large penetrations, added to walls of this job."
    return Subject("openings", "Openings", "opening", "openings", lead, targets)


def _place(point: bool = False) -> tuple[Target, ...]:
    own = [replace(s, name=PLACE + s.name) for s in specs(Place) if not (point and s.name == "end_ft")]
    return (Target(_words(WALL, "Wall", "Place"), needed=True), *(Target(spec) for spec in own))


def _floor_lines() -> Subject:
    targets = (Target(_words("name", "Name", "Place"), needed=True), *_place(), *_needing(specs(Floor)))
    lead = "Joists that meet a wall at one level, whatever is to carry them."
    return Subject("floor_lines", "Floor lines", "floor line", "floor lines", lead, targets)


@cache
def _followed() -> frozenset[str]:
    """The names of all that an input can follow, as `engine.placed` looks them up."""
    sample = wall("", WallLine(length_ft=10.0), [Storey("")], [], {"": WallType()})
    return frozenset({*sample.facts(1, 0.0), *(f"job.{s.name}" for s in specs(Site)), "job.today"})


def own_specs(kind: Kind) -> tuple[Spec, ...]:
    """A kind's inputs that are typed; the others follow the wall or the site."""
    return tuple(spec for spec in specs(kind.inputs) if spec.wall not in _followed())


def _attachments(kind: Kind) -> Subject:
    which = Target(_words(KIND, "Kind", "Place"))
    targets = (which, *_place(kind.point), *_needing(own_specs(kind)))
    return Subject(f"{ATTACHMENTS}{kind.key}", kind.name, "attachment", "attachments", "", targets, kind)


@cache
def subjects() -> Mapping[str, Subject]:
    """All of them by key, in the order they are offered."""
    found = (_walls(), _openings(), _floor_lines(), *(_attachments(kind) for kind in checks.offered()))
    return MappingProxyType({subject.key: subject for subject in found})
