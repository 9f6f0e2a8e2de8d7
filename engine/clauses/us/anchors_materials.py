"""What cast-in anchors are made of: steels, threads, heads, hooks, and the areas that follow from them."""

from dataclasses import dataclass
from functools import cache
from math import pi, sqrt
from typing import Literal

from engine.editions import Edition
from engine.errors import BadInput, OutOfScope
from engine.tables import load
from engine.worksheet import clause

Kind = Literal["headed", "hooked"]


@dataclass(frozen=True, slots=True)
class AnchorSteel:
    """One steel. Args: key, label: names. f_ya_psi, f_uta_psi: yield and tensile strength. ductile: by 2.3. threaded: or a stud."""

    key: str
    label: str
    f_ya_psi: float
    f_uta_psi: float
    ductile: bool
    threaded: bool


@dataclass(frozen=True, slots=True)
class Head:
    """What holds the anchor at its foot.

    Args: A_brg_in2: net bearing area of a head (0 for a hook). e_h_in: inner face of the shank to the hook's tip (0 for a
    head). width_in, thickness_in: of the steel at the foot, for fit and cover.
    """

    kind: Kind
    label: str
    A_brg_in2: float
    e_h_in: float
    width_in: float
    thickness_in: float


@cache
def steels() -> dict[str, AnchorSteel]:
    """The steels of the table anchor_steel, by key."""
    return {
        r["key"]: AnchorSteel(
            r["key"],
            r["label"],
            float(r["f_ya_psi"]),
            float(r["f_uta_psi"]),
            r["ductile"] == "yes",
            r["threaded"] == "yes",
        )
        for r in load("anchor_steel").rows
    }


def steel(key: str) -> AnchorSteel:
    """The steel of that key. Raises: BadInput naming the known ones."""
    try:
        return steels()[key]
    except KeyError:
        raise BadInput("steel", f"No anchor steel {key!r}. Known: {', '.join(steels())}.") from None


@cache
def thread_pitch(d_a_in: float) -> float:
    """Threads per inch of a rod. Raises: BadInput for a diameter the table anchor_threads has not."""
    rows = {float(r["d_a_in"]): float(r["n_t_per_in"]) for r in load("anchor_threads").rows}
    if d_a_in not in rows:
        raise BadInput("d_a_in", f"Enter a rod diameter with a known thread: {', '.join(f'{d:g}' for d in rows)} in.")
    return rows[d_a_in]


@cache
def head(label: str, d_a_in: float) -> Head:
    """A "heavy hex", "hex" or "stud" head of the table anchor_heads. Raises: BadInput for a size it has not."""
    rows = {
        float(r["d_a_in"]): (float(r["width_in"]), float(r["thickness_in"]))
        for r in load("anchor_heads").rows
        if r["head"] == label
    }
    if d_a_in not in rows:
        raise BadInput("head", f"Choose a {label} head of {', '.join(f'{d:g}' for d in rows) or 'a known kind'} in.")
    width, thickness = rows[d_a_in]
    area = (round_head_area_in2 if label == "stud" else hex_head_area_in2)(width, d_a_in)
    return Head("headed", label, area, 0.0, width, thickness)


def washer(side_in: float, thickness_in: float, d_a_in: float) -> Head:
    """A heavy hex nut over a square plate washer.

    The washer's area counts only where it is at least as thick as it stands out past the nut (common reading of 17.6.3.2;
    memory); a thinner one is refused. Raises: BadInput.
    """
    nut = head("heavy hex", d_a_in)
    if thickness_in < (side_in - nut.width_in) / 2:
        raise BadInput(
            "washer", f"Use a washer at least {(side_in - nut.width_in) / 2:.3g} in thick, or a smaller one."
        )
    area = square_washer_area_in2(side_in, d_a_in)
    return Head("headed", "plate washer", area, 0.0, side_in, thickness_in + nut.thickness_in)


def hook(e_h_in: float, d_a_in: float) -> Head:
    """An L or J bolt's foot. Args: e_h_in: inner face of the shank to the tip, i.e. the leg out to out less one diameter."""
    return Head("hooked", "hook", 0.0, e_h_in, d_a_in, d_a_in)


