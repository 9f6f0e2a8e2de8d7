"""Text for paper: what the typesetter's own fonts can show, in words what they can't. Nothing typed stops a sheet."""

import re
import unicodedata
from collections.abc import Mapping
from typing import Any

# Signs that one of the fonts inside typst 0.15 has, read from their tables, without marks that
# stand on another sign: those are drawn only where the font happens to know the pair. Tests set every one of them.
RANGES = """
20-7e a0-ac ae-2ff 370-377 37a-37f 384-38a 38c 38e-3a1 3a3-482 48a-4ff 510-513 51a-51d 531-556 559-58a 58d-58f 5be 5c0
5c3 5c6 5d0-5ea 5ef-5f4 606-60c 61b 61f 621-63a 640-64a 660-66d 674 679-67b 67e-680 683-684 686-687 691 698 6a4 6a9 6af
6be 6cc 6f0-6f9 e3f e81-e82 e84 e87-e88 e8a e8d e94-e97 e99-e9f ea1-ea3 ea5 ea7 eaa-eab ead-eb0 eb2 10d0-10ff 13a0-13f5
13f8-13fd 1d00-1dbf 1e00-1f15 1f18-1f1d 1f20-1f45 1f48-1f4d 1f50-1f57 1f59 1f5b 1f5d 1f5f-1f7d 1f80-1fb4 1fb6-1fc4
1fc6-1fd3 1fd6-1fdb 1fdd-1fef 1ff2-1ff4 1ff6-1ffe 2000-200a 2010-2027 202f-2040 2042 2044-2052 2054-205f 2070-2071
2074-208e 2090-209c 20a0-20c0 2100-211e 2120 2122 2124 2126-2151 2153-2184 2189 2190-23ff 2422-2423 2460-262f 2638-268b
2690-269c 26a0-26a7 26aa-26b2 2701-2704 2706-2709 270c-2727 2729-274b 274d 274f-2752 2756 2758-275e 2761-277f 2794
2798-27af 27b1-2b73 2b76-2b95 2b97-2bff 2c60-2cee 2cf2-2cf3 2cf9-2cff 2e02-2e05 2e08-2e0a 2e17-2e18 2e1f 2e22-2e25 2e2e
3012 3016-3017 301a-301b 3030 3036 306e a46a-a46b a640-a641 a648-a649 a656-a657 a708-a716 a71b-a727 a72d a730 a735 a765
a789-a78e a790-a791 a793 a7aa a7f8-a7f9 ab52 ab66 ab70-abbf fb00-fb06 fb13-fb17 fb1f-fb36 fb38-fb3c fb3e fb40-fb41
fb43-fb44 fb46-fb4f fb52-fb81 fb8a-fb95 fb9e-fb9f fbaa-fbad fbe8-fbe9 fbfc-fbff fe66 fe70-fe74 fe76-fefc fffc-fffd
10140-1018e 102e1-102fb 1d106-1d107
"""
LONGEST_WORD, BREAK = 28, "\u200b"


def _signs(ranges: str) -> frozenset[str]:
    ends = (part.partition("-")[::2] for part in ranges.split())
    return frozenset(chr(sign) for first, last in ends for sign in range(int(first, 16), int(last or first, 16) + 1))


SIGNS = _signs(RANGES)
_LONG = re.compile(rf"\S{{{LONGEST_WORD}}}(?=\S)")


class Drawing(str):
    """Markup among the texts: its signs are made readable, its words are not broken."""


def readable(text: str) -> str:
    """A text as it can be printed: a sign no font has is named in brackets, what only steers a text is left out.

    A word longer than a line may be broken anywhere.
    """
    if not (text.isascii() and text.isprintable()) and not SIGNS.issuperset(text):
        text = type(text)("".join(map(_shown, unicodedata.normalize("NFC", text))))
    return text if isinstance(text, Drawing) or len(text) <= LONGEST_WORD else _LONG.sub(rf"\g<0>{BREAK}", text)


def _shown(sign: str) -> str:
    if sign in SIGNS:
        return sign
    if sign in "\n\t\r\u2028\u2029\x85":
        return " "
    if unicodedata.category(sign) in ("Cc", "Cf", "Mn", "Mc", "Me", "Cs", "Cn"):
        return ""  # order marks would turn what stands beside them; marks that no font has stand on nothing
    name = unicodedata.name(sign, "").lower()
    return f"[{name}]" if name and not name.startswith("cjk") else f"[U+{ord(sign):04X}]"


def clean(value: Any) -> Any:
    """Every text of a structure made readable."""
    if isinstance(value, str):
        return readable(value)
    if isinstance(value, Mapping):
        return {name: clean(inner) for name, inner in value.items()}
    return [clean(inner) for inner in value] if isinstance(value, (list, tuple)) else value
