"""A sill plate on a wall, line by line: its place, the code's rules for bolts and washers, the prescriptive ties, moisture.

The ordinary case: a treated 2x6 DF-L set 1/4 in inside the outer face of a 6 in core, 1/2 in headed bolts at 24 in along its
middle, floor joists across the wall, 115 mph in exposure B.
"""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine import attachments, fields
from engine.attachments import KINDS, Kind
from engine.attachments.sill_plate import Inputs, check, geometry
from engine.editions import US_2021, US_2024
from engine.errors import BadInput
from engine.result import CheckResult, Verdict
from engine.solve import remedies

KEY = "sill_plate"


def judged(edition=US_2021, **changes) -> CheckResult:
    inputs = replace(Inputs(), **changes)
    fields.validate(inputs)
    return check(inputs, edition)


def verdict(key: str, **changes) -> Verdict:
    return judged(**changes)[key].verdict


@pytest.fixture
def offered(monkeypatch: pytest.MonkeyPatch) -> None:
    """The kind among those that can be solved."""
    monkeypatch.setattr(attachments, "KINDS", {**KINDS, KEY: Kind(KEY, "Sill plate")})


@pytest.mark.parametrize("edition", [US_2021, US_2024], ids=lambda e: e.key)
def test_an_ordinary_plate_passes(edition) -> None:
    result = judged(edition)
    assert result.verdict is Verdict.PASS
    assert result.lines_verdict == "every line holds"


# --- where things are ------------------------------------------------------------------------------------------------------


def test_plate_bolt_and_core_are_measured_from_the_outer_core_face() -> None:
    """Dressed 2x6: 5 1/2 in wide (DOC PS 20)."""
    p = geometry(Inputs(plate_edge_in=-2.5, across_in=5.0, core_in=6.0))
    assert (p.x_0, p.x_1, p.x_bolt) == (-2.5, 3.0, 2.5)
    assert p.on_concrete == 3.0
    assert p.nearest_face == 2.5
    assert p.third == (-2.5 + 5.5 / 3, -2.5 + 11 / 3)


def test_on_a_ledge_the_plate_stands_between_the_wall_above_and_the_edge() -> None:
    """Outer foam 2 1/2 below and 4 above, upper core 6, its room-side foam 2 1/2: the ledge begins at 1 1/2 + 6 + 2 1/2."""
    on_ledge = {"stands_on": "ledge", "core_in": 14.0, "upper_foam_outer_in": 4.0}
    p = geometry(Inputs(plate="2x4", across_in=1.75, plate_edge_in=9.0, **on_ledge))
    assert (p.x_U, p.t_U, p.x_B) == (1.5, 6.0, 10.0)
    assert p.on_concrete == 12.5 - 10.0
    into = judged(plate="2x4", across_in=1.75, plate_edge_in=9.0, **on_ledge)["plate-ledge"]
    assert into.verdict is Verdict.FLAG
    assert into.facts["over"] == (1.0, "in")
    assert verdict("plate-ledge", plate="2x4", across_in=1.75, plate_edge_in=10.0, **on_ledge) is Verdict.PASS


def test_bolts_spread_evenly_no_farther_apart_than_asked() -> None:
    p = geometry(Inputs(piece_ft=12.0, end_in=8.0, spacing_in=24.0))
    assert p.places[0] == 8.0
    assert p.places[-1] == pytest.approx(144.0 - 8.0)
    assert p.spacing == pytest.approx(128 / 6)


@pytest.mark.parametrize(
    ("changes", "field", "inches"),
    [
        ({"across_in": 5.5}, "across_in", "1/4 in"),
        ({"piece_ft": 1.0, "end_in": 8.0}, "end_in", "8 in"),
        ({"head": "hook", "hook_in": 0.5, "bolt": "5/8"}, "hook_in", "5/8 in"),
    ],
)
def test_what_cannot_be_built_is_refused_with_inches(changes: dict, field: str, inches: str) -> None:
    with pytest.raises(BadInput, match=inches) as clash:
        geometry(Inputs(**changes))
    assert clash.value.field == field


def test_two_plates_one_on_the_other_are_three_inches_thick() -> None:
    assert geometry(Inputs(plate="2-2x6")).thickness == 3.0
    assert any("Nail the two plates" in c.text for c in judged(plate="2-2x6").cautions)


# --- the plate -------------------------------------------------------------------------------------------------------------


