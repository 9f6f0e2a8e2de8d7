"""Canadian Part 9 and what was read of strength rules. Values: National Building Code, Alberta Edition 2023; Ontario 2024."""

from itertools import pairwise

import pytest

from engine import tables
from engine.clauses.canada import part_9_bearing, part_9_foundation, part_9_sills, part_9_veneer, part_9_walls, strength
from engine.errors import BadInput, OutOfScope


def test_wood_bears_less_on_wood_than_on_masonry() -> None:
    assert part_9_bearing.end_bearing_mm("joist") == 38  # 9.23.9.1
    assert part_9_bearing.bearing_on_masonry_mm("joist") == 40  # 9.20.8.3
    assert part_9_bearing.end_bearing_mm("beam") == 89  # 9.23.8.1
    assert part_9_bearing.bearing_on_masonry_mm("beam") == 90  # 9.20.8.3
    assert part_9_bearing.bearing_on_masonry_mm("rafter") == 40  # 9.20.8.3: floor, roof and ceiling joists
    assert part_9_bearing.bearing_on_masonry_mm("ridge beam") == 90
    with pytest.raises(BadInput, match="post"):
        part_9_bearing.end_bearing_mm("post")  # type: ignore[arg-type]


def test_a_joist_on_a_ribbon_board_has_no_tabled_bearing() -> None:
    with pytest.raises(OutOfScope, match="19 by 89 mm"):  # 9.23.9.1
        part_9_bearing.end_bearing_mm("joist", on_ribbon_board=True)


def test_treated_wood_may_stand_at_the_ground() -> None:
    clearance = part_9_bearing.clearance_to_ground_mm
    assert (clearance(termites=True), clearance(termites=False)) == (450, 150)  # 9.3.2.9
    assert clearance(termites=True, treated=True) == clearance(termites=False, treated=True) == 0


def test_air_is_left_around_untreated_wood_low_in_concrete_only() -> None:
    space = part_9_bearing.air_space_mm
    assert space(at_or_below_ground=True, treated=False) == 12  # 9.23.2.2
    assert space(at_or_below_ground=True, treated=True) == space(at_or_below_ground=False, treated=False) == 0


def test_a_foundation_is_read_at_the_next_greater_row_and_column() -> None:
    bars = part_9_foundation.foundation_bars
    assert bars(150, 1.7, 2.5) == ("10M", 380)  # Table 9.15.4.5.-A: 2.0 m of ground, 2.75 m of wall
    assert bars(150, 3.0, 3.0) == ("15M", 250)  # the heavier of two prints
    assert bars(240, 2.0, 3.0) is None  # Table 9.15.4.5.-C
    assert bars(190, 2.6, 2.9) == ("15M", 400)  # Table 9.15.4.5.-B


@pytest.mark.parametrize(("core", "ground", "height"), [(150, 2.35, 2.44), (150, 3.1, 3.0), (190, 2.2, 3.1)])
def test_a_foundation_off_its_table_goes_to_an_engineer(core, ground, height) -> None:
    with pytest.raises(OutOfScope, match=r"9\.15\.4\.5"):
        part_9_foundation.foundation_bars(core, ground, height)


def test_a_core_that_no_table_prints_is_refused() -> None:
    with pytest.raises(BadInput, match="150, 190, 240"):
        part_9_foundation.foundation_bars(200, 2.0, 2.44)


def test_thicker_or_stronger_concrete_holds_no_less_ground() -> None:
    ground = part_9_foundation.plain_ground_m
    for height in (2.5, 2.75, 3.0):
        for f_c in (15, 20):
            found = [ground(f_c, t, height, supported=True) for t in (150, 200, 250, 300)]
            assert all(a <= b for a, b in pairwise(found))
        assert all(
            ground(15, t, height, supported=True) <= ground(20, t, height, supported=True) for t in (150, 200, 250)
        )
    assert ground(25, 180, 2.6, supported=True) == 1.6  # Table 9.15.4.2.-A, 20 MPa, 150 mm, 2.75 m
    with pytest.raises(OutOfScope, match="15 MPa"):
        ground(10, 150, 2.5, supported=True)


def test_more_shaking_or_more_floors_never_space_the_bolts_wider() -> None:
    cells = (("light", 1), ("light", 2), ("light", 3))
    for bolt in (12.7, 15.9):
        rows = [
            [part_9_sills.spacing_m(bolt, s, *cell) for cell in cells]
            for s in (0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.35, 1.8)
        ]
        assert all(a >= b for row in rows for a, b in pairwise(row))
        assert all(a >= b for earlier, later in pairwise(rows) for a, b in zip(earlier, later, strict=True))
    assert part_9_sills.spacing_m(12.7, 1.5, "heavy", 2) == 1.4  # Table 9.23.6.1


