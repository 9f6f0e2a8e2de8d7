"""Ways of carrying a floor line: compared in full, shown side by side, chosen, taken back; rates and standards of the office."""

import csv
import io
import re
from collections.abc import Iterator
from random import Random
from threading import Event

import pytest

from engine import attachments as kinds
from engine.errors import BadInput
from engine.options import Search
from engine.result import Verdict
from tests import pace
from tests.webapp.test_attachments import HX, row
from tests.webapp.test_floor_lines import lines, make
from tests.webapp.test_walls import wall_ids
from tests.world import World
from webapp.pages import options as options_page
from webapp.services import attachments, options, searches
from webapp.services.options import Asked, Found
from webapp.services.searches import MOST, Searches
from webapp.store import reading

LISTED = {
    "ledge_seat": {"lap_in": "36"},
    "bolted_ledger": {
        "hanger_capacity_lb": "900", "hanger_report": "Invented", "hanger_expires": "2099-12-31", "hanger_listed": "8",
        "tie_capacity_lb": "700", "tie_report": "Invented", "tie_expires": "2099-12-31", "tie_spacing_in": "32",
    },
    "cast_in_plate": {
        "listed_lb": "800", "report": "Invented", "expires": "2099-12-31", "listed_f_c_psi": "2500",
        "listed_foam_least_in": "0", "listed_foam_most_in": "2 3/4", "listed_embedment_in": "3 1/2",
        "listed_spacing_in": "12", "listed_screws": "6", "listed_gauge": "10",
    },
}  # fmt: skip
SAMPLE = 40


@pytest.fixture(autouse=True)
def patient(monkeypatch: pytest.MonkeyPatch) -> None:
    """However busy the machine is, a search is answered with its end."""
    monkeypatch.setattr(options_page, "PATIENCE_S", 60.0)


def listings(at: World, *kinds_: str) -> None:
    """Have the office take the listings above, all or some."""
    for kind in kinds_ or LISTED:
        address = f"/office/standards/{kind}"
        at.reader.follow(at.reader.post(address, data=at.reader.page(address).values | LISTED[kind]))


@pytest.fixture
def line(at: World, job: int) -> int:
    """A floor line on a free stretch of W1, the listings typed."""
    listings(at)
    return make(at, job, at_start_ft="14", at_end_ft="28", last_joist="yes")


def searched(at: World, job: int, line: int) -> tuple[Asked, Found]:
    asked = options.beside(at.db, job, line)
    known: Searches = at.app.state.searches
    found = known.of(asked.key, asked.line).wait()
    assert found is not None
    return asked, found


def ways(job: int, line: int) -> str:
    return f"/jobs/{job}/floor-lines/{line}/options"


def choose(at: World, job: int, line: int, rank: int, **more: str) -> str:
    """Choose by rank. Returns: the page it leads to."""
    asked, _ = searched(at, job, line)
    data = {"key": asked.key, "rank": str(rank)} | more
    return at.reader.follow(at.reader.post(ways(job, line), data=data)).text


def tags(at: World, job: int) -> list[str]:
    with reading(at.db) as session:
        return [r.tag for r in attachments.everything(session, job)]


def test_the_best_of_each_kind_stand_side_by_side(at: World, job: int, line: int) -> None:
    text = at.reader.page(ways(job, line)).text
    _, found = searched(at, job, line)
    assert [column.kind for column in found.columns] == [
        "ledge_seat",
        "bolted_ledger",
        "anchored_plate",
        "cast_in_plate",
    ]
    assert all(column.rank for column in found.columns)
    assert text.count('<article class="option"') == 4
    assert text.count("Choose this") == 4
    assert text.count('class="dwg"') == 8  # one for a column of four, one for a column of two
    assert len(re.findall(r'<circle[^>]*r="11', text)) == 8  # what governs is ringed
    assert f"{found.tried:,} candidates" in text
    assert "button solid" not in text[text.index("<main") : text.index("</main>")]  # nothing is chosen beforehand


def test_the_best_of_a_kind_is_the_first_of_it_in_the_ranking(at: World, job: int, line: int) -> None:
    _, found = searched(at, job, line)
    for column in found.columns:
        first = next(
            n for n, one in enumerate(found.comparison.ranked, 1) if one.candidate.way.offer.kind == column.kind
        )
        assert column.rank == first


