"""Lines about the steel of a cast-in plate. A bracket's or a hanger's own steel is covered by its listing alone."""

from engine.attachments.cast_in_plate import steel
from engine.attachments.cast_in_plate.geometry import Plate
from engine.attachments.cast_in_plate.inputs import Inputs
from engine.clauses.us.loads import Loads, governing_allowable
from engine.editions import Edition
from engine.errors import BadInput
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite, clause

E_PSI = 29.0e6  # modulus of steel, AISC 360-22 symbols list; provenance: memory


@clause(
    steel.AISI, "J4.2", title="Least steel beside a screw", symbol="e_min", unit="in", formula="1.5 * d", provenance="memory"
)  # fmt: skip
def least_steel_in(d_in: float) -> float:
    """From a screw's centre to any edge of the part [in]. Args: d_in: nominal diameter [in]. Source: AISI S100-16 J4.2."""
    return 1.5 * d_in


def lines(
    sheet: Worksheet, i: Inputs, p: Plate, reaction: Loads, edition: Edition, placed: tuple[Step, ...]
) -> tuple[LimitState, ...]:
    """Edges, bearing, shear, block, bending. Raises: BadInput where the steel yields above its tensile strength."""
    if i.kind != "plate":
        return ()
    if i.F_y_ksi > i.F_u_ksi:
        raise BadInput("F_y_ksi", "Enter a yield strength that is not above the tensile strength.")
    load = governing_allowable(edition, reaction, duration=False)
    R, label = load.demand, load.label
    edges = _edges(sheet, p)
    bearing = _bearing(sheet, i, p, R, label)
    shear = _shear(sheet, i, p, R, label)
    bending = _bending(sheet, i, p, R, label, placed)
    return (edges, bearing, shear, _block(sheet, i, p, R, label), bending, _together(sheet, shear, bending, label))


def _hole(p: Plate) -> float:
    return p.D + steel.HOLE_OVER_IN


def _edges(sheet: Worksheet, p: Plate) -> LimitState:
    least = min(p.beyond, p.above, p.below)
    need = sheet.use(least_steel_in, d_in=p.D)
    say = "The outermost screw has {capacity} of steel beside it; {demand} is needed."
    return LimitState(
        "plate-edges", "Screws inside the plate", cite(least_steel_in), need, least, "in",
        say=say if least >= 0 else "Screws fall off the plate by {off}.", facts={"off": (max(-least, 0.0), "in")},
        spot="plate", steps=sheet.take(),
    )  # fmt: skip


def _bearing(sheet: Worksheet, i: Inputs, p: Plate, R: float, label: str) -> LimitState:
    clear = p.below - _hole(p) / 2
    if p.rows > 1:
        clear = min(clear, i.across_in - _hole(p))
    capacity = steel.one_screw_lb(sheet, p.thickness, p.D, i.F_u_ksi * 1000, clear)
    rule = steel.plate_bearing_lb if p.thickness > steel.SHEET_MOST_IN else steel.sheet_bearing_lb
    return LimitState(
        "plate-bearing", "Screw bearing in the plate", cite(rule), R / i.screws, capacity, "lb",
        say=f"Each screw brings {{demand}} into {p.thickness:.4g} in of steel, which takes {{capacity}} in bearing or tearing out.",
        combination=label, spot="screws", steps=sheet.take(),
    )  # fmt: skip


def _shear(sheet: Worksheet, i: Inputs, p: Plate, R: float, label: str) -> LimitState:
    h, t = i.plate_height_in, p.thickness
    gross = sheet.use(steel.shear_yield_lb, F_y_psi=i.F_y_ksi * 1000, h_in=h, t_in=t)
    net = sheet.use(steel.shear_rupture_lb, F_u_psi=i.F_u_ksi * 1000, h_in=h, n_r=p.rows, d_h_in=_hole(p), t_in=t)
    return LimitState(
        "plate-shear", "Plate in shear", cite(steel.shear_yield_lb), R, min(gross, net), "lb",
        say="The joist's end brings {demand}; the plate carries {capacity} in shear, {gross} whole and {net} through its screws.",
        facts={"gross": (gross, "lb"), "net": (net, "lb")}, combination=label, spot="plate", steps=sheet.take(),
    )  # fmt: skip


def _block(sheet: Worksheet, i: Inputs, p: Plate, R: float, label: str) -> LimitState:
    t, hole = p.thickness, _hole(p)
    down = p.below + (p.rows - 1) * i.across_in
    out = p.beyond + (p.columns - 1) * i.along_in
    capacity = 0.0
    if min(p.below, p.beyond) > 0:
        capacity = sheet.use(
            steel.block_shear_lb,
            F_u_psi=i.F_u_ksi * 1000,
            F_y_psi=i.F_y_ksi * 1000,
            A_nv_in2=max(down - (p.rows - 0.5) * hole, 0.0) * t,
            A_gv_in2=down * t,
            A_nt_in2=max(out - (p.columns - 0.5) * hole, 0.0) * t,
            U_bs=1.0 if p.columns == 1 else 0.5,
        )
    return LimitState(
        "plate-block", "Block of plate torn out", cite(steel.block_shear_lb), R, capacity, "lb",
        say="The joist's end brings {demand}; tearing out the steel around the screws takes {capacity}.",
        combination=label, spot="plate", steps=sheet.take(),
    )  # fmt: skip


def _bending(sheet: Worksheet, i: Inputs, p: Plate, R: float, label: str, placed: tuple[Step, ...]) -> LimitState:
    """Over foam and gap; the first column of screws, in a joist held against rotation, holds the plate sideways."""
    h, t = i.plate_height_in, p.thickness
    M = sheet.use(steel.moment_at_core_lb_in, R_lb=R, a_in=p.lever)
    S = sheet.use(steel.upright_modulus_in3, t_in=t, h_in=h)
    free = p.x_joist + p.end
    slender = sheet.use(steel.upright_slenderness, L_b_in=free, h_in=h, t_in=t)
    capacity = sheet.use(steel.upright_bending_lb_in, slender=slender, E_psi=E_PSI, F_y_psi=i.F_y_ksi * 1000, S_in3=S)
    return LimitState(
        "plate-bending", "Plate bending over the foam", cite(steel.upright_bending_lb_in), M, capacity, "lb-in",
        say="The reaction, {lever} off the concrete, bends the plate with {demand}; free over {free}, it takes {capacity}.",
        facts={"lever": (p.lever, "in"), "free": (free, "in")}, combination=label, spot="plate", steps=placed + sheet.take(),
    )  # fmt: skip


def _together(sheet: Worksheet, shear: LimitState, bending: LimitState, label: str) -> LimitState:
    V, V_c, M, M_c = (v or 0.0 for v in (shear.demand, shear.capacity, bending.demand, bending.capacity))
    capacity = 1.0 if V_c > 0 else 0.0
    used = sheet.use(steel.shear_and_bending, V_lb=V, V_c_lb=V_c, M_lb_in=M, M_c_lb_in=M_c) if V_c > 0 else V
    return LimitState(
        "plate-together", "Plate in shear and bending", cite(steel.shear_and_bending), used, capacity, "",
        say="Shear and bending together use {demand} of {capacity}.", combination=label, spot="plate", steps=sheet.take(),
    )  # fmt: skip
