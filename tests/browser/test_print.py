"""Pages on paper: nothing to press, caution and title strip kept, tables with their heads; and the component page."""

import io
import re
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Browser, Page

from tests.browser.conftest import AXE, open_page

pytestmark = pytest.mark.browser
PATHS = (
    "/jobs",
    "/jobs/1",
    "/jobs/1/types",
    "/jobs/1/types/1",
    "/jobs/1/walls",
    "/jobs/1/walls/1",
    "/jobs/1/attachments/A1",
    "/jobs/1/attachments/A14",
    "/jobs/1/floor-lines",
    "/jobs/1/floor-lines/1",
    "/jobs/1/setting-out",
    "/jobs/1/setting-out/walls/1",
    "/jobs/1/placing",
    "/jobs/1/takeoff",
    "/jobs/1/revisions",
    "/jobs/1/revisions/1",
    "/jobs/1/log",
    "/jobs/1/ready",
    "/jobs/1/ready/1/1",
    "/jobs/1/designs",
    "/log",
    "/people",
    "/account",
    "/office",
    "/proving?size=20",
)
# What a sheet of paper shows, as the browser lays it out.
ON_PAPER = """() => {
  const seen = e => e.checkVisibility({visibilityProperty: true}) && e.getBoundingClientRect().height > 1;
  const look = getComputedStyle;
  const plain = [...document.querySelectorAll('a')].filter(seen).filter(
    a => look(a).textDecorationLine !== 'none' || look(a).color !== look(a.parentElement).color);
  const dark = [...document.querySelectorAll('.verdict-word')].filter(seen).filter(
    e => look(e).color !== 'rgb(0, 0, 0)');
  return {
    pressed: [...document.querySelectorAll('button, nav, input[type=search], input[type=file], summary.button')].filter(seen)
      .map(e => e.outerHTML.slice(0, 90)),
    coloured_links: plain.map(e => e.outerHTML.slice(0, 90)),
    coloured_verdicts: dark.map(e => e.textContent),
    heads: [...document.querySelectorAll('table > thead')].filter(seen).map(e => getComputedStyle(e).display),
    cut: [...document.querySelectorAll('tbody > tr')].filter(seen).map(e => getComputedStyle(e).breakInside),
    foot: document.querySelector('.foot') !== null && seen(document.querySelector('.foot')),
    strip: [...document.querySelectorAll('.strip')].every(seen),
    wide: document.documentElement.scrollWidth,
  };
}"""


@pytest.fixture(scope="module")
def paper(chromium: Browser, address: str) -> Any:
    page = open_page(chromium, address)
    page.context.request.post("/jobs/1/revisions", form={"note": ""}, max_redirects=0)
    page.set_viewport_size({"width": 720, "height": 960})  # Letter between the margins, at 96 px an inch
    page.emulate_media(media="print")
    yield page
    page.context.close()


@pytest.mark.parametrize("path", PATHS)
def test_a_page_is_fit_to_be_printed(paper: Page, path: str) -> None:
    answer = paper.goto(path)
    assert answer is not None
    assert answer.status == 200
    found = paper.evaluate(ON_PAPER)
    assert found["pressed"] == []
    assert found["coloured_links"] == []
    assert found["coloured_verdicts"] == []
    assert set(found["heads"]) <= {"table-header-group"}
    assert set(found["cut"]) <= {"avoid"}
    assert found["foot"], "the caution is missing"
    assert found["strip"], "the title strip is missing"
    assert found["wide"] <= 720


def test_a_printed_page_is_a_document_of_sheets(paper: Page) -> None:
    paper.goto("/jobs/1/takeoff")
    assert paper.pdf(format="Letter", prefer_css_page_size=True).startswith(b"%PDF-")


def sheets(data: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", data))


@pytest.mark.parametrize("size", ["Letter", "A4"])
@pytest.mark.parametrize("tag", ["A1", "A14"])
def test_an_attachment_takes_four_sheets_at_most(paper: Page, tag: str, size: str) -> None:
    paper.goto(f"/jobs/1/attachments/{tag}")
    assert 1 < sheets(paper.pdf(format=size)) <= 4


def test_the_placing_plan_is_one_sheet(paper: Page) -> None:
    paper.goto("/jobs/1/placing")
    assert [sheets(paper.pdf(format=size)) for size in ("Letter", "A4")] == [1, 1]


def test_an_attachment_prints_the_working_that_is_open_and_says_where_the_rest_is(paper: Page) -> None:
    paper.goto("/jobs/1/attachments/A1")
    every = paper.locator(".working")
    shown = every.locator("visible=true")
    assert every.count() > 5
    assert shown.count() == 1
    other = every.last.get_attribute("id")
    paper.goto(f"/jobs/1/attachments/A1#{other}")
    assert shown.evaluate_all("all => all.map(one => one.id)") == [other]
    assert "in the calculation package" in paper.locator(".on-paper").inner_text()
    assert paper.locator(".drawing-files").is_hidden()


def test_what_is_ticked_or_not_is_a_word_on_paper(paper: Page) -> None:
    paper.goto("/jobs/1/attachments/A1")
    said = paper.locator(".field.kind-yes:visible").evaluate_all(
        "all => all.map(f => [f.querySelector('input').checked, getComputedStyle(f, '::after').content])"
    )
    assert said
    assert all(word == ('"yes"' if checked else '"no"') for checked, word in said)


def picture(page: Page, look: str) -> Image.Image:
    page.goto(f"/components?look={look}")
    return Image.open(io.BytesIO(page.screenshot(full_page=True))).convert("RGB")


def test_every_component_and_drawing_is_seen_in_four_ways(chromium: Browser, address: str) -> None:
    page = open_page(chromium, address)
    page.emulate_media(color_scheme="light")
    seen = {look: picture(page, look) for look in ("light", "dark", "print", "grey")}
    kinds = page.locator(".drawn figcaption").all_inner_texts()
    page.context.close()
    assert {"Gable end", "Elevation", "Plan", "Pressure diagram"} <= set(kinds)
    for look, image in seen.items():
        assert image.height > 3000, look
        assert len(image.getcolors(1 << 24) or ()) > 20, f"{look} is empty"
    assert len({image.tobytes() for image in seen.values()}) == 4
    corner = {look: image.getpixel((5, 400)) for look, image in seen.items()}
    assert sum(corner["dark"]) < 120 < 700 < sum(corner["light"])  # type: ignore[arg-type]
    assert corner["print"] == (255, 255, 255)
    assert all(max(c) - min(c) <= 2 for _, c in seen["grey"].getcolors(1 << 24) or ())  # type: ignore[arg-type,type-var]


@pytest.mark.parametrize("look", ["light", "dark", "print", "grey"])
def test_words_of_every_component_can_be_read(chromium: Browser, address: str, look: str) -> None:
    page = open_page(chromium, address)
    page.add_init_script(path=AXE)
    page.goto(f"/components?look={look}")
    run = "() => axe.run(document, {runOnly: ['color-contrast'], resultTypes: ['violations']})"
    found: dict[str, Any] = page.evaluate(run)
    page.context.close()
    assert [node["target"] for rule in found["violations"] for node in rule["nodes"]] == []