def test_what_is_shown_is_what_single_checks_give(at: World, job: int, line: int) -> None:
    asked, found = searched(at, job, line)
    sample = Random(1).sample(found.comparison.ranked, SAMPLE)
    for one in [*sample, *(found.ranked(c.rank) for c in found.columns)]:
        kind, inputs = one.candidate.way.offer.kind, one.candidate.inputs
        alone = kinds.check(kind, inputs, asked.line.edition, recording=False)
        assert alone.verdict is Verdict.PASS
        assert alone.governing is not None
        assert one.candidate.ratio == pytest.approx(alone.governing.ratio or 0.0, rel=1e-12)
    for failed in found.comparison.failed:
        near = failed.nearest
        try:
            alone = kinds.check(near.way.offer.kind, near.inputs, asked.line.edition, recording=False)
        except BadInput:
            assert near.verdict is None
            continue
        assert alone.verdict is near.verdict is not Verdict.PASS


def test_the_least_of_each_row_is_marked_and_of_what_is_alike_nothing(at: World, job: int, line: int) -> None:
    text = at.reader.page(ways(job, line)).text
    _, found = searched(at, job, line)
    steel = [c.candidate.quantities.steel_lb for c in found.columns if c.candidate and c.candidate.quantities]
    least = steel.index(min(steel))
    cells = re.findall(r"<dt>Steel, lb</dt><dd>(.*?)</dd>", text, re.DOTALL)
    assert [n for n, cell in enumerate(cells) if "least" in cell] == [least]
    added = re.findall(r"<dt>Concrete added, cu.ft</dt><dd>(.*?)</dd>", text, re.DOTALL)
    assert len(added) == 4
    if len(set(added)) == 1:
        assert "least" not in added[0]


@pytest.mark.parametrize("kind", ["ledge_seat", "bolted_ledger", "cast_in_plate"])
def test_the_chosen_way_stands_as_an_attachment_with_the_same_ratio(at: World, job: int, line: int, kind: str) -> None:
    _, found = searched(at, job, line)
    column = next(c for c in found.columns if c.kind == kind)
    assert column.candidate is not None
    text = choose(at, job, line, column.rank)
    assert "A3 carries it now" in text
    made = row(at, job, "A3")
    assert (made.kind, made.wall, made.start, made.end) == (kind, "W1", "14 ft", "28 ft")
    assert made.verdict == "pass"
    assert made.ratio == pytest.approx(column.candidate.ratio, rel=1e-9)
    assert [a.tag for a in lines(at, job)[0].carriers] == ["A3"]
    assert lines(at, job)[0].bare == ()


@pytest.mark.parametrize("key", ["plates", "plates-ledger"])
def test_plates_are_made_one_at_each_joist_or_one_row_along_a_ledger(at: World, job: int, line: int, key: str) -> None:
    _, found = searched(at, job, line)
    rank = next(n for n, one in enumerate(found.comparison.ranked, 1) if one.candidate.way.offer.key == key)
    ratio, joists = found.ranked(rank).candidate.ratio, lines(at, job)[0].count
    choose(at, job, line, rank)
    new = [row(at, job, tag) for tag in tags(at, job)[2:]]
    assert len(new) == (joists if key == "plates" else 1)
    assert {made.verdict for made in new} == {"pass"}
    assert max(made.ratio or 0.0 for made in new) == pytest.approx(ratio, rel=1e-9)
    assert lines(at, job)[0].bare == ()
    if key == "plates-ledger":
        assert new[0].end == "28 ft"
        form = at.reader.page(f"/jobs/{job}/attachments/{new[0].tag}")
        assert form.values["at_end_ft"] == "28"


def test_a_choice_is_taken_back_and_that_too(at: World, job: int, line: int) -> None:
    _, found = searched(at, job, line)
    text = choose(at, job, line, found.columns[0].rank)
    undo = re.search(r'action="(/jobs/\d+/floor-lines/\d+/options/undo/\d+)"', text)
    assert undo
    assert tags(at, job) == ["A1", "A2", "A3"]
    back = at.reader.follow(at.reader.post(undo[1])).text
    assert tags(at, job) == ["A1", "A2"]
    again = re.search(r'action="(/jobs/\d+/floor-lines/\d+/options/undo/\d+)"', back)
    assert again
    at.reader.follow(at.reader.post(again[1]))
    assert tags(at, job) == ["A1", "A2", "A3"]
    assert row(at, job, "A3").verdict == "pass"
    assert "Nothing is left of that choice" in at.reader.follow(at.reader.post(undo[1])).text


