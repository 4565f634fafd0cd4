"""The species of the school as an archive says them."""

from species.models import Species
from species.rules.darwin.facts import CommonNameFacts, NamedSpecies, PartFacts, ShowingFacts, SynonymFacts, TaxonFacts
from species.rules.darwin.words import DESCRIPTION_TYPES
from species.rules.vocabulary import Edibility, Stage


def species_to_archive() -> list[TaxonFacts]:
    """All species with their names, parts and months; five queries."""
    rows = Species.objects.prefetch_related("common_names", "synonyms", "parts_used", "showings").order_by("key")
    return [facts_of(row) for row in rows]


def facts_of(row: Species) -> TaxonFacts:
    """One species; reads the prefetched names, parts and months."""
    return TaxonFacts(
        key=row.key,
        name=row.name,
        author=row.author,
        family=row.family,
        edibility=Edibility(row.edibility),
        aggregate=row.aggregate,
        height_from_cm=row.height_low_cm,
        height_to_cm=row.height_high_cm,
        moisture=row.moisture,
        squares_britain=row.squares_britain,
        squares_ireland=row.squares_ireland,
        leafless_stages=tuple(row.leafless_stages),
        places_are_blurred=row.place_is_blurred,
        sources=tuple(row.sources.get("plant", ())),
        hazard_sources=tuple(row.sources.get("hazard", ())),
        texts={field: text for field in DESCRIPTION_TYPES if (text := getattr(row, field))},
        common_names=tuple(CommonNameFacts(each.name, each.language) for each in row.common_names.all()),
        synonyms=tuple(SynonymFacts(each.name, each.is_aggregate) for each in row.synonyms.all()),
        parts=tuple(
            PartFacts(each.part, tuple(each.months), tuple(each.stages), each.note) for each in row.parts_used.all()
        ),
        showings=tuple(ShowingFacts(Stage(each.stage), tuple(each.months)) for each in row.showings.all()),
    )


def named_species(row: Species) -> NamedSpecies:
    """A species as specimens refer to it."""
    return NamedSpecies(row.key, row.name, row.author, row.family)
