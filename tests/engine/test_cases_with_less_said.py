"""Published cases that leave out what the source's tables keep, or word it another way, are computed all the same."""

from collections.abc import Mapping
from typing import Any

import pytest

from engine.errors import BadInput, OutOfScope
from engine.proving import ADAPTERS, PLACE, PLACED, _load_adapters, read_cases, run


def computed(topic: str, where: str = "", **inputs: Any) -> Mapping[str, Any]:
    """What the adapter of a topic gives. A case that expects nothing is computed whole."""
    _load_adapters()
    return ADAPTERS[topic]({**inputs, PLACE: where} if topic in PLACED else inputs)


BOLT = "timber/bolt-wood-side-member-to-concrete-single-shear"
SCREW = "timber/wood-screw-wood-side-member-single-shear"
GAP = "timber/bolted-connection-with-a-gap"
WASHER = "timber/bearing-perpendicular-to-grain-with-cb-at-an-interior-point"


def test_a_bolt_to_concrete_bears_on_7500_psi_and_6_in_unless_told_otherwise() -> None:
    # NDS 12.3.1 mode III_s: R_e = 7500/3150 = 2.381; k_3 = -1 + sqrt(2 x 3.381/2.381 + 2 x 45000 x 4.381 x 0.5^2 /
    # (3 x 7500 x 1.5^2)) = 1.1879; Z = 1.1879 x 0.5 x 1.5 x 7500 / (4.381 x 3.2 x 1.25) = 381.3 lb, 380 in Table 12E
    Z = computed(BOLT, D_in=0.5, G=0.5, ts_in=1.5, theta_wood_deg=90)["Z_lb"]
    assert pytest.approx(381.3, abs=0.1) == Z


def test_any_reduction_term_tells_the_angle() -> None:
    joint = {"D_in": 0.5, "lm_in": 1.5, "ls_in": 1.5, "Fem_psi": 2550, "Fes_psi": 2550, "Fyb_psi": 45000, "gap_in": 0.5}
    for told in ({"Ktheta": 1.25}, {"Rd_I": 5.0}, {"Rd_II": 4.5}, {"Rd_III_IV": 4.0}):
        # AWC TR12 example 3.1, perpendicular to perpendicular, 1/2 in of gap: mode II, 142 lb
        assert computed(GAP, **joint, **told)["Z_lb"] == pytest.approx(141.7, abs=0.1)


def test_a_screw_is_known_by_its_gauge() -> None:
    # NDS Table 12L, DF-L, No. 10 with 1/2 in of wood: 90 lb
    said = {"G_main": 0.5, "ts_in": 0.5, "p_in": 1.9}
    Z = computed(SCREW, screw_gauge=10, **said)["Z_lb"]
    assert pytest.approx(90, abs=0.5) == Z
    assert computed(SCREW, D_in=0.19, **said)["Z_lb"] == Z


def test_a_screw_that_reaches_less_than_six_diameters_is_refused() -> None:
    with pytest.raises(OutOfScope, match=r"1\.14 in"):  # NDS 12.1.5.6: 6 x 0.190 in
        computed(SCREW, screw_gauge=10, G_main=0.5, ts_in=0.5, p_in=1.1)


def test_a_thin_plate_takes_the_strength_of_its_steel() -> None:
    # NDS Table 12K prints the same cell for F_es = 61,850 psi; 1.375 x 45,000 = 61,875
    said = {"D_in": 0.375, "G": 0.5, "ts_in": 0.075, "p_in": 3.0, "theta_main_deg": 0}
    topic = "timber/lag-screw-thin-steel-side-plate-checks-fe-steel-61-850-psi"
    assert computed(topic, **said)["Z_lb"] == pytest.approx(computed(topic, **said, Fes_psi=61850)["Z_lb"], rel=1e-3)


def test_a_washer_over_a_gap_loses_the_strip_it_spans() -> None:
    # pi/4 x 3.5^2 - 0.625 x 3.5 = 7.43 sq in; 5000/7.43 = 673 psi against 490 x (3.5 + 0.375)/3.5 = 543 psi
    found = computed(WASHER, P_lb=5000, washer_in=3.5, gap_between_wales_in=0.625, Fc_perp_psi=490)
    assert found["fc_psi"] == pytest.approx(673, abs=0.5)
    assert found["Fc_perp_adj_psi"] == pytest.approx(543, abs=0.51)
    assert found["pass"] is False


