"""What is asked before concrete is placed in the walls of one circuit: the mix, how it goes in, the weather, the forms."""

from dataclasses import dataclass

from engine.fields import choice, number, yes

BINDERS = (
    ("types I to III", "portland cement, types I to III"),
    ("blend", "other cements and blends, type IL too"),
    ("high slag or fly ash", "over 70 % slag or 40 % fly ash"),
)
VIBRATION = (
    ("internal", "a poker inside the wall"),
    ("external", "vibrators on the form"),
    ("none", "rodding and tapping only"),
)
CONCRETE, PLACING, WEATHER, FORMS = "Concrete", "Placing", "Weather", "Forms"
BRACES, DELIVERY = "Braces", "Delivery"
INSIDE = ("vibration", ("internal",))


@dataclass(frozen=True, slots=True)
class Inputs:
    """One placement: see each field's label, unit and range."""

    slump_in: float = number("Slump ordered", "in", 0, 12, 6.5, group=CONCRETE, step=0.5)
    slump_tolerance_in: float = number(
        "Slump may be off by", "in", 0, 4, 1.5, group=CONCRETE, hint="1 1/2 in is usual at this slump."
    )
    slump_gate: bool = yes(
        "Loads above 7 in are turned away", True, group=CONCRETE, hint="Measured at every truck, on the pour card."
    )
    self_consolidating: bool = yes("Self-consolidating mix, approved", group=CONCRETE)
    temperature_F: float = number(
        "Temperature of the concrete", "°F", 35, 110, 70.0, group=CONCRETE, step=5, hint="In the form; not of the air."
    )
    w_pcf: float = number("Unit weight", "pcf", 90, 200, 150.0, group=CONCRETE)
    binder: str = choice("Binder", BINDERS, "types I to III", group=CONCRETE)
    retarder: bool = yes(
        "With an admixture that delays set", group=CONCRETE, hint="Retarders, and water reducers that delay set."
    )
    set_h: float | None = number(
        "Time to initial set of this mix, h", "", 0.25, 48, group=CONCRETE, optional=True,
        hint="At this temperature; blank counts nothing as set.",
    )  # fmt: skip
    pump_yd3_per_h: float = number("Pump rate", "yd³/h", 1, 150, 10.0, group=PLACING)
    circuit_ft: float | None = number(
        "Length of one circuit", "ft", 4, 2000, group=PLACING, optional=True, hint="Blank: all the walls of this plan."
    )
    lift_ft: float = number("Lift", "ft", 0.5, 40, 3.0, group=PLACING, step=0.5)
    wait_h: float = number("Wait between lifts, h", "", 0, 48, 0.0, group=PLACING, hint="Beside the time of a circuit.")
    stretch_ft: float = number("Filled before the hose moves on", "ft", 1, 100, 8.0, group=PLACING)
    from_base: bool = yes("Pumped in from the bottom of the form", group=PLACING)
    vibration: str = choice("Consolidated by", VIBRATION, "internal", group=PLACING)
    vibration_ft: float = number(
        "Poker goes down", "ft", 0, 40, 3.5, group=PLACING, when=INSIDE, hint="The lift and some inches below it."
    )
    air_F: float = number("Lowest air temperature expected", "°F", -40, 120, 60.0, group=WEATHER)
    wind_psf: float = number("Wind on the standing forms", "psf", 0, 80, 15.0, group=WEATHER)
    form_pressure_psf: float | None = number(
        "Pressure the forms may carry", "psf", 100, 3000, group=FORMS, optional=True,
        hint="From the forms' own data; blank takes each wall type's.",
    )  # fmt: skip
    web_across_in: float | None = number(
        "Webs across", "in", 4, 24, group=FORMS, optional=True, hint="Blank takes each wall type's."
    )
    web_up_in: float | None = number(
        "Webs up the wall", "in", 2, 48, group=FORMS, optional=True, hint="Blank: one a course."
    )
    web_tested_lb: float | None = number(
        "Tested strength of one web", "lb", 50, 20000, group=FORMS, optional=True, hint="Half of it counts."
    )
    brace_ft: float | None = number(
        "Braces meet the wall at", "ft", 1, 40, group=BRACES, optional=True,
        hint="Above its floor; blank is 7 ft, or the top of lower walls.",
    )  # fmt: skip
    brace_spacing_ft: float = number("Brace spacing", "ft", 1, 20, 6.0, group=BRACES, step=1)
    brace_deg: float = number("Braces stand at", "°", 10, 80, 45.0, group=BRACES, hint="Above the floor's plane.")
    brace_capacity_lb: float | None = number(
        "What one brace may carry", "lb", 50, 40000, group=BRACES, optional=True, hint="From its own data."
    )
    truck_yd3: float = number("Truck", "yd³", 1, 20, 10.0, group=DELIVERY)
    extra_percent: float = number(
        "Ordered beyond the forms' volume, %", "", 0, 30, 5.0, group=DELIVERY, hint="Bulge and the pump line."
    )
