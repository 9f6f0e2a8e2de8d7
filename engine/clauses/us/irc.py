"""Words shared by the residential clauses: seismic design categories, kinds of support, and which IRC a job is read in."""

from typing import Literal

from engine.editions import Edition

Category = Literal["A", "B", "C", "D0", "D1", "D2", "E"]
Support = Literal["wood", "metal", "masonry", "concrete"]
Code = Literal["IRC", "IBC"]
Form = Literal["stay-in-place", "removable"]


def irc_year(edition: Edition) -> int:
    """Year of the IRC in an edition set, for the few values that changed between printings."""
    return int(edition.title("IRC").removeprefix("IRC "))
