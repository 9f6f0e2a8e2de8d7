"""Wood and fastener of ledgers, plates and sills, each worked by hand from the yield limit equations.

NDS 2018 12.3 with R_d of Table 12.3.1B, F_e rounded to 50 psi as Table 12.3.3 prints it; over a gap AWC TR12, where
P = (-B + sqrt(B^2 - 4 A C)) / (2 A).
"""

from typing import Any

import pytest

from engine import attachments
from engine.attachments import KINDS
from engine.editions import US_2021
from engine.result import LimitState


def line(kind: str, key: str, **values: Any) -> LimitState:
    result = attachments.check(kind, KINDS[kind].inputs(**values), US_2021)
    return next(state for state in result.states if state.key == key)


def test_a_ledger_over_foam_by_hand() -> None:
    # 3x10 S-P-F, 3/4 in bolts at 24 in, 2 1/2 in of foam. F_e_perp = 6100 x 0.42^1.45 / sqrt(0.75) = 2,002, so 2,000 psi.
    # Mode III_s: q_m = 7500 x 0.75 = 5,625, q_s = 1,500 lb/in, M = 45000 x 0.75^3 / 6 = 3,164 lb-in;
    # A = 1/6000 + 1/11250 = 2.5556e-4, B = 2.5/2 + 2.5 = 3.75, C = -1500 x 2.5^2 / 4 - 3164 = -5,508;
    # P = 1,345.4 lb, over 3.2 x 1.25 = 336.3 lb. Load: 50 psf x 12 ft / 2 x 2 ft = 600 lb.
    found = line(
        "bolted_ledger", "yield", size="3x10", species="SPF", bolt="3/4", contact="gap", foam_in=2.5, spacing_in=24.0,
        embedment_in=5.0, span_ft=12.0,
    )  # fmt: skip
    assert (found.demand, found.capacity) == pytest.approx((600, 336.35), abs=0.1)


def test_a_green_ledger_with_two_rows_by_hand() -> None:
    # 2x12 Southern Pine, 1/2 in: F_e_perp 3,650 psi, R_e = 2.0548, k_3 = -1 + sqrt(2 x 3.0548/2.0548 + 2 x 45000 x 4.0548
    # x 0.25 / (3 x 7500 x 2.25)) = 1.1853; Z = 1.1853 x 0.5 x 1.5 x 7500 / (4.0548 x 4) = 411.1 lb; C_M 0.4: 164.4 lb.
    # Load of one bolt of staggered rows: 50 psf x 2 ft x 16 in / 12 = 133.3 lb.
    found = line(
        "bolted_ledger", "yield", size="2x12", species="SP", bolt="1/2", rows=2, staggered=True, top_edge_in=3.0, gauge_in=5.0,
        spacing_in=16.0, direction="parallel", strip_ft=2.0, moisture="green",
    )  # fmt: skip
    assert (found.demand, found.capacity) == pytest.approx((133.3, 164.4), abs=0.1)


def test_three_bolts_through_a_slotted_beam_by_hand() -> None:
    # Southern Pine on both sides of a 1/4 in leg, l_s = (5.5 - 0.25)/2 = 2.625 in, F_em 87,000, F_es 3,650, R_e = 23.836;
    # k_3 = -1 + sqrt(2 x 24.836/23.836 + 2 x 45000 x 25.836 x 0.25 / (3 x 87000 x 2.625^2)) = 0.5515;
    # III_s: 2 x 0.5515 x 0.5 x 2.625 x 87000 / (25.836 x 4) = 1,218.7 lb.
    # C_g, n = 3: gamma = 270000 x 0.5^1.5 = 95,459, u = 1 + gamma x 1.25 x (1/880000 + 1/48937500) = 1.13803, m = 0.59478,
    # R_EA = 0.017982: 0.7379. C_D 1.15 of snow: 1,034.2 lb. Load: (500 + 0.75 x 1500) / 3 = 541.7 lb.
    found = line(
        "anchored_plate", "fasteners", legs="slot", species="SP", bolt="1/2", b_in=5.5, leg_thickness_in=0.25, f_rows=3,
        f_row_spacing_in=2.5, f_top_in=2.5, live_lb=900.0, snow_lb=600.0,
    )  # fmt: skip
    assert (found.demand, found.capacity) == pytest.approx((541.7, 1034.2), abs=0.1)


def test_screws_of_a_cast_in_plate_in_green_wood_by_hand() -> None:
    # No. 14 (0.242/0.196 in) through 12 gauge into DF-L: F_em 4,650, F_es 61,850, R_e = 0.07518, K_D = 10 x 0.196 + 0.5 =
    # 2.46. p = 2.395 in, below 10 D = 2.42: l_m = 2.153 in. III_s: k_3 = -1 + sqrt(2 x 1.07518/0.07518 + 2 x 70000 x
    # 2.07518 x 0.196^2 / (3 x 4650 x 0.1046^2)) = 9.0860; Z = 9.0860 x 0.196 x 0.1046 x 4650 / (2.07518 x 2.46) = 169.7 lb;
    # made green below 1/4 in: C_M 0.7; eight screws: 950.2 lb.
    found = line(
        "cast_in_plate", "screws", species="DF-L", gauge="14", wood_in=3.0, length_in=2.5, sheet="0.1046", screws=8,
        moisture="green", listed_gauge="14", listed_screws=8,
    )  # fmt: skip
    assert (found.demand, found.capacity) == pytest.approx((466.7, 950.2), abs=0.2)


def test_a_sill_pushed_along_and_across_at_once_by_hand() -> None:
    # 2x6 DF-L, 1/2 in, 1/16 in of barrier, 45 degrees: F_e = 5600 x 3150 / (2800 + 1575) = 4,032 psi, K_theta 1.125.
    # III_s of TR12: q_m = 3,750, q_s = 2,016, M = 937.5; A = 1/8064 + 1/7500 = 2.5734e-4, B = 0.8125, C = -2016 x 2.25 / 4
    # - 937.5 = -2,071.5; P = 1,668.2 lb, over 3.6 = 463.4 lb; C_D 1.6: 741.4 lb. Load: 0.6 x 120 x 2 x sqrt(2) = 203.6 lb.
    found = line("sill_plate", "bolt-dowel-both")
    assert (found.demand, found.capacity) == pytest.approx((203.6, 741.4), abs=0.1)
