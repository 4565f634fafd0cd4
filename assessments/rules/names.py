"""What somebody called a plant, compared with what it is.

A synonym or the aggregate is right. A genus alone is not a name on the edible side; on the dangerous side it
counts as naming an edible species when it is the genus of one that the plant is taken for. Free text is read
by the whole name, without regard to case, accents, hyphens, spaces and abbreviations of rank; a text that
matches no name is another plant.
"""

import unicodedata
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from .evidence import AnswerFacts

RANKS = frozenset({"agg", "sp", "spp", "sl", "ss", "sensu", "lato", "stricto"})
"""Words that say how wide a name is meant, not which plant."""


class NameKind(StrEnum):
    """What a name amounts to, for the plant that was shown."""

    RIGHT = "right"
    AS_EDIBLE = "as_edible"
    GENUS_ONLY = "genus_only"
    ANOTHER = "another"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class SpeciesNames:
    """The names of one species: scientific, common, synonyms and aggregates as texts.

    ``also_right`` are keys of other entries (an aggregate, a species sunk into this one) that are right.
    """

    key: str
    genus: str
    scientific: str = ""
    common: tuple[str, ...] = ()
    synonyms: tuple[str, ...] = ()
    aggregates: tuple[str, ...] = ()
    also_right: frozenset[str] = frozenset()

    @property
    def texts(self) -> tuple[str, ...]:
        """Every text that means this species."""
        named = (self.scientific, *self.common, *self.synonyms, *self.aggregates)
        return tuple(text for text in named if text)


@dataclass(frozen=True, slots=True)
class NameSaid:
    """What an answer named: the species its words can mean, and a genus."""

    species: frozenset[str]
    genus: str | None


@lru_cache(maxsize=4096)
def plain(text: str) -> str:
    """A name without case, accents, hyphens, apostrophes, spaces and words of rank."""
    stripped = "".join(letter for letter in unicodedata.normalize("NFKD", text) if not unicodedata.combining(letter))
    spaced = "".join(letter if letter.isalnum() else " " for letter in _joined(stripped).casefold())
    return "".join(word for word in spaced.split() if word not in RANKS)


def _joined(text: str) -> str:
    return text.replace("s.l.", "").replace("s.s.", "").replace("'", "").replace("’", "")


class NameBook:
    """The names of all species, to read answers by."""

    def __init__(self, species: Iterable[SpeciesNames] = ()) -> None:
        self._species = {entry.key: entry for entry in species}
        self._by_text: dict[str, set[str]] = defaultdict(set)
        self._genera: set[str] = set()
        for entry in self._species.values():
            self._genera.add(plain(entry.genus))
            for text in entry.texts:
                self._by_text[plain(text)].add(entry.key)

    def read(self, answer: AnswerFacts) -> NameSaid:
        """What the answer named. The species chosen wins over the genus chosen, both over typed text."""
        if answer.named_species:
            return NameSaid(frozenset({answer.named_species}), None)
        if answer.named_genus:
            return NameSaid(frozenset(), plain(answer.named_genus))
        said = plain(answer.said)
        if said in self._by_text:
            return NameSaid(frozenset(self._by_text[said]), None)
        return NameSaid(frozenset(), said if said in self._genera else None)

    def right_for(self, species: str) -> frozenset[str]:
        """The keys that are right for a species."""
        entry = self._species.get(species)
        return frozenset({species}) | (entry.also_right if entry else frozenset())

    def genus_of(self, species: str) -> str | None:
        """The genus of a species as it is compared, or None where the book does not know the species."""
        entry = self._species.get(species)
        return plain(entry.genus) if entry else None

    def kind(self, answer: AnswerFacts, taken_as: frozenset[str] = frozenset()) -> NameKind:
        """What the name amounts to. ``taken_as``: edible species that the plant shown is taken for.

        A name that can mean several species is right only if every meaning is, and names an edible species
        if any meaning does: in doubt against the person, as everywhere.
        """
        said = self.read(answer)
        if not said.species and said.genus is None:
            return NameKind.ANOTHER if answer.said.strip() else NameKind.NOTHING
        edible = frozenset().union(*(self.right_for(key) for key in taken_as)) if taken_as else frozenset()
        if said.species & edible or (said.genus and said.genus in {self.genus_of(key) for key in taken_as}):
            return NameKind.AS_EDIBLE
        truth = answer.specimen.species
        if truth is None:
            return NameKind.ANOTHER
        if said.species and said.species <= self.right_for(truth):
            return NameKind.RIGHT
        return NameKind.GENUS_ONLY if said.genus and said.genus == self.genus_of(truth) else NameKind.ANOTHER
