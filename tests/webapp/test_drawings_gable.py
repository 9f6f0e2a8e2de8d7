"""The elevation of a gable: the engine's own pieces, numbered, with its lifts and its plate."""

from typing import Any

import pytest

from engine import attachments
from engine.attachments.gable_end import Inputs, cut_list, geometry
from engine.editions import US_2021
from webapp.drawings import plans, section_sheet
from webapp.drawings.scene import Frame, Scene
from webapp.drawings.shapes import Area, Disc, Material, Pen, Stroke


def scene(**values: Any) -> Scene:
    return plans("gable_end", Inputs(**values), "ft in")[0].build(Frame(560, 560))


def said(width: str, **values: Any) -> list[str]:
    inputs = Inputs(**values)
    result = attachments.check("gable_end", inputs, US_2021)
    return [words.letters.text for words in section_sheet("gable_end", inputs, result, width_class=width).words]


def outlines(one: Scene) -> set[tuple[tuple[float, float], ...]]:
    foam = {shape.corners for shape in one.shapes if isinstance(shape, Area) and shape.material is Material.FOAM}
    return foam | {
        shape.points for shape in one.shapes if isinstance(shape, Stroke) and shape.pen is Pen.SEEN and shape.closed
    }


def test_every_piece_is_outlined_where_the_engine_puts_it() -> None:
    assert outlines(scene()) >= {piece.corners for piece in cut_list(Inputs()).pieces}


def test_only_pieces_from_offcuts_are_hatched() -> None:
    hatched = {s.corners for s in scene().shapes if isinstance(s, Area) and s.material is Material.FOAM}
    assert hatched == {piece.corners for piece in cut_list(Inputs()).pieces if piece.of}


@pytest.mark.parametrize("width", ["desk", "tablet"])
def test_every_piece_has_its_number_and_both_ends_of_an_offcut_their_letter(width: str) -> None:
    words = said(width)
    for piece in cut_list(Inputs()).pieces:
        assert f"{piece.number} {piece.leaves or piece.of}".strip() in words


def test_a_phone_numbers_what_is_large_enough() -> None:
    words = said("phone")
    assert "3" in words
    assert not [w for w in words if w.startswith("Rake plate")]


def test_lifts_stand_with_their_concrete() -> None:
    words = said("desk")
    for number, lift in enumerate(geometry(Inputs()).lifts, 1):
        assert f"Lift {number}: {lift.volume_yd3:.2f} yd³" in words


def test_bolts_stand_along_both_rakes() -> None:
    g = geometry(Inputs())
    assert len([shape for shape in scene().shapes if isinstance(shape, Disc)]) == g.bolts == 10
    assert not [shape for shape in scene(plate="none").shapes if isinstance(shape, Disc)]


def test_the_opening_is_drawn_where_it_is_asked() -> None:
    assert scene(opening=True).spots["opening"].tint == ((150.0, 12.0), (186.0, 12.0), (186.0, 48.0), (150.0, 48.0))
