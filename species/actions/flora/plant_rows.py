"""From the records of species to the fields of rows."""

from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping
from typing import TypeVar

from species.actions.flora.synchronising import Fields
from species.rules.names import search_text
from species.rules.tables.records import (
    HazardRecord,
    NameKind,
    Plants,
    SourceRecord,
    SpeciesRecord,
)

Ids = Mapping[str, int]
"""Primary keys by the key of the record."""

Record = TypeVar("Record")


def numbered(records: Iterable[Record], parent: Callable[[Record], Hashable]) -> Iterator[tuple[int, Record]]:
    """Records with their place, from 0, among those of the same parent."""
    seen: Counter[Hashable] = Counter()
    for record in records:
        yield seen[parent(record)], record
        seen[parent(record)] += 1


def citation(source: SourceRecord) -> str:
    """A source as it is printed: where it stands, and how it was read."""
    return f"{source.citation} ({source.how_read})"


def species_rows(plants: Plants) -> Iterator[Fields]:
    """The rows of `Species`, hazards and all names for searching included."""
    sources = {each.key: citation(each) for each in plants.sources}
    hazards = {each.species: each for each in plants.hazards}
    names: dict[str, list[str]] = {each.key: [each.name] for each in plants.species}
    for common in plants.common_names:
        names[common.species].append(common.name)
    for synonym in plants.synonyms:
        names[synonym.species].append(synonym.name)
    for each in plants.species:
        hazard = hazards.get(each.key)
        yield {
            **_botany(each),
            **_hazard(hazard),
            "search_text": search_text(names[each.key]),
            "sources": {
                "plant": [sources[key] for key in each.sources],
                "hazard": [sources[key] for key in (hazard.sources if hazard else ())],
            },
        }


def _botany(record: SpeciesRecord) -> Fields:
    return {
        "key": record.key,
        "name": record.name,
        "author": record.author,
        "family": record.family,
        "edibility": record.edibility.value,
        "aggregate": record.aggregate,
        "life": record.life,
        "height_low_cm": record.height_from_cm,
        "height_high_cm": record.height_to_cm,
        "habitat": record.habitat,
        "legal": record.legal,
        "note": record.note,
        "status": record.status,
        "moisture": record.moisture,
        "squares_britain": record.squares_britain,
        "squares_ireland": record.squares_ireland,
        "leafless_stages": [stage.value for stage in record.leafless_stages],
        "place_is_blurred": record.blur_places,
    }


def _hazard(record: HazardRecord | None) -> Fields:
    return {
        "hazard_toxin": record.toxin if record else "",
        "hazard_parts": record.parts if record else "",
        "hazard_signs": record.signs if record else "",
        "hazard_onset": record.onset if record else "",
        "hazard_severity": record.severity if record else "",
        "hazard_uncertain": record.uncertain if record else "",
    }


def common_name_rows(plants: Plants, species: Ids) -> Iterator[Fields]:
    for order, each in numbered(plants.common_names, lambda record: record.species):
        yield {
            "species_id": species[each.species],
            "name": each.name,
            "language": each.language,
            "order": order,
        }


def synonym_rows(plants: Plants, species: Ids) -> Iterator[Fields]:
    for each in plants.synonyms:
        yield {
            "species_id": species[each.species],
            "name": each.name,
            "is_aggregate": each.kind == NameKind.AGGREGATE,
        }


def part_rows(plants: Plants, species: Ids) -> Iterator[Fields]:
    for order, each in numbered(plants.parts, lambda record: record.species):
        yield {
            "species_id": species[each.species],
            "part": each.part,
            "months": list(each.months),
            "stages": [stage.value for stage in each.stages],
            "note": each.note,
            "order": order,
        }


def showing_rows(plants: Plants, species: Ids) -> Iterator[Fields]:
    for each in plants.showings:
        yield {
            "species_id": species[each.species],
            "stage": each.stage.value,
            "months": list(each.months),
        }
