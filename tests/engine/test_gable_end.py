"""A gable end checked: 28 ft wide, 6 in 12, 16 in courses, an 8 in web module and a 6 in core, worked by hand."""

from dataclasses import replace
from math import atan, degrees, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine import attachments
from engine.attachments.gable_end import cut_list, geometry
from engine.attachments.gable_end.inputs import Inputs
from engine.editions import US_2021
from engine.errors import BadInput
from engine.result import CheckResult, Verdict
from engine.solve import solve

USUAL = Inputs()


def checked(**values) -> CheckResult:
    return attachments.check("gable_end", replace(USUAL, **values), US_2021)


def test_the_triangle_by_hand() -> None:
    g = geometry(USUAL)
    assert (g.W, g.x_r, g.H) == (336, 168, 84)
    assert g.rake_L == g.rake_R == pytest.approx(sqrt(168**2 + 84**2))
    assert g.theta_L == pytest.approx(degrees(atan(0.5)))
    assert (g.c_L, g.c_R, g.N) == (32, 32, 6)  # 16 in / (6 / 12); 84 / 16 = 5.25
    assert g.area_ft2 == 28 * 7 / 2
    assert g.cut_ft == pytest.approx(4 * sqrt(14**2 + 7**2))


def test_a_gable_higher_than_the_bar_table_is_told_to_be_designed() -> None:
    """IRC R608.10, and Table R608.6(1) to 10 ft: 28 ft at 6 in 12 rises 7 ft, at 9 in 12 14 x 0.75 = 10.5 ft."""
    low, high = (
        [caution.text for caution in checked(pitch=pitch).cautions if "IRC" in getattr(caution.source, "family", "")]
        for pitch in (6.0, 9.0)
    )
    assert any("diaphragm" in text for text in low)
    assert not any("10 ft" in text for text in low)
    assert any("10 ft" in text for text in high)


def test_concrete_by_lifts_by_hand() -> None:
    """Widths at 0, 2, 4, 6 and 7 ft are 28, 20, 12, 4 and 0 ft; the core is half a foot."""
    g = geometry(USUAL)
    want = [(28 + 20) / 2 * 2, (20 + 12) / 2 * 2, (12 + 4) / 2 * 2, 4 / 2 * 1]
    assert [lift.volume_yd3 for lift in g.lifts] == pytest.approx([ft2 * 0.5 / 27 for ft2 in want])
    assert g.volume_yd3 == pytest.approx(98 * 0.5 / 27)


def test_two_pitches_meet_where_both_rakes_are_as_high() -> None:
    """6 in 12 from the left, 12 in 12 from the right: twice as far from the left eave, 28 x 12 / 18 = 18.67 ft."""
    g = geometry(replace(USUAL, two_pitches=True, pitch_right=12.0))
    assert g.x_r == pytest.approx(336 * 2 / 3)
    assert g.H == pytest.approx(112) == pytest.approx((336 - g.x_r) * 12 / 12)
    assert (g.c_L, g.c_R) == (32, 16)
    assert g.rake_R == pytest.approx(112 * sqrt(2))
    assert g.volume_yd3 == pytest.approx(28 * 112 / 12 / 2 * 0.5 / 27)


@given(left=st.floats(1, 24), right=st.floats(1, 24), base=st.floats(4, 60), lift=st.floats(0.5, 20))
def test_lifts_hold_all_the_concrete_and_rakes_close(left: float, right: float, base: float, lift: float) -> None:
    g = geometry(replace(USUAL, base_ft=base, pitch=left, two_pitches=True, pitch_right=right, lift_ft=lift))
    assert g.volume_yd3 == pytest.approx(g.W * g.H / 2 / 144 * 0.5 / 27)
    assert (g.W - g.x_r) * right / 12 == pytest.approx(g.H)
    assert g.lifts[0].low_in == 0
    assert g.lifts[-1].high_in == pytest.approx(g.H)


def test_an_opening_takes_its_concrete_from_its_lifts_and_its_lintel_to_an_engineer() -> None:
    """3 ft wide from 1 ft to 4 ft: 3 ft² of the first lift, 6 ft² of the second."""
    plain, opened = geometry(USUAL), geometry(replace(USUAL, opening=True))
    gone = [a.volume_yd3 - b.volume_yd3 for a, b in zip(plain.lifts, opened.lifts, strict=True)]
    assert gone == pytest.approx([3 * 0.5 / 27, 6 * 0.5 / 27, 0, 0])
    result = checked(opening=True, slump_in=6.5)
    assert result["lintel"].verdict is Verdict.REFER
    assert "R608.8" in result["lintel"].refer
    assert any("cut out of the laid courses" in caution.text for caution in result.cautions)


def test_an_opening_through_the_rake_is_named_with_its_amount() -> None:
    """At 4 ft the left rake stands at 8 ft; an opening from 7 1/2 ft passes it by half a foot."""
    with pytest.raises(BadInput, match="6 in through the rake") as caught:
        geometry(replace(USUAL, opening=True, opening_from_ft=7.5))
    assert caught.value.field == "head_ft"


