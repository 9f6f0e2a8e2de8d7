"""Setting out: where along a wall joists, bolts, plates, brackets, stirrups, pockets and extra bars go."""

from engine.setting_out.floor_line import FloorLine, Joists, joists
from engine.setting_out.marks import WORDS, Finding, Mark, millimetres, station
from engine.setting_out.on_wall import WALL, SettingOut, set_out
from engine.setting_out.remedies import Change, Remedy, remedies
from engine.setting_out.rows import Row, Set
from engine.setting_out.rules import Kept, Piece, Rule
from engine.setting_out.runs import Band, cuts, pieces, stretches, webs
from engine.setting_out.tasks import Bolts, Habits, Plates, Pocket, Spaced, Stirrups, Task

__all__ = [
    "WALL",
    "WORDS",
    "Band",
    "Bolts",
    "Change",
    "Finding",
    "FloorLine",
    "Habits",
    "Joists",
    "Kept",
    "Mark",
    "Piece",
    "Plates",
    "Pocket",
    "Remedy",
    "Row",
    "Rule",
    "Set",
    "SettingOut",
    "Spaced",
    "Stirrups",
    "Task",
    "cuts",
    "joists",
    "millimetres",
    "pieces",
    "remedies",
    "set_out",
    "station",
    "stretches",
    "webs",
]
