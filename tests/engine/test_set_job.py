"""A job's attachments set out: what each kind puts along its wall, by its own inputs."""

from dataclasses import replace

import pytest

from engine.attachments import KINDS
from engine.errors import BadInput
from engine.job import AttachmentEntry, Job, WallEntry
from engine.job import plan as standing
from engine.set_job import KINDS as SET
from engine.set_job import Asked, set_job, set_wall
from engine.setting_out import FloorLine, Habits, SettingOut

WALLS = (
    WallEntry("W1", {"length_ft": "42 ft"}, ({"type": "L", "height_ft": "9 ft"}, {"type": "U", "height_ft": "9 ft"})),
    WallEntry(
        "W2", {"length_ft": "20 ft"}, ({"type": "U", "height_ft": "9 ft"},),
        ({"start_ft": "8 ft", "width_ft": "4 ft", "sill_ft": "0 ft", "head_ft": "9 ft"},),
    ),
)  # fmt: skip
TYPES = {"L": {"core_in": "10 in"}, "U": {"core_in": "6 in"}}


def entry(kind: str, wall: str = "W1", start: str = "1 ft", end: str = "41 ft", level: int = 1, **inputs: str):
    return AttachmentEntry("A1", kind, wall, level, start, end, inputs)


def job(*entries: AttachmentEntry) -> Job:
    return Job("House", wall_types=TYPES, walls=WALLS, attachments=entries)


def one(*entries: AttachmentEntry, asked: Asked | None = None) -> SettingOut:
    return next(found for found in set_job(job(*entries), asked) if found.tag)


def test_every_kind_offered_is_set_out() -> None:
    assert set(KINDS) <= set(SET)


@pytest.mark.parametrize("kind", [k for k in KINDS if k not in ("beam_pocket", "gable_end")])
def test_the_case_a_newcomer_sees_first_can_be_set(kind: str) -> None:
    found = one(entry(kind))
    assert found.holds, [f.text() for f in found.findings]
    assert found.marks


def test_joists_stand_at_multiples_of_their_spacing_until_a_line_is_laid_out() -> None:
    """From 1 ft on: 16, 32, … to 480, the last whose side is within 492 in: 30 joists."""
    found = one(entry("ledge_seat"))
    assert found.stations("joist") == tuple(16.0 * n for n in range(1, 31))


def test_bolts_of_a_ledge_follow_its_own_inputs() -> None:
    """Code window of a 5/8 in bolt: 7 x 5/8 = 4 3/8 in to 12 in; pieces of 10 ft."""
    found = one(entry("ledge_seat", bolt="0.625", plate_piece_ft="10 ft", bolt_spacing_in="24 in"))
    rule = found.rows["anchor"].rule
    assert (rule.end_min_in, rule.end_max_in, rule.spacing_in, rule.apart_in) == (4.375, 12.0, 24.0, 2.5)
    assert max(p.length_in for p in found.pieces) <= 120


def test_joists_straight_on_concrete_have_no_bolts() -> None:
    assert one(entry("ledge_seat", plate="none")).of("anchor") == ()


def test_the_building_code_lets_a_bolt_stand_four_inches_from_an_end() -> None:
    """IBC 2308: 4 in whatever the bolt; IRC R403.1.6: 7 x 3/4 = 5 1/4 in."""
    assert one(entry("sill_plate", code="IBC", bolt="3/4")).rows["anchor"].rule.end_min_in == 4.0
    assert one(entry("sill_plate", code="IRC", bolt="3/4")).rows["anchor"].rule.end_min_in == 5.25


def test_two_rows_of_ledger_bolts_are_two_at_each_place_unless_staggered() -> None:
    both = one(entry("bolted_ledger", rows="2", top_edge_in="4 in", gauge_in="3 in"))
    alternate = one(entry("bolted_ledger", rows="2", top_edge_in="4 in", gauge_in="3 in", staggered="yes"))
    assert {m.count for m in both.of("anchor")} == {2}
    assert {m.count for m in alternate.of("anchor")} == {1}


def test_joists_along_a_ledger_do_not_stand_on_it() -> None:
    found = one(entry("bolted_ledger", direction="parallel"))
    assert found.of("joist") == ()
    assert found.of("anchor")


def test_a_ledge_for_veneer_breaks_only_at_openings_beside_it() -> None:
    """The opening runs from floor to ceiling, so stirrups stop at 8 ft and start at 12 ft; one in each web space."""
    found = one(entry("veneer_ledge", "W2", "0 ft", "20 ft"))
    assert not [at for at in found.stations("stirrup") if 96 < at < 144]
    assert found.count("stirrup") == 2 * 11  # webs 4 to 92 in: 11 spaces between 12 webs, and the same past the opening


