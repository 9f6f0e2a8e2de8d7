"""What reaches one bolt place: its neighbours and edges, and what each strength combination brings to it."""

from collections.abc import Iterable
from math import hypot, inf
from typing import NamedTuple

from engine.attachments.bolted_ledger.demand import Carried, Share, tie_feet
from engine.attachments.bolted_ledger.geometry import Ledger
from engine.attachments.bolted_ledger.inputs import Inputs
from engine.clauses.us.loads import Combination, strength_combinations
from engine.editions import Edition

SEISMIC_CATEGORIES = ("C", "C-town", "D0", "D1", "D2")


class Site(NamedTuple):
    """A kind of bolt place: words, the next place to the left and right, concrete left and right of it that counts [in]."""

    words: str
    next_left: float | None
    next_right: float | None
    c_left: float | None
    c_right: float | None


class Effect(NamedTuple):
    """What one strength combination brings to one bolt place [lb]: down, along the wall, pull of the couple and of a tie.

    k: the shares it was worked with. E_along, E_across: earthquake parts of `along` and `tie`.
    """

    combination: Combination
    k: tuple[float, float]
    V: float
    along: float
    couple: float
    tie: float
    E_along: float
    E_across: float

    @property
    def label(self) -> str:
        """Of the combination."""
        return self.combination.label

    @property
    def shear(self) -> float:
        """Down and along together [lb]."""
        return hypot(self.V, self.along)

    @property
    def pull(self) -> float:
        """Couple and tie together [lb]."""
        return self.couple + self.tie


def sites(place: Ledger) -> dict[Site, list[int]]:
    """Bolt places by their neighbours and edges; past a piece's end where the concrete goes on, the next piece's bolt is near."""
    u, found = place.places, dict[Site, list[int]]()
    last = len(u) - 1
    for n in range(len(u)):
        left = u[n] - u[n - 1] if n else _beyond(place.left, place.end)
        right = u[n + 1] - u[n] if n < last else _beyond(place.right, place.end)
        c_left, c_right = (
            _edge(place, place.left, u[n], n == 0),
            _edge(place, place.right, place.piece - u[n], n == last),
        )
        words = "between" if 0 < n < last else "at an end"
        if (c_left or inf, left or inf) > (c_right or inf, right or inf):
            left, right, c_left, c_right = right, left, c_right, c_left  # seen from behind, the near edge to the left
        found.setdefault(Site(words, left, right, c_left, c_right), []).append(n)
    return found


def _beyond(concrete: float | None, end: float) -> float | None:
    return 2 * end if concrete is None else None


def _edge(place: Ledger, concrete: float | None, to_end: float, outermost: bool) -> float | None:
    """Distance to where the concrete ends; for bolts farther in only where it takes from their cone."""
    if concrete is None:
        return None
    return concrete + to_end if outermost or concrete + to_end < 1.5 * place.h_ef else None


def shares(i: Inputs, load: Carried, edition: Edition, numbers: Iterable[int]) -> tuple[Share, ...]:
    """Of the heaviest of some places under every strength combination, in their order."""
    candidates = load.candidates(numbers)
    return tuple(load.heaviest(c, i, candidates) for c in strength_combinations(edition))


class Beside(NamedTuple):
    """What one strength combination brings to every bolt place alike [lb]: along the wall, pull of a tie, earthquake in each."""

    combination: Combination
    along: float
    tie: float
    E_along: float
    E_across: float


def beside(i: Inputs, load: Carried, edition: Edition) -> tuple[Beside, ...]:
    """Of every strength combination, in their order."""
    feet, along = tie_feet(i), i.spacing_in / 12
    return tuple(
        Beside(c, c.total(load.along) * along, c.total(load.across) * feet, c.E * load.along.E * along,
               c.E * load.across.E * feet)
        for c in strength_combinations(edition)
    )  # fmt: skip


def effects(place: Ledger, found: Iterable[Share], alike: Iterable[Beside]) -> tuple[Effect, ...]:
    """Every strength combination. Args: found, alike: by `shares` and `beside`, in the order of the combinations."""
    lever = place.x_R / place.lever if place.lever is not None else 0.0
    return tuple(
        Effect(c, share.k, share.V, along, share.V * lever, tie, E_along, E_across)
        for share, (c, along, tie, E_along, E_across) in zip(found, alike, strict=True)
    )


def earthquake(i: Inputs, effect: Effect) -> bool:
    """Whether chapter 17's rules for earthquake apply to it."""
    return i.seismic in SEISMIC_CATEGORIES and effect.E_along + effect.E_across > 0


def worth_checking(i: Inputs, found: Iterable[Effect]) -> tuple[Effect, ...]:
    """Effects that no other one matches or exceeds in every part."""
    kept: list[Effect] = []
    for effect in sorted(found, key=lambda e: -(e.V + e.along + e.pull)):
        if not any(
            e.V >= effect.V and e.along >= effect.along and e.pull >= effect.pull
            and earthquake(i, e) >= earthquake(i, effect)
            for e in kept
        ):  # fmt: skip
            kept.append(effect)
    return tuple(kept)
