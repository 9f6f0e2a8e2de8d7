"""Lines of a ledge that turns a corner: the steel past the core's corner, its laps, the forms' fasteners."""

from engine.attachments.veneer_ledge.geometry import Ledge
from engine.attachments.veneer_ledge.inputs import Inputs
from engine.attachments.veneer_ledge.load import FOOT_IN
from engine.clauses.us import development
from engine.clauses.us.bars import bar
from engine.editions import Citation
from engine.result import LimitState
from engine.worksheet import Worksheet, cite, clause

PRACTICE = Citation("common practice")
RIB_FASTENERS = 2  # common practice: fasteners that hold a corner's foam to each rib
FRESH_BELOW_IN = 12.01  # a ledge stands on a wall placed with it: more than 12 in of fresh concrete below its bars
COATED_PSI_E = 1.5  # ACI 318-19 Table 25.4.2.5: coated bars with less than 3 d_b of cover. provenance: memory
TOP_COATED = 1.7  # ACI 318-19 25.4.2.5: psi_t psi_e need not pass this. provenance: memory


@clause(
    "statics", "", title="Steel for the ledge past the core's corner", symbol="A_c", unit="in²", formula="A_sc * p / b",
    provenance="derived", note="What stands past the corner hangs on the stirrups beside it, a projection's length each way.",
)  # fmt: skip
def corner_steel_in2(A_sc_in2: float, p_in: float, b_in: float) -> float:
    """Main steel of the ledge past the corner. Args: A_sc_in2: needed on b_in [in²]. p_in: projection [in]. Returns: [in²]."""
    return A_sc_in2 * p_in / b_in


@clause("geometry", "", title="Extra stirrups at a corner, each side", symbol="A_x", unit="in²", formula="n * A_b",
        provenance="geometry")  # fmt: skip
def extra_stirrups_in2(n: int, A_b_in2: float) -> float:
    """Area of n more stirrups at the first web. Args: A_b_in2: one [in²]. Returns: [in²]."""
    return n * A_b_in2


def lines(sheet: Worksheet, i: Inputs, g: Ledge, A_sc_in2: float) -> tuple[LimitState, ...]:
    """Nothing away from corners. Args: A_sc_in2: main steel needed on a foot [in²]."""
    if i.corner == "none":
        return ()
    fasteners = LimitState(
        "corner-fasteners", "Foam held at the corner", PRACTICE, float(RIB_FASTENERS), float(i.rib_fasteners), "", spot="corner",
        say="The foam at the corner has {capacity} fasteners to a rib; {demand} are usual.", advisory=True,
    )  # fmt: skip
    if i.corner == "inside":
        return _stop(g), fasteners
    return _stirrups(sheet, i, g, A_sc_in2), _l_bars(sheet, i, g), _strips(i, g), fasteners


def _stop(g: Ledge) -> LimitState:
    return LimitState(
        "corner-stop", "Ledge stopped at the inside corner", PRACTICE, holds=True, advisory=True, spot="corner",
        say="One ledge stops {stop} short of the other core, so that its veneer ends behind the other wythe's face.",
        facts={"stop": (g.inside_stop, "in")},
    )  # fmt: skip


def _strips(i: Inputs, g: Ledge) -> LimitState:
    how = "both mitred" if i.corner_way == "mitre" else "the first past the second"
    first, second = g.corner_strips
    return LimitState(
        "corner-strips", "Foam that closes the corner's forms", PRACTICE, holds=True, advisory=True, spot="corner",
        say=f"Past the wall's foam corner the lip is closed with strips of {{first}} and {{second}}, {how}.",
        facts={"first": (first, "in"), "second": (second, "in")},
    )  # fmt: skip


def _stirrups(sheet: Worksheet, i: Inputs, g: Ledge, A_sc_in2: float) -> LimitState:
    need = sheet.use(corner_steel_in2, A_sc_in2=A_sc_in2, p_in=g.p, b_in=FOOT_IN)
    have = sheet.use(extra_stirrups_in2, n=i.corner_stirrups, A_b_in2=bar(i.stirrup).A_b_in2)
    return LimitState(
        "corner-stirrups", "Extra stirrups at the first web", cite(corner_steel_in2), need, have, "in²", spot="corner",
        say="The ledge past the corner asks for {demand} of stirrups on each side; {capacity} is added at the first web.",
        steps=sheet.take(),
    )  # fmt: skip


def _l_bars(sheet: Worksheet, i: Inputs, g: Ledge) -> LimitState:
    """The bars along the lip turn the corner as L bars, lapped on each side as top bars."""
    use, f_y, d_b = sheet.use, i.f_y_ksi * 1000, g.tip_bar or g.d_b
    psi_t = use(development.straight_psi_t, fresh_in=FRESH_BELOW_IN)
    l_d = use(
        development.tension_development_in,
        f_y_psi=f_y,
        f_c_psi=i.f_c_psi,
        d_b_in=d_b,
        psi_t=psi_t,
        psi_e=min(COATED_PSI_E, TOP_COATED / psi_t) if i.coated else 1.0,
        psi_g=use(development.straight_psi_g, f_y_psi=f_y),
    )
    return LimitState(
        "corner-bars", "L bars round the corner", cite(development.lap_b_in), use(development.lap_b_in, l_d_in=l_d),
        i.corner_leg_in, "in", spot="corner",
        say="Each leg of the L bars runs {capacity} past the corner; to lap the bars along the lip it needs {demand}.",
        steps=sheet.take(),
    )  # fmt: skip
