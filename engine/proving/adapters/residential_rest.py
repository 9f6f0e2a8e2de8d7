"""Cases on veneer, loads, records, and Ontario's residential rows."""

import re
from collections.abc import Mapping
from typing import Any

from engine.clauses.canada import obc
from engine.clauses.us import irc_loads as loads
from engine.clauses.us import irc_process as process
from engine.clauses.us import irc_veneer as veneer
from engine.clauses.us.loads import simple_span_reaction_lb
from engine.proving import adapter
from engine.proving.adapters.residential_bearing import along, each

Inputs = Mapping[str, Any]
Values = dict[str, Any]


def _common(found: list[Any]) -> Any:
    """The value all share, as a case prints it once; the list itself where they differ."""
    return found[0] if all(value == found[0] for value in found) else found


def _veneer_limits(words: str) -> veneer.VeneerLimits:
    found = re.search(r"\b[A-E][0-2]?\b", words)
    sdc: Any = found[0] if found else words
    told = re.search(r"(\d)[- ]*stor", words)
    stories = int(told[1]) if told else 2
    return veneer.veneer_limits(sdc, stories, lower_10_ft_backed="back" in words)


@adapter("residential/veneer-limits-sdc-a-c")
def _veneer_a_c(inputs: Inputs) -> Values:
    found = each(inputs["sdc"], _veneer_limits)
    limits = found if isinstance(found, list) else [found]
    return {
        "max_height_ft": _common([limit.height_ft for limit in limits]),
        "max_thickness_in": _common([limit.thickness_in for limit in limits]),
        "max_weight_psf": _common([limit.weight_psf for limit in limits]),
        "gable_extra_ft": _common([limit.gable_extra_ft for limit in limits]),
    }


@adapter("residential/veneer-limits-sdc-d0-d2")
def _veneer_d(inputs: Inputs) -> Values:
    return {
        "max_height_ft": each(inputs["sdc"], lambda words: _veneer_limits(words).height_ft),
        "max_thickness_in": each(inputs["sdc"], lambda words: _veneer_limits(words).thickness_in),
        "max_weight_psf": each(inputs["sdc"], lambda words: _veneer_limits(words).weight_psf),
    }


@adapter("residential/veneer-bearing-on-support")
def _veneer_bearing(inputs: Inputs) -> Values:
    t_v_in = inputs["veneer_thickness_in"]
    return {
        "min_bearing_in": each(t_v_in, veneer.veneer_bearing_in),
        "max_overhang_in": each(t_v_in, veneer.veneer_overhang_in),
    }


@adapter("residential/veneer-load-on-ledge")
def _veneer_load(inputs: Inputs) -> Values:
    return {"line_load_plf": along(veneer.veneer_line_load_plf, inputs["height_ft"], inputs["weight_psf"])}


@adapter("residential/veneer-tie-spacing")
def _tie_spacing(inputs: Inputs) -> Values:
    sides = (inputs["horizontal_in"], inputs["vertical_in"])
    close = {veneer.tie_area_limit_ft2("D0"), veneer.tie_area_limit_ft2("B", wind_psf=31)}
    return {
        "area_sqft": along(veneer.tie_area_ft2, *sides),
        "ok_general": along(veneer.tie_spacing_ok, *sides, veneer.tie_area_limit_ft2()),
        "ok_SDC_D_or_over_30psf": along(veneer.tie_spacing_ok, *sides, min(close)),
    }


@adapter("residential/tie-embedment-in-mortar")
def _tie(inputs: Inputs) -> Values:
    tie = veneer.veneer_tie()
    return {
        "min_embed_in": tie.embedment_in,
        "min_outside_cover_in": tie.outside_cover_in,
        "min_airspace_in": tie.air_space_in,
        "max_backing_to_veneer_in_2018": veneer.largest_backing_distance_in("W1.7", 2018),
        "max_backing_to_veneer_in_2021_2024_W1.7": veneer.largest_backing_distance_in("W1.7", 2021),
        "max_backing_to_veneer_in_2021_2024_W2.8": veneer.largest_backing_distance_in("W2.8", 2024),
    }


@adapter("residential/weep-holes")
def _weeps(inputs: Inputs) -> Values:
    weep = veneer.weeps()
    return {"max_spacing_in": weep.spacing_in, "min_diameter_in": weep.diameter_in}


@adapter("residential/lintel-bearing")
def _lintel_bearing(inputs: Inputs) -> Values:
    return {"min_bearing_in": veneer.lintel_bearing_in()}


# Rows of the table by words of a case, the first that fits.
USES = {
    r"sleep|bedroom": "sleeping",
    r"attic.*no storage|attic.*without": "attic no storage",
    r"attic.*limited": "attic limited storage",
    r"habitable.*attic|attic.*habitable": "habitable attic",
    r"attic.*stair": "attic with fixed stair",
    r"deck|balcon": "deck/balcony",
    r"garage": "garage",
    r"stair": "stairs",
    r"other|living": "other",
}


def _row_of(words: str, rows: Mapping[str, str]) -> str:
    """The row that a case's words mean; the words themselves where none fits."""
    return next((row for pattern, row in rows.items() if re.search(pattern, words.lower())), words)


@adapter("residential/residential-live-loads")
def _live_loads(inputs: Inputs) -> Values:
    return {"live_psf": each(inputs["use"], lambda words: loads.live_load_psf(_row_of(words, USES)))}


@adapter("residential/floor-deflection-limit")
def _deflection(inputs: Inputs) -> Values:
    return {"max_live_deflection_in": each(inputs["span_ft"], loads.deflection_limit_in)}


