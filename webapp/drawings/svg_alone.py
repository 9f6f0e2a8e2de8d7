"""An SVG as a file of its own: every colour the stylesheet would give it as an attribute, for whoever opens it elsewhere."""

import re
from html import escape

INK, INK_2, INK_3, PAPER = "#15191c", "#474e54", "#646b71", "#fcfcfa"
STROKES = {
    "p-hidden": INK_2, "p-needed": INK_2, "p-centre": INK_3, "p-dimension": INK_3, "p-hatch": "#8e928e", "p-grain": "#9c8250",
    "p-dot": "#5e6468", "halo": PAPER, "cut": PAPER,
}  # fmt: skip
FILLS = {
    "f-concrete": "#f4f4f0", "f-wood-cut": "#faf5ea", "f-wood-seen": "#faf5ea", "f-steel-cut": INK, "f-solid": INK,
    "f-steel-seen": PAPER, "f-paper": PAPER, "f-air": PAPER, "halo": PAPER, "w-sub": INK_3,
}  # fmt: skip
TONES = {
    "tn-pass": "#00574d",
    "tn-flag": "#b34a00",
    "tn-refer": "#9440a6",
    "tn-advisory": "#656b71",
    "tn-not-checked": "#656b71",
}
FACE = "Arial Narrow, Liberation Sans Narrow, Helvetica Neue, Arial, sans-serif"
CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\ufffe\uffff]")  # XML has no letters for most of them
HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'


def alone(markup: str, said: str = "") -> str:
    """A rendered drawing with its colours written out. Args: said: where it comes from, among the file's properties."""
    coloured = re.sub(r'<(\w+)([^>]*?)class="([^"]*)"', _coloured, markup)
    whole = HEAD + coloured.replace("<svg ", f'<svg font-family="{FACE}" color="{INK}" ', 1)
    return (
        whole.replace("</desc>", f"</desc><metadata>{escape(CONTROL.sub(' ', said))}</metadata>", 1) if said else whole
    )


def _coloured(match: re.Match[str]) -> str:
    tag, before, names = match[1], match[2], match[3].split()
    tone = next((TONES[name] for name in names if name in TONES), "")
    stroke = next((STROKES[name] for name in names if name in STROKES), "")
    fill = next((FILLS[name] for name in names if name in FILLS), "")
    if any(name.startswith("p-") for name in names):
        stroke = tone or stroke or INK
    if "f-tint" in names or ("f-solid" in names and tone):
        fill = tone
    if tag == "text":
        fill = tone or fill or INK
    if "mf" in names:
        fill = PAPER if "cut" in names else "currentColor"
    if "ms" in names:
        stroke = PAPER if "cut" in names else "currentColor"
    said = f' stroke="{stroke}"' if stroke and "mf" not in names else ""
    said += f' fill="{fill}"' if fill else ""
    said += f' color="{tone}"' if tag == "g" and tone else ""
    return f'<{tag}{before}class="{match[3]}"{said}'
