"""The look of the pages: colours that can be told apart, marks that need no colour, and markup the content policy allows."""

import re
from hashlib import sha256
from math import inf
from pathlib import Path

import pytest

from engine.editions import Citation
from engine.result import LimitState
from tests.webapp.steps import a_line
from webapp import filters, marks

ROOT = Path(__file__).parents[2]
STATIC = ROOT / "static"
TEMPLATES = ROOT / "templates"
STYLES = (STATIC / "wallseat.css").read_text(encoding="utf-8")


# Contrast. WCAG 2.2, 1.4.3: text 4.5 to 1; 1.4.11: parts of controls 3 to 1. Luminance: WCAG 2.2, definition of relative luminance.


def luminance(colour: str) -> float:
    digits = colour.lstrip("#")
    digits = "".join(2 * d for d in digits) if len(digits) == 3 else digits
    parts = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def palettes() -> dict[str, dict[str, str]]:
    pairs = re.findall(r"--([\w-]+): light-dark\((#\w+), (#\w+)\)", STYLES)
    printed = re.search(r"\.theme-print \{(.*?)\}", STYLES, re.DOTALL)
    assert printed is not None
    return {
        "light": {name: light for name, light, _ in pairs},
        "dark": {name: dark for name, _, dark in pairs},
        "print": dict(re.findall(r"--([\w-]+): (#\w+)", printed[1])),
    }


TEXT_PAIRS = [
    *((ink, ground) for ink in ("ink", "ink-2", "ink-3", "accent") for ground in ("paper", "wash")),
    *((verdict, ground) for verdict in ("pass", "flag", "refer", "advisory") for ground in ("paper", "wash", f"{verdict}-wash")),
    ("accent", "accent-wash"),
    ("on-accent", "accent"),
]  # fmt: skip


@pytest.mark.parametrize("way", ["light", "dark", "print"])
def test_words_can_be_read_on_every_ground_they_stand_on(way: str) -> None:
    palette = palettes()[way]
    weak = {pair: contrast(palette[pair[0]], palette[pair[1]]) for pair in TEXT_PAIRS}
    assert {pair: ratio for pair, ratio in weak.items() if ratio < 4.5} == {}


@pytest.mark.parametrize("way", ["light", "dark", "print"])
def test_borders_of_controls_and_lines_of_drawings_can_be_seen(way: str) -> None:
    palette = palettes()[way]
    for name in ("rule", "foam-line", "concrete-dot", "wood-grain"):
        assert contrast(palette[name], palette["paper"]) >= 3, name


