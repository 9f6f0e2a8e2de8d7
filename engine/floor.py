"""What a floor brings to a wall along one line, whatever carries it there."""

from dataclasses import dataclass

from engine import common_fields as common
from engine.clauses.us.irc_loads import load_per_bolt_lb
from engine.clauses.us.loads import simple_span_reaction_lb
from engine.clauses.us.timber_materials import species, species_choices
from engine.fields import choice, number, yes
from engine.setting_out import FloorLine

SPECIES = tuple((key, words) for key, words in species_choices() if species(key).material == "sawn")
JOISTS, LOADS = "Joists", common.LOADS
ENGINEERED = ("member", ("i_joist",))


@dataclass(frozen=True, slots=True)
class Floor:
    """Joists that end at a wall, and the loads that come with them: see each field's label, unit and range."""

    member: str = choice("What", (("sawn", "sawn joists"), ("i_joist", "I-joists")), "sawn", group=JOISTS)
    species: str = choice("Joist species", SPECIES, "SPF", group=JOISTS, when=("member", ("sawn",)))
    depth_in: float = number("Joist depth", "in", 3, 60, 9.25, group=JOISTS)
    width_in: float = number("Joist width", "in", 1, 12, 1.5, group=JOISTS)
    spacing_in: float = number("Spacing", "in", 6, 96, 16.0, group=JOISTS)
    first_joist_in: float = number(
        "Start of the line to the middle of the first joist", "in", 0, 96, 16.0, group=JOISTS
    )
    last_joist: bool = yes("A last joist at the line's end", group=JOISTS)
    span_ft: float = number("Span", "ft", 1, 60, 14.0, group=JOISTS)
    required_bearing_in: float | None = number(
        "Bearing the member drawing asks for", "in", 0.5, 24, group=JOISTS, optional=True
    )
    member_capacity_lb: float | None = number(
        "End reaction the member drawing allows", "lb", 50, 60000, group=JOISTS, optional=True, when=ENGINEERED
    )
    dead_psf: float = common.area_load("Dead, floor", 10.0)
    live_psf: float = common.area_load("Live, floor", 40.0)
    snow_psf: float = common.area_load("Snow, where a roof")
    own_weight_plf: float = number("Joist's own weight", "plf", 0, 200, 0.0, group=LOADS)
    wall_dead_plf: float = common.line_load("Dead, wall and floors above", 1000.0)
    wall_live_plf: float = common.line_load("Live, floors above")
    wall_snow_plf: float = common.line_load("Snow, from above")
    uplift_plf: float = common.line_load("Wind uplift on the plate")
    across_wind_plf: float = common.line_load("Wind across the wall, to the floor", 150.0)
    across_seismic_plf: float = common.line_load("Earthquake across the wall, to the floor")

    def laid_out(self, wall: str, level: int, start_ft: float, end_ft: float | None) -> FloorLine:
        """The same joists as a line to set out on a wall."""
        return FloorLine(
            wall,
            level,
            start_ft,
            end_ft,
            self.spacing_in,
            self.first_joist_in,
            self.width_in,
            self.depth_in,
            self.last_joist,
        )

    def _end_lb(self, w_psf: float) -> float:
        return simple_span_reaction_lb(w_psf, self.spacing_in, self.span_ft)

    @property
    def end_dead_lb(self) -> float:
        """Dead load at a joist's end [lb]."""
        return self._end_lb(self.dead_psf) + self.own_weight_plf * self.span_ft / 2

    @property
    def end_live_lb(self) -> float:
        """Live load at a joist's end [lb]."""
        return self._end_lb(self.live_psf)

    @property
    def end_snow_lb(self) -> float:
        """Snow at a joist's end [lb]."""
        return self._end_lb(self.snow_psf)

    @property
    def line_dead_plf(self) -> float:
        """Dead load along the line [plf]."""
        return self.end_dead_lb * 12 / self.spacing_in

    @property
    def line_live_plf(self) -> float:
        """Live load along the line [plf]."""
        return self.end_live_lb * 12 / self.spacing_in

    @property
    def line_snow_plf(self) -> float:
        """Snow along the line [plf]."""
        return self.end_snow_lb * 12 / self.spacing_in

    @property
    def pull_wind_lb(self) -> float:
        """Wind across the wall at one joist [lb]."""
        return load_per_bolt_lb(self.across_wind_plf, self.spacing_in)

    @property
    def pull_seismic_lb(self) -> float:
        """Earthquake across the wall at one joist [lb]."""
        return load_per_bolt_lb(self.across_seismic_plf, self.spacing_in)
