"""Wood, fasteners and foam near moisture and termites. Values: IRC 2021 R317, R318 (2024: R304, R305); IBC 2304."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import irc_moisture as moisture
from engine.editions import US_2021, US_2024
from engine.worksheet import CLAUSES

SIZES = st.floats(0.5, 30)


@pytest.mark.parametrize(
    ("function", "before", "after"),
    [
        (moisture.beam_air_space_in, "IRC 2021 R317.1", "IRC 2024 R304.1"),
        (moisture.plain_bolt_allowed, "IRC 2021 R317.3.1", "IRC 2024 R304.3.1"),
        (moisture.foam_ground_clearance_in, "IRC 2021 R318.4", "IRC 2024 R305.4"),
    ],
)
def test_the_decay_and_termite_clauses_moved_in_2024(function, before, after) -> None:
    citation = CLAUSES[function].citation
    assert (citation.label(US_2021), citation.label(US_2024)) == (before, after)


@pytest.mark.parametrize(("height_in", "treated"), [(7.9, True), (8, False), (8.1, False)])
def test_framing_under_eight_inches_above_ground_is_treated(height_in, treated) -> None:
    assert moisture.framing_on_wall_needs_treatment(height_in) is treated  # item 2


@pytest.mark.parametrize(("member", "limit_in"), [("joist", 18), ("girder", 12), ("column", 8)])
def test_crawl_space_wood_near_the_ground_is_treated(member, limit_in) -> None:
    assert moisture.crawl_space_needs_treatment(member, limit_in - 0.1)  # item 1
    assert not moisture.crawl_space_needs_treatment(member, limit_in)


@pytest.mark.parametrize(("clear_in", "treated"), [(0.49, True), (0.5, False)])
def test_a_girder_end_without_half_an_inch_of_air_is_treated(clear_in, treated) -> None:
    assert moisture.girder_end_needs_treatment(clear_in) is treated  # item 4
    assert moisture.beam_air_space_in() == 0.5


def test_a_basement_ledger_may_hide_behind_a_retarder_in_one_code_only() -> None:
    assert not moisture.below_grade_ledger_needs_treatment(retarder=True)  # item 7
    assert moisture.below_grade_ledger_needs_treatment(retarder=False)
    assert moisture.below_grade_ledger_needs_treatment(retarder=True, code="IBC")  # IBC 2304.12.1.3
    assert moisture.slab_sill_needs_treatment(barrier=False)  # item 3
    assert not moisture.slab_sill_needs_treatment(barrier=True)


def test_the_pocket_of_a_published_girder() -> None:
    # 5 1/2 by 11 7/8 in girder, 3 in bearing, 1/2 in clear on top, sides and end
    assert moisture.pocket_width_in(5.5, 0.5) == 6.5
    assert moisture.pocket_height_in(11.875, 0.5) == 12.375
    assert moisture.pocket_length_in(3, 0.5) == 3.5


@given(SIZES, SIZES)
def test_a_beam_of_just_the_pocket_less_its_air_needs_no_treatment(b_in, d_in) -> None:
    g_in = moisture.beam_air_space_in()
    assert not moisture.girder_end_needs_treatment((moisture.pocket_width_in(b_in, g_in) - b_in) / 2)
    assert not moisture.girder_end_needs_treatment(moisture.pocket_height_in(d_in, g_in) - d_in)


@pytest.mark.parametrize(("diameter_in", "irc"), [(0.375, False), (0.5, True), (0.625, True)])
def test_uncoated_bolts_from_half_an_inch_pass_one_code_only(diameter_in, irc) -> None:
    assert moisture.plain_bolt_allowed(diameter_in) is irc  # IRC R317.3.1 exception 1
    assert not moisture.plain_bolt_allowed(diameter_in, "IBC")  # IBC 2304.10.6.1


def test_coatings_suit_the_fastener_and_the_wood() -> None:
    assert moisture.fastener_coating_ok("hot-dip galvanized", "nail")  # IRC R317.3.1
    assert moisture.fastener_coating_ok("mechanically galvanized", "screw")
    assert not moisture.fastener_coating_ok("mechanically galvanized", "nail")
    assert not moisture.fastener_coating_ok("plain")
    assert not moisture.fastener_coating_ok("electroplated")
    assert moisture.fastener_coating_ok("plain", borate_dry=True)


def test_foam_keeps_off_the_ground_where_termites_are_very_likely() -> None:
    assert moisture.foam_ground_clearance_in(very_heavy=True) == 6  # IRC R318.4
    assert moisture.foam_ground_clearance_in(very_heavy=False) == 0
    assert not moisture.foam_below_grade_allowed(very_heavy=True)
    assert moisture.foam_below_grade_allowed(very_heavy=True, excepted=True)
    assert moisture.foam_below_grade_allowed(very_heavy=False)
