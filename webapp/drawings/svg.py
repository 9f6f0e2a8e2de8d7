"""A sheet as SVG: presentation attributes and classes only, ids under one prefix, a finding and a description in words."""

from collections.abc import Iterable
from html import escape

from webapp.drawings import marks
from webapp.drawings.hatches import BRICK, EARTH, FOAM_STEP, FOAM_STEP_LENS, TILE, stipple
from webapp.drawings.lettering import Run
from webapp.drawings.paper import (
    GEOMETRY_LAYERS,
    Comb,
    Fill,
    Group,
    Ink,
    Line,
    Measured,
    Panel,
    Pixel,
    Sheet,
    Sign,
    Words,
)
from webapp.drawings.shapes import PENS, Material, Pen

GROUNDS = {Material.CONCRETE: "concrete", Material.WOOD_CUT: "wood", Material.WOOD_SEEN: "wood"}
PATTERNED = (Material.CONCRETE, Material.FOAM, Material.BRICK, Material.EARTH)
HALO = 5


def _n(value: float) -> str:
    return f"{value:.5g}"


def _path(points: Iterable[Pixel], closed: bool = False) -> str:
    return "M" + "L".join([f"{x:.5g} {y:.5g}" for x, y in points]) + ("Z" if closed else "")


def _segment(points: tuple[Pixel, ...]) -> str:
    """One of many lines; an upright or level one in its shortest form."""
    if len(points) == 2:
        (ax, ay), (bx, by) = points
        if ax == bx:
            return f"M{ax:.5g} {ay:.5g}V{by:.5g}"
        if ay == by:
            return f"M{ax:.5g} {ay:.5g}H{bx:.5g}"
    return _path(points)


def _class(*names: str) -> str:
    return f'class="{" ".join(name for name in names if name)}"'


def _tone(tone: str) -> str:
    return f"tn tn-{tone}" if tone else ""


def _pen(pen: Pen, tone: str = "") -> str:
    width, dash = PENS[pen]
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return f'{_class(f"p-{pen}", _tone(tone))} stroke-width="{width}"{dashes}'


