"""Sharing loads among the anchors of a rigid plate: tension by plane strain, shear equally with torsion; long rows."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import atan2, hypot, isfinite

from engine.clauses.us.anchors_area import Point
from engine.clauses.us.anchors_model import AnchorGroup
from engine.clauses.us.concrete_material import E_S_PSI, modulus_psi
from engine.errors import BadInput
from engine.worksheet import clause

HALVINGS = 60  # of the plate's depth: to the last bits of a float


@clause(
    "statics",
    "",
    title="Steel stiffness over concrete stiffness",
    symbol="n",
    formula="E_s / E_c",
    provenance="derived",
)
def modular_ratio(E_s_psi: float, E_c_psi: float) -> float:
    """Args: moduli [psi]. Source: plane strain, both materials elastic."""
    return E_s_psi / E_c_psi


def modular_ratio_of(f_c_psi: float) -> float:
    """E_s / E_c for normal-weight concrete. Args: f_c_psi: [psi]. Source: ACI 318-19 19.2.2.1(b), 20.2.2.2."""
    return modular_ratio(E_S_PSI, modulus_psi(f_c_psi))


@dataclass(frozen=True, slots=True)
class Plate:
    """A rigid plate on concrete, bent about one axis.

    Args: b_in: width along that axis. d_in: depth across it. y_in: each anchor from the lower edge, within the depth.
    A_se_in2: effective area of one anchor. n: modular ratio. Raises: BadInput.
    """

    b_in: float
    d_in: float
    y_in: tuple[float, ...]
    A_se_in2: float
    n: float

    def __post_init__(self) -> None:
        for name in ("b_in", "d_in", "A_se_in2", "n"):
            if not getattr(self, name) > 0:
                raise BadInput(name, "Enter a number above zero.")
        if not self.y_in or not all(0 <= y <= self.d_in for y in self.y_in):
            raise BadInput("y_in", "Give the place of every anchor within the plate's depth.")

    def turned(self) -> "Plate":
        """The same plate seen from its other edge."""
        return replace(self, y_in=tuple(self.d_in - y for y in self.y_in))

    def unit_forces(self, x_in: float) -> tuple[float, float]:
        """Force and moment about mid-depth when the concrete is pressed over x from the lower edge, per unit of curvature."""
        mid = self.d_in / 2
        C = self.b_in * x_in * x_in / 2
        N, M = -C, C * (mid - x_in / 3)
        for y in self.y_in:
            if y > x_in:
                T = self.n * self.A_se_in2 * (y - x_in)
                N, M = N + T, M + T * (y - mid)
        return N, M


@dataclass(frozen=True, slots=True)
class PlateForces:
    """Args: T_lb: tension on each anchor. C_lb: force of the concrete. pressed_in: depth of contact. p_max_psi: at its edge.

    lower_edge: whether it is the lower edge of the plate that presses most.
    """

    T_lb: tuple[float, ...]
    C_lb: float = 0.0
    pressed_in: float = 0.0
    p_max_psi: float = 0.0
    lower_edge: bool = True


@clause(
    "statics",
    "",
    title="Anchors and concrete under a rigid plate",
    rule="plane strain, concrete without tension, anchors without compression; the neutral axis balances force and moment",
    provenance="derived",
)
def plate_forces(
    b_in: float, d_in: float, y_in: Sequence[float], A_se_in2: float, n: float, P_lb: float, M_lb_in: float
) -> PlateForces:
    """Tension of the anchors and pressure of the concrete under a rigid plate bent about one axis.

    Args: as in `Plate`. P_lb: tension above zero, compression below, at mid-depth. M_lb_in: above zero where it presses the
    lower edge. Raises: BadInput. Source: statics, the neutral axis found by halving.
    """
    _finite(P_lb=P_lb, M_lb_in=M_lb_in)
    plate = Plate(b_in, d_in, tuple(y_in), A_se_in2, n)
    if P_lb == 0 and M_lb_in == 0:
        return PlateForces((0.0,) * len(plate.y_in))
    if P_lb < 0 and abs(M_lb_in) <= -P_lb * plate.d_in / 6:
        p = -P_lb / (plate.b_in * plate.d_in) * (1 + 6 * abs(M_lb_in) / (-P_lb * plate.d_in))
        return PlateForces((0.0,) * len(plate.y_in), -P_lb, plate.d_in, p, M_lb_in >= 0)
    for seen, M in ((plate, M_lb_in), (plate.turned(), -M_lb_in)):
        wanted = atan2(M, P_lb)
        if atan2(*reversed(seen.unit_forces(0.0))) <= wanted <= atan2(*reversed(seen.unit_forces(plate.d_in))):
            return replace(_pressed(seen, P_lb, M, wanted), lower_edge=seen is plate)
    return PlateForces(_lifted(plate, P_lb, M_lb_in))


def _finite(**loads: float) -> None:
    for name, load in loads.items():
        if not isfinite(load):
            raise BadInput(name, "Give the load as a number.")


def _pressed(plate: Plate, P: float, M: float, wanted: float) -> PlateForces:
    """The angle of (force, moment) only grows with the pressed depth, so halving finds the one that fits."""
    low, high = 0.0, plate.d_in
    for _ in range(HALVINGS):
        x = (low + high) / 2
        N_1, M_1 = plate.unit_forces(x)
        low, high = (x, high) if atan2(M_1, N_1) < wanted else (low, x)
    N_1, M_1 = plate.unit_forces(x)
    # moments in pounds times the plate's depth, so that neither part drowns the other
    curvature = hypot(P * plate.d_in, M) / hypot(N_1 * plate.d_in, M_1)
    T = tuple(curvature * plate.n * plate.A_se_in2 * max(y - x, 0.0) for y in plate.y_in)
    return PlateForces(T, curvature * plate.b_in * x * x / 2, x, curvature * x)


def _lifted(plate: Plate, P: float, M: float) -> tuple[float, ...]:
    """No contact at all: tension varies in a straight line over the anchors."""
    n, mean = len(plate.y_in), sum(plate.y_in) / len(plate.y_in)
    spread = sum((y - mean) ** 2 for y in plate.y_in)
    slope = (M + P * (plate.d_in / 2 - mean)) / spread if spread else 0.0
    return tuple(P / n + slope * (y - mean) for y in plate.y_in)


@clause(
    "statics",
    "",
    title="Shear of each anchor",
    rule="equal parts of the shear; the turning moment by distance from the anchors' centre",
    provenance="derived",
)
def share_shear(
    positions_in: Sequence[Point], V_x_lb: float, V_y_lb: float, T_lb_in: float = 0.0
) -> tuple[tuple[float, float], ...]:
    """Shear of each anchor: equal parts, and torsion by distance from their centre.

    Args: positions_in: (x, y). V_x_lb, V_y_lb: at the centre of the anchors. T_lb_in: turning anticlockwise.
    Raises: BadInput for torsion on anchors that all stand in one place. Source: statics, equal stiffness.
    """
    _finite(V_x_lb=V_x_lb, V_y_lb=V_y_lb, T_lb_in=T_lb_in)
    n = len(positions_in)
    if not n:
        raise BadInput("positions_in", "Give the place of at least one anchor.")
    mid_x, mid_y = sum(x for x, _ in positions_in) / n, sum(y for _, y in positions_in) / n
    polar = sum((x - mid_x) ** 2 + (y - mid_y) ** 2 for x, y in positions_in)
    if T_lb_in and not polar:
        raise BadInput("positions_in", "One anchor alone cannot hold a plate against turning; add another.")
    turn = T_lb_in / polar if polar else 0.0
    return tuple((V_x_lb / n - turn * (y - mid_y), V_y_lb / n + turn * (x - mid_x)) for x, y in positions_in)


def interior_anchor(anchor: AnchorGroup, s_in: float) -> AnchorGroup:
    """One anchor (or one column of them) inside a long row along x, every s. Its demands are those of a length s."""
    return replace(anchor, next_x1_in=s_in, next_x2_in=s_in)


def end_anchor(anchor: AnchorGroup, s_in: float, c_end_in: float) -> AnchorGroup:
    """The last one of such a row, c_end from the concrete's end at low x, the next at s on the other side."""
    return replace(anchor, c_x1_in=c_end_in, next_x1_in=None, next_x2_in=s_in)
