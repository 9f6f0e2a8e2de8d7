"""What people come to do, done in a real browser."""

import re

import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.browser


def verdict(page: Page) -> str:
    return page.locator("#result .verdict-line .verdict-word").inner_text().strip()


def open_groups(page: Page) -> None:
    """On a phone the groups of a form start closed."""
    closed = page.locator("details.group:not([open]) > summary")
    while closed.count():
        closed.first.click()


def test_a_newcomer_reaches_a_verdict_from_the_first_page(page: Page) -> None:
    page.goto("/")
    page.get_by_role("link", name="Joists on a ledge").first.click()
    expect(page.locator("h1")).to_contain_text("joists on a ledge")
    assert verdict(page) == "Pass"
    expect(page.locator(".sheet svg").first).to_be_attached()


def test_verdict_drawing_and_working_change_as_numbers_are_typed(page: Page) -> None:
    page.goto("/try/ledge_seat")
    open_groups(page)
    drawn = page.locator("#result .sheet").first.inner_html()
    depth = page.get_by_label(re.compile("^Joist depth"))
    depth.fill("11 7/8")
    expect(page).to_have_url(re.compile(r"joist_depth_in=11"))
    expect(page.locator("#result")).to_contain_text("Pass")
    assert page.locator("#result .sheet").first.inner_html() != drawn
    page.get_by_label(re.compile("^Lower core")).fill("8")
    expect(page.locator("#result .verdict-line")).to_contain_text("Flag")
    expect(page.locator("#live-status")).to_contain_text("Flag")
    expect(page.locator("#result .limit").first).to_have_class(re.compile("v-flag"))


def test_what_would_make_it_pass_follows_and_can_be_used(page: Page) -> None:
    page.goto("/try/ledge_seat")
    open_groups(page)
    page.get_by_role("textbox", name=re.compile("^Lap into")).fill("12")
    expect(page.locator("#result .verdict-line")).to_contain_text("Flag")
    page.locator(".remedy-use").first.click()
    expect(page.locator("#result .verdict-line")).to_contain_text("Pass")


def test_an_entry_that_cannot_be_read_is_named_while_it_is_typed(page: Page) -> None:
    page.goto("/try/ledge_seat")
    open_groups(page)
    span = page.get_by_label(re.compile("^Span"))
    span.fill("far")
    expect(page.locator("#result")).to_contain_text("“far” can't be read")
    expect(span).to_have_attribute("aria-invalid", "true")
    expect(span).to_be_focused()
    span.fill("13-4")
    expect(page.locator("#result .verdict-line")).to_contain_text("Pass")


def test_a_check_is_shared_by_its_address(desk: Page) -> None:
    desk.goto("/try/ledge_seat")
    desk.get_by_label(re.compile("^Span")).fill("19")
    expect(desk).to_have_url(re.compile("span_ft=19"))
    says = desk.locator("#result .limits").inner_text()
    desk.goto(desk.url)
    assert desk.locator("#result .limits").inner_text() == says
    assert desk.get_by_label(re.compile("^Span")).input_value() == "19"


def test_a_limit_opens_its_working(page: Page) -> None:
    page.goto("/try/ledge_seat")
    link = page.locator(".limit-link").nth(3)
    key = link.get_attribute("href")
    assert key
    link.click()
    expect(page.locator(key)).to_be_visible()
    expect(page.locator(".working:visible")).to_have_count(1)


def test_millimetres_and_back_change_nothing(page: Page) -> None:
    page.goto("/jobs/1/attachments/A2")
    before = page.locator(".limits").inner_text()

    def switch(units: str) -> None:
        if page.locator("details.menu > summary").is_visible() and not page.locator(".units-wide").is_visible():
            page.locator("details.menu > summary").click()
            page.locator(".menu-panel .units button", has_text=units).click()
        else:
            page.locator(".units-wide button", has_text=units).click()

    switch("mm")
    expect(page.locator("#result")).to_contain_text("89 mm")
    switch("ft in")
    expect(page.locator("#result")).to_contain_text("3 1/2 in")
    assert page.locator(".limits").inner_text() == before


