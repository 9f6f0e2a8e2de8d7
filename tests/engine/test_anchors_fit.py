"""What cannot be built is refused in inches; what chapter 17 leaves out is referred."""

from dataclasses import replace

import pytest

from engine.clauses.us.anchors_lines import anchor_lines, geometry_lines
from engine.clauses.us.anchors_materials import (
    effective_area_in2,
    head,
    hook,
    refuse_unread_edition,
    steel,
    steels,
    tensile_strength_used_psi,
    thread_pitch,
    washer,
)
from engine.editions import EDITIONS, US_2021, Edition
from engine.errors import BadInput, OutOfScope
from engine.result import Verdict
from engine.tables import load
from engine.worksheet import Worksheet
from tests.engine.anchor_examples import by_key, group, l_bolt


@pytest.mark.parametrize(
    ("facts", "field", "words"),
    [
        ({"positions_in": ()}, "positions_in", "at least one"),
        ({"positions_in": ((0.0, float("nan")),)}, "positions_in", "number of inches"),
        ({"h_ef_in": 0.0}, "h_ef_in", "above zero"),
        ({"h_ef_in": float("inf")}, "h_ef_in", "above zero"),
        ({"c_x1_in": -2.0}, "c_x1_in", "above zero"),
        ({"cover_in": -0.5}, "cover_in", "zero or more"),
        ({"c_x2_in": 0.4}, "c_x2_in", "out of the concrete at the right edge"),
        ({"positions_in": ((0.0, 0.0), (0.5, 0.0))}, "positions_in", "overlap by 9/16 in"),
        ({"next_x1_in": 1.0}, "next_x1_in", "overlap by 1/16 in"),
        ({"h_a_in": 8.0}, "h_ef_in", "3/8 in short"),
    ],
)
def test_what_cannot_be_built_is_named_with_the_clash(facts, field, words) -> None:
    with pytest.raises(BadInput) as refused:
        group(**facts)
    assert refused.value.field == field
    assert words in refused.value.message


def test_embedment_that_just_fits_with_head_and_cover_is_taken() -> None:
    assert group(h_a_in=7.0 + 0.609375 + 0.75).h_a_in == 8.359375


def test_a_hook_must_fit_one_way_or_another() -> None:
    tight = {"c_x1_in": 3.0, "c_x2_in": 3.0, "c_y1_in": 3.0}
    assert l_bolt(2.25, **tight).c_y2_in is None
    with pytest.raises(BadInput, match="1/4 in short"):
        l_bolt(2.25, **tight, c_y2_in=3.0)


def test_what_chapter_17_leaves_out_is_referred() -> None:
    with pytest.raises(OutOfScope, match="4 in"):
        replace(group(), d_a_in=4.25)
    with pytest.raises(OutOfScope, match="2,500"):
        group(f_c_psi=2400.0)


def test_the_2025_edition_is_refused_with_the_reason() -> None:
    coming = Edition("next", {"ACI 318": "ACI 318-25"})
    with pytest.raises(OutOfScope, match="ACI 318-25 chapter 17"):
        anchor_lines(Worksheet(), coming, group(), (1.0,), ((0.0, 0.0),))
    for edition in EDITIONS.values():
        refuse_unread_edition(edition)


# Materials
def test_published_thread_areas_and_head_areas_are_met() -> None:
    # Design Guide 1, 3rd ed. 2024, Tables 4-1 and 4-2
    sizes = (0.625, 0.75, 0.875, 1.0, 1.125, 1.25)
    threads = (0.226, 0.334, 0.462, 0.606, 0.763, 0.969)
    heads = (0.671, 0.911, 1.19, 1.50, 1.85, 2.24)
    for d_a, area, bearing in zip(sizes, threads, heads, strict=True):
        assert effective_area_in2(d_a, thread_pitch(d_a)) == pytest.approx(area, abs=0.0005)
        assert head("heavy hex", d_a).A_brg_in2 == pytest.approx(bearing, abs=0.005)
    # ACI 349.2R-07 Examples A1 and A3
    assert head("stud", 0.5).A_brg_in2 == pytest.approx(0.59, abs=0.005)
    assert head("stud", 0.625).A_brg_in2 == pytest.approx(0.92, abs=0.005)


