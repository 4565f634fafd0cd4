"""Scientific names taken apart: genus, epithets, ranks, hybrid sign, qualifier, and the author set aside.

Names follow the botanical code (Turland et al. 2018): genus with a capital, epithets small, rank words before
the lower epithets, the multiplication sign (or a lone x) for hybrids, authors anywhere after an epithet.
"""

import re
from dataclasses import dataclass
from enum import StrEnum

from species.rules.names import squeezed


class Rank(StrEnum):
    """The rank that a name reaches."""

    GENUS = "genus"
    SECTION = "section"
    AGGREGATE = "aggregate"
    SPECIES = "species"
    BELOW_SPECIES = "below species"


_LOWER_RANKS = {
    "subsp.": "subsp.", "subsp": "subsp.", "ssp.": "subsp.", "ssp": "subsp.",
    "var.": "var.", "var": "var.", "subvar.": "subvar.",
    "f.": "f.", "fo.": "f.", "forma": "f.", "subf.": "subf.", "nothosubsp.": "nothosubsp.",
    "nothovar.": "nothovar.",
}  # fmt: skip
_UPPER_RANKS = {"sect.": "sect.", "sect": "sect.", "subg.": "subg.", "subgen.": "subg.", "ser.": "ser."}
_WIDE = {"agg.": "agg.", "agg": "agg.", "s.l.": "agg.", "s.lat.": "agg."}
_NARROW = {"s.s.", "s.str."}
_QUALIFIERS = {"cf.": "cf.", "cf": "cf.", "aff.": "aff.", "aff": "aff.", "?": "?"}
_INSIDE_AUTHORS = {
    "ex", "et", "in", "and", "&", "de", "da", "del", "della", "der", "den", "di", "do", "dos", "du", "la",
    "le", "ten", "ter", "van", "von", "y", "zu", "f.", "fil.", "auct.", "non", "nom.", "emend.", "al.",
    "hort.",
}  # fmt: skip
_EPITHET = re.compile(r"[^\W\d_](?:[^\W\d_]|-(?=[^\W\d_]))+$")
_HYBRID_SIGNS = {"×", "x", "X"}


@dataclass(frozen=True)
class ScientificName:
    """A scientific name taken apart. `text` is the name without author; `genus` is empty if there is none."""

    text: str
    genus: str
    rank: Rank
    author: str
    qualifier: str
    is_hybrid: bool


class _Reader:
    """Walks over the words of a name and sorts them into name and author."""

    def __init__(self, words: list[str]) -> None:
        self.words = words
        self.kept: list[str] = []
        self.authors: list[str] = []
        self.genus = self.qualifier = ""
        self.rank = Rank.GENUS
        self.is_hybrid = False
        self.wants_genus = self.wants_epithet = True

    def read(self) -> ScientificName:
        for place, word in enumerate(self.words):
            following = self.words[place + 1] if place + 1 < len(self.words) else ""
            self._take(word, following)
        text = " ".join(self.kept)
        if text.startswith("× "):  # the sign of a hybrid genus stands close to it
            text = "×" + text[2:]
        return ScientificName(text, self.genus, self.rank, " ".join(self.authors), self.qualifier, self.is_hybrid)

    def _take(self, word: str, following: str) -> None:
        if word in _HYBRID_SIGNS and following:
            self._take_hybrid_sign(following)
        elif word.startswith("×") and len(word) > 1:
            self._take_hybrid_sign(word[1:])
            self._take(word[1:], following)
        elif word.casefold() in _QUALIFIERS:
            self.qualifier = self.qualifier or _QUALIFIERS[word.casefold()]
        elif self.wants_genus and word[0].isupper():
            self._take_genus(word)
        elif self._is_rank_word(word, following):
            self._take_rank_word(word)
        elif self.wants_epithet and self.genus and self._is_epithet(word):
            self._take_epithet(word)
        elif word not in _NARROW:
            self.authors.append(word)

    def _take_hybrid_sign(self, following: str) -> None:
        self.is_hybrid = True
        self.kept.append("×")
        self.wants_epithet = True
        self.wants_genus = self.wants_genus or following[:1].isupper()

    def _take_genus(self, word: str) -> None:
        self.kept.append(word)
        self.genus = self.genus or word
        self.wants_genus = False
        self.wants_epithet = True

    def _is_rank_word(self, word: str, following: str) -> bool:
        if not self.genus:
            return False
        if word in _LOWER_RANKS:
            # "L. f. ex Hook." is an author (the son of L.); "f. minor" is a form.
            return following in _HYBRID_SIGNS or self._is_epithet(following)
        return word in _WIDE or (word in _UPPER_RANKS and bool(following))

    def _take_rank_word(self, word: str) -> None:
        if word in _WIDE:
            self.kept.append(_WIDE[word])
            self.rank = Rank.AGGREGATE
        elif word in _UPPER_RANKS:
            self.kept.append(_UPPER_RANKS[word])
            self.rank = Rank.SECTION
            self.wants_genus = True
        else:
            self.kept.append(_LOWER_RANKS[word])
            self.rank = Rank.BELOW_SPECIES
            self.wants_epithet = True

    def _is_epithet(self, word: str) -> bool:
        return word[:1].islower() and word not in _INSIDE_AUTHORS and bool(_EPITHET.match(word))

    def _take_epithet(self, word: str) -> None:
        self.kept.append(word)
        self.wants_epithet = False
        if self.rank == Rank.GENUS:
            self.rank = Rank.SPECIES


def parsed_name(text: str) -> ScientificName:
    """Take a scientific name apart.

    What cannot be a name (no word with a capital first) gives an empty genus. The rank is the lowest that the
    name reaches; an aggregate (agg., s.l.) is its own rank. `cf.` and `aff.` are set aside as the qualifier.
    """
    return _Reader(text.replace("\xa0", " ").split()).read()


def without_author(text: str) -> str:
    """The scientific name without authors; a text that is no scientific name comes back as it was."""
    found = parsed_name(text)
    return found.text if found.genus else " ".join(text.split())


def genus_of(text: str) -> str:
    """The genus of a scientific name, or an empty string."""
    return parsed_name(text).genus


def is_same_scientific_name(first: str, second: str) -> bool:
    """Whether two scientific names are one, whatever their authors, case of letters, or hybrid sign."""
    return squeezed(without_author(first)) == squeezed(without_author(second)) != ""