@pytest.mark.parametrize(
    ("told", "C_M"), [(">19%", 0.67), (22, 0.67), ("22%", 0.67), ("wet", 0.67), (19, 1), ("<=19%", 1), ("dry", 1)]
)
def test_moisture_above_19_percent_is_wet_however_it_is_told(told, C_M) -> None:
    # NDS Supplement Table 4A: C_M of F_c_perp 0.67
    assert computed("timber/wet-service-factor-for-fc-perp-sawn-lumber", Fc_perp_psi=425, MC=told)["CM"] == C_M


@pytest.mark.parametrize(
    ("told", "C_b"), [(">=3", 1.25), (">= 3 in", 1.25), (3, 1.25), ("3", 1.25), ("<3", 1), (2.9, 1), ("end", 1)]
)
def test_bearing_near_an_end_is_not_raised_however_it_is_told(told, C_b) -> None:
    # NDS 3.10.4: (1.5 + 0.375)/1.5 = 1.25 from 3 in to the end on
    assert computed("timber/bearing-area-factor", lb_in=1.5, distance_to_member_end_in=told)["Cb"] == C_b


def test_a_steel_left_out_is_that_of_its_name() -> None:
    found = computed("timber/dowel-bearing-strength-of-steel")
    # NDS 12.3: 1.5 x 58,000 (A36) and 1.375 x 45,000 (A653 Grade 33)
    assert (found["Fe_hot_rolled_psi"], found["Fe_cold_formed_psi"]) == (87000, 61875)


def test_a_sill_under_one_floor_keeps_the_basic_spacing() -> None:
    # NBC 9.23.6.1: 2.4 m (2); under two floors 12.7 mm bolts at 1.7 m (3); 100 mm into the concrete either way (5)
    sill = "canada/sill-anchor"
    one, two = (computed(sill, floors_supported=n, Sa02=0.5, bolt_dia_mm=12.7) for n in (1, 2))
    assert (one["max_spacing_mm"], two["max_spacing_mm"]) == (2400, 1700)
    assert one["min_embed_mm"] == two["min_embed_mm"] == 100
    assert computed(sill, floors_supported=2, Sa02=0.5, bolt_dia_mm=16)["max_spacing_mm"] == 2400


def test_the_length_of_bearing_factor_follows_from_the_place_where_it_is_not_told() -> None:
    # CSA O86: K_B = (38 + 9.525)/38 = 1.2507 from 75 mm to the end; 0.8 x 5.3 x 38 x 38 x 1.2507 / 1000 = 7.657 kN
    said = {"b_mm": 38, "Lb_mm": 38, "fcp_MPa": 5.3}
    found = computed("canada/wood-bearing", **said, distance_from_end_mm_gt=75)
    assert (found["KB"], found["Qr_kN"]) == pytest.approx((1.2507, 7.657), abs=5e-4)
    assert computed("canada/wood-bearing", **said)["Qr_kN"] == pytest.approx(6.123, abs=5e-4)


def test_a_lintel_cell_that_is_not_believed_leaves_the_others_of_its_row() -> None:
    where = "Table 9.20.17.4.-C"
    row = computed("canada/icf-openings", where, lintel_thickness_mm=150, lintel_depth_mm=500, bottom_bars="as titled")
    assert row["span_roof_only_Ss1p50_m"] is None
    assert row["span_icf_storey_Ss1p50_m"] == 3.29  # OBC Table 9.20.17.4.-C


def test_wood_well_above_ground_needs_no_sheet() -> None:
    # OBC 9.23.2.3: 0.05 mm polyethylene below 150 mm above ground
    pocket = "canada/beam-pocket"
    said = {"wood_on_concrete_in_ground_contact": True}
    sheets = [computed(pocket, **said, height_above_ground_mm=h)["separator_polyethylene_mm"] for h in (149, 150)]
    assert sheets == [0.05, 0]


def test_the_code_of_2015_called_up_older_standards() -> None:
    assert computed("canada/editions", code="NBC 2015") == {"A23.3": "14", "O86": "14"}


HOOKS = "residential/hooked-bolts-not-allowed-in-r608-9-details"


