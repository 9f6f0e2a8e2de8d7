"""What the walls themselves take: forms, concrete by lift, bars, brackets, strapping, sealant."""

from collections.abc import Mapping, Sequence
from math import ceil

from engine.clauses.us.placing_rates import passes, wall_volume_yd3
from engine.setting_out import WALL, Habits, SettingOut
from engine.takeoff import wall_bars
from engine.takeoff.rows import Maker, Office, Row
from engine.units import show
from engine.wall import Opening, Wall, WallType

FACES = 2


def wall_rows(
    wall: Wall, own: Sequence[SettingOut], special_ft: Mapping[int, float], habits: Habits, office: Office
) -> list[Row]:
    """Rows of one wall, storey by storey.

    Args: own: its own setting out (kind "wall"). special_ft: length of taper and ledge forms, by storey.
    """
    rows: list[Row] = []
    by_level = {entry.level: entry for entry in own}
    for storey in range(1, len(wall.storeys) + 1):
        maker = Maker(wall.name, storey, WALL)
        kind = wall.types[wall.storeys[storey - 1].type]
        _forms(maker, wall, storey, kind, special_ft.get(storey, 0.0), office)
        _concrete(maker, wall, storey, kind, office)
        bars = wall_bars.storey_bars(wall, storey)
        wall_bars.add_bars(maker, wall_bars.verticals(bars, habits), "vertical bars")
        wall_bars.add_bars(maker, wall_bars.horizontals(bars, office), "horizontal bars")
        wall_bars.add_bars(maker, wall_bars.beside_openings(bars), "bars round openings")
        if storey in by_level:
            maker.add("bracket", "where the wall steps", by_level[storey].count("bracket"), "set out")
        _openings(maker, wall, storey)
        _seam(maker, wall, storey, kind)
        rows += maker.made
    return rows


def _of(wall: Wall, storey: int) -> list[Opening]:
    return [o for o in wall.openings if o.storey == storey]


def course_lengths_ft(wall: Wall, storey: int, kind: WallType, corner_leg_in: float) -> list[float]:
    """Length of straight forms in each course: the wall less corner legs and openings as high as the whole course [ft]."""
    height = wall.storeys[storey - 1].height_ft * 12
    corners = (wall.line.near_end, wall.line.far_end).count("corner")
    found = []
    for n in range(ceil(height / kind.course_in - 1e-9)):
        low, high = n * kind.course_in, min((n + 1) * kind.course_in, height)
        open_ft = sum(
            o.width_ft for o in _of(wall, storey) if o.sill_ft * 12 <= low + 1e-9 and o.head_ft * 12 >= high - 1e-9
        )
        found.append(max(wall.line.length_ft - open_ft - corners * corner_leg_in / 12, 0.0))
    return found


def _forms(maker: Maker, wall: Wall, storey: int, kind: WallType, special_ft: float, office: Office) -> None:
    courses = course_lengths_ft(wall, storey, kind, office.corner_leg_in)
    straight = max(sum(courses) - special_ft, 0.0)
    named = wall.storeys[storey - 1].type
    count = ceil(straight * 12 / office.form_length_in - 1e-9)
    source = f"{len(courses)} courses, offcuts used again within the storey"
    maker.add("form", f"straight, {named}, {show(office.form_length_in, 'in')} long", count, source)
    if office.corner_leg_in:
        ends = (wall.line.near_end, wall.line.far_end).count("corner")
        source = f"{len(courses)} courses, half a form for each end at a corner"
        maker.add("form", f"corner, {named}", len(courses) * ends / 2, source)


def lift_area_ft2(wall: Wall, storey: int, low_ft: float, high_ft: float) -> float:
    """Face of a storey between two heights, less its openings [ft²]."""
    open_ft2 = sum(o.width_ft * max(min(o.head_ft, high_ft) - max(o.sill_ft, low_ft), 0.0) for o in _of(wall, storey))
    return wall.line.length_ft * (high_ft - low_ft) - open_ft2


def _concrete(maker: Maker, wall: Wall, storey: int, kind: WallType, office: Office) -> None:
    height = wall.storeys[storey - 1].height_ft
    for n in range(passes(height, office.lift_ft)):
        low, high = n * office.lift_ft, min((n + 1) * office.lift_ft, height)
        volume = wall_volume_yd3(lift_area_ft2(wall, storey, low, high), kind.core_in)
        size = f"storey {storey}, lift {n + 1}, {show(low, 'ft')} to {show(high, 'ft')}"
        maker.add("concrete", size, volume, "core less openings; corners count in both walls")


def _openings(maker: Maker, wall: Wall, storey: int) -> None:
    """Sealant round windows and doors, once; none along the floor."""
    around = 0.0
    for o in _of(wall, storey):
        around += 2 * (o.head_ft - o.sill_ft) + o.width_ft * (2 if o.sill_ft > 0 else 1)
    maker.add("sealant", "round openings", around, "perimeter of openings, floors left out")


def _seam(maker: Maker, wall: Wall, storey: int, kind: WallType) -> None:
    """A wall that does not end on the forms' module has one seam that is strapped on both faces."""
    length, module = wall.line.length_ft * 12, kind.web_spacing_in
    if abs(length / module - round(length / module)) * module > 1 / 16:
        height = wall.storeys[storey - 1].height_ft
        maker.add("strapping", "seam off the module", FACES * height, "both faces, the storey's height")
