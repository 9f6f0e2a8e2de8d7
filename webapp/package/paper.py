"""Drawings for paper: black ink on white, letters of the typesetter's own fonts; words where one can't be drawn."""

import logging
import re
from collections.abc import Callable

import typst

from webapp.drawings.svg_alone import FACE, INK, INK_2, INK_3, PAPER, TONES, alone
from webapp.package.letters import Drawing, clean

log = logging.getLogger("wallseat")
# Words in letters beyond Latin and Greek; the lists beside a drawing have them in any case.
FOREIGN = re.compile(r"[\u0400-\u1dff\u2c00-\uffff]+")
# Print: verdicts in black, they have their marks and words; no grey that a copier loses.
INKS = {INK: "#000000", INK_2: "#222222", INK_3: "#444444", PAPER: "#ffffff"} | dict.fromkeys(TONES.values(), "#000000")


def on_paper(markup: str) -> Drawing:
    """A rendered drawing as the typesetter takes it."""
    inked = alone(markup).replace("\n", " ").replace(FACE, "Libertinus Serif")
    for screen, paper in INKS.items():
        inked = inked.replace(screen, paper)
    return Drawing(inked if not FOREIGN.search(inked) or _settable(inked) else FOREIGN.sub("…", inked))


def _settable(markup: str) -> bool:
    """Whether the typesetter has letters for all of it: in a drawing it gives up some mixtures of scripts it has letters for."""
    source = '#set document(title: "x")\n#image(bytes(sys.inputs.at("drawing")), format: "svg", alt: "x")'
    try:
        typst.compile(
            source.encode(), ignore_system_fonts=True, pdf_standards=["ua-1"], timestamp=0,
            sys_inputs={"drawing": clean(Drawing(markup))},
        )  # fmt: skip
    except typst.TypstError:
        return False
    return True


def drawn(draw: Callable[[], str], what: str) -> Drawing:
    """A drawing, or nothing where it can't be made: a sheet without it is worth more than no sheet, and says so."""
    try:
        return on_paper(draw())
    except Exception:
        log.exception("no drawing of %s for paper", what)
        return Drawing()
