"""What is found in the log: the words of a row as they are looked for, the same on every database.

Databases differ in how they split and fold text, so it is done here: no case, no accents, words of letters and digits alone.
"""

import re
import unicodedata
from collections.abc import Mapping

SAID = ("words", "conditions", "authority", "permit", "who", "job_name", "what", "revision", "fingerprint")
WORD = re.compile(r"[^\W_]+")
LONGEST_WORD = 200  # an index of words has a limit; whoever looks for a longer one finds it by its beginning
BEGINS = "="  # before an authority's name closed up into one word, so that it is looked up as it begins


def words(text: str) -> list[str]:
    """The words of a text, folded: "P-2, Café" gives p, 2, cafe."""
    plain = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", text).casefold())
    unmarked = "".join(sign for sign in plain if not unicodedata.category(sign).startswith("M"))
    return [word[:LONGEST_WORD] for word in WORD.findall(unmarked)]


def closed(authority: str) -> str:
    """An authority as one word: "Harbour County" gives =harbourcounty; "" where it has no letters or digits."""
    one = "".join(words(authority))
    return BEGINS + one[:LONGEST_WORD] if one else ""


def said(row: Mapping[str, str]) -> str:
    """All that a row is found by. Args: row: at least the columns of `SAID`."""
    found = [word for name in SAID for word in words(row[name] or "")]
    return " ".join(filter(None, [*found, closed(row["authority"] or "")]))