class Writer:
    """Writes one sheet; `prefix` keeps its ids apart from those of other drawings on the page."""

    def __init__(self, sheet: Sheet, prefix: str) -> None:
        self.sheet = sheet
        self.prefix = prefix
        self.hatches: dict[str, str] = {}

    def text(self) -> str:
        """The whole drawing."""
        panels = [self._panel(number, panel) for number, panel in enumerate(self.sheet.panels)]
        dimensions = [self._annotation(ink) for ink in self.sheet.dimensions]
        groups = [self._group(group) for group in self.sheet.groups]
        halos = [self._halo(words) for words in self.sheet.words if words.halo]
        letters = [self._words(words) for words in self.sheet.words]
        signs = [self._sign(sign) for sign in self.sheet.signs]
        w, h = _n(self.sheet.width), _n(self.sheet.height)
        title, desc = f"{self.prefix}-title", f"{self.prefix}-desc"
        # Nothing in an image can be pressed or moved.
        role = "group" if any(group.href or group.data for group in self.sheet.groups) else "img"
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="dwg" viewBox="0 0 {w} {h}" width="{w}" height="{h}" role="{role}" '
            f'aria-labelledby="{title}" aria-describedby="{desc}" fill="none" stroke-linejoin="miter">'
            f'<title id="{title}">{escape(self.sheet.finding)}</title>'
            f'<desc id="{desc}">{escape(self.sheet.description)}</desc>'
        )
        defs = f"<defs>{''.join(self.hatches.values())}</defs>" if self.hatches else ""
        body = (panels, ['<g class="l-dimensions">', *dimensions, "</g>"], groups,
                ['<g class="l-halo">', *halos, "</g>"], ['<g class="l-text">', *letters, "</g>"], signs)  # fmt: skip
        return head + defs + "".join(part for parts in body for part in parts) + "</svg>"

    def _panel(self, number: int, panel: Panel) -> str:
        layers = []
        for name in GEOMETRY_LAYERS:
            ink = panel.layers[name]
            if ink:
                layers.append(f'<g class="l-{name}">{"".join([self._ink(one) for one in ink])}</g>')
        scale = f'data-scale="{panel.scale:.6g}"'
        if panel.lens is None:
            return f"<g {scale}>{''.join(layers)}</g>"
        x, y, r = (_n(value) for value in panel.lens)
        clip = f"{self.prefix}-lens{number}"
        self.hatches[clip] = f'<clipPath id="{clip}"><circle cx="{x}" cy="{y}" r="{r}"/></clipPath>'
        ground = f'<circle class="f-paper" cx="{x}" cy="{y}" r="{r}"/>'
        return f'{ground}<g {scale} clip-path="url(#{clip})">{"".join(layers)}</g>'

    def _annotation(self, ink: Measured | Ink) -> str:
        if not isinstance(ink, Measured):
            return self._ink(ink)
        lines = "".join([self._ink(line) for line in ink.lines])
        return f'<g data-inches="{ink.inches:.6g}" data-scale="{ink.scale:.6g}">{lines}</g>'

    def _group(self, group: Group) -> str:
        data = "".join([f' data-{name}="{escape(value)}"' for name, value in group.data.items()])
        inner = "".join([self._ink(ink) for ink in group.ink])
        inner += "".join([self._halo(words) for words in group.words if words.halo])
        inner += "".join([self._words(words) for words in group.words])
        inner += "".join([self._sign(sign) for sign in group.signs])
        if not group.href:
            return f"<g{data}>{inner}</g>"
        label = escape(group.label)
        return f'<a class="d-link" href="{escape(group.href)}" aria-label="{label}"{data}><title>{label}</title>{inner}</a>'

    def _ink(self, ink: Ink) -> str:
        if isinstance(ink, Line):
            return f'<path {_pen(ink.pen, ink.tone)} d="{_path(ink.points, ink.closed)}"/>'
        if isinstance(ink, Comb):
            return f'<path {_pen(ink.pen, ink.tone)} d="{"".join([_segment(line) for line in ink.lines])}"/>'
        if isinstance(ink, Fill):
            return self._fill(ink)
        where = f'cx="{_n(ink.x)}" cy="{_n(ink.y)}" r="{_n(ink.r)}"'
        tone = _tone(ink.tone)
        if ink.pen is None:
            return f"<circle {_class(f'f-{ink.fill}', tone)} {where}/>"
        width, dash = PENS[ink.pen]
        dashes = f' stroke-dasharray="{dash}"' if dash else ""
        fill = ink.fill and f"f-{ink.fill}"
        return f'<circle {_class(f"p-{ink.pen}", fill, tone)} stroke-width="{width}"{dashes} {where}/>'

    def _fill(self, ink: Fill) -> str:
        path = _path(ink.points, closed=True)
        if ink.what not in PATTERNED:
            extra = ' fill-opacity="0.17"' if ink.what == "tint" else ""
            return f'<path {_class(f"f-{ink.what}", _tone(ink.tone))}{extra} d="{path}"/>'
        hatch = self._hatch(Material(ink.what), ink.zoom > 1)
        ground = "concrete" if ink.what == Material.CONCRETE else "paper"
        return f'<path class="f-{ground}" d="{path}"/><path fill="url(#{hatch})" d="{path}"/>'

    def _hatch(self, material: Material, lens: bool) -> str:
        name = f"{self.prefix}-{material}{'-lens' if lens else ''}"
        if name not in self.hatches:
            self.hatches[name] = _pattern(name, material, lens)
        return name

    def _halo(self, words: Words) -> str:
        return self._letters(words, f'class="halo" stroke-width="{HALO}" stroke-linejoin="round"')

    def _words(self, words: Words) -> str:
        tone = _tone(words.tone)
        weight = ' font-weight="700"' if words.letters.bold else ""
        return self._letters(words, f"{_class(f'w-{words.role}', tone)}{weight}")

    def _letters(self, words: Words, attributes: str) -> str:
        turn = f' transform="rotate(-90 {_n(words.x)} {_n(words.y)})"' if words.turned else ""
        runs = words.letters.runs
        size = _n(words.letters.size)
        if len(runs) == 1:
            length = f' textLength="{_n(words.letters.width)}" lengthAdjust="spacingAndGlyphs"' if runs[0].text else ""
            return (
                f'<text x="{_n(words.x)}" y="{_n(words.y)}" font-size="{size}"{length} {attributes}{turn}>'
                f"{escape(runs[0].text)}</text>"
            )
        spans = "".join([self._run(words, run) for run in runs])
        return f'<text font-size="{size}" {attributes}{turn}>{spans}</text>'

    @staticmethod
    def _run(words: Words, run: Run) -> str:
        size = f' font-size="{_n(run.size)}"' if run.size != words.letters.size else ""
        return f'<tspan x="{_n(words.x + run.x)}" y="{_n(words.y - run.rise)}"{size}>{escape(run.text)}</tspan>'

    @staticmethod
    def _sign(sign: Sign) -> str:
        parts = []
        for part in marks.MARKS[sign.verdict]:
            cut = " cut" if part.cut else ""
            if part.radius:
                (x, y) = part.points[0]
                parts.append(f'<circle class="ms" stroke-width="{part.width}" cx="{x}" cy="{y}" r="{part.radius}"/>')
            elif part.width:
                parts.append(f'<path class="ms{cut}" stroke-width="{part.width}" d="{_path(part.points)}"/>')
            else:
                parts.append(f'<path class="mf{cut}" d="{_path(part.points, closed=True)}"/>')
        zoom = sign.size / 20
        return (
            f'<g class="mark {_tone(sign.verdict.replace(" ", "-"))}" '
            f'transform="translate({_n(sign.x)} {_n(sign.y)}) scale({_n(zoom)})">{"".join(parts)}</g>'
        )


