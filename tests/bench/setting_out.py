"""Work to measure: a long wall with an opening every 10 ft set out whole, bolts explained where they can't be set, a takeoff."""

from collections.abc import Callable

from engine.job import AttachmentEntry, Job, WallEntry
from engine.setting_out import Band, Bolts, FloorLine, Habits, Stirrups, Task, set_out
from engine.takeoff import takeoff, totals
from engine.wall import Opening, Storey, Wall, WallLine, WallType

LENGTHS_FT = (50, 200, 800)
MOST_200_FT_MS = 50.0  # a wall of 200 ft with 20 openings
MOST_GROWTH = 6.0  # four times the length: four times the time, and half as much again for a busy machine
Work = Callable[[], object]


def long_wall(length_ft: int) -> Wall:
    """A stepped wall, every second opening up to its floor. Longer than a wall may be typed, so built without that check."""
    openings = tuple(Opening(3 + 10 * n, 4, 0 if n % 2 else 3, 9 if n % 2 else 7) for n in range(length_ft // 10))
    types = {"lower": WallType(core_in=10.0), "upper": WallType()}
    return Wall("W1", WallLine(length_ft=length_ft), (Storey("lower"), Storey("upper")), openings, types)


def setting_out(length_ft: int, web_clear_in: float = 1.5) -> Work:
    """Joists, plate and bolts, stirrups, brackets and extra bars of one wall. Args: web_clear_in: above 4 no bolt has a place."""
    wall, end = long_wall(length_ft), length_ft * 12.0
    bolts = Bolts(48.0, 2.0, 3.5, 12.0, 144.0, Band(-7.0, 0.0), "joist")
    tasks = (
        Task("A1", "ledge_seat", 1, 0.0, end, line=FloorLine("W1", depth_in=1.0), bolts=bolts),
        Task("A2", "veneer_ledge", 1, 0.0, end, stirrups=Stirrups(1, Band(-24.0, -12.0), 0.5)),
    )
    habits = Habits(web_clear_in=web_clear_in)
    return lambda: set_out(wall, tasks, habits)


def job_takeoff(walls: int) -> Work:
    """Setting out and takeoff of a job whose every wall carries a ledge on its first floor and a sill on its top."""
    storeys = ({"type": "L", "height_ft": "9 ft"}, {"type": "U", "height_ft": "9 ft"})
    window = {"start_ft": "8 ft", "width_ft": "4 ft", "sill_ft": "3 ft", "head_ft": "7 ft"}
    names = [f"W{n}" for n in range(walls)]
    entries = [
        entry
        for name in names
        for entry in (
            AttachmentEntry(f"{name}-1", "ledge_seat", name, 1, "0 ft", "40 ft", {}),
            AttachmentEntry(f"{name}-2", "sill_plate", name, 2, "0 ft", "40 ft", {}),
        )
    ]
    job = Job(
        "House", wall_types={"L": {"core_in": "10 in"}, "U": {"core_in": "6 in"}},
        walls=tuple(WallEntry(name, {"length_ft": "40 ft"}, storeys, (window,)) for name in names),
        attachments=tuple(entries),
    )  # fmt: skip
    return lambda: totals(takeoff(job).rows)
