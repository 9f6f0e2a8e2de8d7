"""Residential loads, spans, inspection and records. Values: IRC 2021 R301.5, R301.7, R502.3.1, R104 to R109, R316; IBC 1705.3."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import irc_loads as loads
from engine.clauses.us import irc_process as process
from engine.editions import US_2021, US_2024
from engine.errors import BadInput, OutOfScope
from engine.worksheet import CLAUSES


@pytest.mark.parametrize(
    ("use", "load_psf"),
    [
        ("sleeping", 30),
        ("other", 40),
        ("attic limited storage", 20),
        ("attic no storage", 10),
        ("deck/balcony", 40),
        ("garage", 50),
        ("stairs", 40),
    ],
)
def test_each_use_has_its_live_load(use, load_psf) -> None:
    assert loads.live_load_psf(use) == load_psf  # Table R301.5


def test_a_use_the_table_does_not_know_is_a_bad_input() -> None:
    with pytest.raises(BadInput, match="sleeping"):
        loads.live_load_psf("library")


def test_deflection_is_a_share_of_the_span() -> None:
    assert loads.deflection_limit_in(16) == pytest.approx(0.533, abs=5e-4)  # Table R301.7
    assert loads.deflection_limit_in(10, loads.VENEER_LINTEL_RATIO) == pytest.approx(0.2)


# No. 2 grade, 40 psf live and 10 psf dead. SPF at 16 in: IRC 2018 to 2024 Table R502.3.1(2). The rest: IRC 2012
# Table R502.3.1(2), read second-hand; the design values of these two have not changed since.
SPANS = {
    ("SPF No.2", 12): ("13-6", "17-3", "20-7"),
    ("SPF No.2", 16): ("12-3", "15-5", "17-10"),
    ("SPF No.2", 19.2): ("11-6", "14-1", "16-3"),
    ("SPF No.2", 24): ("10-3", "12-7", "14-7"),
    ("HF No.2", 12): ("13-2", "16-10", "20-4"),
    ("HF No.2", 16): ("12-0", "15-2", "17-7"),
    ("HF No.2", 24): ("10-2", "12-5", "14-4"),
}


@pytest.mark.parametrize(("species", "spacing_in"), list(SPANS))
def test_joist_spans_are_those_the_tables_print(species, spacing_in) -> None:
    found = [loads.joist_span_in(joist, species, spacing_in, 40, 10) for joist in ("2x8", "2x10", "2x12")]
    assert tuple(f"{span // 12}-{span % 12}" for span in found) == SPANS[species, spacing_in]


def test_a_joist_without_design_values_is_refused() -> None:
    with pytest.raises(BadInput, match="balsa"):
        loads.joist_span_in("2x8", "balsa", 16, 40, 10)


@pytest.mark.parametrize(("spacing_in", "bolt_lb"), [(12, 800), (16, 1067), (19.2, 1280)])
def test_a_32_ft_floor_weighs_far_more_on_a_bolt_than_the_tie_tables_show(spacing_in, bolt_lb) -> None:
    line_plf = loads.ledger_line_load_plf(50, 32)
    assert line_plf == 800
    assert loads.load_per_bolt_lb(line_plf, spacing_in) == pytest.approx(bolt_lb, abs=0.5)


@given(st.floats(5, 40), st.floats(10, 100), st.floats(6, 48))
def test_the_bolts_of_a_wall_share_all_of_the_line_load(span_ft, load_psf, spacing_in) -> None:
    line_plf = loads.ledger_line_load_plf(load_psf, span_ft)
    assert loads.load_per_bolt_lb(line_plf, spacing_in) * 12 / spacing_in == pytest.approx(line_plf)


@pytest.mark.parametrize("missing", ["forms_erected", "bars_in_place", "approved"])
def test_concrete_waits_for_forms_bars_and_approval(missing) -> None:
    ready = {"forms_erected": True, "bars_in_place": True, "approved": True}
    assert process.may_place_concrete(**ready)  # R109.1.1, R109.4
    assert not process.may_place_concrete(**(ready | {missing: False}))


@pytest.mark.parametrize(
    ("task", "frequency"),
    [
        ("reinforcement", "periodic"),
        ("cast-in anchors", "periodic"),
        ("design mix", "periodic"),
        ("specimens/slump/air/temperature", "continuous"),
        ("placement", "continuous"),
        ("adhesive anchors overhead or horizontal under sustained tension", "continuous"),
    ],
)
def test_special_inspection_is_periodic_or_continuous(task, frequency) -> None:
    assert process.special_inspection(task) == frequency  # IBC Table 1705.3


def test_a_task_without_a_row_is_a_bad_input() -> None:
    with pytest.raises(BadInput, match="cast-in anchors"):
        process.special_inspection("painting")


def test_records_outlast_the_work() -> None:
    assert process.document_retention_days() == 180  # R106.5
    assert process.official_records(2021) == "per public-record law"  # R104.7
    assert "5" in process.official_records(2024)
    with pytest.raises(BadInput, match="2018"):
        process.official_records(2015)


@pytest.mark.parametrize(
    ("barrier", "thickness_in"), [("gypsum", 0.5), ("wood structural panel", 0.71875), ("concrete cover", 1.0)]
)
def test_foam_inside_is_covered(barrier, thickness_in) -> None:
    assert process.thermal_barrier_in(barrier) == thickness_in  # R316.4, R316.5.1
    citation = CLAUSES[process.thermal_barrier_in].citation
    assert (citation.label(US_2021), citation.label(US_2024)) == ("IRC 2021 R316.4", "IRC 2024 R303.4")


@pytest.mark.parametrize(
    ("connection", "nail", "count"),
    [
        ("joist to sill", "8d box", 4),
        ("joist to sill", "8d common", 3),
        ("joist to sill", "10d box", 3),
        ("ledger strip", "16d box", 4),
        ("ledger strip", "16d common", 3),
        ("ledger strip", "10d box", 4),
    ],
)
def test_joists_are_nailed_to_what_carries_them(connection, nail, count) -> None:
    assert process.nails(connection, nail) == count  # Table R602.3(1)


def test_a_nail_the_table_does_not_print_is_refused() -> None:
    with pytest.raises(OutOfScope, match=r"R602\.3"):
        process.nails("ledger strip", "8d box")


def test_guard_posts_of_2024_are_braced_against_roll() -> None:
    assert process.roll_brace() == (16, 6)  # IRC 2024 R502.11.3
    assert CLAUSES[process.roll_brace].citation.label(US_2021) == "IRC 2024 R502.11.3"
