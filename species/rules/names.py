"""Names of plants as people type them: made comparable, and helped when they are wrong."""

import re
import unicodedata
from collections.abc import Iterable
from difflib import SequenceMatcher

_LETTERS = str.maketrans({"æ": "ae", "œ": "oe", "ß": "ss", "ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th"})
_SILENT = re.compile(r"['’‘ʼ`´]")
_MARKS = re.compile(r"[^\w]+|_")
HYBRID_LETTER = "x"
"""A lone x stands for the sign of multiplication in the name of a hybrid."""
_CLOSE_ENOUGH = 0.6


def normalise(name: str) -> str:
    """The name in plain small letters: no accents, ligatures or punctuation, one space between words.

    Apostrophes vanish ("dog's" is "dogs"), hyphens become spaces, the hybrid sign is left out. A string
    that holds no letter or digit gives the empty string.
    """
    plain = unicodedata.normalize("NFKD", name).casefold().translate(_LETTERS)
    plain = unicodedata.normalize("NFKD", plain)  # folding case can bring new accents
    plain = "".join(each for each in plain if not unicodedata.combining(each))
    words = _MARKS.sub(" ", _SILENT.sub("", plain)).split()
    return " ".join(word for word in words if word != HYBRID_LETTER)


def squeezed(name: str) -> str:
    """The normalised name without its spaces, so that water-cress, water cress and watercress are one."""
    return normalise(name).replace(" ", "")


def is_same_name(first: str, second: str) -> bool:
    """Whether two names differ in nothing but case, accents, hyphens, spaces and punctuation."""
    return squeezed(first) == squeezed(second) != ""


def search_text(names: Iterable[str]) -> str:
    """One line for each way in which a search may spell a name; a search looks for a part of it."""
    lines: dict[str, None] = {}
    for name in names:
        lines[normalise(name)] = None
        lines[squeezed(name)] = None
    return "\n".join(line for line in lines if line)


def nearest_names(name: str, known: Iterable[str], limit: int = 3) -> tuple[str, ...]:
    """The known names that look most like a wrong one, best first; none when nothing is near.

    Likeness is the share of letters in common in the same order (difflib), in normalised form; a known
    name that begins with what was typed counts as near as well.
    """
    wanted = squeezed(name)
    if not wanted:
        return ()
    scored: list[tuple[float, str]] = []
    for candidate in dict.fromkeys(known):
        plain = squeezed(candidate)
        likeness = SequenceMatcher(None, wanted, plain).ratio()
        if len(wanted) > 2 and plain.startswith(wanted):
            likeness = max(likeness, _CLOSE_ENOUGH + 0.2)
        if likeness >= _CLOSE_ENOUGH:
            scored.append((likeness, candidate))
    scored.sort(key=lambda pair: (-pair[0], pair[1]))
    return tuple(candidate for _, candidate in scored[:limit])