def test_the_line_tells_the_share_of_the_plate_on_concrete() -> None:
    line = judged(plate_edge_in=-2.5, across_in=4.5)["plate-on-core"]
    assert line.verdict is Verdict.PASS
    assert line.facts["on"] == (3.0, "in")
    assert line.facts["share"] == (pytest.approx(3 / 5.5), "")
    assert verdict("plate-on-core", plate_edge_in=6.0) is Verdict.FLAG


def test_only_the_part_on_concrete_counts_toward_48_square_inches() -> None:
    """IRC 2021 R502.6: 48 sq in of nominal area. A foot of 2x4, half of it on concrete: 24."""
    whole = judged(plate="2x4", across_in=1.75, piece_ft=1.0, end_in=4.0)["plate-area"]
    half = judged(plate="2x4", across_in=1.75, piece_ft=1.0, end_in=4.0, plate_edge_in=-1.75)["plate-area"]
    assert (whole.demand, whole.capacity) == (48.0, 48.0)
    assert half.capacity == pytest.approx(24.0)
    assert (whole.verdict, half.verdict) == (Verdict.PASS, Verdict.FLAG)


def test_a_plate_below_a_nominal_2x4_is_flagged() -> None:
    """IRC 2021 R404.3."""
    assert verdict("plate-size", plate="2x3", across_in=1.25) is Verdict.FLAG
    assert verdict("plate-size", plate="2x4", across_in=1.75) is Verdict.PASS


@pytest.mark.parametrize(("code", "label"), [("IRC", "IRC 2021 R602.3.4"), ("IBC", "IBC 2021 2304.3.1")])
def test_a_plate_is_as_wide_as_the_studs_on_it(code: str, label: str) -> None:
    line = judged(code=code, carries="wall", plate="2x4", across_in=1.75, stud_in=5.5)["plate-studs"]
    assert (line.demand, line.capacity, line.verdict) == (5.5, 3.5, Verdict.FLAG)
    assert line.source.label(US_2021) == label
    assert verdict("plate-studs", code=code, carries="wall", stud_in=5.5) is Verdict.PASS


# --- bolts by the prescriptive rules ---------------------------------------------------------------------------------------


def test_the_end_distance_differs_between_the_codes() -> None:
    """IRC 2021 R403.1.6: 7 diameters, 4 3/8 in at 5/8 in; IBC 2021 2308.3.1: 4 in whatever the bolt; both at most 12 in."""
    near = {"bolt": "5/8", "end_in": 4.25}
    assert verdict("bolt-ends", **near) is Verdict.FLAG
    assert verdict("bolt-ends", code="IBC", **near) is Verdict.PASS
    assert judged(**near)["bolt-ends"].facts["low"] == (4.375, "in")
    assert judged(code="IBC", **near)["bolt-ends"].facts["low"] == (4.0, "in")
    assert verdict("bolt-ends", code="IBC", end_in=3.5) is Verdict.FLAG
    assert verdict("bolt-ends", end_in=3.5) is Verdict.PASS
    assert verdict("bolt-ends", end_in=12.5) is Verdict.FLAG


def test_labels_follow_code_and_edition() -> None:
    assert judged()["bolt-size"].source.label(US_2021) == "IRC 2021 R403.1.6"
    in_ibc = judged(US_2024, code="IBC")["bolt-size"].source
    assert in_ibc.label(US_2021) == "IBC 2021 2308.3.1"
    assert in_ibc.label(US_2024) == "IBC 2024 2308.7.1"
    decay = judged()["decay"].source
    assert (decay.label(US_2021), decay.label(US_2024)) == ("IRC 2021 R317.1", "IRC 2024 R304.1")


def test_a_piece_counts_its_bolts() -> None:
    """12 ft at 72 in, ends 12 in at most: 3 bolts. Ends at 36 in leave room for two."""
    line = judged(spacing_in=72.0, end_in=36.0)["bolt-count"]
    assert (line.demand, line.capacity, line.verdict) == (3.0, 2.0, Verdict.FLAG)
    assert judged(spacing_in=24.0, end_in=8.0)["bolt-count"].capacity == 7.0


def test_size_and_embedment_have_their_least() -> None:
    """IRC 2021 R403.1.6: 1/2 in, 7 in; IBC 2308 in category E: 5/8 in."""
    assert verdict("bolt-embedment", embedment_in=6.5) is Verdict.FLAG
    assert judged()["bolt-size"].demand == 0.5
    in_e = judged(code="IBC", seismic="E")["bolt-size"]
    assert (in_e.demand, in_e.verdict) == (0.625, Verdict.FLAG)