def test_a_lift_presses_as_a_liquid() -> None:
    """150 pcf x 2 ft = 300 psf (ACI 347R-14 4.2.2.1); where no lift waits, 150 x 7 = 1,050 psf."""
    line = checked()["lift-pressure"]
    assert (line.demand, line.capacity, line.ratio) == (300, 600, 0.5)
    soft = checked(waits=False)["lift-pressure"]
    assert (soft.demand, soft.verdict) == (1050, Verdict.FLAG)
    unknown = checked(form_pressure_psf=None)["lift-pressure"]
    assert unknown.verdict is Verdict.FLAG
    assert "enter what the forms may carry" in unknown.sentence()


def test_ties_of_the_cut_edge_by_hand() -> None:
    """300 psf over half of 8 in is 100 plf; ties 24 in apart pull 200 lb."""
    line = checked()["edge-ties"]
    assert line.facts["load"] == (pytest.approx(100), "plf")
    assert (line.demand, line.capacity) == (pytest.approx(200), 300)
    assert "62 ft 7 5/16 in" in line.sentence()
    assert checked(tie_lb=None)["edge-ties"].verdict is Verdict.FLAG
    assert checked(tie_spacing_in=40.0)["edge-ties"].verdict is Verdict.FLAG


@given(lift=st.floats(0.5, 19), more=st.floats(0, 1))
def test_a_taller_lift_never_presses_less(lift: float, more: float) -> None:
    for key in ("lift-pressure", "edge-ties"):
        assert checked(lift_ft=lift + more)[key].ratio >= checked(lift_ft=lift)[key].ratio - 1e-12


def test_the_slump_of_a_gable_and_the_code_s_conflict_is_said_aloud() -> None:
    """IRC R608.5.1.4: more than 6 in in stay-in-place forms; practice in gables is stiffer."""
    result = checked()
    assert result.verdict is Verdict.REFER
    assert result.lines_verdict == "every line holds"
    assert "R608.5.1.4" in result["slump-code"].refer
    assert any("The two conflict" in caution.text for caution in result.cautions)
    approved = checked(slump_approval="Building official, 12 March 2026")
    assert approved.verdict is Verdict.PASS
    assert any("The two conflict" in caution.text for caution in approved.cautions)
    assert checked(slump_in=6.5).verdict is Verdict.PASS
    assert checked(slump_below_in=6.0)["slump-below"].verdict is Verdict.FLAG


def test_the_rate_at_the_eaves_by_hand() -> None:
    """27 x 12 / (28 x 0.5) = 23.1 ft/h: no equation covers it."""
    said = checked()["rate"].sentence()
    assert "23.14 ft/h" in said
    assert "counts as a liquid" in said


def test_bolts_along_the_rake_by_hand() -> None:
    """187.8 in in one piece of 16 ft: with 8 in ends, ceil(171.8 / 48) + 1 = 5 bolts, 42.96 in apart."""
    g = geometry(USUAL)
    assert [(p.rake, len(p.bolts_in)) for p in g.pieces] == [("left", 5), ("right", 5)]
    for piece in g.pieces:
        assert piece.bolts_in[0] == 8
        assert piece.length_in - piece.bolts_in[-1] == pytest.approx(8)
    line = checked()["bolt-spacing"]
    assert line.demand == pytest.approx((sqrt(168**2 + 84**2) - 16) / 4)
    assert line.source.family == "common practice"
    assert line.verdict is Verdict.ADVISORY
    assert len(geometry(replace(USUAL, piece_ft=8.0)).pieces) == 4


def test_cover_beside_the_bolts_is_the_code_s() -> None:
    """ACI 318-19 Table 20.5.1.3.1: 3/4 in not exposed, 1 1/2 in exposed; (4 - 3/4) / 2 = 1 5/8 in in a 4 in core."""
    assert checked()["bolt-cover"].capacity == pytest.approx((6 - 0.5) / 2)
    thin = checked(core_in=4.0, bolt="3/4", exposure="weather or ground")["bolt-cover"]
    assert (thin.demand, thin.capacity) == (2.0, pytest.approx(1.625))
    assert thin.verdict is Verdict.FLAG


def test_no_plate_no_bolts() -> None:
    result = checked(plate="none")
    assert not [s.key for s in result.states if s.key.startswith("bolt")]
    assert geometry(replace(USUAL, plate="none")).bolts == 0


def test_forms_are_counted_and_never_judged() -> None:
    line = checked()["forms"]
    cut = cut_list(USUAL)
    assert line.verdict is Verdict.ADVISORY
    assert line.facts["forms"] == (cut.with_reuse, "")
    assert line.facts["saved"] == (cut.without - cut.with_reuse, "")


def test_beyond_the_prescriptive_limits_it_is_designed() -> None:
    assert checked(seismic="D0")["scope"].verdict is Verdict.REFER


def test_a_spacing_that_is_solved_for_holds() -> None:
    flagged = replace(USUAL, tie_spacing_in=96.0, slump_in=6.5)
    remedy, _ = solve("gable_end", flagged, US_2021, "tie_spacing_in")
    assert remedy is not None
    found = remedy.changes["tie_spacing_in"]
    assert found == "36"  # 100 plf on a tie that carries 300 lb, in steps of 4 in
    held = attachments.check("gable_end", replace(flagged, tie_spacing_in=36.0), US_2021)
    assert held.verdict is Verdict.PASS
