"""End reactions of joists over several spans: handbook coefficients, and a general frame library (PyNite)."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from Pynite import FEModel3D

from engine.clauses.us.reactions import end_reaction_lb, patterned_end_reaction


def test_two_equal_spans_give_three_eighths() -> None:
    """Handbook coefficients of a uniformly loaded two-span beam: 3/8 at the ends (AISC Manual Table 3-22, beam diagrams)."""
    assert end_reaction_lb([100.0, 100.0], [12.0, 12.0]) == pytest.approx(3 / 8 * 1200)


def test_two_spans_with_one_loaded_give_seven_sixteenths_and_uplift_of_a_sixteenth() -> None:
    found = patterned_end_reaction(100.0, [12.0, 12.0])
    assert found.most_lb == pytest.approx(7 / 16 * 1200)
    assert found.least_lb == pytest.approx(-1 / 16 * 1200)
    assert found.all_lb == pytest.approx(3 / 8 * 1200)


def test_three_equal_spans_give_four_tenths() -> None:
    assert end_reaction_lb([100.0] * 3, [12.0] * 3) == pytest.approx(0.4 * 1200)


def test_a_single_span_gives_a_half() -> None:
    assert end_reaction_lb([100.0], [12.0]) == pytest.approx(600)


def by_frame_library(loads: list[float], spans: list[float]) -> float:
    """The same beam in PyNite, a general-purpose frame library."""
    model = FEModel3D()
    model.add_material("wood", 1.6e6 * 144, 0.6e6 * 144, 0.3, 35)
    model.add_section("joist", 0.1, 0.01, 0.01, 0.01)
    place = 0.0
    model.add_node("N0", 0, 0, 0)
    model.def_support("N0", True, True, True, True, False, False)
    for n, length in enumerate(spans, 1):
        place += length
        model.add_node(f"N{n}", place, 0, 0)
        model.def_support(f"N{n}", False, True, True, False, False, False)
        model.add_member(f"M{n}", f"N{n - 1}", f"N{n}", "wood", "joist")
        model.add_member_dist_load(f"M{n}", "FY", -loads[n - 1], -loads[n - 1])
    model.analyze_linear()
    return float(next(iter(model.nodes["N0"].RxnFY.values())))


@given(st.lists(st.tuples(st.floats(0, 200), st.floats(4, 30)), min_size=1, max_size=4))
@settings(max_examples=20, deadline=None)
def test_any_spans_agree_with_a_general_frame_library(spans: list[tuple[float, float]]) -> None:
    loads, lengths = [w for w, _ in spans], [L for _, L in spans]
    assert end_reaction_lb(loads, lengths) == pytest.approx(by_frame_library(loads, lengths), rel=1e-6, abs=1e-3)
