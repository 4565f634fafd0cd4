"""All plants by all their names, as one record: to read answers by, and to print names from."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import NamedTuple

from assessments.rules import names
from assessments.rules.names import NameBook, SpeciesNames
from species.models import CommonName, Species, Synonym
from species.rules.vocabulary import Edibility

plain = lru_cache(maxsize=4096)(names.plain)


@dataclass(frozen=True, slots=True)
class PlantName:
    """One species as pages print it."""

    id: int
    key: str
    name: str
    common_name: str
    edibility: str
    known_by_name_alone: bool


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a typed text means: `species` when it means exactly one; `known` when it is any name or genus."""

    species: PlantName | None
    known: bool


class Flora:
    """The plants of the school and everything they are called."""

    def __init__(self, plants: Mapping[str, PlantName], entries: list[SpeciesNames]) -> None:
        self.plants = plants
        self._entries = entries

    @property
    def entries(self) -> tuple[SpeciesNames, ...]:
        """Everything that the plants are called, plant by plant."""
        return tuple(self._entries)

    @cached_property
    def book(self) -> NameBook:
        """The names as the rules read answers by them."""
        return NameBook(self._entries)

    @cached_property
    def choices(self) -> tuple[tuple[str, str], ...]:
        """(text, scientific name beside it): every common name, and bare scientific ones; alphabetical."""
        found = [(text, entry.scientific) for entry in self._entries for text in entry.common]
        found += [(entry.scientific, "") for entry in self._entries if not entry.common]
        return tuple(sorted(found, key=lambda pair: pair[0].casefold()))

    @cached_property
    def texts(self) -> tuple[str, ...]:
        """Every name of every plant, for finding the nearest to a wrong one."""
        return tuple(text for entry in self._entries for text in entry.texts)

    def meaning(self, text: str) -> Meaning:
        """What somebody who typed this named; case, accents, hyphens and spaces do not matter."""
        said = plain(text)
        if not said:
            return Meaning(None, False)
        keys = [e.key for e in self._entries if any(plain(each) == said for each in e.texts)]
        known = bool(keys) or any(plain(e.genus) == said for e in self._entries)
        return Meaning(self.plants[keys[0]] if len(keys) == 1 else None, known)

    def plant(self, key: str) -> PlantName:
        """The plant with this key; a bare record with the key for a name where nothing is known of it."""
        return self.plants.get(key) or PlantName(0, key, key, key, "", False)

    def common(self, key: str) -> str:
        """What a plant is called in sentences."""
        return self.plant(key).common_name


class _Row(NamedTuple):
    """What is needed of a species."""

    pk: int
    key: str
    name: str
    edibility: str
    aggregate: str


def the_flora() -> Flora:
    """All species with their names, in three queries."""
    common: dict[int, list[str]] = defaultdict(list)
    other: dict[int, list[tuple[str, bool]]] = defaultdict(list)
    for species_id, name in CommonName.objects.order_by("order", "name").values_list("species_id", "name"):
        common[species_id].append(name)
    for species_id, name, aggregate in Synonym.objects.values_list("species_id", "name", "is_aggregate"):
        other[species_id].append((name, aggregate))
    columns = Species.objects.order_by("name").values_list("pk", "key", "name", "edibility", "aggregate")
    rows = [_Row(*each) for each in columns]  # plain rows: this is read at every answer that is saved
    plants = {row.key: _plant(row, common[row.pk]) for row in rows}
    return Flora(plants, [_entry(row, common[row.pk], other[row.pk]) for row in rows])


def _plant(row: _Row, common: list[str]) -> PlantName:
    first = common[0] if common else row.name
    return PlantName(row.pk, row.key, row.name, first, row.edibility, row.edibility == Edibility.NOT_EATEN)


def _entry(row: _Row, common: list[str], other: list[tuple[str, bool]]) -> SpeciesNames:
    aggregates = [name for name, is_aggregate in other if is_aggregate]
    return SpeciesNames(
        key=row.key,
        genus=row.name.split(" ")[0],
        scientific=row.name,
        common=tuple(common),
        synonyms=tuple(name for name, is_aggregate in other if not is_aggregate),
        aggregates=tuple(dict.fromkeys([*aggregates, row.aggregate] if row.aggregate else aggregates)),
    )
