"""Wood species, sawn sizes and fasteners by the names people use, read from the tables once."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Literal, TypeVar

from engine.errors import BadInput
from engine.tables import load
from engine.worksheet import Provenance

T = TypeVar("T")
Material = Literal["sawn", "glulam"]
Choices = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Species:
    """A species combination, or a class of glued laminated timber.

    Args: G: specific gravity for fasteners, oven-dry. F_c_perp_psi, F_v_psi: reference bearing and shear values [psi].
    provenance: "read" only when all three values were.
    """

    key: str
    name: str
    material: Material
    hardwood: bool
    G: float
    F_c_perp_psi: float
    F_v_psi: float
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Lumber:
    """A sawn size. Args: key: nominal ("2x10"). b_in, d_in: dressed thickness and depth [in]."""

    key: str
    b_in: float
    d_in: float


@dataclass(frozen=True, slots=True)
class Fastener:
    """A bolt, lag screw or wood screw.

    Args: key: "5/8", or the gauge of a wood screw. D_in, D_r_in: nominal and thread root diameter [in]. F_yb_psi: bending
    yield strength [psi]. head_in: head diameter of a wood screw [in], None where not known.
    """

    key: str
    D_in: float
    D_r_in: float
    F_yb_psi: float
    head_in: float | None = None


def _squeezed(key: str) -> str:
    return "".join(key.split()).upper()


def _find(field: str, known: dict[str, T], key: str) -> T:
    try:
        return known[_squeezed(key)]
    except KeyError:
        raise BadInput(field, f"Choose one of: {', '.join(known)}. “{key}” is not known.") from None


@cache
def _species() -> dict[str, Species]:
    sources = ("G_from", "F_c_perp_from", "F_v_from")
    return {
        _squeezed(row["key"]): Species(
            row["key"],
            row["name"],
            "glulam" if row["material"] == "glulam" else "sawn",
            row["hardwood"] == "yes",
            float(row["G"]),
            float(row["F_c_perp_psi"]),
            float(row["F_v_psi"]),
            "read" if all(row[source] == "read" for source in sources) else "memory",
        )
        for row in load("timber_species").rows
    }


@cache
def _lumber() -> dict[str, Lumber]:
    rows = load("timber_lumber_sizes").rows
    return {_squeezed(r["nominal"]): Lumber(r["nominal"], float(r["b_in"]), float(r["d_in"])) for r in rows}


@cache
def _fasteners(table: str, key: str = "key") -> dict[str, Fastener]:
    def head(row_head: str) -> float | None:
        return float(row_head) if row_head else None

    return {
        row[key]: Fastener(
            row[key],
            float(row["D_in"]),
            float(row["D_r_in"]),
            float(row["F_yb_psi"]),
            head(row.get("head_in", "")),
        )
        for row in load(table).rows
    }


def species(key: str) -> Species:
    """A species by its short key, letter case and blanks aside ("DF-L", "spf-s", "HF(N)"). Raises: BadInput naming all."""
    return _find("species", _species(), key)


def species_choices() -> Choices:
    """(key, words) of every species, for forms."""
    return tuple((s.key, f"{s.name} ({s.key})" if s.material == "sawn" else s.name) for s in _species().values())


def lumber(key: str) -> Lumber:
    """A sawn size by its nominal name ("2x10", "4 X 12"). Raises: BadInput naming all."""
    return _find("size", _lumber(), key)


def lumber_choices() -> Choices:
    """(key, words) of every sawn size, for forms."""
    return tuple((size.key, size.key) for size in _lumber().values())


def wood_screw(gauge: int | str) -> Fastener:
    """A wood screw by gauge (10, "10", "#10"). Raises: BadInput naming all."""
    return _find("gauge", _fasteners("timber_wood_screws", "gauge"), str(gauge).strip().removeprefix("#"))


def lag_screw(key: str) -> Fastener:
    """A lag screw by nominal diameter in inches ("3/8"). Raises: BadInput naming all."""
    return _find("lag", _fasteners("timber_lag_screws"), key)


def bolt(key: str) -> Fastener:
    """A bolt by nominal diameter in inches ("5/8"). Raises: BadInput naming all."""
    return _find("bolt", _fasteners("timber_bolts"), key)


FASTENERS: dict[str, tuple[str, str]] = {
    "bolt": ("timber_bolts", "key"),
    "lag screw": ("timber_lag_screws", "key"),
    "wood screw": ("timber_wood_screws", "gauge"),
}


def fastener_of(kind: str, D_in: float) -> Fastener:
    """A "bolt", "lag screw" or "wood screw" by its nominal diameter [in]. Raises: BadInput naming the diameters kept."""
    known = {fastener.D_in: fastener for fastener in _fasteners(*FASTENERS[kind]).values()}
    if D_in not in known:
        raise BadInput(
            "D_in", f"Choose one of: {', '.join(f'{D:g}' for D in known)}. No {kind} of {D_in:g} in is kept."
        )
    return known[D_in]


def _worded(fasteners: dict[str, Fastener], words: Callable[[str], str]) -> Choices:
    return tuple((key, words(key)) for key in fasteners)


def wood_screw_choices() -> Choices:
    """(gauge, words) of every wood screw, for forms."""
    return _worded(_fasteners("timber_wood_screws", "gauge"), lambda gauge: f"No. {gauge}")


def lag_screw_choices() -> Choices:
    """(key, words) of every lag screw, for forms."""
    return _worded(_fasteners("timber_lag_screws"), lambda key: f"{key} in")


def bolt_choices() -> Choices:
    """(key, words) of every bolt, for forms."""
    return _worded(_fasteners("timber_bolts"), lambda key: f"{key} in")