def _pattern(name: str, material: Material, lens: bool) -> str:
    if material is Material.CONCRETE:
        return _tile(name, TILE, TILE, _dots(1.4 if lens else 1.0))
    if material is Material.FOAM:
        s = (FOAM_STEP_LENS if lens else FOAM_STEP) * 2**0.5
        line = f"M-1 1L1 -1M0 {_n(s)}L{_n(s)} 0M{_n(s - 1)} {_n(s + 1)}L{_n(s + 1)} {_n(s - 1)}"
        return _tile(name, s, s, f'<path class="p-hatch" stroke-width="0.7" d="{line}"/>')
    if material is Material.BRICK:
        w, h = BRICK
        d = f"M0 0H{_n(w)}M0 {_n(h)}H{_n(w)}M0 0V{_n(h)}M{_n(w / 2)} {_n(h)}V{_n(2 * h)}M0 {_n(2 * h)}H{_n(w)}"
        return _tile(name, w, 2 * h, f'<path class="p-hatch" stroke-width="0.7" d="{d}"/>')
    s = EARTH / 2
    threes = "".join(f"M{_n(1 + 2.6 * k)} {_n(s - 2 - 0.4 * k)}l4 -4" for k in range(3))
    threes += "".join(f"M{_n(s + 1 + 2.6 * k)} {_n(2 * s - 7 + 0.4 * k)}l4 4" for k in range(3))
    return _tile(name, EARTH, EARTH, f'<path class="p-hatch" stroke-width="0.7" d="{threes}"/>')


def _tile(name: str, width: float, height: float, inner: str) -> str:
    return f'<pattern id="{name}" width="{_n(width)}" height="{_n(height)}" patternUnits="userSpaceOnUse">{inner}</pattern>'


def _dots(zoom: float) -> str:
    tile = stipple()
    paths = []
    for radius in sorted({r for _, _, r in tile.dots}):
        dots = "".join(f"M{x:.1f} {y:.1f}h0" for x, y, r in tile.dots if r == radius)
        paths.append(f'<path class="p-dot" stroke-linecap="round" stroke-width="{_n(2 * radius * zoom)}" d="{dots}"/>')
    triangles = "".join(_path([(round(x, 1), round(y, 1)) for x, y in corners], True) for corners in tile.triangles)
    return "".join(paths) + f'<path class="p-hatch" stroke-width="0.6" d="{triangles}"/>'


def render(sheet: Sheet, prefix: str) -> str:
    """The sheet as an SVG element. Args: prefix: of every id in it; letters, digits and hyphens."""
    return Writer(sheet, prefix).text()


def slug(text: str) -> str:
    """A prefix for ids made of some name."""
    return "d-" + "".join(letter if letter.isascii() and letter.isalnum() else "-" for letter in text.lower())
