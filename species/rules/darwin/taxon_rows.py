"""Species to the rows of their archive."""

from collections.abc import Iterable, Iterator

from species.rules.darwin.facts import NamedSpecies, SynonymFacts, TaxonFacts
from species.rules.darwin.layouts import COMMON_NAMES, DESCRIPTIONS, TAXA
from species.rules.darwin.names import full_name, key_of, rank_word
from species.rules.darwin.rows import Row, Table
from species.rules.darwin.words import (
    ACCEPTED,
    CODE,
    DESCRIPTION_TYPES,
    KINGDOM,
    PHENOLOGY,
    SYNONYM,
    TEXT_LANGUAGE,
    USE,
    WIDER_NAME,
)
from species.rules.lists import joined_list
from species.rules.scientific import genus_of, parsed_name


def species_tables(species: Iterable[TaxonFacts]) -> tuple[Table, ...]:
    """The tables of an archive of species: names, common names, descriptions."""
    taxa, names, texts = Table(TAXA), Table(COMMON_NAMES), Table(DESCRIPTIONS)
    for each in species:
        taxa.rows.append(_accepted(each))
        taxa.rows.extend(_synonym(each, synonym) for synonym in each.synonyms)
        names.rows.extend(_common_names(each))
        texts.rows.extend({"taxonID": each.key, "language": TEXT_LANGUAGE, **row} for row in _descriptions(each))
    return taxa, names, texts


def name_cells(species: NamedSpecies | TaxonFacts) -> Row:
    """The cells that name a species anywhere in an archive."""
    return {"taxonID": species.key, "scientificName": full_name(species.name, species.author)}


def _accepted(each: TaxonFacts) -> Row:
    return {
        **name_cells(each),
        "scientificNameAuthorship": each.author,
        "taxonRank": rank_word(each.name),
        "kingdom": KINGDOM,
        "family": each.family,
        "genus": genus_of(each.name),
        "nomenclaturalCode": CODE,
        "taxonomicStatus": ACCEPTED,
        "edibility": each.edibility.value,
        "aggregate": each.aggregate,
        "heightFromCm": _number(each.height_from_cm),
        "heightToCm": _number(each.height_to_cm),
        "moisture": _number(each.moisture),
        "squaresBritain": _number(each.squares_britain),
        "squaresIreland": _number(each.squares_ireland),
        "leaflessStages": joined_list(each.leafless_stages),
        "placesAreBlurred": "yes" if each.places_are_blurred else "no",
        "sources": joined_list(each.sources),
        "hazardSources": joined_list(each.hazard_sources),
    }


def _synonym(of: TaxonFacts, synonym: SynonymFacts) -> Row:
    return {
        "taxonID": f"{of.key}/{key_of(synonym.name)}",
        "scientificName": synonym.name,
        "scientificNameAuthorship": parsed_name(synonym.name).author,
        "taxonRank": rank_word(synonym.name),
        "kingdom": KINGDOM,
        "family": of.family,
        "genus": genus_of(synonym.name),
        "nomenclaturalCode": CODE,
        "taxonomicStatus": WIDER_NAME if synonym.is_wider else SYNONYM,
        "acceptedNameUsageID": of.key,
        "acceptedNameUsage": full_name(of.name, of.author),
    }


def _common_names(of: TaxonFacts) -> Iterator[Row]:
    for number, each in enumerate(of.common_names):
        yield {
            "taxonID": of.key,
            "vernacularName": each.name,
            "language": each.language,
            "isPreferredName": "false" if number else "true",
        }


def _descriptions(of: TaxonFacts) -> Iterator[Row]:
    for field, kind in DESCRIPTION_TYPES.items():
        if text := of.texts.get(field, ""):
            yield {"description": text, "type": kind}
    for part in of.parts:
        yield {
            "description": f"{part.part}: {part.note}" if part.note else part.part,
            "type": USE,
            "part": part.part,
            "stages": joined_list(part.stages),
            "months": _months(part.months),
        }
    for showing in of.showings:
        yield {
            "description": showing.stage.value,
            "type": PHENOLOGY,
            "stages": showing.stage.value,
            "months": _months(showing.months),
        }


def _months(months: tuple[int, ...]) -> str:
    return joined_list(str(each) for each in months)


def _number(value: int | None) -> str:
    return "" if value is None else str(value)