@clause(
    "ACI 318",
    "17.6.1.2",
    title="Tensile strength used",
    symbol="f_uta",
    unit="psi",
    formula="min(f_uta, 1.9 * f_ya, 125000)",
)
def tensile_strength_used_psi(f_uta_psi: float, f_ya_psi: float) -> float:
    """Specified tensile strength within its limits. Args: in psi. Source: ACI 318-19 17.6.1.2, 17.7.1.2."""
    return min(f_uta_psi, 1.9 * f_ya_psi, 125000)


@clause(
    "ACI 318",
    "R17.6.1.2",
    title="Effective area of the thread",
    symbol="A_se",
    unit="in²",
    formula="pi / 4 * (d_a - 0.9743 / n_t) ** 2",
)
def effective_area_in2(d_a_in: float, n_t_per_in: float) -> float:
    """Tensile stress area. Args: d_a_in: rod diameter [in]. n_t_per_in: threads per inch. Source: ACI 318-19 R17.6.1.2."""
    return pi / 4 * (d_a_in - 0.9743 / n_t_per_in) ** 2


@clause(
    "geometry",
    "",
    title="Area of a plain shank",
    symbol="A_se",
    unit="in²",
    formula="pi / 4 * d_a ** 2",
    provenance="geometry",
)
def shank_area_in2(d_a_in: float) -> float:
    """Area of an unthreaded stud [in²]; it counts in full (ACI 349.2R-07 Example A1). Args: d_a_in: diameter [in]."""
    return pi / 4 * d_a_in**2


@clause(
    "geometry",
    "",
    title="Bearing area of a hex head",
    symbol="A_brg",
    unit="in²",
    formula="sqrt(3) / 2 * F ** 2 - pi / 4 * d_a ** 2",
    provenance="geometry",
)
def hex_head_area_in2(F_in: float, d_a_in: float) -> float:
    """Net area of a hex head or nut [in²]. Args: F_in: across flats. d_a_in: shank."""
    return sqrt(3) / 2 * F_in**2 - pi / 4 * d_a_in**2


@clause(
    "geometry",
    "",
    title="Bearing area of a stud's head",
    symbol="A_brg",
    unit="in²",
    formula="pi / 4 * (D ** 2 - d_a ** 2)",
    provenance="geometry",
)
def round_head_area_in2(D_in: float, d_a_in: float) -> float:
    """Net area of a round head [in²]. Args: D_in: head diameter. d_a_in: shank."""
    return pi / 4 * (D_in**2 - d_a_in**2)


@clause(
    "geometry",
    "",
    title="Bearing area of a square washer",
    symbol="A_brg",
    unit="in²",
    formula="a ** 2 - pi / 4 * d_a ** 2",
    provenance="geometry",
)
def square_washer_area_in2(a_in: float, d_a_in: float) -> float:
    """Net area of a square plate washer [in²] (as in ACI 349.2R-07 Example A4). Args: a_in: side. d_a_in: shank."""
    return a_in**2 - pi / 4 * d_a_in**2


@clause("ACI 318", "17.3.1", title="Concrete strength counted", symbol="f'_c", unit="psi", formula="min(f_c, 10000)")
def concrete_strength_used_psi(f_c_psi: float) -> float:
    """Strength used for cast-in anchors. Args: f_c_psi: specified [psi]. Source: ACI 318-19 17.3.1."""
    return min(f_c_psi, 10000)


def refuse_unread_edition(edition: Edition) -> None:
    """Chapter 17 is known for ACI 318-19 and its 2022 reprint. Raises: OutOfScope for any other edition."""
    title = edition.title("ACI 318")
    if title not in ("ACI 318-19", "ACI 318-19(22)"):
        raise OutOfScope(
            f"{title} chapter 17",
            "that edition has strength modifiers and interaction rules for anchors that this engine does not hold; "
            "check in ACI 318-19, or bring the anchors to a licensed engineer.",
        )
