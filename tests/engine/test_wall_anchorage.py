"""Ties of walls to floors: ASCE 7 1.4.4 and 12.11."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import wall_anchorage as w
from engine.errors import BadInput
from engine.worksheet import CLAUSES, Worksheet


def test_a_tie_holds_a_fifth_of_the_wall_and_at_least_five_psf() -> None:
    assert w.integrity_tie_lb(1000, 20) == 200
    assert w.integrity_tie_lb(100, 20) == 100


def test_the_wall_itself_is_pushed_by_at_least_a_tenth_of_its_weight() -> None:
    # ASCE 7-05 12.11.1 as quoted in a masonry textbook: 0.4 x 0.5 x 1,000 = 200, floor 100
    assert w.out_of_plane_lb(0.5, 1.0, 1000) == pytest.approx(200)
    assert w.out_of_plane_lb(0.1, 1.0, 1000) == 100


def test_a_flexible_floor_amplifies_up_to_twice() -> None:
    # FEMA P-1026: 1.0 for a rigid diaphragm, 2.0 from 100 ft on
    assert [w.diaphragm_amplification(span) for span in (0, 50, 100, 200)] == [1.0, 1.5, 2.0, 2.0]


def test_the_anchorage_force_has_a_floor_that_rises_with_the_amplification() -> None:
    assert w.anchorage_lb(1.0, 2.0, 1.0, 100) == pytest.approx(80)
    assert w.anchorage_lb(0.2, 2.0, 1.0, 100) == pytest.approx(40)


def test_category_a_asks_only_for_the_least_tie() -> None:
    sheet = Worksheet()
    assert w.tie_force_lb(sheet, "A", 75, 20, 0.6, 1.0, 40) == pytest.approx(0.2 * 1500)
    assert w.tie_force_lb(sheet, "D", 75, 20, 0.6, 1.0, 40) == pytest.approx(0.4 * 0.6 * 1.4 * 1500)
    assert [step.clause.citation.section for step in sheet.take()][-4:] == [
        "1.4.4",
        "12.11.2.1",
        "12.11.2.1",
        "1604.8.2",
    ]


@given(st.floats(0, 3), st.floats(1, 1.5), st.floats(0, 300), st.floats(0, 200), st.floats(0, 400))
def test_a_tie_never_asks_less_than_the_least_tie(S_DS, I_e, span, weight, area) -> None:
    force = w.tie_force_lb(Worksheet(), "C", weight, area, S_DS, I_e, span)
    assert force >= max(0.2 * weight * area, 5 * area) * (1 - 1e-12)


def test_negative_or_missing_numbers_are_refused() -> None:
    for wrong in ({"w_psf": -1.0}, {"S_DS": float("nan")}):
        facts = {"category": "C", "w_psf": 75.0, "A_t_ft2": 20.0, "S_DS": 0.5, "I_e": 1.0, "L_f_ft": 0.0} | wrong
        with pytest.raises(BadInput, match="zero or more"):
            w.tie_force_lb(Worksheet(), **facts)


def test_anchors_more_than_four_feet_apart_make_the_wall_span_between_them() -> None:
    assert not w.wall_spans_between_anchors(4.0)
    assert w.wall_spans_between_anchors(4.1)


def test_steel_parts_of_the_tie_take_four_tenths_more() -> None:
    assert w.steel_part_force_lb(1000) == 1400


def test_the_2005_edition_is_kept_apart_and_named() -> None:
    # 0.4 x 0.5 x 1,000 = 200 plf, 400 x 0.5 = 200 plf, 280 plf governs
    assert w.superseded_anchorage_plf(0.5, 1.0, 1000) == 280
    assert CLAUSES[w.superseded_anchorage_plf].citation.family == "ASCE 7-05"
