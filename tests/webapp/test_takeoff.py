"""Takeoff: what its page and its files say is what was set out, exactly, with the office's own waste on top."""

import csv
import io
from collections import Counter
from html.parser import HTMLParser
from math import ceil

import pytest

from engine.set_job import KINDS as SET
from engine.setting_out import WALL, SettingOut
from engine.takeoff import ITEMS, OUTSIDE, Row
from engine.takeoff.wall_bars import TRIM, curtains_of
from engine.units import feet_inches
from tests.world import World
from webapp.models import Office, Wall
from webapp.pages.takeoff_sheet import amount
from webapp.services import demo, setting_out
from webapp.services import takeoff as counting
from webapp.services.setting_out import Spot
from webapp.services.takeoff import JobTakeoff, Of
from webapp.store import reading, writing

# What is set out, and the item it is bought as. Anchors of an anchored plate stand in its own rows and columns.
BOUGHT = {"anchor": "anchor", "tie": "tie", "plate": "plate", "anchored": "anchored plate", "bracket": "bracket"}


class Tables(HTMLParser):
    """Rows of every table as texts of their cells, by caption; what opens under a cell is left out."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.rows: dict[str, list[list[str]]] = {}
        self._caption, self._in, self._skip = "", "", 0
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        kind = dict(attrs).get("class") or ""
        if self._skip or kind in ("to-places", "to-label", "quiet") or tag == "svg":
            self._skip += tag in ("ul", "span", "p", "svg", "b", "a", "li", "g", "text")
        elif tag in ("caption", "td", "th"):
            self._in = tag
            if tag == "caption":
                self._caption = ""
            else:
                self.rows.setdefault(self._caption, [[]])[-1].append("")
        elif tag == "tr":
            self.rows.setdefault(self._caption, []).append([])

    def handle_endtag(self, tag: str) -> None:
        if self._skip:
            self._skip -= tag in ("ul", "span", "p", "svg", "b", "a", "li", "g", "text")
        elif tag == self._in:
            self._in = ""

    def handle_data(self, data: str) -> None:
        if self._skip or not self._in:
            return
        if self._in == "caption":
            self._caption += data.strip()
        else:
            self.rows[self._caption][-1][-1] += data

    def of(self, start: str) -> list[list[str]]:
        """Rows of the table whose caption starts so, without its head."""
        rows = next((rows for caption, rows in self.rows.items() if caption.startswith(start)), [[]])
        return [[" ".join(cell.split()) for cell in row] for row in rows[1:]]


@pytest.fixture
def house_id(at: World) -> int:
    """The demo job."""
    return demo.load(at.db)


def found(at: World, job: int, of: Of | None = None) -> JobTakeoff:
    with reading(at.db) as session:
        return counting.of_job(session, job, of)


def set_out(at: World, job: int) -> list[SettingOut]:
    with reading(at.db) as session:
        return [entry for wall in setting_out.of_job(session, job).walls() for entry in wall.entries]


def net(rows: tuple[Row, ...], item: str, words: str = "") -> float:
    return sum(row.net for row in rows if row.item == item and words in row.size)


def file(at: World, job: int, name: str, query: str = "") -> list[list[str]]:
    answer = at.reader.get(f"/jobs/{job}/takeoff/{name}.csv{query}")
    assert answer.headers["content-type"] == "text/csv; charset=utf-8"
    assert f'-takeoff-{name}.csv"' in answer.headers["content-disposition"]
    return list(csv.reader(io.StringIO(answer.text)))


def body(lines: list[list[str]]) -> list[dict[str, str]]:
    end = lines.index([])
    return [dict(zip(lines[0], line, strict=True)) for line in lines[1:end]]


def test_the_takeoff_counts_exactly_what_setting_out_sets_over_the_whole_demo(at: World, house_id: int) -> None:
    taken, entries = found(at, house_id), set_out(at, house_id)
    assert {entry.kind for entry in entries} >= set(SET) - {"gable_end"}, "the demo shows every kind"
    assert not taken.left_out
    for entry in entries:
        own = taken.whole.of(entry.wall, entry.kind, entry.tag)
        own = tuple(row for row in own if row.level == entry.level) if entry.kind == WALL else own
        for what, item in BOUGHT.items():
            if not (item == "anchor" and entry.kind in ("anchored_plate", "gable_end")):
                assert net(own, item) == entry.count(what), (entry.tag, what)
        assert net(own, "bar", "stirrup") == entry.count("stirrup")
        assert net(own, "foam cut", "pocket") == entry.count("pocket")
        assert net(own, "hanger") == (entry.count("joist") if entry.kind == "bolted_ledger" else 0)
        if entry.kind != "gable_end":
            assert net(own, "sill piece") + net(own, "ledger piece") == len(entry.pieces)
    counts = Counter[str]()
    for entry in entries:
        counts.update({what: entry.count(what) for what in (*BOUGHT, "stirrup", "pocket", "joist", "bar")})
    assert all(counts.values()), "the demo sets out some of everything"


def test_extra_bars_beside_openings_and_pockets_are_those_set_out(at: World, house_id: int) -> None:
    """Beside every opening one bar a layer on each side, and one a layer under its sill and over its head."""
    taken, entries = found(at, house_id), set_out(at, house_id)
    with reading(at.db) as session:
        walls = {wall.row.name: wall.built for wall in setting_out.of_job(session, house_id).walls()}
    for entry in entries:
        wall = walls[entry.wall]
        assert wall is not None
        if entry.kind == "beam_pocket":
            assert net(taken.whole.of(tag=entry.tag), "bar") == entry.count("bar")
        if entry.kind == WALL:
            storey = wall.storeys[entry.level - 1]
            layers = max(curtains_of(wall.types[storey.type]), 1)
            own = [o for o in wall.openings if o.storey == entry.level]
            level = sum((o.sill_ft > 0) + (o.head_ft < storey.height_ft) for o in own) * layers
            rows = [r for r in taken.whole.of(entry.wall, WALL) if r.level == entry.level]
            beside = sum(r.net for r in rows if r.source == "bars round openings" and f"No. {TRIM}" in r.size)
            assert beside == entry.count("bar") + level


def test_every_total_is_on_the_page_as_it_is_counted(at: World, house_id: int) -> None:
    tables = Tables(at.reader.get(f"/jobs/{house_id}/takeoff").text)
    taken = found(at, house_id)
    for name, totals in taken.grouped().items():
        if name == "Bars":
            continue
        shown = [(row[0], row[-1] if name == "Wood" else row) for row in tables.of(name)]
        expected = [f"{ITEMS[t.item][0]} {t.size}" for t in totals]
        assert [words for words, _ in shown][: len(expected)] == expected
    hardware = {row[0]: row for row in tables.of("Plates")}
    for total in taken.grouped()["Plates, bolts and hardware"]:
        row = hardware[f"{ITEMS[total.item][0]} {total.size}"]
        assert row[1] == amount(total.net, total.unit, "ft in")
        assert row[3] == amount(total.total, total.unit, "ft in")
        assert row[4] == ("" if total.boxes is None else str(total.boxes))


def test_the_bar_list_on_the_page_holds_every_bar(at: World, house_id: int) -> None:
    rows = Tables(at.reader.get(f"/jobs/{house_id}/takeoff").text).of("Bar list")
    taken = found(at, house_id)
    assert [(row[0], row[3], row[4]) for row in rows] == [
        (line.mark, str(line.count), feet_inches(line.each_in)) for line in taken.bars
    ]
    assert sum(int(row[3]) for row in rows) == net(taken.rows, "bar")
    by_size = Tables(at.reader.get(f"/jobs/{house_id}/takeoff").text).of("Bars by size")
    assert int(by_size[-1][1]) == net(taken.rows, "bar")


def test_what_is_behind_a_total_adds_up_to_it(at: World, house_id: int) -> None:
    taken = found(at, house_id)
    for total in taken.totals:
        behind = taken.behind(total)
        assert sum(row.net for row in behind) == pytest.approx(total.net)
        assert {row.wall for row in behind} <= set(taken.walls)


def test_concrete_by_wall_and_lift_adds_up_to_all_concrete(at: World, house_id: int) -> None:
    rows = Tables(at.reader.get(f"/jobs/{house_id}/takeoff").text).of("Concrete by wall")
    total = net(found(at, house_id).rows, "concrete")
    assert float(rows[-1][-1]) == pytest.approx(total, abs=0.005)
    assert sum(float(row[-1]) for row in rows[:-1]) == pytest.approx(total, abs=0.005 * len(rows))


def test_the_offices_waste_is_on_top_and_whole_things_stay_whole(at: World, house_id: int) -> None:
    before = {(t.item, t.size): t for t in found(at, house_id).totals}
    version = at.reader.page("/office/takeoff").values["version"]
    at.reader.follow(
        at.reader.post("/office/takeoff", data=values(version, **{"waste-anchor": "7", "waste-concrete": "5 %"}))
    )
    for total in found(at, house_id).totals:
        if total.item == "anchor":
            assert total.total == ceil(before[total.item, total.size].net * 1.07 - 1e-6)
        if total.item == "concrete":
            assert total.total == pytest.approx(total.net * 1.05)
    hardware = Tables(at.reader.get(f"/jobs/{house_id}/takeoff").text).of("Plates")
    (row,) = [row for row in hardware if row[0].startswith("Anchor bolts 1/2 in")]
    assert (row[1], row[2], row[3]) == ("45", "7 %", "49")  # 45 x 1.07 = 48.15


def values(version: str, **changes: str) -> dict[str, str]:
    usual = {
        "units": "ft in", "version": version, "form_length_in": "48", "corner_leg_in": "0", "special_length_in": "48",
        "lift_ft": "4", "stock_ft": "20", "tie_width_in": "4", "screws_a_box": "100",
    }  # fmt: skip
    return usual | changes


def test_boxes_follow_the_offices_own(at: World, house_id: int) -> None:
    version = at.reader.page("/office/takeoff").values["version"]
    at.reader.follow(at.reader.post("/office/takeoff", data=values(version, screws_a_box="25")))
    for total in found(at, house_id).totals:
        if total.item == "screw":
            assert total.boxes == ceil(total.net / 25)


def test_stations_moved_by_hand_are_what_is_counted(at: World, job: int) -> None:
    taken = found(at, job)
    count = net(taken.whole.of(tag="A1"), "anchor")
    with reading(at.db) as session:
        spot = Spot("A1", "anchor")
        stations = setting_out.of_job(session, job).wall(taken.walls["W1"]).entry("A1").stations("anchor")
        version = setting_out.version_of(session, job, taken.walls["W1"], spot)
    assert count == len(stations)
    setting_out.move(at.db, job, taken.walls["W1"], spot, (*stations, stations[-1] - 5.0), version)
    assert net(found(at, job).whole.of(tag="A1"), "anchor") == count + 1
    page = at.reader.get(f"/jobs/{job}/takeoff?attachment=A1").text
    assert "1 place so far" in page
    assert [row[1] for row in Tables(page).of("Plates") if row[0].startswith("Anchor bolts")] == [str(int(count) + 1)]
    assert [
        line["net"] for line in body(file(at, job, "totals", "?attachment=A1")) if line["item"] == "Anchor bolts"
    ] == [str(int(count) + 1)]


@pytest.mark.parametrize(
    ("query", "of"),
    [
        ("?wall=W5", Of(wall="W5")),
        ("?kind=sill_plate", Of(kind="sill_plate")),
        ("?kind=wall", Of(kind=WALL)),
        ("?attachment=A4", Of(tag="A4")),
        ("?wall=W1&kind=wall", Of("W1", WALL)),
    ],
)
def test_a_part_of_a_job_is_counted_alone(at: World, house_id: int, query: str, of: Of) -> None:
    page = at.reader.get(f"/jobs/{house_id}/takeoff{query}").text
    taken = found(at, house_id, of)
    assert taken.rows
    assert "Only a part of the job is counted here" in page
    assert sum(len(rows) for rows in (Tables(page).of(name) for name in taken.grouped() if name != "Bars")) == len(
        [t for t in taken.totals if t.item != "bar"]
    ) + bool(net(taken.rows, "concrete"))
    lines = body(file(at, house_id, "rows", query))
    assert len(lines) == len(taken.rows)
    assert all(not of.wall or line["wall"] == of.wall for line in lines)


def test_parts_add_up_to_the_job(at: World, house_id: int) -> None:
    taken = found(at, house_id)
    assert sum(len(taken.whole.of(name)) for name in taken.walls) == len(taken.rows)
    assert sum(len(taken.whole.of(kind=kind)) for kind in {*taken.tags.values(), WALL}) == len(taken.rows)


def test_a_part_that_is_not_there_says_so(at: World, house_id: int) -> None:
    answer = at.reader.get(f"/jobs/{house_id}/takeoff?wall=W99&kind=%3Cb%3E")
    assert "Nothing is counted for this part" in answer.text
    assert "Show the whole job" in answer.text


def test_files_hold_what_the_page_holds(at: World, house_id: int) -> None:
    taken = found(at, house_id)
    totals, bars, rows = (file(at, house_id, name) for name in ("totals", "bars", "rows"))
    assert [(t["item"], t["size"], t["net"]) for t in body(totals)] == [
        (ITEMS[t.item][0], t.size, f"{t.net:.6g}") for t in taken.totals
    ]
    assert [(b["mark"], b["bars"]) for b in body(bars)] == [(line.mark, str(line.count)) for line in taken.bars]
    assert [(r["wall"], r["attachment"], r["from"]) for r in body(rows)] == [
        (r.wall, r.tag, r.source) for r in taken.rows
    ]
    for lines in (totals, bars, rows):
        foot = [line[0] for line in lines[lines.index([]) + 1 :]]
        assert "licensed engineer" in foot[0]
        assert any(all(words in line for words in OUTSIDE) for line in foot)


def test_what_cannot_be_counted_is_said_on_the_page_and_in_the_files(at: World, job: int) -> None:
    with writing(at.db) as session:
        wall = session.get_one(Wall, found(at, job).walls["W1"])
        wall.line = {"length_ft": "8 ft"}
    page = at.reader.get(f"/jobs/{job}/takeoff").text
    assert "Ends at: Wall W1 is 8 ft long." in page
    assert f'href="/jobs/{job}/attachments/A1"' in page
    assert any(line and line[0].startswith("Not counted: W1 A1: Ends at") for line in file(at, job, "totals"))
    assert "Ends at: Wall W1" not in at.reader.get(f"/jobs/{job}/takeoff?wall=W2").text


def test_an_empty_job_says_what_to_do_next(at: World) -> None:
    job = at.job(walls=[], attachments=[])
    page = at.reader.get(f"/jobs/{job}/takeoff").text
    assert "There is nothing to count yet." in page
    assert f'href="/jobs/{job}/walls"' in page
    assert len(body(file(at, job, "totals"))) == 0


def test_a_reader_of_millimetres_gets_metric_amounts(at: World, house_id: int) -> None:
    at.reader.post("/units", data={"units": "mm", "back": "/"})
    page = at.reader.get(f"/jobs/{house_id}/takeoff").text
    yards = net(found(at, house_id).rows, "concrete")
    assert f"{yards * 0.764554857984:,.2f} m³" in page  # a yard is 0.9144 m
    assert " kg</td>" in page
    assert " lb</td>" not in page


def test_a_takeoff_is_read_in_as_many_queries_whatever_the_jobs_size(at: World, job: int, house_id: int) -> None:
    counts = []
    for one in (job, house_id):
        with at.counted() as sent:
            at.reader.page(f"/jobs/{one}/takeoff")
        counts.append(len(sent))
    assert counts[0] == counts[1]


def test_a_text_of_the_office_that_can_no_longer_be_used_counts_as_never_typed(at: World, job: int) -> None:
    with writing(at.db) as session:
        row = session.get_one(Office, 1)
        row.takeoff, row.waste = {"lift_ft": "gone", "stock_ft": "40 ft"}, {"anchor": "many", "bar": "-3", "nut": "2"}
    taken = found(at, job)
    assert (taken.values.lift_ft, taken.values.stock_ft, taken.waste) == (4.0, 40.0, {"nut": 2.0})