def build_a_house(page: Page) -> None:
    """From nothing to an attachment with its verdict, by labels and buttons alone."""
    page.goto("/jobs/new")
    page.get_by_label("Name").fill("House on a slope")
    page.get_by_role("button", name="Save").click()
    page.get_by_role("link", name="Wall types").last.click()
    for name, core in (("Low", "10"), ("High", "6")):
        page.get_by_role("link", name="New wall type").click()
        page.get_by_label("Name").fill(name)
        page.get_by_label(re.compile("^Core thickness")).fill(core)
        page.get_by_role("button", name="Save").click()
    page.goto(re.sub(r"/types$", "/walls/new", page.url))
    page.get_by_label(re.compile("^Length")).fill("24")
    page.get_by_label("Wall type").first.select_option("Low")
    page.get_by_role("button", name="Add a storey").click()
    page.get_by_label("Wall type").nth(1).select_option("High")
    page.locator("form#wall .button.solid").click()
    page.goto(re.sub(r"/walls$", "/attachments/new", page.url))
    page.get_by_label("How it is carried").select_option("ledge_seat")
    page.get_by_role("button", name="Go on").click()


def test_a_floor_is_designed_from_an_empty_job(desk: Page) -> None:
    build_a_house(desk)
    expect(desk.locator("#result .verdict-line")).to_contain_text("Pass")
    desk.get_by_role("button", name="Save").click()
    expect(desk.locator(".notice")).to_contain_text("A1 is kept.")
    desk.get_by_role("link", name="Attachments").first.click()
    expect(desk.locator("#attachments-list")).to_contain_text("A1 Joists on a ledge")
    flag_by_a_thinner_core(desk)
    undo_a_deletion(desk)


def flag_by_a_thinner_core(page: Page) -> None:
    page.get_by_role("link", name="Wall types").first.click()
    page.get_by_role("link", name="Low").click()
    page.get_by_label(re.compile("^Core thickness")).fill("7")
    page.get_by_role("button", name="Save").click()
    page.get_by_role("link", name="Attachments").first.click()
    expect(page.locator(".chip", has_text="Flag")).to_contain_text("1")


def undo_a_deletion(page: Page) -> None:
    page.get_by_role("link", name="A1 Joists on a ledge").click()
    page.get_by_role("button", name="Delete").click()
    expect(page.locator(".notice")).to_contain_text("A1 is deleted.")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("#attachments-list")).to_contain_text("A1 Joists on a ledge")


def test_the_same_without_script(plain: Page) -> None:
    build_a_house(plain)
    assert verdict(plain) == "Pass"
    plain.get_by_role("textbox", name=re.compile("^Lap into")).fill("12")
    plain.get_by_role("button", name="Check", exact=True).click()
    assert verdict(plain) == "Flag"
    plain.get_by_role("button", name="Save").click()
    expect(plain.locator(".notice")).to_contain_text("A1 is kept.")


def test_a_check_is_tried_without_script(plain: Page) -> None:
    plain.goto("/try/ledge_seat")
    plain.get_by_role("textbox", name=re.compile("^Lap into")).fill("12")
    plain.get_by_role("button", name="Check").click()
    assert verdict(plain) == "Flag"
    plain.get_by_role("link", name=re.compile("^Use this")).first.click()
    assert verdict(plain) == "Pass"


def test_the_list_follows_the_search_as_it_is_typed(page: Page) -> None:
    page.goto("/jobs/1")
    page.get_by_label("Find an attachment").fill("pocket")
    expect(page.locator("#attachments-list")).not_to_contain_text("Bolted ledger")
    expect(page.locator("#attachments-list")).to_contain_text("Beam pocket")
    expect(page).to_have_url(re.compile("q=pocket"))
    page.go_back()
    expect(page.locator("#attachments-list")).to_contain_text("Bolted ledger")


def test_every_demo_attachment_opens_with_a_drawing(desk: Page) -> None:
    desk.goto("/jobs/1")
    for href in [link.get_attribute("href") for link in desk.locator(".row-link").all()]:
        assert href
        desk.goto(href)
        expect(desk.locator(".sheet svg").first).to_be_visible()
        assert verdict(desk) in ("Pass", "Flag", "Refer")


@pytest.mark.parametrize(
    ("path", "says"),
    [
        ("/try/ledge_seat?units=ft+in&lower_core_in=8", "The ledge is"),
        ("/try/beam_pocket?units=ft+in&end_gap_in=0", "air"),
        ("/try/bolted_ledger?units=ft+in&contact=gap", "couple|foam"),
        ("/try/cast_in_plate?units=ft+in&screws=3&columns=1", "screws"),
    ],
)
def test_the_faults_the_trade_makes_are_not_passed(desk: Page, path: str, says: str) -> None:
    desk.goto(path)
    assert verdict(desk) in ("Flag", "Refer")
    expect(desk.locator("#result")).to_contain_text(re.compile(says, re.IGNORECASE))
