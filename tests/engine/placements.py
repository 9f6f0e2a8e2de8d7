"""One wall to place, and the plan of it, for the tests of placing."""

from engine.editions import US_2021
from engine.placing import Inputs, PlacingPlan, Run, placing_plan
from engine.result import Verdict

# One wall: 54 ft of 8 in core, 9 ft high, forms for 715 psf on webs 8 in by 16 in. A foot of it holds 54 x 8/12 = 36 ft³.
W1 = Run("W1", length_ft=54.0, height_ft=9.0, core_in=8.0, web_across_in=8.0, web_up_in=16.0, form_psf=715.0)
AREA_FT2 = 54 * 8 / 12


def plan(*walls: Run, **inputs: object) -> PlacingPlan:
    return placing_plan(Inputs(**inputs), walls or (W1,), US_2021)  # type: ignore[arg-type]


def verdict(found: PlacingPlan, key: str) -> Verdict:
    return found.result[key].verdict
