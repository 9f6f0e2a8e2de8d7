"""Ontario's prescriptive rows. Values: O. Reg. 332/12, Division B Part 9."""

import pytest

from engine.clauses.canada import obc
from engine.errors import BadInput, OutOfScope


@pytest.mark.parametrize(
    ("span_m", "half_inch_mm", "large_mm"),
    [(2.44, 450, 500), (3, 400, 450), (4, 300, 400), (5, 275, 325), (3.1, 300, 400)],
)
def test_ledger_bolts_close_up_as_the_floor_grows(span_m, half_inch_mm, large_mm) -> None:
    assert obc.ledger_bolt_spacing_mm(span_m, 12.7) == half_inch_mm  # Table 9.20.17.5
    assert obc.ledger_bolt_spacing_mm(span_m, 16) == large_mm


def test_ledger_bolts_off_the_table_are_refused() -> None:
    with pytest.raises(OutOfScope, match="5 m"):
        obc.ledger_bolt_spacing_mm(5.1, 16)
    with pytest.raises(BadInput, match=r"12\.7"):
        obc.ledger_bolt_spacing_mm(3, 20)
    assert obc.ledger_bolt_spacing_mm(3, 15.9) == obc.ledger_bolt_spacing_mm(3, 16) == 450  # both name a 5/8 in bolt


def test_every_row_of_the_ledger_table_asks_about_as_much_of_a_bolt() -> None:
    # At 1.9 + 0.5 kPa no row asks more than 1.65 kN of a 12.7 mm bolt nor 1.95 kN of a 16 mm one (derived).
    for span_m in (2.44, 3, 4, 5):
        for bolt_mm, most_kN in ((12.7, 1.65), (16, 1.95)):
            assert 2.4 * span_m / 2 * obc.ledger_bolt_spacing_mm(span_m, bolt_mm) / 1000 <= most_kN + 1e-9


def test_a_ledger_is_as_deep_as_its_joists() -> None:
    assert obc.ledger(235) == (38, 235, 100)  # 9.20.17.5


@pytest.mark.parametrize(("thickness_mm", "projection_mm"), [(90, 25), (75, 12), (30, 10)])
def test_veneer_projects_the_smaller_of_a_third_and_the_printed_limit(thickness_mm, projection_mm) -> None:
    assert obc.veneer_projection_mm(thickness_mm) == pytest.approx(projection_mm)  # 9.20.8.5, 9.20.12.3


def test_air_is_left_about_beam_ends_at_or_below_ground() -> None:
    assert obc.beam_air_space_mm(at_or_below_ground=True) == 12  # 9.23.2.2
    assert obc.beam_air_space_mm(at_or_below_ground=False) == 0


def test_wood_near_the_ground_lies_on_a_sheet() -> None:
    assert obc.capillary_break_required(149)  # 9.23.2.3
    assert not obc.capillary_break_required(150)
    assert not obc.capillary_break_required(0, treated=True)


def test_bearings_walls_and_anchors() -> None:
    assert (obc.minimum_bearing_mm("joist"), obc.minimum_bearing_mm("beam")) == (38, 89)  # 9.23.9.1, 9.23.8.1
    assert obc.above_grade_wall() == (140, 2, 3, 0.4)  # 9.20.17.1, 9.20.1.1
    assert obc.sill_anchor()[:3] == (12.7, 2.4, 100)  # 9.23.6.1
    assert obc.roof_plate_anchor() == (12.7, 1.2, 100, "centre of wall")  # 9.20.17.6