ON_FOUNDATION = {"foundation": True, "carries": "wall"}


@pytest.mark.parametrize(
    ("changes", "most"),
    [
        ({"stories": 2, "seismic": "D0", **ON_FOUNDATION}, 72.0),
        ({"stories": 3, "seismic": "D0", **ON_FOUNDATION}, 48.0),  # IRC 2021 R403.1.6.1
        ({"stories": 3, "seismic": "C-town"}, 48.0),
        ({"stories": 3, "seismic": "C"}, 72.0),
        ({"stories": 3, "seismic": "A", "code": "IBC"}, 48.0),  # IBC 2021 2308.3.1
        ({"stories": 3, "seismic": "A", "code": "IBC", "braced_line": False}, 72.0),
    ],
)
def test_spacing_closes_up_over_two_storeys(changes: dict, most: float) -> None:
    line = judged(spacing_in=60.0, **changes)["bolt-spacing"]
    assert (line.demand, line.capacity) == (60.0, most)
    assert line.verdict is (Verdict.PASS if most == 72.0 else Verdict.FLAG)


@pytest.mark.parametrize(
    ("changes", "needed"),
    [
        ({"seismic": "B"}, False),
        ({"seismic": "C"}, False),
        ({"seismic": "C-town"}, True),  # IRC 2021 R403.1.6.1
        ({"seismic": "C-town", "code": "IBC"}, False),  # IBC 2308 asks it in D and E
        ({"seismic": "D1", **ON_FOUNDATION}, True),
        ({"seismic": "D1", "braced_line": False, **ON_FOUNDATION}, False),
        ({"seismic": "E", "code": "IBC"}, True),
    ],
)
def test_plate_washers_by_category_and_kind_of_building(changes: dict, needed: bool) -> None:
    assert verdict("washer", washer="cut", **changes) is (Verdict.FLAG if needed else Verdict.PASS)
    assert verdict("washer", washer="plate", **changes) is Verdict.PASS
    assert verdict("washer", washer="none", **changes) is Verdict.FLAG


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"washer_in": 2.5}, "washer-size"),
        ({"washer_thickness_in": 0.1875}, "washer-thickness"),
        ({"slotted": True, "slot_over_in": 0.25}, "washer-slot"),
        ({"slotted": True, "slot_length_in": 2.0}, "washer-slot"),
        ({"slotted": True, "cut_on_slot": False}, "washer-slot"),
    ],
)
def test_a_plate_washer_has_its_sizes_and_its_slot(changes: dict, key: str) -> None:
    """IRC 2021 R602.11.1: 0.229 x 3 x 3 in; slot 3/16 in over the bolt, 1 3/4 in long, a cut washer on top."""
    in_d = {"seismic": "D0", "washer": "plate", **ON_FOUNDATION}
    right = {"slotted": True} if "slotted" in changes else {}
    assert verdict(key, **in_d, **right) is Verdict.PASS
    assert verdict(key, **in_d, **changes) is Verdict.FLAG


# --- middle third of the plate, cover in the core -------------------------------------------------------------------------


def test_middle_third_and_cover_are_two_lines() -> None:
    """2x12 over foam and core: its third runs 3 3/4 to 7 1/2 in from its edge; a bolt at 3 3/4 is 1 1/4 in into the core."""
    flush = {"plate": "2x12", "plate_edge_in": -2.5}
    assert verdict("bolt-third", across_in=3.625, **flush) is Verdict.FLAG
    assert verdict("bolt-third", across_in=3.75, **flush) is Verdict.PASS
    inside = judged(across_in=3.75, **flush)["bolt-cover"]
    assert inside.capacity == pytest.approx(3.75 - 2.5 - 0.75 / 2)  # hex head 3/4 in across its flats
    assert (inside.demand, inside.verdict) == (0.75, Verdict.PASS)
    assert verdict("bolt-cover", across_in=3.75, exposure="weather or ground", **flush) is Verdict.FLAG


@pytest.mark.parametrize(
    ("exposure", "bolt", "cover"),
    [("not exposed", "5/8", 0.75), ("weather or ground", "5/8", 1.5), ("weather or ground", "3/4", 2.0)],
)
def test_cover_goes_by_exposure(exposure: str, bolt: str, cover: float) -> None:
    """ACI 318-19 Table 20.5.1.3.1."""
    assert judged(exposure=exposure, bolt=bolt)["bolt-cover"].demand == cover