def test_where_the_line_is_carried_already_it_asks_first(at: World, job: int) -> None:
    listings(at)
    line = make(at, job)  # over A1
    asked, found = searched(at, job, line)
    data = {"key": asked.key, "rank": str(found.columns[1].rank)}
    page = at.reader.post(ways(job, line), data=data)
    assert page.status_code == 200
    assert "Main floor is carried already" in page.text
    assert "A1" in page.text
    assert tags(at, job) == ["A1", "A2"]
    replaced = at.reader.follow(at.reader.post(ways(job, line), data=data | {"then": "replace"})).text
    assert "A1 is put away" in replaced
    assert tags(at, job) == ["A2", "A3"]
    undo = re.search(r'action="([^"]*/options/undo/\d+)"', replaced)
    assert undo
    at.reader.follow(at.reader.post(undo[1]))
    assert tags(at, job) == ["A1", "A2"]
    at.reader.follow(at.reader.post(ways(job, line), data=data | {"then": "add"}))
    assert tags(at, job) == ["A1", "A2", "A4"]


def test_a_choice_from_a_comparison_that_no_longer_holds_is_not_made(at: World, job: int, line: int) -> None:
    old, found = searched(at, job, line)
    types = at.reader.page(f"/jobs/{job}/types").text
    address = re.search(rf'href="(/jobs/{job}/types/\d+)">Ten<', types)
    assert address
    form = at.reader.page(address[1]).values
    data = form | {"core_in": "12", "vertical_bar": "4", "horizontal_bar": "4", "curtains": "centre"}
    at.reader.follow(at.reader.post(address[1], data=data))
    answer = at.reader.post(ways(job, line), data={"key": old.key, "rank": str(found.columns[0].rank)})
    assert "Compare again" in at.reader.follow(answer).text
    assert tags(at, job) == ["A1", "A2"]
    assert searched(at, job, line)[0].key != old.key


@pytest.mark.parametrize("rank", ["0", "-1", "999999", "x", ""])
def test_a_rank_there_is_not_is_not_found(at: World, job: int, line: int, rank: str) -> None:
    asked, _ = searched(at, job, line)
    assert at.reader.post(ways(job, line), data={"key": asked.key, "rank": rank}).status_code == 404


def test_a_part_without_its_listing_is_not_compared_and_says_where_to_type_it(at: World, job: int) -> None:
    line = make(at, job, at_start_ft="14", at_end_ft="28")
    text = at.reader.page(ways(job, line)).text
    assert "Type what the part&#39;s own listing gives first" in text
    assert 'href="/office/standards/cast_in_plate"' in text
    assert text.count("Choose this") == sum(bool(c.rank) for c in searched(at, job, line)[1].columns)


def test_where_none_of_a_kind_holds_the_nearest_stands_there_and_its_form_says_what_it_needs(
    at: World, job: int
) -> None:
    listings(at)
    short = at.reader.page("/office/standards/ledge_seat").values | {"lap_in": "12"}
    at.reader.follow(at.reader.post("/office/standards/ledge_seat", data=short))
    line = make(at, job, at_start_ft="14", at_end_ft="28")
    _, found = searched(at, job, line)
    ledge = found.columns[0]
    assert ledge.rank == 0
    assert ledge.candidate is not None
    assert ledge.candidate.governing is not None
    text = at.reader.page(ways(job, line)).text
    assert ledge.candidate.governing.title in text
    link = re.search(r'href="([^"]*/attachments/new\?kind=ledge_seat[^"]*)"', text)
    assert link
    form = at.reader.page(link[1].replace("&amp;", "&")).text
    assert "What would make it pass" in form
    assert ledge.candidate.governing.title in form


