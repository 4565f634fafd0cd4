"""From what people say a specimen is to what it counts as.

Of each determiner the latest opinion counts. Two different people, the same species, without reserve:
confirmed, if at least one of them belongs to the school and said so here: neither a file nor a circle of
strangers confirms anything. One: single. Opinions that cannot both be true: disputed, until somebody changes
theirs; there is no majority, since one person who sees hemlock is reason enough to look again. A name that
reaches only the genus, or stands with cf., settles nothing and disputes nothing as long as the genus agrees;
so it never confirms a dangerous species.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from species.rules.names import squeezed
from species.rules.scientific import Rank, ScientificName, parsed_name
from species.rules.vocabulary import Settlement


@dataclass(frozen=True)
class DeterminationFacts:
    """One opinion.

    `determiner` is anything that tells one person from another; `said` the name as given. Where that was
    found to be a species of the school, `species` is its key and `species_name` its scientific name.
    `is_known` is false of an outsider, and of everything that came in with an archive of somebody else.
    """

    determiner: str
    said: str
    determined_at: datetime
    species: str | None = None
    species_name: str = ""
    order: int = 0
    is_known: bool = True

    @property
    def is_full(self) -> bool:
        """Whether the name reaches the species and stands without reserve."""
        said = self._said
        if said.qualifier or not squeezed(self.said):
            return False
        reaches_species = said.rank not in (Rank.GENUS, Rank.SECTION)
        if self.species is not None:  # an everyday name of one word is no genus, unless it is this one
            return reaches_species or squeezed(said.genus) != self.genus
        return reaches_species

    @property
    def genus(self) -> str:
        """The genus that the opinion holds to, in plain letters; empty when it holds to none."""
        return squeezed(parsed_name(self.species_name).genus if self.species_name else self._said.genus)

    @property
    def plant(self) -> str:
        """What two full opinions must share to agree: the species of the school, else the name itself."""
        return f"key {self.species}" if self.species else f"name {squeezed(self._said.text)}"

    @property
    def _said(self) -> ScientificName:
        return parsed_name(self.said[:1].upper() + self.said[1:])


class Ground(StrEnum):
    """Why a specimen stands as it does."""

    NOBODY_SAID = "nobody has said what it is"
    NO_FULL_NAME = "no name reaches the species without reserve"
    ONE_PERSON = "one person has named it"
    ONLY_OUTSIDERS = "nobody of the school has named it here"
    TWO_AGREE = "two people agree"
    THEY_DIFFER = "opinions differ"


@dataclass(frozen=True)
class Settled:
    """How a specimen stands. `species` is the key when a species of the school is named and not disputed."""

    settlement: Settlement
    species: str | None
    ground: Ground
    determiners: int


def settled(determinations: Iterable[DeterminationFacts]) -> Settled:
    """How a specimen stands by all opinions of it, in any order."""
    latest = _latest_of_each(determinations)
    full = [each for each in latest if each.is_full]
    plants = {each.plant for each in full}
    if not latest:
        return Settled(Settlement.UNDETERMINED, None, Ground.NOBODY_SAID, 0)
    if len(plants) > 1 or _genera_differ(latest):
        return Settled(Settlement.DISPUTED, None, Ground.THEY_DIFFER, len(latest))
    if not full:
        return Settled(Settlement.UNDETERMINED, None, Ground.NO_FULL_NAME, len(latest))
    if len(full) == 1:
        return Settled(Settlement.SINGLE, full[0].species, Ground.ONE_PERSON, len(latest))
    if not any(each.is_known for each in full):
        return Settled(Settlement.SINGLE, full[0].species, Ground.ONLY_OUTSIDERS, len(latest))
    return Settled(Settlement.CONFIRMED, full[0].species, Ground.TWO_AGREE, len(latest))


def _latest_of_each(determinations: Iterable[DeterminationFacts]) -> list[DeterminationFacts]:
    latest: dict[str, DeterminationFacts] = {}
    for each in sorted(determinations, key=lambda facts: (facts.determined_at, facts.order)):
        latest[each.determiner] = each
    return list(latest.values())


def _genera_differ(latest: Iterable[DeterminationFacts]) -> bool:
    return len({each.genus for each in latest if each.genus}) > 1
