"""A ledger as a continuous beam: published coefficients, a general frame program, and equilibrium."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from Pynite import FEModel3D

from engine.clauses.us.ledger_beam import HALF_JOIST_IN, under_joists, under_points, under_uniform
from engine.errors import BadInput


def frame(u: tuple[float, ...], length: float, points: list[float], uniform: float = 0.0):
    """The same beam in a general frame program: reactions and the largest moment."""
    model = FEModel3D()
    model.add_material("wood", 1.4e6, 5e5, 0.3, 0.0)
    model.add_section("ledger", 13.875, 98.9, 98.9, 98.9)
    stations = sorted({0.0, *u, length})
    for k, x in enumerate(stations):
        model.add_node(f"n{k}", x, 0, 0)
    model.add_member("ledger", "n0", f"n{len(stations) - 1}", "wood", "ledger")
    bolts = [stations.index(x) for x in u]
    for k in bolts:
        model.def_support(f"n{k}", k == bolts[0], True, True, k == bolts[0], False, False)
    for x in points:
        model.add_member_pt_load("ledger", "Fy", -1.0, x)
    if uniform:
        model.add_member_dist_load("ledger", "Fy", -uniform, -uniform)
    model.analyze()
    member = model.members["ledger"]
    most = max(abs(float(member.max_moment("Mz"))), abs(float(member.min_moment("Mz"))))
    return [float(model.nodes[f"n{k}"].RxnFY["Combo 1"]) for k in bolts], most


# AISC Steel Construction Manual, Table 3-23. Two equal spans, a load in the middle of one: 13/32, 11/16, -3/32, moment 13/64 P l;
# uniform on both: 3/8, 10/8, 3/8, moment w l²/8. Three equal spans, uniform: 0.4, 1.1, 1.1, 0.4.
def test_two_spans_with_a_load_in_the_middle_of_one_share_it_as_printed() -> None:
    shares = under_points((0.0, 16.0, 32.0), [8.0])
    assert shares.load == pytest.approx((13 / 32, 11 / 16, -3 / 32))
    assert shares.moment == pytest.approx(13 / 64 * 16)


def test_spans_under_uniform_load_share_it_as_printed() -> None:
    two = under_uniform((0.0, 16.0, 32.0), 32.0)
    assert two.load == pytest.approx((3 / 8 * 16, 10 / 8 * 16, 3 / 8 * 16))
    assert two.moment == pytest.approx(16**2 / 8)
    assert two.shear[1] == pytest.approx(5 / 8 * 16)
    three = under_uniform((0.0, 16.0, 32.0, 48.0), 48.0)
    assert three.load == pytest.approx((0.4 * 16, 1.1 * 16, 1.1 * 16, 0.4 * 16))


def test_a_joist_past_the_last_bolt_loads_it_with_more_than_itself() -> None:
    # one span of 10, load 4 past the right bolt: 1 + 4/10 there, -4/10 at the other; moment 4 at the bolt
    shares = under_points((5.0, 15.0), [19.0])
    assert shares.load == pytest.approx((-0.4, 1.4))
    assert shares.shear == pytest.approx((0.4, 1.0))
    assert shares.moment == pytest.approx(4.0)


def test_a_joist_at_a_bolt_is_sheared_into_one_side_of_it() -> None:
    shares = under_points((0.0, 16.0, 32.0), [16.0])
    assert shares.load == pytest.approx((0.0, 1.0, 0.0))
    assert shares.shear == pytest.approx((0.0, 1.0, 0.0))


@pytest.mark.parametrize(
    ("u", "length", "points"),
    [
        ((8.0, 24.0, 40.0), 48.0, [1.0, 17.0, 33.0]),
        ((6.0, 22.0, 38.0, 48.0, 58.0), 64.0, [0.75, 19.95, 39.15, 58.35]),
        ((2.5, 26.5), 29.0, [5.0, 21.0, 28.0]),
        ((4.0, 20.0, 44.0, 60.0), 70.0, [12.0, 12.5, 30.0, 69.0]),
    ],
)
def test_point_loads_agree_with_a_general_frame_program(u, length, points) -> None:
    reactions, most = frame(u, length, points)
    shares = under_points(u, points)
    assert shares.load == pytest.approx(reactions, abs=1e-6)
    assert shares.moment == pytest.approx(most, rel=1e-3)  # the program reads moments at sampled points


@pytest.mark.parametrize(("u", "length"), [((8.0, 24.0, 40.0), 48.0), ((3.0, 20.0, 50.0, 61.0), 70.0)])
def test_uniform_load_agrees_with_a_general_frame_program(u, length) -> None:
    reactions, most = frame(u, length, [], 1.0)
    shares = under_uniform(u, length)
    assert shares.load == pytest.approx(reactions, abs=1e-6)
    assert shares.moment == pytest.approx(most, rel=2e-2)


@given(
    gaps=st.lists(st.floats(3, 96), min_size=1, max_size=8),
    ends=st.tuples(st.floats(0.5, 48), st.floats(0.5, 48)),
    places=st.lists(st.floats(0, 1), min_size=1, max_size=12),
)
@settings(max_examples=200, deadline=None)
def test_bolts_carry_what_the_joists_bring_and_balance_its_moment(gaps, ends, places) -> None:
    u = [ends[0]]
    for gap in gaps:
        u.append(u[-1] + gap)
    length = u[-1] + ends[1]
    points = [place * length for place in places]
    load = under_points(u, points).load
    assert sum(load) == pytest.approx(len(points), abs=1e-6)
    assert sum(r * x for r, x in zip(load, u, strict=True)) == pytest.approx(sum(points), abs=1e-5 * length)


@pytest.mark.parametrize(
    ("end", "spacing", "bolts", "joists"), list(product((2.5, 8.0), (16.0, 24.0), (2, 6), (12.0, 19.2, 24.0)))
)
def test_the_worst_joist_position_is_found(end, spacing, bolts, joists) -> None:
    """A comb moved in steps of a 300th of its spacing finds no bolt loaded half a per cent more."""
    u = tuple(end + n * spacing for n in range(bolts))
    length = u[-1] + end
    found = under_joists(u, length, joists)
    for n in range(300):
        comb = [joists * (n / 300 + k) for k in range(int(length / joists) + 1)]
        standing = [x for x in comb if HALF_JOIST_IN <= x <= length - HALF_JOIST_IN]
        if standing:
            shares = under_points(u, standing)
            assert all(a <= b * 1.005 for a, b in zip(shares.load, found.load, strict=True) if b > 0)
            assert all(a <= b * 1.005 for a, b in zip(shares.shear, found.shear, strict=True))


def test_joists_set_out_load_a_bolt_no_more_than_the_worst_position() -> None:
    u = (8.0, 24.0, 40.0, 56.0)
    worst, known = under_joists(u, 64.0, 16.0), under_joists(u, 64.0, 16.0, 8.0)
    assert known.load == pytest.approx((1.0, 1.0, 1.0, 1.0))  # a joist at each bolt
    assert max(worst.load) > 1.5


def test_a_first_joist_past_the_piece_is_refused() -> None:
    with pytest.raises(BadInput, match="No joist stands on the piece"):
        under_joists((8.0, 24.0), 32.0, 16.0, 40.0)