def test_beyond_the_seismic_table_or_a_strong_wind_anchors_are_designed() -> None:
    with pytest.raises(OutOfScope, match="Part 4"):
        part_9_sills.spacing_m(12.7, 1.9, "light", 1)
    with pytest.raises(OutOfScope, match="Part 4"):
        part_9_sills.spacing_m(12.7, 1.0, "light", 1, HWP_kPa=1.3)
    with pytest.raises(OutOfScope, match=r"Table 9\.23\.6\.1"):
        part_9_sills.bolts_two_floors(12.7, 0.75)
    with pytest.raises(OutOfScope, match="Part 4"):
        part_9_sills.bolts_two_floors(12.7, 0.5, HWP_kPa=1.3)  # 9.23.6.1.(6)
    assert part_9_sills.spacing_bc_m("WSP-E", 15.9, 2.6, 1.2) == 0.8  # B.C. Table 9.23.6.1
    with pytest.raises(OutOfScope, match=r"2\.6"):
        part_9_sills.spacing_bc_m("WSP-E", 15.9, 2.7)
    with pytest.raises(BadInput, match="light"):
        part_9_sills.spacing_m(12.7, 1.0, "heavy", 3)


def test_a_lintel_print_that_stands_out_is_not_used() -> None:
    with pytest.raises(OutOfScope, match=r"4\.80"):
        part_9_walls.lintel_span_m("C", 150, 500, 1.5, storey_above=False)
    assert part_9_walls.lintel_span_m("C", 150, 500, 2.0, storey_above=False) == 3.68  # Table 9.20.17.4.-C, 3.33 kPa
    with pytest.raises(OutOfScope, match=r"3\.33"):
        part_9_walls.lintel_span_m("A", 140, 200, 3.4, storey_above=True)
    with pytest.raises(BadInput, match="145 mm"):
        part_9_walls.lintel_span_m("A", 145, 200, 1.5, storey_above=True)


def test_deeper_lintels_span_farther_and_more_load_spans_less() -> None:
    rows = tables.load("obc_9_20_17_4").rows
    spans = ("roof_1.50", "roof_3.33", "storey_1.50", "storey_3.33")
    assert len(rows) == 3 * 6 * 5
    for row in rows:
        assert float(row["roof_1.50"]) > float(row["roof_3.33"])
        assert float(row["storey_1.50"]) > float(row["storey_3.33"])
    for above, below in pairwise(rows):
        if (above["table"], above["thickness_mm"]) == (below["table"], below["thickness_mm"]):
            assert all(float(above[c]) < float(below[c]) for c in spans)


def test_veneer_ties_and_angles_are_those_of_their_tables() -> None:
    assert part_9_veneer.tie(500) == (600, 0.76, 22)  # Table 9.20.9.5
    assert part_9_veneer.angle_spans("102x89x6.4").brick_90_m == 2.66  # Table 9.20.5.2
    assert part_9_veneer.tie(450) == part_9_veneer.tie(500)  # between two rows the closer one holds
    assert part_9_veneer.tie(300).along_mm == 800
    with pytest.raises(OutOfScope, match="600 mm"):
        part_9_veneer.tie(601)
    assert part_9_veneer.angle_spans("L 102 × 89 × 6.4") == part_9_veneer.angle_spans("102x89x6.4")
    with pytest.raises(BadInput, match=r"89x89x6\.4"):
        part_9_veneer.angle_spans("152x89x9.5")


def test_the_bearing_of_a_joist_by_hand() -> None:
    # 0.8 x 5.3 MPa x 38 mm x 38 mm = 6.12 kN for S-P-F; 1.15 times that under a short-term load prints 7.04 in a notebook
    assert strength.wood_bearing_kN(38, 38, 5.3) == pytest.approx(0.8 * 5.3 * 38 * 38 / 1000)
    assert round(strength.wood_bearing_kN(38, 38, 5.3, K_D=1.15), 2) == 7.04
    assert strength.K_B(38, 80) == pytest.approx((38 + 9.525) / 38)
    assert strength.K_B(38, 60) == strength.K_B(150, 80) == 1


def test_long_loads_weaken_wood_to_a_limit() -> None:
    assert strength.K_D(1, 1) == strength.K_D(0.5, 1) == 1
    assert strength.K_D(4, 1) == pytest.approx(0.699, abs=5e-4)
    assert strength.K_D(100, 1) == 0.65


def test_spread_under_a_plate_counts_twice_at_most() -> None:
    once = strength.concrete_bearing_kN(20, 10000)
    assert once == pytest.approx(0.85 * 0.65 * 20 * 10000 / 1000)
    assert strength.concrete_bearing_kN(20, 10000, 3) == 2 * once
    assert strength.concrete_bearing_kN(20, strength.concrete_area_mm2(100, 20)) == pytest.approx(100)


def test_a_20M_bar_is_a_small_one_by_either_diameter() -> None:
    # A23.3 12.2.3: 0.45 x 0.8 x 400/sqrt(25) x 20 = 576 mm for 20 mm, 561.6 mm for 19.5 mm
    assert strength.development_mm(20, 25, 400) == pytest.approx(576)
    assert strength.development_mm(19.5, 25, 400) == pytest.approx(561.6)


def test_short_developments_keep_their_floor() -> None:
    assert strength.development_mm(11.3, 40, 400) == 300
    assert strength.development_mm(25.2, 30, 400) == pytest.approx(0.45 * 400 / 30**0.5 * 25.2)