def test_contrast_is_counted_as_the_guidelines_count_it() -> None:
    assert contrast("#000", "#fff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


def test_every_token_that_is_used_is_there() -> None:
    used = set(re.findall(r"var\(--([\w-]+)\)", STYLES))
    assert used - set(re.findall(r"--([\w-]+):", STYLES)) == set()


def test_paper_and_the_print_theme_use_the_same_inks() -> None:
    on_paper = STYLES[STYLES.index("@media print") :]
    for name in ("ink", "ink-2", "ink-3", "rule", "pass", "flag", "refer", "advisory"):
        found = re.search(rf"--{name}: (#\w+)", on_paper)
        assert found is not None, name
        assert found[1] == palettes()["print"][name]


# Content policy


@pytest.mark.parametrize("path", sorted(TEMPLATES.rglob("*.html")), ids=lambda path: path.name)
def test_no_template_asks_for_what_the_content_policy_forbids(path: Path) -> None:
    text = re.sub(r"\{#.*?#\}", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    assert not re.search(
        r"\sstyle\s*=|<style|\son[a-z]+\s*=\s*[\"']|hx-on|javascript:|hx-vals\s*=\s*.js:", text, re.IGNORECASE
    )
    assert not re.search(r"<script(?![^>]*\bsrc=)", text), "a script without a source"
    assert not re.search(r"hx-trigger=\"[^\"]*\[", text), "a trigger filter needs eval"
    assert not re.search(r"(?:src|href)=\"(?:https?:)?//", text), "an address elsewhere"


def test_own_scripts_build_no_code_from_text() -> None:
    for path in STATIC.glob("*.js"):
        if "htmx" not in path.name:
            assert not re.search(
                r"\beval\(|new Function|\.style\b|setAttribute\(\"style|innerHTML|https?://", path.read_text()
            ), path


def test_the_stylesheet_fetches_nothing() -> None:
    assert "url(" not in STYLES
    assert "@import" not in STYLES


@pytest.mark.parametrize("record", [STATIC / "VENDORED.md", ROOT / "tests" / "browser" / "vendor" / "README.md"])
def test_what_others_wrote_is_what_was_recorded(record: Path) -> None:
    rows = re.findall(r"^\| (\S+\.js) \|.*\| ([0-9a-f]{64}) \|$", record.read_text(encoding="utf-8"), re.MULTILINE)
    assert rows
    for name, wanted in rows:
        assert sha256((record.parent / name).read_bytes()).hexdigest() == wanted


def test_a_static_address_carries_the_files_fingerprint() -> None:
    wanted = sha256((STATIC / "wallseat.css").read_bytes()).hexdigest()[:10]
    assert filters.static_url("wallseat.css") == f"/static/wallseat.css?v={wanted}"


# Marks and lines


def test_each_verdict_has_a_shape_and_a_word_of_its_own() -> None:
    verdicts = ("pass", "flag", "refer", "advisory", "not checked")
    assert len({marks.verdict_mark(verdict) for verdict in verdicts}) == 5
    assert [marks.sign(verdict).word for verdict in verdicts] == ["Pass", "Flag", "Refer", "Advisory", "Not checked"]


def test_marks_take_the_colour_of_the_text_beside_them() -> None:
    for verdict in ("pass", "flag", "refer", "advisory", "draft"):
        assert set(re.findall(r"(?:fill|stroke)=\"([^\"]+)\"", marks.verdict_mark(verdict))) <= {"currentColor", "none"}


def test_a_state_without_a_decision_gets_a_dash() -> None:
    for state in ("submitted", "superseded", "draft", "under review", ""):
        assert marks.sign(state).shape == "dash"
    assert marks.sign("accepted").shape == marks.sign("pass").shape


def drawn_to(sign: str, css: str = "dim-demand") -> float:
    found = re.search(rf'<line class="{css}" x1="0" x2="([\d.]+)%"', sign)
    assert found is not None
    return float(found[1])


def test_utilisation_is_drawn_to_scale() -> None:
    assert drawn_to(marks.dimension_line(a_line(0.8))) == pytest.approx(50)
    assert drawn_to(marks.dimension_line(a_line(0.0))) == 0
    assert 'x="62.50%"' in marks.dimension_line(a_line(0.3)), "1.0 stands at ten sixteenths"


def test_a_line_above_one_is_thick() -> None:
    above, at = marks.dimension_line(a_line(1.17)), marks.dimension_line(a_line(1.0))
    assert 'stroke-width="6.0"' in above
    assert 'stroke-width="6.0"' not in at
    assert 'stroke-width="3.0"' in at


@pytest.mark.parametrize("ratio", [1.61, 5.0, inf])
def test_beyond_the_scale_the_line_breaks_off_at_its_end(ratio: float) -> None:
    state = LimitState("key", "A line", Citation("x"), 1.0, 0.0) if ratio == inf else a_line(ratio)
    drawn = marks.dimension_line(state)
    assert drawn_to(drawn) == 100
    assert marks._BREAK in drawn
    assert marks._BREAK not in marks.dimension_line(a_line(1.6))


def test_an_advisory_line_ends_in_an_open_box_over_its_spread() -> None:
    drawn = marks.dimension_line(a_line(1.56, advisory=True, spread=(0.8, 1.56)))
    assert drawn_to(drawn) == pytest.approx(50)
    assert re.search(r'<rect class="dim-box" x="50.00%" y="[\d.]+" width="47.50%" height="7" fill="none"', drawn)


def test_a_line_without_numbers_has_no_dimension() -> None:
    assert marks.dimension_line(LimitState("key", "A line", Citation("x"), holds=False)) == ""
