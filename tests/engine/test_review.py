"""What is measured on site, how far it may be off, and what it comes to."""

from dataclasses import replace

import pytest

from engine import attachments, fields
from engine.attachments import KINDS
from engine.editions import US_2021
from engine.errors import BadInput
from engine.result import Verdict
from engine.review import CHECKLISTS, MEASURES, STAGES, WALL, accepted, as_built, as_rows, items, measures, read_items
from engine.review.measures import TAPE_IN, WITHIN_IN, drawn_in, is_shift
from engine.review.shifts import MOVES
from engine.solve import holds


@pytest.mark.parametrize("key", KINDS)
def test_every_kind_has_something_to_measure_and_to_look_at_and_all_of_it_is_real(key: str) -> None:
    kind = attachments.kind(key)
    known = {spec.name: spec for spec in fields.specs(kind.inputs)}
    assert MEASURES[key]
    for measure in MEASURES[key]:
        if is_shift(key, measure.key):
            assert all(known[name].unit == "in" for name in MOVES[key][measure.key].names)
        else:
            assert known[measure.field].unit == "in", measure
        assert measure.stage in STAGES
    assert all(items(key, stage) for stage in STAGES)


def test_a_ledge_may_lack_what_its_joists_bearing_has_to_spare() -> None:
    # plate 5 1/2 in whole on the seat: the plate's edge may not pass the ledge's, so the ledge may lack seat - plate
    kind = attachments.kind("ledge_seat")
    inputs = kind.inputs(upper_core_in=4.0, lower_core_in=12.0)
    geometry = kind.module.geometry(inputs)
    ledge = next(a for a in accepted("ledge_seat", inputs, US_2021) if a.measure.field == "lower_core_in")
    assert ledge.drawn == geometry.seat
    spare = geometry.x_E - geometry.plate_edge
    if ledge.low is not None:
        assert ledge.drawn - ledge.low <= spare + TAPE_IN
    else:
        assert spare >= WITHIN_IN


@pytest.mark.parametrize("key", KINDS)
def test_the_last_accepted_value_holds_and_a_sixteenth_beyond_flags(key: str) -> None:
    inputs = attachments.kind(key).inputs()
    base = attachments.check(key, inputs, US_2021, recording=False)
    ends = 0
    for one in accepted(key, inputs, US_2021):
        assert one.holds == holds(base, base)
        for end, way in ((one.low, -1), (one.high, 1)):
            if end is None:
                continue
            assert holds(as_built(key, inputs, US_2021, {one.measure.key: end}).result, base)
            step = TAPE_IN if abs(end - one.drawn) < 0.5 else 2 * TAPE_IN
            beyond = end + way * step
            if is_shift(key, one.measure.key):
                assert not holds(as_built(key, inputs, US_2021, {one.measure.key: beyond}).result, base)
                ends += 1
                continue
            spec = fields.spec(type(inputs), one.measure.field)
            field_value = getattr(inputs, one.measure.field) + beyond - one.drawn
            if spec.low <= field_value <= spec.high:
                assert not holds(as_built(key, inputs, US_2021, {one.measure.key: beyond}).result, base)
                ends += 1
    assert ends or key in ("anchored_plate", "gable_end", "beam_pocket", "veneer_ledge")


def test_a_short_ledge_flags_with_its_numbers_as_built() -> None:
    inputs = attachments.kind("ledge_seat").inputs()
    drawn = attachments.kind("ledge_seat").module.geometry(inputs).seat
    built = as_built("ledge_seat", inputs, US_2021, {"lower_core_in": drawn - 4.0})
    assert built.result is None or built.result.verdict is Verdict.FLAG
    assert built.off[0][1:] == (drawn, drawn - 4.0)
    assert built.inputs.lower_core_in == inputs.lower_core_in - 4.0


def test_as_drawn_the_check_is_the_same() -> None:
    inputs = attachments.kind("sill_plate").inputs()
    asked = {m.key: drawn_in("sill_plate", inputs, m) for m in measures("sill_plate", inputs)}
    built = as_built("sill_plate", inputs, US_2021, asked)
    assert built.inputs == inputs
    assert built.result == attachments.check("sill_plate", inputs, US_2021)


def test_nothing_is_accepted_of_what_flags_as_drawn() -> None:
    inputs = replace(attachments.kind("ledge_seat").inputs(), bolt_spacing_in=120.0)
    assert all(not one.holds and one.low is one.high is None for one in accepted("ledge_seat", inputs, US_2021))


@pytest.mark.parametrize(
    ("measured", "said"),
    [
        ({"colour": 1.0}, "Nothing of that name is measured here."),
        ({"bolt_embedment_in": 900.0}, "farther off than the check"),
    ],
)
def test_what_cannot_be_measured_is_named(measured: dict[str, float], said: str) -> None:
    with pytest.raises(BadInput, match=said):
        as_built("ledge_seat", attachments.kind("ledge_seat").inputs(), US_2021, measured)


def test_what_is_not_there_is_not_measured() -> None:
    inputs = attachments.kind("ledge_seat").inputs(plate="none")
    assert not any(m.field.startswith(("bolt", "plate")) for m in measures("ledge_seat", inputs))


def test_the_published_lists_can_be_kept_as_an_offices_own() -> None:
    for (kind, stage), found in CHECKLISTS.items():
        assert kind == WALL or kind in KINDS
        assert stage in STAGES
        rows = read_items(as_rows(found))
        assert [row["words"] for row in rows] == [item.words for item in found]


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ([{"key": "a", "words": ""}], "Line 1: enter what is looked at"),
        ([{"key": "a", "words": "x"}, {"key": "a", "words": "y"}], "Line 2: every line needs a short name"),
        ([{"key": f"k{n}", "words": "x"} for n in range(41)], "Keep to 40 lines"),
    ],
)
def test_a_list_that_cannot_be_used_is_named_by_its_line(rows: list[dict[str, str]], said: str) -> None:
    with pytest.raises(BadInput, match=said):
        read_items(rows)