def test_where_no_bolt_fits_plate_and_core_the_line_says_how_far_to_move() -> None:
    """2x4 flush with the outer foam: third ends at -2 1/2 + 7/3 = -1/6 in; the core covers a 1/2 in hex head from 3/4 + 3/8."""
    short = 0.75 + 0.375 - (-2.5 + 7 / 3)
    line = judged(plate="2x4", plate_edge_in=-2.5, across_in=1.75)["bolt-room"]
    assert line.verdict is Verdict.FLAG
    assert line.facts["move"] == (pytest.approx(short), "in")
    assert "toward the room" in line.say
    moved = {"plate": "2x4", "across_in": 7 / 3}
    assert verdict("bolt-room", plate_edge_in=-2.5 + short, **moved) is Verdict.PASS
    assert verdict("bolt-room", plate_edge_in=-2.5 + short - 0.001, **moved) is Verdict.FLAG
    both = judged(plate_edge_in=-2.5 + short, **moved)
    assert both["bolt-third"].verdict is both["bolt-cover"].verdict is Verdict.PASS


def test_a_plate_too_far_in_moves_back_toward_the_outer_side() -> None:
    line = judged(plate="2x4", plate_edge_in=5.0, across_in=1.75)["bolt-room"]
    assert "toward the outer side" in line.say
    assert line.facts["move"] == (pytest.approx(5 + 3.5 / 3 - (6 - 1.125)), "in")


def test_the_exception_keeps_bolts_further_from_the_face() -> None:
    """1 3/4 in to the bolt's centre in place of 3/4 in of cover beside a 3/4 in head."""
    used = {"exception": True, "seismic": "D0", **ON_FOUNDATION}
    plate = {"plate": "2x4", "plate_edge_in": -1.0}  # its middle third ends at 1 1/3 in
    assert verdict("bolt-room", across_in=1.75, **plate, **ON_FOUNDATION) is Verdict.PASS
    line = judged(across_in=1.75, **plate, **used)["bolt-room"]
    assert line.facts["move"] == (pytest.approx(1.75 - (-1 + 7 / 3)), "in")


def test_a_core_too_thin_for_any_bolt_says_so() -> None:
    """4 in core, exposed, 3/4 in hex head 1 1/8 in wide: 2 + 9/16 from each face, twice."""
    line = judged(core_in=4.0, exposure="weather or ground", bolt="3/4")["bolt-room"]
    assert line.verdict is Verdict.FLAG
    assert line.facts["core"] == (pytest.approx(2 * (2 + 1.125 / 2)), "in")


@given(st.floats(-6, 8), st.sampled_from(["2x4", "2x6", "2x8", "2x12", "3x6"]), st.floats(0, 1))
@settings(max_examples=150, deadline=None)
def test_room_for_a_bolt_is_told_exactly(edge: float, plate: str, part: float) -> None:
    """Where the line holds there is a place that holds third and cover; where it flags there is none, anywhere in the third."""
    base = Inputs(plate=plate, plate_edge_in=edge, across_in=1.0)
    third = geometry(base).third
    room = check(base, US_2021)["bolt-room"]
    if room.verdict is Verdict.PASS:
        low, high = (room.facts[name][0] for name in ("from", "to"))
        at = check(replace(base, across_in=low + part * (high - low)), US_2021)
        assert at["bolt-third"].verdict is at["bolt-cover"].verdict is Verdict.PASS
    else:
        at = check(replace(base, across_in=third[0] + part * (third[1] - third[0]) - edge), US_2021)
        assert at["bolt-cover"].verdict is Verdict.FLAG


# --- ties of floor or roof to the wall -------------------------------------------------------------------------------------


def row(bolt_in: float, tie_in: float, mph: float, **changes) -> CheckResult:
    return judged(spacing_in=bolt_in, tie_spacing_in=tie_in, wind_mph=mph, **changes)