def test_a_plate_washer_counts_only_when_it_is_stiff_enough() -> None:
    # ACI 349.2R-07 Example A4: N_p 130.19 kip = 8 A_brg 4,000 psi
    assert washer(2.25, 0.375, 1.125).A_brg_in2 == pytest.approx(130190 / 32000, abs=0.001)
    with pytest.raises(BadInput, match=r"0\.219 in thick"):
        washer(2.25, 0.2, 1.125)


def test_tensile_strength_is_limited_by_yield_and_by_125_ksi() -> None:
    assert tensile_strength_used_psi(58000, 36000) == 58000
    assert tensile_strength_used_psi(100000, 50000) == 95000
    assert tensile_strength_used_psi(150000, 105000) == 125000


def test_unknown_steels_sizes_and_heads_name_the_known_ones() -> None:
    for wrong, words in (
        (lambda: steel("A36"), "F1554-36"),
        (lambda: thread_pitch(0.6), "0.625"),
        (lambda: head("heavy hex", 0.375), "0.5"),
        (lambda: head("oval", 0.5), "a known kind"),
    ):
        with pytest.raises(BadInput, match=words):
            wrong()
    assert set(steels()) == {"F1554-36", "F1554-55", "F1554-105", "A307", "stud"}
    assert hook(2.0, 0.5).A_brg_in2 == 0


@pytest.mark.parametrize("name", ["anchor_steel", "anchor_threads", "anchor_heads"])
def test_anchor_tables_are_in_order_and_say_how_each_row_is_known(name: str) -> None:
    table = load(name)
    keys = [(row.get("head", ""), float(row["d_a_in"])) for row in table.rows if "d_a_in" in row]
    assert keys == sorted(keys, key=lambda k: (["heavy hex", "hex", "stud", ""].index(k[0]), k[1]))
    assert {row.get("provenance", table.pedigree["provenance"]) for row in table.rows} <= {"read", "memory"}


# Spacing and edges, ACI 318-19 Table 17.9.2(a)
def test_snug_anchors_stand_four_diameters_apart_and_keep_their_cover() -> None:
    pair = group((0, 0), (2.5, 0), c_y1_in=1.5, cover_in=0.75)
    found = by_key(geometry_lines(Worksheet(), pair))
    assert (found["spacing"].demand, found["spacing"].capacity, found["spacing"].verdict) == (2.5, 2.5, Verdict.PASS)
    assert found["edge"].demand == 0.75 + 1.0625 / 2
    assert found["edge"].verdict is Verdict.PASS
    close = by_key(geometry_lines(Worksheet(), group((0, 0), (2.4, 0), c_y1_in=1.25)))
    assert (close["spacing"].verdict, close["edge"].verdict) == (Verdict.FLAG, Verdict.FLAG)


def test_torqued_anchors_need_six_diameters_both_ways() -> None:
    pair = group((0, 0), (3.7, 0), c_y1_in=3.7, torqued=True)
    found = by_key(geometry_lines(Worksheet(), pair))
    assert (found["spacing"].demand, found["edge"].demand) == (3.75, 3.75)
    assert (found["spacing"].verdict, found["edge"].verdict) == (Verdict.FLAG, Verdict.FLAG)


def test_the_next_bolt_of_a_row_counts_for_spacing() -> None:
    found = by_key(geometry_lines(Worksheet(), group(next_x2_in=2.0)))
    assert found["spacing"].capacity == 2.0
    assert geometry_lines(Worksheet(), group()) == ()


def test_every_mode_is_returned_with_a_line_of_its_own() -> None:
    of = group((0, 0), (6, 0), c_y1_in=2.0, c_x1_in=9.0)
    lines = anchor_lines(Worksheet(), US_2021, of, (900.0, 900.0), ((0.0, -100.0), (0.0, -100.0)))
    assert [line.key for line in lines] == [
        "anchor-steel-tension", "anchor-breakout", "anchor-pullout", "anchor-side-face", "anchor-steel-shear",
        "anchor-shear-along-x1", "anchor-shear-y1", "anchor-pryout", "anchor-interaction", "anchor-spacing", "anchor-edge",
    ]  # fmt: skip
    assert all(line.steps for line in lines)
    assert all(line.source.family == "ACI 318" for line in lines)
