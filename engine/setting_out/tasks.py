"""What is to be set out: plain facts about each attachment, with nothing of how it was checked."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from engine.fields import number, yes
from engine.setting_out.floor_line import FloorLine
from engine.setting_out.marks import Finding
from engine.setting_out.runs import Band

CLEAR, FORMS, BARS = "Clearances", "Forms", "Bars"

Moved = Mapping[str, tuple[float, ...]]  # stations moved by hand or surveyed, by what they are [in]


@dataclass(frozen=True, slots=True)
class Habits:
    """How an office sets out; common practice throughout, each value typed."""

    grid_in: float = number("Bolts set to multiples of", "in", 1 / 16, 12, 0.5, group=CLEAR)
    web_clear_in: float = number("Middle of a web to a bolt or plate", "in", 0, 12, 1.5, group=CLEAR)
    joist_clear_in: float = number("Side of a joist to a bolt beside it", "in", 0, 12, 1.5, group=CLEAR)
    hanger_clear_in: float = number("Side of a joist in a hanger to a bolt", "in", 0, 12, 3.0, group=CLEAR)
    pocket_clear_in: float = number("Side of a pocket or plate to a bolt", "in", 0, 24, 2.0, group=CLEAR)
    joint_clear_in: float = number("Side of a joist to a joint of plate or ledger", "in", 0, 24, 1.5, group=CLEAR)
    shortest_in: float = number("Shortest piece of plate or ledger", "in", 6, 120, 24.0, group=CLEAR)
    bracket_spacing_in: float = number("Transition brackets, at most apart", "in", 4, 96, 16.0, group=FORMS)
    bracket_end_in: float = number("Transition brackets, at most from an end", "in", 1, 96, 8.0, group=FORMS)
    brackets_on_webs: bool = yes("Transition brackets stand at webs", True, group=FORMS)
    bar_cover_in: float = number("Jamb or pocket to an extra bar", "in", 0.5, 12, 1.5, group=BARS)
    first_bar_in: float = number("First vertical bar from an end", "in", 1, 48, 8.0, group=BARS)
    bars_apart_in: float = number("Extra bars, clear between two", "in", 0.5, 12, 1.0, group=BARS)


@dataclass(frozen=True, slots=True)
class Bolts:
    """Bolts along a plate or ledger.

    Args: spacing_in: the most. apart_in: the least. end_min_in, end_max_in: end bolt of a piece from its end. piece_in: length of
    a piece bought. band: concrete they need. beside: what they stand beside, so which habit keeps them clear. joint_clear_in: least
    between a joint and a joist's side. each: bolts at a place. least: places in a piece. tie_in: spacing of floor ties, None
    without; ties_at_bolts: each tie stands at a bolt. end_checked_in: end distance the check took, None where it does not matter;
    worse: whether a bolt nearer the end or farther from it is the worse.
    """

    spacing_in: float
    apart_in: float
    end_min_in: float
    end_max_in: float
    piece_in: float
    band: Band
    beside: Literal["joist", "hanger"]
    joint_clear_in: float = 0.0
    each: int = 1
    least: int = 2
    tie_in: float | None = None
    ties_at_bolts: bool = False
    end_checked_in: float | None = None
    worse: Literal["nearer", "farther"] = "nearer"


@dataclass(frozen=True, slots=True)
class Plates:
    """A cast-in part beside every joist. Args: half_in: half its thickness. gap_in: between it and the joist's side."""

    half_in: float
    gap_in: float = 0.0


@dataclass(frozen=True, slots=True)
class Spaced:
    """Anchored plates along a run, or one at its start. Args: width_in: of one. spacing_in: None for a single one."""

    width_in: float
    band: Band
    spacing_in: float | None = None


@dataclass(frozen=True, slots=True)
class Pocket:
    """A beam pocket at the run's start.

    Args: width_in, band: its size. bars_cut, bars_added: as its check has them, in all. d_b_in: bar diameter.
    """

    width_in: float
    band: Band
    bars_cut: int = 0
    bars_added: int = 0
    d_b_in: float = 0.5


@dataclass(frozen=True, slots=True)
class Stirrups:
    """Stirrups of a ledge.

    Args: spaces: webs' spaces to each. band: its concrete. d_b_in: bar. corner_extra: more at a corner's first one.
    """

    spaces: int
    band: Band
    d_b_in: float
    corner_extra: int = 0


@dataclass(frozen=True, slots=True)
class Task:
    """One attachment to set out on a wall [in].

    Every part is None where the attachment has none. moved: stations moved by hand. notes: findings it brings along.
    """

    tag: str
    kind: str
    level: int
    start_in: float
    end_in: float | None = None
    line: FloorLine | None = None
    bolts: Bolts | None = None
    plates: Plates | None = None
    anchored: Spaced | None = None
    pocket: Pocket | None = None
    stirrups: Stirrups | None = None
    moved: Moved = field(default_factory=dict)
    notes: tuple[Finding, ...] = ()