@pytest.mark.parametrize(
    ("bolt_in", "tie_in", "mph", "wall_in", "sill", "bolt"),
    [  # IRC 2021 Table R608.9(3), exposure B
        (12, 12, 150, 4.0, False, 0.5),
        (12, 12, 160, 6.0, False, 0.5),
        (16, 16, 160, 6.0, True, 0.5),
        (19.2, 38.4, 130, 6.0, False, 0.5),
        (24, 24, 130, 6.0, True, 0.5),
        (24, 24, 140, 6.0, True, 0.625),
        (24, 48, 160, 8.0, True, 0.625),
    ],
)
def test_the_row_asks_for_wall_plate_and_bolt(bolt_in, tie_in, mph, wall_in, sill, bolt) -> None:
    plain = row(bolt_in, tie_in, mph)
    assert plain["tie-wall"].demand == wall_in
    assert plain["tie-wall"].source.label(US_2021) == "IRC 2021 Table R608.9(3)"
    assert plain["tie-plate"].verdict is (Verdict.FLAG if sill else Verdict.PASS)
    assert (plain["tie-bolt"].demand, plain["tie-bolt"].capacity) == (bolt, 0.5)
    full = row(bolt_in, tie_in, mph, plate="3x6", bolt="5/8", core_in=8.0, plate_edge_in=1.25)
    assert all(full[key].verdict is Verdict.PASS for key in ("tie-row", "tie-wall", "tie-plate", "tie-bolt"))


def test_two_2x6_are_no_3x6() -> None:
    assert row(24, 24, 130, plate="2-2x6")["tie-plate"].verdict is Verdict.FLAG
    assert row(24, 24, 130, plate="3x4", across_in=1.75)["tie-plate"].verdict is Verdict.FLAG


def test_a_wall_too_thin_for_the_row_is_flagged() -> None:
    assert row(24, 24, 130, core_in=4.0, plate_edge_in=-0.75)["tie-wall"].verdict is Verdict.FLAG


def test_a_roof_reads_its_own_table_and_may_be_refused() -> None:
    """IRC 2021 Table R608.9(9): 24/24 in is prohibited from 150 mph; (10) is for framing along the wall."""
    found = row(24, 24, 150, carries="roof")["tie-row"]
    assert found.verdict is Verdict.FLAG
    assert found.source.label(US_2021) == "IRC 2021 Table R608.9(9)"
    along = row(24, 24, 140, carries="roof", direction="parallel")["tie-row"]
    assert along.source.label(US_2021) == "IRC 2021 Table R608.9(10)"
    assert along.verdict is Verdict.PASS


def test_exposure_moves_the_wind_column() -> None:
    """119 mph in exposure C reads the 140 mph column: 6 in, 3x6 and 5/8 in at 24/24."""
    assert row(24, 24, 119, wind_exposure="C")["tie-bolt"].demand == 0.625
    assert row(24, 24, 110, wind_exposure="C")["tie-bolt"].demand == 0.5


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"spacing_in": 48.0, "tie_spacing_in": 48.0}, "no such row"),
        ({"wind_mph": None}, "Enter the basic wind speed"),
        ({"code": "IBC"}, "choose a design"),
    ],
)
def test_without_a_row_the_line_says_what_to_do(changes: dict, words: str) -> None:
    line = judged(**changes)["tie-row"]
    assert line.verdict is Verdict.FLAG
    assert words in line.say


def test_the_details_bar_hooks_and_light_wood() -> None:
    """IRC 2021 R608.9.1.1 and R608.9.2: no hooks; specific gravity 0.42 (SPF 0.42, SPF South 0.36)."""
    assert verdict("tie-bolt-kind", head="hook") is Verdict.FLAG
    assert verdict("tie-bolt-kind", head="nut") is Verdict.PASS
    assert verdict("tie-bolt-kind", head="nut", steel="F1554-55") is Verdict.FLAG
    assert verdict("tie-wood", species="SPF") is Verdict.PASS
    assert verdict("tie-wood", species="SPF-S") is Verdict.FLAG


def test_a_plate_under_a_wall_or_on_a_foundation_needs_no_such_row() -> None:
    assert "tie-row" not in {s.key for s in judged(carries="wall").states}
    assert verdict("tie-row", foundation=True) is Verdict.UNCHECKED


def test_a_design_asks_for_the_wind_and_brings_the_least_tie() -> None:
    """ASCE 7 12.11.2.1 floor in category B: 0.2 k_a W_p, k_a = 1 + 40/100; W_p = 75 psf x 9 ft. Category A: 0.2 W_p (1.4.4)."""
    line = judged(connection="designed")["tie-force"]
    assert line.verdict is Verdict.PASS
    assert line.facts["least"] == (pytest.approx(0.2 * 1.4 * 75 * 9), "plf")
    in_a = judged(connection="designed", seismic="A")["tie-force"]
    assert in_a.facts["least"] == (pytest.approx(0.2 * 75 * 9), "plf")
    assert verdict("tie-force", connection="designed", across_plf=0.0) is Verdict.FLAG


