"""The published cases of concrete other than anchors, run through their adapters."""

import pytest

from engine.proving import Case, own_cases, run
from engine.proving.tolerance import agrees

SUBJECTS = (
    "concrete/12-in-wall", "concrete/bearing", "concrete/corbel", "concrete/effective", "concrete/simplified",
    "concrete/standard-hook", "concrete/straight-bar", "placement/brick-ledge", "placement/column-corbel",
    "placement/hook", "placement/moment-in-wall", "placement/reinforcing-bar", "placement/soft-metric",
    "placement/sheet-steel", "placement/shear-friction", "placement/tension-lap", "placement/tolerance",
)  # fmt: skip
CASES = [case for case in own_cases() if case.topic.startswith(SUBJECTS)]
# What each disputed row expects where its source slips; everything else in the row must agree.
SLIPS = {
    "pm-tb-182": {"Mu_12D16L16H_inlb", "As_beam_check_in2"},
    "hook-pca-t44": {"ldh_in"},
    "ld-dg1-4715": {"le_reduced_in"},
}


def test_every_case_of_the_subject_is_here() -> None:
    assert len(CASES) == 13 + 38


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_the_engine_agrees_with_what_is_published(case: Case) -> None:
    outcome = run(case)
    if case.id not in SLIPS:
        assert outcome.verdict == "agree", outcome.reason
        return
    assert outcome.verdict == "disputed"
    wrong = {k for k, v in case.expected.items() if not agrees(outcome.computed[k], v, case.rounding, k)}
    assert wrong == SLIPS[case.id]


def test_the_two_sound_entries_of_the_older_hook_table_agree() -> None:
    computed = run(next(case for case in CASES if case.id == "hook-pca-t44")).computed["ldh_in"]
    assert [round(length, 1) for length in computed] == [14.2, 49.4, 6.0]


@pytest.mark.parametrize(
    ("published", "rounding", "near", "off"),
    [
        (66.8, "4 decimals", 66.797, 66.86),  # three digits printed: no finer than the last of them
        (9809.0, "4 decimals", 9809.13, 9809.6),  # .0 of a rounded whole number
        (0.019, "4 decimals", 0.01901, 0.0194),  # two digits: the words hold
        (2, "2 decimals", 2.0, 2.1),
        (566, "0.1 kip", 565.76, 566.6),  # printed without decimals beside figures that have them
        (848.6, "0.1 kip", 848.64, 848.7),
    ],
)
def test_a_figure_is_no_finer_than_its_last_printed_digit(
    published: float, rounding: str, near: float, off: float
) -> None:
    assert agrees(near, published, rounding)
    assert not agrees(off, published, rounding)
