"""Rules along a gable's cut edges: the plate's pieces and bolts, what presses on the foam beyond the last web."""

from math import ceil
from typing import NamedTuple

from engine.clauses.us.irc_sills import sill_bolt_count
from engine.worksheet import Worksheet, clause


class RakePiece(NamedTuple):
    """A piece of rake plate: which rake ("left", "right"), where it starts and ends along it from the eave, and its bolts [in]."""

    rake: str
    start_in: float
    end_in: float
    bolts_in: tuple[float, ...]

    @property
    def length_in(self) -> float:
        """Its length [in]."""
        return self.end_in - self.start_in


@clause(
    "geometry", "", title="Pieces of plate on a rake", symbol="n", formula="ceil(l / l_p - 1e-9)", provenance="geometry"
)
def plate_pieces(l_in: float, l_p_in: float) -> int:
    """The fewest pieces of one length. Args: l_in: rake [in]. l_p_in: longest piece [in]. Returns: a count."""
    return ceil(l_in / l_p_in - 1e-9)


@clause(
    "statics", "", title="Load on the edge of a cut form", symbol="q", unit="plf", formula="p * s / 2 / 12", provenance="derived",
    note="The last web stands up to a web space from the cut; half of what presses between goes to the boards on the cut.",
)  # fmt: skip
def edge_load_plf(p_psf: float, s_in: float) -> float:
    """Args: p_psf: pressure of the fresh concrete [psf]. s_in: web spacing [in]. Returns: along the rake, each face [plf]."""
    return p_psf * s_in / 2 / 12


@clause("statics", "", title="Pull of one tie through the boards", symbol="T", unit="lb", formula="q * s / 12",
        provenance="derived")  # fmt: skip
def tie_pull_lb(q_plf: float, s_in: float) -> float:
    """Args: q_plf: load on the edge [plf]. s_in: ties' spacing along the rake [in]. Returns: [lb]."""
    return q_plf * s_in / 12


def rake_pieces(
    sheet: Worksheet, rake: str, rake_in: float, piece_in: float, spacing_in: float, end_in: float
) -> tuple[RakePiece, ...]:
    """One rake's plate in equal pieces, each with the fewest bolts, evenly spread between its end bolts [in]."""
    count = sheet.use(plate_pieces, l_in=rake_in, l_p_in=piece_in)
    length = rake_in / count
    end = min(end_in, length / 4)  # a piece too short for both ends keeps two bolts, a quarter of it from each end
    bolts = sheet.use(sill_bolt_count, L_in=length, s_in=spacing_in, e_in=end)
    step = (length - 2 * end) / (bolts - 1)
    return tuple(
        RakePiece(rake, n * length, (n + 1) * length, tuple(n * length + end + k * step for k in range(bolts)))
        for n in range(count)
    )
