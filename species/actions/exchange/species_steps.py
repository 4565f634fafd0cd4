"""Species of an archive into the school: what is new is added, what is there stays as the school has it."""

from collections.abc import Iterable, Sequence

from species.models import CommonName, PartUsed, Showing, Species, Synonym
from species.queries.archive_taxa import facts_of
from species.queries.names import known_names
from species.rules.darwin.facts import TaxonFacts
from species.rules.darwin.layouts import COMMON_NAMES, TAXA
from species.rules.darwin.rows import Table
from species.rules.darwin.slips import Notes, Remark, Wrong
from species.rules.darwin.taxon_rows import species_tables
from species.rules.names import search_text, squeezed


def keep_species(facts: Sequence[TaxonFacts], notes: Notes) -> tuple[int, int]:
    """Add the species that are new, and say how many were added and how many were there already.

    What is stored is never changed by an archive, since what may be eaten hangs on it; differences are remarked.
    With problems nothing is added.
    """
    rows = Species.objects.prefetch_related("common_names", "synonyms", "parts_used", "showings")
    stored = {row.key: facts_of(row) for row in rows}
    _check_names(facts, stored, notes)
    if notes.wrong:
        return 0, 0
    new = [each for each in facts if each.key not in stored]
    for each in facts:
        if each.key in stored:
            _compare(each, stored[each.key], notes)
    for each in new:
        _add(each)
    return len(new), len(facts) - len(new)


def _check_names(facts: Iterable[TaxonFacts], stored: dict[str, TaxonFacts], notes: Notes) -> None:
    """A name must mean one species, in the archive and in the school together, or answers cannot be marked."""
    known = known_names()
    owners = {squeezed(name): key for name, key in known.names.items()}
    names = {each.name: key for key, each in stored.items()}
    seen: dict[str, int] = {}
    for each in facts:
        if each.key in seen:
            notes.add(Wrong.TWICE, TAXA.file, each.row, "taxonID", value=each.key, first=seen[each.key])
        seen.setdefault(each.key, each.row)
        if names.get(each.name, each.key) != each.key:
            notes.add(Wrong.STORED_OTHERWISE, TAXA.file, each.row, "taxonID", value=each.name, stored=names[each.name])
            continue
        if each.key in stored:
            continue
        for file, row, name in _names_of(each):
            owner = owners.setdefault(squeezed(name), each.key)
            if owner != each.key:
                notes.add(Wrong.NAME_OF_TWO, file, row, value=name, other=owner)


def _names_of(each: TaxonFacts) -> list[tuple[str, int, str]]:
    return [
        (TAXA.file, each.row, each.name),
        *((COMMON_NAMES.file, name.row, name.name) for name in each.common_names),
        *((TAXA.file, name.row, name.name) for name in each.synonyms),
    ]


def _compare(given: TaxonFacts, stored: TaxonFacts, notes: Notes) -> None:
    differing = [
        table.layout.file
        for table, other in zip(species_tables([given]), species_tables([stored]), strict=True)
        if _lines(table) != _lines(other)
    ]
    if differing:
        notes.add(Remark.DIFFERS, TAXA.file, given.row, value=stored.name, files=", ".join(differing))


def _lines(table: Table) -> list[list[str]]:
    return sorted(table.cells())


def _add(each: TaxonFacts) -> None:
    names = [each.name, *(name.name for name in each.common_names), *(name.name for name in each.synonyms)]
    row = Species.objects.create(
        key=each.key,
        name=each.name,
        author=each.author,
        family=each.family,
        edibility=each.edibility.value,
        aggregate=each.aggregate,
        height_low_cm=each.height_from_cm,
        height_high_cm=each.height_to_cm,
        moisture=each.moisture,
        squares_britain=each.squares_britain,
        squares_ireland=each.squares_ireland,
        leafless_stages=list(each.leafless_stages),
        place_is_blurred=each.places_are_blurred,
        sources={"plant": list(each.sources), "hazard": list(each.hazard_sources)},
        search_text=search_text(names),
        **each.texts,
    )
    CommonName.objects.bulk_create(
        CommonName(species=row, name=name.name, language=name.language, order=order)
        for order, name in enumerate(each.common_names)
    )
    Synonym.objects.bulk_create(
        Synonym(species=row, name=name.name, is_aggregate=name.is_wider) for name in each.synonyms
    )
    PartUsed.objects.bulk_create(
        PartUsed(
            species=row, part=part.part, months=list(part.months), stages=list(part.stages), note=part.note, order=order
        )
        for order, part in enumerate(each.parts)
    )
    Showing.objects.bulk_create(
        Showing(species=row, stage=showing.stage.value, months=list(showing.months)) for showing in each.showings
    )