def test_a_floor_line_decides_over_the_attachments_own_spacing() -> None:
    """Line from the wall's end, first joist at 10 in, 24 in apart: on a run from 1 ft the first is at 34 in."""
    line = FloorLine("W1", 1, 0.0, None, 24.0, 10.0)
    found = one(entry("ledge_seat"), asked=Asked(lines=(line,)))
    assert found.stations("joist")[:2] == (34.0, 58.0)
    (finding,) = [f for f in found.findings if f.key == "spacing differs"]
    assert finding.text() == (
        "The floor line has joists 24 in apart; this attachment was checked with 16 in. Check it again."
    )


def test_a_floor_line_elsewhere_changes_nothing() -> None:
    line = FloorLine("W1", 2, 0.0, None, 24.0, 10.0)
    assert one(entry("ledge_seat"), asked=Asked(lines=(line,))) == one(entry("ledge_seat"))


def test_bolts_of_a_sill_plate_keep_clear_of_the_lines_joists() -> None:
    line = FloorLine("W1", 1, 0.0, None, 16.0, 16.0)
    found = one(entry("sill_plate", stands_on="ledge"), asked=Asked(lines=(line,)))
    joists = found.stations("joist")
    assert joists
    assert all(min(abs(at - joist) for joist in joists) >= 2.25 for at in found.stations("anchor"))


def test_stations_moved_by_hand_are_kept_and_checked() -> None:
    asked = Asked(moved={"A1": {"anchor": (16.0, 40.0, 100.0)}})
    found = one(entry("ledge_seat", plate_piece_ft="10 ft", end="10 ft"), asked=asked)
    assert found.stations("anchor") == (16.0, 40.0, 100.0)
    assert {f.key for f in found.findings if not f.note} >= {"spacing", "clear"}


def test_brackets_of_a_wall_are_moved_by_wall_and_level() -> None:
    asked = Asked(brackets={("W1", 1): {"bracket": (4.0, 500.0)}})
    own = next(e for e in set_job(job(), asked) if e.kind == "wall" and e.wall == "W1")
    assert own.stations("bracket") == (4.0, 500.0)
    assert [f.key for f in own.findings] == ["spacing"]


def test_an_attachment_that_cannot_be_read_says_which_field() -> None:
    found = one(entry("bolted_ledger", rows="9"))
    assert [f.text() for f in found.findings] == ["Rows: Enter 1 to 2."]


def test_an_attachment_past_its_wall_says_how_long_the_wall_is() -> None:
    found = one(entry("bolted_ledger", end="45 ft"))
    assert [f.text() for f in found.findings] == ["Ends at: Wall W1 is 42 ft long."]


def test_walls_and_attachments_keep_their_order() -> None:
    a, b = entry("sill_plate", "W2", "0 ft", "20 ft"), replace(entry("ledge_seat"), tag="A2")
    found = set_job(job(a, b))
    assert [(e.wall, e.tag, e.level) for e in found] == [("W1", "A2", 1), ("W1", "", 1), ("W2", "A1", 1), ("W2", "", 1)]
    assert set_wall(standing(job(a, b)), "W2", (a, b)) == found[2:]


def test_an_office_habit_out_of_its_range_is_refused() -> None:
    with pytest.raises(BadInput, match="1/16 in to 12 in"):
        set_job(job(entry("ledge_seat")), Asked(habits=Habits(grid_in=0.0)))


def test_bolts_along_a_rake_are_told_from_the_eave() -> None:
    """A rake of 187.83 in in one piece: 8 in from each end, the three between evenly apart."""
    found = one(entry("gable_end", end="29 ft"))
    assert found.holds
    assert not found.marks
    said = [finding.text() for finding in found.findings if finding.note]
    assert len(said) == 2
    assert said[0].startswith(
        "Rake plate 1, left rake, 0-0 to 15-7 13/16 from the eave: bolts along the slope at 0-8, 4-2 15/16,"
    )


def test_a_gable_checked_at_another_width_than_its_place_is_told() -> None:
    (finding,) = [f for f in one(entry("gable_end", end="31 ft")).findings if f.key == "gable width"]
    assert finding.amount_in == 24
    assert finding.text() == "The gable was checked 28 ft wide and its place here is 30 ft long. Make both agree."