@adapter("residential/floor-joist-span-for-reactions")
def _joist_span(inputs: Inputs) -> Values:
    span_in = loads.joist_span_in(
        inputs["joist"], inputs["species"], inputs["spacing_in"], inputs["live_psf"], inputs["dead_psf"]
    )
    return {"max_span_ft_in": f"{span_in // 12}-{span_in % 12}"}


def _load_psf(inputs: Inputs) -> Any:
    return along(lambda live, dead: live + dead, inputs.get("live_psf", 0), inputs.get("dead_psf", 0))


@adapter("residential/joist-end-reaction")
def _reaction(inputs: Inputs) -> Values:
    return {
        "reaction_lb": along(simple_span_reaction_lb, _load_psf(inputs), inputs["spacing_in"], inputs["clear_span_ft"])
    }


@adapter("residential/gravity-shear-per-ledger-bolt-at-r608-2-loads")
def _bolt_gravity(inputs: Inputs) -> Values:
    w_plf = along(loads.ledger_line_load_plf, _load_psf(inputs), inputs["clear_span_ft"])
    values = {"ledger_line_load_plf": w_plf}
    if "bolt_spacing_in" in inputs:
        values["shear_per_bolt_lb"] = along(loads.load_per_bolt_lb, w_plf, inputs["bolt_spacing_in"])
    return values


@adapter("residential/inspection-before-placing-concrete")
def _before_concrete(inputs: Inputs) -> Values:
    may = process.may_place_concrete(
        forms_erected=inputs.get("forms_erected", False),
        bars_in_place=inputs.get("bars_in_place_and_supported", False),
        approved=inputs.get("approved", False),
    )
    return {"may_place_concrete": may}


TASKS = {
    r"adhesive": "adhesive anchors overhead or horizontal under sustained tension",
    r"post": "post-installed anchors",
    r"cast": "cast-in anchors",
    r"\bmix\b": "design mix",
    r"specimen|slump|temperature": "specimens/slump/air/temperature",
    r"plac": "placement",
    r"reinforc|\bbars?\b": "reinforcement",
}


@adapter("residential/special-inspection-of-cast-in-anchors")
def _special(inputs: Inputs) -> Values:
    return {"frequency": each(inputs["task"], lambda words: process.special_inspection(_row_of(words, TASKS)))}


@adapter("residential/retention-of-approved-documents")
def _retention(inputs: Inputs) -> Values:
    editions = inputs["edition"]
    return {
        "min_doc_retention_days": each(editions, lambda _: process.document_retention_days()),
        "official_records_years": each(editions, lambda year: process.official_records(int(str(year)[-4:]))),
    }


BARRIERS: dict[str, process.Barrier] = {
    r"gypsum": "gypsum",
    r"wood": "wood structural panel",
    r"concrete|masonry": "concrete cover",
}


@adapter("residential/thermal-barrier")
def _barrier(inputs: Inputs) -> Values:
    def rule(words: str) -> float:
        barrier: Any = _row_of(words, BARRIERS)
        return process.thermal_barrier_in(barrier)

    return {"min_thickness_in": each(inputs["barrier"], rule)}


@adapter("residential/roll-bracing-at-guard-posts")
def _roll(inputs: Inputs) -> Values:
    brace = process.roll_brace()
    return {"min_length_from_edge_in": brace.length_in, "min_16d_common_nails_each_end": brace.nails_each_end}


@adapter("residential/air-space-at-beam-ends")
def _air_space(inputs: Inputs) -> Values:
    where = inputs["member_bottom"]
    low = "above" not in where or "not above" in where or "at or above" in where
    return {
        "min_air_space_mm": obc.beam_air_space_mm(at_or_below_ground=low),
        "faces": obc.AIR_FACES if low else "none",
    }


@adapter("residential/icf-wall-thickness")
def _ontario_wall(inputs: Inputs) -> Values:
    wall = obc.above_grade_wall()
    return {
        "min_concrete_mm": wall.concrete_mm,
        "max_storeys": wall.storeys,
        "max_floor_to_floor_m": wall.floor_to_floor_m,
        "max_Sa02": wall.Sa_02,
    }


@adapter("residential/ledger-board-minimum-flat-icf-wall")
def _ontario_ledger(inputs: Inputs) -> Values:
    depth_mm, ledger = inputs.get("joist_depth_mm", 0.0), obc.ledger(0.0)
    return {
        "min_ledger_thickness_mm": ledger.thickness_mm,
        "min_ledger_depth_mm": each(depth_mm, lambda d_mm: obc.ledger(d_mm).depth_mm),
        "min_bolt_embedment_mm": ledger.embedment_mm,
    }


@adapter("residential/ledger-bolt-spacing-flat-icf-wall")
def _ontario_bolts(inputs: Inputs) -> Values:
    spacing_mm = along(obc.ledger_bolt_spacing_mm, inputs["clear_floor_span_m"], inputs["bolt_diameter_mm"])
    return {"max_bolt_spacing_mm": spacing_mm}


def _anchor(anchor: obc.PlateAnchor) -> Values:
    return {
        "min_diameter_mm": anchor.diameter_mm,
        "max_spacing_m": anchor.spacing_m,
        "min_embedment_mm": anchor.embedment_mm,
        "position": anchor.position,
    }


@adapter("residential/sill-anchorage-ontario")
def _ontario_sill(inputs: Inputs) -> Values:
    return _anchor(obc.sill_anchor())


@adapter("residential/roof-plate-anchorage-on-icf-wall")
def _ontario_roof(inputs: Inputs) -> Values:
    return _anchor(obc.roof_plate_anchor())


@adapter("residential/veneer-projection-ontario")
def _ontario_veneer(inputs: Inputs) -> Values:
    return {
        "max_projection_mm": each(inputs["veneer_thickness_mm"], obc.veneer_projection_mm),
        "max_projection_fraction": obc.veneer_projection_fraction(),
    }