def test_everything_that_holds_is_listed_by_rank_sorted_and_filtered(at: World, job: int, line: int) -> None:
    _, found = searched(at, job, line)
    text = at.reader.page(f"{ways(job, line)}/all").text
    assert f"1 to 50 of {len(found.comparison.ranked)}" in text
    assert "no other one matches or beats" in text
    for failed in found.comparison.failed:
        assert f"{failed.count:,}" in text
    light = at.reader.page(f"{ways(job, line)}/all?sort=steel_lb").text
    ranks = [int(r) for r in re.findall(r'name="rank" value="(\d+)"', light)]
    steel = [found.ranked(rank).measures[1] for rank in ranks]
    assert steel == sorted(steel)
    assert steel[0] == min(one.measures[1] for one in found.comparison.ranked)
    plated = at.reader.page(f"{ways(job, line)}/all?way=ledge-plate&page=2").text
    ranks = [int(r) for r in re.findall(r'name="rank" value="(\d+)"', plated)]
    assert ranks
    assert {found.ranked(rank).candidate.way.offer.key for rank in ranks} == {"ledge-plate"}
    plate = found.ranked(ranks[0]).candidate.inputs.plate
    sought = at.reader.page(f"{ways(job, line)}/all?q={plate}+plate+edge").text
    ranks = [int(r) for r in re.findall(r'name="rank" value="(\d+)"', sought)]
    assert ranks
    assert {found.ranked(rank).candidate.inputs.plate for rank in ranks} == {plate}
    assert "No way fits that" in at.reader.page(f"{ways(job, line)}/all?q=granite").text


def test_all_that_hold_go_into_a_table_of_its_own(at: World, job: int, line: int) -> None:
    _, found = searched(at, job, line)
    rows = list(csv.DictReader(io.StringIO(at.reader.get(f"{ways(job, line)}/all.csv").text)))
    listed = [r for r in rows if r["rank"].isdecimal()]
    assert len(listed) == len(found.comparison.ranked)
    assert [int(r["front"]) for r in listed] == [one.front for one in found.comparison.ranked]
    assert {r["hours"] for r in listed} == {""}
    failed = list(csv.DictReader(io.StringIO(at.reader.get(f"{ways(job, line)}/failed.csv").text)))
    counts = [int(r["candidates"]) for r in failed if (r["candidates"] or "").isdecimal()]
    assert sum(counts) == found.tried - len(found.comparison.ranked)


def test_hours_and_prices_are_off_until_the_office_types_them(at: World, job: int, line: int) -> None:
    assert "Hours, office" not in at.reader.page(ways(job, line)).text
    data = at.reader.page("/office/rates").values | {"anchor_hours": "0.2", "steel_price": "2"}
    at.reader.follow(at.reader.post("/office/rates", data=data))
    text = at.reader.page(ways(job, line)).text
    _, found = searched(at, job, line)
    taken = [c.candidate.quantities for c in found.columns if c.candidate]
    prices = re.findall(r"<dt>Price, office&#39;s rates</dt><dd>(.*?)</dd>", text, re.DOTALL)
    assert len(prices) == 4
    for quantities, cell in zip(taken, prices, strict=True):
        assert quantities is not None
        if quantities.steel_lb:
            assert f"{quantities.steel_lb * 2:,.2f}" in cell
    assert "no rate is typed for" in text
    cleared = at.reader.page("/office/rates").values | {"anchor_hours": "", "steel_price": ""}
    assert "not counted" in at.reader.follow(at.reader.post("/office/rates", data=cleared)).text


def test_a_rate_that_cannot_be_meant_is_refused_with_what_was_typed(at: World) -> None:
    data = at.reader.page("/office/rates").values | {"anchor_hours": "soon", "tie_price": "3"}
    answer = at.reader.post("/office/rates", data=data)
    assert answer.status_code == 422
    assert 'id="e-anchor_hours"' in answer.text
    assert 'value="3"' in answer.text


def test_the_office_types_what_it_takes_in_either_system_and_leaves_out_what_it_does_not(at: World) -> None:
    address = "/office/standards/cast_in_plate"
    page = at.reader.page(address)
    assert "reaction_dead_lb" not in page.values  # what is carried is the floor line's
    assert "embedment_in" not in page.values  # what a search varies
    assert "core_in" not in page.values  # what the wall has
    at.reader.follow(at.reader.post(address, data=page.values | {"listed_lb": "3.5 kN", "gap_in": "1/8"}))
    assert "3.5 kN" in at.reader.page("/office/standards").text
    refused = at.reader.post(address, data=at.reader.page(address).values | {"listed_lb": "strong"})
    assert refused.status_code == 422
    assert 'id="e-listed_lb"' in refused.text
    stale = at.reader.post(address, data=page.values | {"listed_lb": "900"})
    assert stale.status_code == 409
    assert at.reader.get("/office/standards/gable_end").status_code == 404


