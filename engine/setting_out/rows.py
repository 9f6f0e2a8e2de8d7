"""A row of one kind of thing along its pieces: set by the rule, or as moved by hand or surveyed and checked against it."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import isfinite

from engine.errors import BadInput
from engine.setting_out.marks import WORDS, Finding, plain
from engine.setting_out.places import spread
from engine.setting_out.remedies import Change, Remedy, remedies
from engine.setting_out.rules import EPS, Piece, Rule, barred
from engine.units import show

MOST_SHOWN = 3  # remedies named in one sentence


@dataclass(frozen=True, slots=True)
class Set:
    """What came of setting a row: stations ascending [in], findings, and for each piece without places its remedies."""

    stations: tuple[float, ...]
    findings: tuple[Finding, ...] = ()
    remedies: tuple[tuple[Piece, tuple[Remedy, ...]], ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """One kind of thing along its pieces, with the rule it holds. Pieces ascend and do not overlap."""

    pieces: tuple[Piece, ...]
    rule: Rule

    def place(self, explain: bool = True) -> Set:
        """The fewest in every piece, then the most evenly spread.

        Args: explain: look for what would give a piece without places some.
        Raises: BadInput for a rule that contradicts itself, or where the ends let two pieces' anchors stand too near at a joint.
        """
        self._check()
        closed = barred(self.rule.keeps)
        stations: list[float] = []
        stuck: list[tuple[Piece, tuple[Remedy, ...]]] = []
        for piece in self.pieces:
            found = spread(piece, self.rule, closed)
            if found is None:
                stuck.append((piece, remedies(piece, self.rule) if explain else ()))
            else:
                stations += found
        findings = tuple(_stuck(self.rule, piece, ways) for piece, ways in stuck)
        return Set(tuple(stations), findings, tuple(stuck))

    def _check(self) -> None:
        self.rule.check()
        for before, after in pairwise(self.pieces):
            apart = after.start_in - before.end_in + 2 * self.rule.end_min_in
            if apart < self.rule.apart_in - EPS:
                raise BadInput(
                    "end_min_in",
                    f"At the joint {show(before.end_in / 12, 'ft')} from the named end two {_many(self.rule)} may stand "
                    f"{show(self.rule.apart_in - apart, 'in')} too near. Enter an end distance of at least half the least "
                    "distance of two.",
                )

    def review(self, stations: Sequence[float], reading_in: float = 0.0) -> tuple[Finding, ...]:
        """Stations moved by hand, or as built, held against the same rule: every violation with its place and amount.

        Args: stations [in], in any order. reading_in: how far each may be misread on a tape (1/32 for one read to 1/16).
        Raises: BadInput for a station that is no number.
        """
        if not all(isfinite(at) for at in stations):
            raise BadInput("stations", "Enter every station as a length from the named end.")
        placed = sorted(stations)
        found = [*self._off(placed), *self._by_piece(placed), *self._too_near(placed)]
        found += [*self._not_clear(placed), *self._elsewhere(placed), *self._unserved(placed)]
        misread = {"spacing": 2 * reading_in, "apart": 2 * reading_in}
        return tuple(
            sorted(
                (f for f in found if not 0 < f.amount_in <= misread.get(f.key, reading_in) + EPS),
                key=lambda f: (f.at_in, f.key),
            )
        )

    def _finding(self, key: str, at: float, amount: float, say: str, **facts: tuple[float, str]) -> Finding:
        return Finding(key, self.rule.what, at, amount, say.replace("{one}", _one(self.rule)), facts)

    def _off(self, placed: Sequence[float]) -> Iterator[Finding]:
        starts = [piece.start_in for piece in self.pieces]
        for at in placed:
            n = bisect_right(starts, at + EPS) - 1
            if n >= 0 and at <= self.pieces[n].end_in + EPS:
                continue
            off = min((max(p.start_in - at, at - p.end_in) for p in self.pieces), default=0.0)
            say = "The {one} at {at} stands {amount} off: in an opening, or past the end."
            if not self.pieces:
                say = "The {one} at {at} has nothing to stand on: openings take the whole run."
            yield self._finding("off", at, off, say)

    def _by_piece(self, placed: Sequence[float]) -> Iterator[Finding]:
        """Number, spacing and end distances of every piece."""
        rule = self.rule
        for piece in self.pieces:
            own = placed[bisect_left(placed, piece.start_in - EPS) : bisect_right(placed, piece.end_in + EPS)]
            if len(own) < rule.least:
                say = (
                    f"The piece at {{at}}, {{length}} long, has {len(own)} of the {rule.least} {_many(rule)} it needs."
                )
                yield self._finding("least", piece.start_in, 0.0, say, length=(piece.length_in / 12, "ft"))
            for a, b in pairwise(own):
                if b - a > rule.spacing_in + EPS:
                    say = "From {from} to {at} is {gap}, {amount} more than the {most} allowed between two."
                    facts = {"from": (a, "station"), "gap": (b - a, "in"), "most": (rule.spacing_in, "in")}
                    yield self._finding("spacing", b, b - a - rule.spacing_in, say, **facts)
            if own:
                yield from self._ends(own, piece)

    def _ends(self, own: Sequence[float], piece: Piece) -> Iterator[Finding]:
        rule = self.rule
        for at in own:
            near = min(at - piece.start_in, piece.end_in - at)
            if near < rule.end_min_in - EPS:
                say = "The {one} at {at} is {end} from the end of its piece, {amount} less than the {least} it needs."
                facts = {"end": (near, "in"), "least": (rule.end_min_in, "in")}
                yield self._finding("end least", at, rule.end_min_in - near, say, **facts)
        for at, far in ((own[0], own[0] - piece.start_in), (own[-1], piece.end_in - own[-1])):
            if far > rule.end_max_in + EPS:
                say = "The last {one} toward an end, at {at}, is {end} from it, {amount} more than the {most} allowed."
                facts = {"end": (far, "in"), "most": (rule.end_max_in, "in")}
                yield self._finding("end most", at, far - rule.end_max_in, say, **facts)

    def _too_near(self, placed: Sequence[float]) -> Iterator[Finding]:
        for a, b in pairwise(placed):
            if b - a < self.rule.apart_in - EPS:
                say = "The two at {from} and {at} are {gap} apart, {amount} less than the {least} they need."
                facts = {"from": (a, "station"), "gap": (b - a, "in"), "least": (self.rule.apart_in, "in")}
                yield self._finding("apart", b, self.rule.apart_in - (b - a), say, **facts)

    def _not_clear(self, placed: Sequence[float]) -> Iterator[Finding]:
        for kept in self.rule.keeps:
            for at in placed:
                thing = _nearest(kept.at_in, at)
                short = kept.reach_in - abs(thing - at) if thing is not None else 0.0
                if short > EPS:
                    say = f"The {{one}} at {{at}} is {{amount}} too near {plain(kept.what)} at {{thing}}."
                    yield self._finding("clear", at, short, say, thing=(thing or 0.0, "station"))

    def _elsewhere(self, placed: Sequence[float]) -> Iterator[Finding]:
        places = self.rule.only_at
        for at in placed if places is not None else ():
            place = _nearest(places or (), at)
            if place is None:
                yield self._finding("place", at, 0.0, "The {one} at {at} has no place it may take.")
            elif abs(place - at) > EPS:
                say = "The {one} at {at} is {amount} from the nearest place it may take."
                yield self._finding("place", at, abs(place - at), say)

    def _unserved(self, placed: Sequence[float]) -> Iterator[Finding]:
        for place in self.rule.serves:
            near = _nearest(placed, place)
            if near is None:
                yield self._finding("unserved", place, 0.0, "No {one} stands at {at}, where one is needed.")
            elif abs(near - place) > self.rule.serve_in + EPS:
                say = "The {one} nearest to {at}, where one is needed, stands {amount} too far away, at {near}."
                short = abs(near - place) - self.rule.serve_in
                yield self._finding("unserved", place, short, say, near=(near, "station"))


def _nearest(places: Sequence[float], at: float) -> float | None:
    n = bisect_left(places, at)
    return min(places[max(n - 1, 0) : n + 1], key=lambda place: abs(place - at), default=None)


def _one(rule: Rule) -> str:
    return WORDS[rule.what][0]


def _many(rule: Rule) -> str:
    return WORDS[rule.what][1]


def _stuck(rule: Rule, piece: Piece, ways: tuple[Remedy, ...]) -> Finding:
    """A piece without places, and what would give it some."""
    ways = tuple(sorted(ways, key=lambda way: sum(change.by_in for change in way)))
    facts: dict[str, tuple[float, str]] = {"end": (piece.end_in, "station"), "length": (piece.length_in / 12, "ft")}
    said = []
    for n, way in enumerate(ways[:MOST_SHOWN]):
        parts = []
        for m, change in enumerate(way):
            name = f"to_{n}_{m}"
            facts[name], facts[f"now_{n}_{m}"] = (change.to_in, "in"), (change.now_in, "in")
            parts.append(f"{_asked(change)} {{{name}}} instead of {{now_{n}_{m}}}")
        said.append(" and ".join(parts))
    amount = sum(change.by_in for change in ways[0]) if ways else 0.0
    advice = (
        "; or ".join(said) if said else "nothing alone or in pairs is enough: move the joints or what is in the way"
    )
    say = f"No places for {_many(rule)} from {{at}} to {{end}}, a piece {{length}} long. To mend it: {advice}."
    return Finding("no place", rule.what, piece.start_in, amount, say, facts)


def _asked(change: Change) -> str:
    return {
        "spacing": "allow a spacing of",
        "end most": "let the end one stand up to",
        "end least": "let one stand as near an end as",
        "apart": "let two stand as near as",
        "clear": f"keep clear of {plain(change.what)} by",
    }[change.constraint]