@pytest.mark.parametrize(
    ("bolt", "permitted"),
    [
        ("headed A307 Grade A", True),
        ("headed F1554 Gr 55", True),
        ("A36 rod threaded both ends with embedded nut", True),
        ("A36 rod", False),
        ("headed A325", False),
        ("L-bolt", False),
        ("hooked bolt", False),
        ("expansion anchor", False),
    ],
)
def test_only_the_bolts_the_clause_names_may_tie_a_floor(bolt, permitted) -> None:
    # IRC R608.9.1.1: headed A307 Grade A or F1554 Grade 36 and up, or A36 rod threaded at both ends with the nut cast in
    assert computed(HOOKS, bolt=bolt, connection="R608.9(1) ledger")["permitted"] is permitted


def test_lists_go_in_step_and_single_values_with_every_member() -> None:
    # IRC R703.8.4.1: 24 x 12 / 144 = 2.0 sq ft and 32 x 18 / 144 = 4.0 sq ft against 2.67 and 2.0
    ties = computed("residential/veneer-tie-spacing", horizontal_in=[24, 32], vertical_in=[12, 18])
    assert ties == {"area_sqft": [2, 4], "ok_general": [True, False], "ok_SDC_D_or_over_30psf": [True, False]}
    ends = computed("residential/end-distance-window-of-sill-bolts", bolt_diameter_in=[0.5, 0.75])
    assert ends == {"min_end_distance_in": [3.5, 5.25], "max_end_distance_in": 12}  # R403.1.6: 7 D to 12 in
    laps = computed("residential/lap-splice-length", bar_no=[4, 6], fy_psi=60000)
    assert laps["lap_in"] == [30, 45]  # Table R608.5.4(1)


def test_veneer_backed_by_concrete_below_may_rise_to_30_ft() -> None:
    # IRC Table R703.8(2), note c
    limits = computed("residential/veneer-limits-sdc-d0-d2", sdc="D1, lower 10 ft concrete or masonry backing")
    assert (limits["max_height_ft"], limits["max_thickness_in"], limits["max_weight_psf"]) == (30, 4, 40)
    with pytest.raises(OutOfScope, match="3 storeys"):
        computed("residential/veneer-limits-sdc-d0-d2", sdc="D0 3 storey")


def test_words_that_say_no_are_heard() -> None:
    # IRC R404.1.6: 4 in above grade with masonry veneer, 6 in without; R402.2 asks 3,000 psi of exposed concrete only
    above = computed("residential/top-of-wall-above-grade", condition=["masonry veneer used", "no masonry veneer"])
    assert above["min_height_above_grade_in"] == [4, 6]
    assert computed("residential/minimum-f-c-for-r608-walls", case="interior, severe weathering")["min_fc_psi"] == 2500
    lintel = computed("residential/beam-reaction-on-a-lintel", load="girder reaction")  # R608.8.2
    assert lintel == {"prescriptive_ok": False, "route": "ACI 318 design"}


def test_a_support_that_no_clause_names_is_refused_and_the_run_goes_on() -> None:
    topic = "residential/minimum-bearing-of-joist-beam-girder-ends"
    assert computed(topic, support=["steel", "sill plate on concrete"])["min_bearing_in"] == [1.5, 1.5]  # R502.6
    with pytest.raises(BadInput, match="glass"):
        computed(topic, support="glass")
    row = (
        f'[{{"id": "g", "topic": "{topic}", "provenance": "derived", "source": {{}}, "inputs": {{"support": "glass"}}, '
        '"expected": {"min_bearing_in": 3}, "rounding": "exact"}]'
    )
    assert run(read_cases(row)[0]).verdict == "disagree"


def test_the_nominal_wall_of_a_basement_is_that_of_its_table() -> None:
    # IRC Tables R404.1.3.2(2) and (3): 8 ft of wall and fill, 30 psf per ft
    said = {"unsupported_height_ft": 8, "unbalanced_backfill_ft": 8, "soil_psf_per_ft": 30}
    found = [computed(f"residential/{t}-in-flat-basement-wall-vertical-bars", **said)["bar_at_in"] for t in (6, 8)]
    assert found == ["6@39", "6@41"]


@pytest.mark.parametrize(
    ("words", "live_psf"), [("sleeping rooms", 30), ("attic without storage", 10), ("attic with limited storage", 20)]
)
def test_a_use_is_known_by_its_words(words, live_psf) -> None:
    assert computed("residential/residential-live-loads", use=words)["live_psf"] == live_psf  # IRC Table R301.5