def test_what_the_office_takes_is_used_for_every_candidate(at: World, job: int, line: int) -> None:
    _, found = searched(at, job, line)
    laps = {
        one.candidate.inputs.lap_in for one in found.comparison.ranked if one.candidate.way.offer.kind == "ledge_seat"
    }
    assert laps == {36.0}


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> Iterator[Event]:
    """Searches wait after their first steps until the event is set."""
    go = Event()

    class Held(Search):
        def run(self) -> Iterator[int]:
            for number, done in enumerate(super().run()):
                if number == 3:
                    go.wait(30)
                yield done

    monkeypatch.setattr(searches, "Search", Held)
    monkeypatch.setattr(options_page, "PATIENCE_S", 0.05)
    yield go
    go.set()


def test_a_long_search_shows_how_far_it_is_and_goes_on_to_its_end(
    at: World, job: int, line: int, held: Event, monkeypatch: pytest.MonkeyPatch
) -> None:
    waiting = at.reader.page(ways(job, line)).text
    assert re.search(r"\d+ of [\d,]+ checked", waiting)
    assert f'hx-get="{ways(job, line)}"' in waiting
    assert '<meta http-equiv="refresh"' in waiting
    polled = at.reader.get(ways(job, line), headers=HX)
    assert polled.text.lstrip().startswith('<div id="search"')
    held.set()
    searched(at, job, line)
    polled = at.reader.get(ways(job, line), headers=HX)
    assert polled.headers["hx-redirect"] == ways(job, line)
    assert at.reader.page(ways(job, line)).text.count("Choose this") == 4


def test_a_search_is_stopped_where_it_is(at: World, job: int, line: int, held: Event) -> None:
    at.reader.page(ways(job, line))
    asked = options.beside(at.db, job, line)
    running = at.app.state.searches.of(asked.key, asked.line)
    answer = at.reader.post(f"{ways(job, line)}/cancel")
    assert answer.headers["location"] == f"/jobs/{job}/floor-lines/{line}"
    held.set()
    assert running.wait(30) is None
    assert running.done < running.total
    assert "The search is stopped" in at.reader.follow(answer).text
    assert searched(at, job, line)[1].tried == running.total  # asked again, it begins anew


def test_a_search_that_meets_an_error_is_begun_anew(
    at: World, job: int, line: int, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def broken(search: Search) -> Found:
        raise ZeroDivisionError

    with monkeypatch.context() as patch:
        patch.setattr(searches, "found", broken)
        asked = options.beside(at.db, job, line)
        running = at.app.state.searches.of(asked.key, asked.line)
        assert running.wait(60) is None
    assert running.failed
    assert "a search failed" in caplog.text
    assert searched(at, job, line)[1].tried


def test_only_so_many_searches_are_remembered(at: World, job: int, line: int) -> None:
    asked, _ = searched(at, job, line)
    known = Searches()
    first = known.of("0", asked.line)
    for n in range(1, MOST + 1):
        known.of(str(n), asked.line)
    assert known.of(str(MOST), asked.line).useless is False
    assert known.of("0", asked.line) is not first
    known.close()


def test_the_same_numbers_are_searched_once(at: World, job: int, line: int) -> None:
    asked, _ = searched(at, job, line)
    make(at, job, name="Elsewhere", at_start_ft="30", at_end_ft="38")
    again = options.beside(at.db, job, line)
    assert again.key == asked.key
    assert at.app.state.searches.of(again.key, again.line) is at.app.state.searches.of(asked.key, asked.line)


def test_ten_thousand_candidates_and_the_page_take_two_seconds(at: World, job: int, line: int) -> None:
    searched(at, job, line)  # what every first search loads

    def afresh() -> None:
        at.app.state.searches.close()
        assert "10,131 candidates" in at.reader.page(ways(job, line)).text

    assert pace.seconds(afresh, rounds=3) < 2.0


def test_either_system_of_units_shows_the_same_comparison(at: World, job: int, line: int) -> None:
    at.reader.post("/units", data={"units": "mm", "back": "/"})
    text = at.reader.page(ways(job, line)).text
    assert "Steel, kg" in text
    assert "Concrete added, m³" in text
    assert "mm" in at.reader.page(f"{ways(job, line)}/all").text


def test_a_line_of_another_job_is_not_there(at: World, job: int, line: int) -> None:
    other = at.job(name="Other")
    assert at.reader.get(ways(other, line)).status_code == 404
    assert at.reader.post(f"/jobs/{other}/floor-lines/{line}/delete").status_code == 404
    assert wall_ids(at, other)