# --- what goes to an engineer, what is missing -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"stories": 3}, "scope"),
        ({"seismic": "D0"}, "scope"),
        ({"seismic": "C-town"}, "scope"),
        ({"wind_mph": 165.0}, "scope"),
        ({"inside_r608": False}, "scope"),
        ({"seismic": "E", **ON_FOUNDATION}, "scope"),
        ({"code": "IBC", "seismic": "D2"}, "scope"),
        ({"wind_mph": 165.0}, "tie-row"),
        ({"f_c_psi": 2400.0}, "strength"),
        ({"f_c_psi": 2900.0, "seismic": "D0", **ON_FOUNDATION}, "strength"),
        ({"connection": "designed", "seismic": "C"}, "tie-force"),
        ({"exception": True, "seismic": "C", "shear_seismic_plf": 100.0}, "exception-use"),
        (
            {"stands_on": "ledge", "core_in": 14.0, "plate_edge_in": 8.5},
            "tie-row",
        ),
    ],
)
def test_what_is_outside_the_rules_goes_to_an_engineer(changes: dict, key: str) -> None:
    result = judged(**changes)
    assert result[key].verdict is Verdict.REFER
    assert "engineer" in result[key].refer or "design" in result[key].refer
    assert result.verdict is Verdict.REFER


def test_a_foundation_in_category_d_is_not_sent_away() -> None:
    good = {"seismic": "D0", "washer": "plate", **ON_FOUNDATION}
    assert judged(**good).verdict is Verdict.PASS
    assert any("foundation steps" in c.text for c in judged(**good).cautions)


# --- moisture --------------------------------------------------------------------------------------------------------------


def test_untreated_wood_keeps_eight_inches_from_the_ground() -> None:
    """IRC 2021 R317.1 item 2."""
    assert verdict("decay", treatment="plain", ground_in=7.9) is Verdict.FLAG
    assert verdict("decay", treatment="plain", ground_in=8.0) is Verdict.PASS
    assert verdict("decay", treatment="durable", ground_in=2.0) is Verdict.PASS


def test_plain_bolts_in_treated_wood_pass_by_one_code_only() -> None:
    """IRC 2021 R317.3.1 excepts bolts of 1/2 in and more; IBC 2021 2304.10.6.1 does not."""
    assert verdict("coating", coating="plain") is Verdict.PASS
    assert verdict("coating", coating="plain", code="IBC") is Verdict.FLAG
    assert verdict("coating", coating="plain", code="IBC", borate_dry=True) is Verdict.PASS
    assert verdict("coating", coating="plain", code="IBC", treatment="plain") is Verdict.PASS


def test_water_from_the_concrete_is_told_but_never_flags() -> None:
    line = judged(treatment="plain", barrier=False)["capillary"]
    assert line.holds is False
    assert line.verdict is Verdict.ADVISORY


def test_cautions_name_fresh_concrete_and_cut_ends() -> None:
    texts = " ".join(c.text for c in judged().cautions)
    assert "still plastic" in texts
    assert "cut ends" in texts


# --- solving ---------------------------------------------------------------------------------------------------------------


@pytest.mark.usefixtures("offered")
def test_a_bolt_near_the_face_is_mended_by_moving_the_plate() -> None:
    """2x6 flush with the outer foam, bolts at its middle: the head needs 1 1/8 in of core, so -1 5/8, by quarters -1 1/2."""
    flush = Inputs(plate_edge_in=-2.5)
    found = {r.specs[0].name: r for r in remedies(KEY, flush, US_2021) if len(r.specs) == 1}
    mended = found["plate_edge_in"]
    assert mended.words() == "Set the plate's outer edge -1 1/2 in from the outer core face"
    edge = mended.values[0]
    assert check(replace(flush, plate_edge_in=edge), US_2021).lines_verdict == "every line holds"
    assert check(replace(flush, plate_edge_in=edge - 0.25), US_2021).lines_verdict != "every line holds"


@pytest.mark.usefixtures("offered")
def test_a_spacing_off_the_table_is_mended_by_one_on_it() -> None:
    found = {r.specs[0].name: r.values[0] for r in remedies(KEY, Inputs(spacing_in=48.0), US_2021)}
    assert found["spacing_in"] == 24.0


def test_closer_bolts_and_ties_count_as_the_next_printed_row() -> None:
    closer, printed = row(23.5, 47.0, 115), row(24.0, 48.0, 115)
    asked = [(s.key, s.verdict) for s in printed.states if s.key.startswith("tie-")]
    assert asked
    assert [(s.key, s.verdict) for s in closer.states if s.key.startswith("tie-")] == asked
