"""Ways of carrying a floor line, each over sizes that can be bought: a table, read by `prepare`.

Sizes, spacings and layouts are common practice; whether one holds is for its check to say.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from engine.options.sizes import Axis, Spread, one, together


@dataclass(frozen=True, slots=True)
class Offer:
    """One way of carrying the line.

    Args: key: its own name. kind: of attachment. name: in trade words. taken: input of the kind -> field or property of `Floor`.
    axes: what is varied. fixed: inputs that make it this way. listed: inputs that only a part's own listing gives, its capacity
    first. members: joists it can carry.
    """

    key: str
    kind: str
    name: str
    taken: Mapping[str, str]
    axes: tuple[Axis, ...]
    fixed: Mapping[str, Any] = field(default_factory=dict)
    listed: tuple[str, ...] = ()
    members: tuple[str, ...] = ("sawn", "i_joist")


def _taken(*names: str, **renamed: str) -> dict[str, str]:
    return {**{name: name for name in names}, **renamed}


FLOOR_LOADS = ("dead_psf", "live_psf", "snow_psf", "own_weight_plf")
SPACINGS = (12.0, 16.0, 19.2, 24.0)

ON_LEDGE = _taken(
    "member", "span_ft", "required_bearing_in", *FLOOR_LOADS, "wall_dead_plf", "wall_live_plf", "wall_snow_plf",
    "uplift_plf", joist_species="species", joist_depth_in="depth_in", joist_width_in="width_in",
    joist_spacing_in="spacing_in", lateral_plf="across_wind_plf",
)  # fmt: skip
LEDGE = (
    together(
        ("lip_in", "taper_depth_in", "top"),
        (0.5, 16.0, "square"), (0.5, 8.0, "taper"), (0.5, 16.0, "taper"), (1.5, 8.0, "taper"), (1.5, 16.0, "taper"),
        within=("foam_lower_in", 0.0),
    ),
    one("upper_foam", "whole", "cut_joist", "cut_line"),
)  # fmt: skip

ON_LEDGER = _taken(
    "span_ft", *FLOOR_LOADS, joist_depth_in="depth_in", joist_spacing_in="spacing_in", out_wind_plf="across_wind_plf",
    out_seismic_plf="across_seismic_plf",
)  # fmt: skip

OFFERS = (
    Offer("ledge", "ledge_seat", "On the ledge, without a plate", ON_LEDGE, LEDGE, {"plate": "none"}),
    Offer(
        "ledge-plate",
        "ledge_seat",
        "On a plate on the ledge",
        ON_LEDGE,
        (
            # bolts in the middle of the plate
            together(
                ("plate", "bolt_from_back_in"),
                ("2x4", 1.75), ("2x6", 2.75), ("2x8", 3.625), ("2x10", 4.625), ("3x4", 1.75), ("3x6", 2.75),
            ),
            *LEDGE,
            one("bolt", "0.5", "0.625"),
            one("bolt_spacing_in", 16.0, 24.0, 32.0, 48.0, 72.0),
        ),
    ),
    Offer(
        "ledger",
        "bolted_ledger",
        "Ledger bolted to the wall",
        ON_LEDGER,
        (
            # one row about the middle, or two rows within the 5 in that wood held by concrete may shrink over (NDS 12.5.1.3)
            together(
                ("size", "rows", "top_edge_in", "gauge_in"),
                *(
                    (f"{thick}x{deep}", rows, top, gauge)
                    for thick in (2, 3, 4)
                    for deep, rows, top, gauge in (
                        (8, 1, 4.5, 3.0), (8, 2, 3.0, 2.75), (10, 1, 6.0, 3.0), (10, 2, 3.5, 3.75), (12, 1, 8.0, 3.0),
                        (12, 2, 4.5, 4.75),
                    )
                ),
            ),
            one("bolt", "1/2", "5/8", "3/4"),
            one("spacing_in", *SPACINGS, webs=True),
            one("contact", "pads", "strip"),
            # a head, its cover and the bolt
            one("embedment_in", 3.0, 4.0, 5.0, 6.0, 7.0, 9.0, 11.0, within=("core_in", 1.25), deepest=1),
        ),
        listed=(
            "hanger_capacity_lb", "hanger_report", "hanger_expires", "hanger_listed", "tie_capacity_lb", "tie_report",
            "tie_expires",
        ),
    ),
    Offer(
        "plates",
        "anchored_plate",
        "Anchored plate at each joist",
        _taken(
            species="species", b_in="width_in", d_in="depth_in", dead_lb="end_dead_lb", live_lb="end_live_lb",
            snow_lb="end_snow_lb", pull_wind_lb="pull_wind_lb", pull_seismic_lb="pull_seismic_lb", next_in="spacing_in",
        ),
        (
            one("legs", "two", "one", "slot", "angle"),
            together(
                ("width_in", "height_in", "columns", "rows", "column_spacing_in", "row_spacing_in"),
                (8.0, 8.0, 2, 2, 5.0, 5.0), (8.0, 10.0, 2, 2, 5.0, 7.0), (10.0, 10.0, 2, 2, 7.0, 7.0),
                (4.0, 14.0, 1, 2, 7.0, 11.0), (8.0, 14.0, 2, 3, 5.0, 5.5),
            ),
            one("thickness_in", 0.25, 0.375, 0.5),
            one("leg_thickness_in", 0.1875, 0.25),
            one("anchor", "1/2", "5/8", "3/4"),
            one("embedment_in", 3.0, 4.0, 5.0, 6.0, 7.0, 9.0, 11.0, within=("core_in", 1.25), deepest=1),
            one("bolt", "1/2", "5/8"),
            Spread(
                {"f_rows": "rows", "f_top_in": "top", "f_row_spacing_in": "apart", "leg_height_in": "height"},
                ((2, 1), (3, 1)), edge_in=2.5, most_in=5.0, beside_in=1.25,
            ),
        ),
        {"carried": "joist", "offset_in": 5.0, "f_end_in": 3.5, "row_top_in": 1.5, "f_columns": 1},
        members=("sawn",),
    ),
    Offer(
        "plates-ledger",
        "anchored_plate",
        "Ledger on anchored plates",
        _taken(
            dead_plf="line_dead_plf", live_plf="line_live_plf", snow_plf="line_snow_plf",
        ),
        (
            # back of the ledger 3 1/2 in from the concrete, the load at the far edge of a hanger's seat 2 in deep
            together(
                ("b_in", "d_in", "offset_in", "f_top_in", "f_row_spacing_in"),
                *(
                    (thick, deep, 3.5 + thick + 2.0, top, apart)
                    for thick in (1.5, 3.5)
                    for deep, top, apart in ((9.25, 3.0, 4.0), (11.25, 3.5, 5.0))
                ),
            ),
            one("spacing_in", 24.0, 32.0, 48.0, 64.0),
            together(
                ("width_in", "height_in", "columns", "rows", "column_spacing_in", "row_spacing_in"),
                (12.0, 10.0, 2, 2, 9.0, 7.0), (12.0, 12.0, 2, 2, 9.0, 9.0), (12.0, 16.0, 2, 3, 9.0, 6.5),
            ),
            together(("thickness_in", "leg_thickness_in"), (0.375, 0.375), (0.5, 0.375), (0.5, 0.5)),
            one("anchor", "1/2", "5/8", "3/4"),
            one("embedment_in", 3.0, 4.0, 5.0, 6.0, 7.0, 9.0, 11.0, within=("core_in", 1.25), deepest=1),
        ),
        {"carried": "ledger", "legs_apart_in": 6.0, "f_rows": 2, "f_columns": 2, "row_top_in": 1.5},
    ),
    Offer(
        "cast-in",
        "cast_in_plate",
        "Cast-in plate and screws at each joist",
        _taken(
            "species", "depth_in", "spacing_in", "span_ft", *FLOOR_LOADS, "member_capacity_lb", joist="member",
            wood_in="width_in",
        ),
        (
            one("sheet", "0.0598", "0.0747", "0.1046", "0.1345", "0.1875", "0.25"),
            Spread(
                {"screws": "count", "columns": "columns", "top_in": "top", "across_in": "apart",
                 "plate_height_in": "height"},
                ((2, 2), (3, 2), (4, 2), (5, 2), (6, 2), (2, 3), (3, 3), (4, 3), (5, 3)), edge_in=1.0, most_in=9.0, beside_in=0.75,
            ),
            one("gauge", "8", "10", "12", "14"),
            one("length_in", 1.25, 1.5, 1.75, 2.0),
            one("embedment_in", 3.0, 4.0, 5.0, 6.0, 7.0, within=("core_in", 1.0), deepest=2),
            one("leg_in", 5.25, 7.25),
            one("lead_holes", False, True),
        ),
        listed=(
            "listed_lb", "report", "issued", "expires", "listed_f_c_psi", "listed_foam_least_in", "listed_foam_most_in",
            "listed_embedment_in", "listed_spacing_in", "listed_screws", "listed_gauge",
        ),
    ),
)  # fmt: skip
