"""Drawings for paper: black ink on white, letters of the typesetter's own fonts; words where one can't be drawn."""

import logging
from collections.abc import Callable

from webapp.drawings.svg_alone import FACE, INK, INK_2, INK_3, PAPER, TONES, alone
from webapp.package.letters import Drawing

log = logging.getLogger("wallseat")
# Print: verdicts in black, they have their marks and words; no grey that a copier loses.
INKS = {INK: "#000000", INK_2: "#222222", INK_3: "#444444", PAPER: "#ffffff"} | dict.fromkeys(TONES.values(), "#000000")


def on_paper(markup: str) -> Drawing:
    """A rendered drawing as the typesetter takes it."""
    inked = alone(markup).replace("\n", " ").replace(FACE, "Libertinus Serif")
    for screen, paper in INKS.items():
        inked = inked.replace(screen, paper)
    return Drawing(inked)


def drawn(draw: Callable[[], str], what: str) -> Drawing:
    """A drawing, or nothing where it can't be made: a sheet without it is worth more than no sheet, and says so."""
    try:
        return on_paper(draw())
    except Exception:
        log.exception("no drawing of %s for paper", what)
        return Drawing()
