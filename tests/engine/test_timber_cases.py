"""The published timber cases, and the same cases with their bearing strengths worked out from specific gravity."""

from dataclasses import replace
from importlib.resources import files

import pytest

from engine.proving import read_cases, run

CASES = read_cases(files("engine.proving").joinpath("cases", "timber.json").read_text(encoding="utf-8"))
WOOD_STRENGTHS = ("Fem_psi", "Fes_psi", "Fes_wood_psi")
STRONGEST_WOOD_PSI = 20000  # what is above is steel


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_a_published_timber_case_agrees(case) -> None:
    outcome = run(case)
    assert outcome.verdict == "agree", outcome.reason


def _without_typed_strengths(case):
    kept = {k: v for k, v in case.inputs.items() if k not in WOOD_STRENGTHS or v > STRONGEST_WOOD_PSI}
    return replace(case, inputs=kept)


FROM_GRAVITY = [
    case
    for case in CASES
    if {"G", "G_main"} & set(case.inputs)
    and {"Fyb_psi", "Z_lb"} <= {*case.inputs, *case.expected}
    and any(name.startswith("theta") or name == "screw_gauge" for name in case.inputs)
]


@pytest.mark.parametrize("case", FROM_GRAVITY, ids=lambda case: case.id)
def test_its_bearing_strengths_follow_from_specific_gravity(case) -> None:
    bare = _without_typed_strengths(case)
    assert bare.inputs.keys() < case.inputs.keys()
    outcome = run(bare)
    assert outcome.verdict == "agree", outcome.reason


def test_enough_cases_start_from_specific_gravity() -> None:
    assert len(FROM_GRAVITY) >= 40


# Without rounding F_e to 50 psi first, this cell of Table 12E would come out as 600, not the 590 printed.
def test_the_hem_fir_cell_needs_bearing_strengths_as_printed() -> None:
    case = next(c for c in CASES if c.id == "12E-HF-D0.5-ts1.5-th0")
    assert run(case).verdict == "agree"
    unrounded = replace(case, inputs={**case.inputs, "Fes_wood_psi": 11200 * 0.43})
    assert run(unrounded).verdict == "disagree"
