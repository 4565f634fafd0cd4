"""What of an archive finds no place in the school: unknown terms and tables, and cells that would be written otherwise.

Nothing is dropped silently. What was understood is written anew as the school would write it, and every cell that
says something else than that is kept aside as it stood.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from species.rules.darwin.facts import SpecimenFacts, TaxonFacts
from species.rules.darwin.layouts import (
    COMMON_NAMES,
    IDENTIFICATIONS,
    MEDIA,
    OCCURRENCES,
    REGIONS,
    SPECIES_ARCHIVE,
    SPECIMEN_ARCHIVE,
    TAXA,
    Layout,
)
from species.rules.darwin.rows import ReadRow, Table
from species.rules.darwin.slips import KeptAside, Notes, Remark
from species.rules.darwin.specimen_rows import specimen_tables
from species.rules.darwin.taxon_rows import species_tables

Rows = Mapping[str, Sequence[ReadRow]]


def keep_aside_of_species(rows: Rows, species: Sequence[TaxonFacts], notes: Notes) -> None:
    """Put aside, and remark, what an archive of species says beyond these species."""
    taxa, names, _texts = species_tables(species)
    numbers = {
        TAXA: [row for each in species for row in (each.row, *(synonym.row for synonym in each.synonyms))],
        COMMON_NAMES: [name.row for each in species for name in each.common_names],
    }
    _keep_aside(rows, SPECIES_ARCHIVE, (taxa, names), numbers, notes)


def keep_aside_of_specimens(rows: Rows, specimens: Sequence[SpecimenFacts], notes: Notes) -> None:
    """Put aside, and remark, what an archive of specimens says beyond these specimens."""
    pictures = [picture for each in specimens for picture in each.pictures]
    numbers = {
        OCCURRENCES: [each.row for each in specimens],
        IDENTIFICATIONS: [opinion.row if opinion.by_id or opinion.id else 0 for each in specimens
                          for opinion in each.opinions],
        MEDIA: [picture.row for picture in pictures],
        REGIONS: [region.row for picture in pictures for region in picture.regions],
    }  # fmt: skip
    _keep_aside(rows, SPECIMEN_ARCHIVE, specimen_tables(specimens), numbers, notes)


def _keep_aside(
    rows: Rows,
    layouts: Iterable[Layout],
    tables: Iterable[Table],
    numbers: Mapping[Layout, Sequence[int]],
    notes: Notes,
) -> None:
    found = [*_unknown(rows, layouts, notes)]
    for table in tables:
        by_number = {row.number: row for row in rows.get(table.layout.row_type, ())}
        for number, cells in zip(numbers[table.layout], table.cells(), strict=True):
            if number in by_number:
                found += _differing(by_number[number], table.layout, cells)
    known = {row_type for each in layouts for row_type in [each.row_type]}
    files_aside = {row.file for row_type, each in rows.items() if row_type not in known for row in each}
    counts = Counter((each.file, each.term) for each in found if each.file not in files_aside)
    for (file, term), count in counts.items():
        notes.add(Remark.KEPT_ASIDE, file, 0, term, count=count)
    notes.aside += found


def _unknown(rows: Rows, layouts: Iterable[Layout], notes: Notes) -> Iterator[KeptAside]:
    known = {each.row_type: each.terms for each in layouts}
    for row_type, each in rows.items():
        for row in each:
            for term in sorted(row.cells.keys() - known.get(row_type, frozenset())):
                yield KeptAside(row.file, row.number, row.core, term, row.cells[term])
        if row_type not in known:
            for file in sorted({row.file for row in each}):
                notes.add(Remark.TABLE_ASIDE, file, row_type=row_type)


def _differing(row: ReadRow, layout: Layout, written: Sequence[str]) -> Iterator[KeptAside]:
    for column, cell in zip(layout.columns, written, strict=True):
        given = row.text(column.term)
        if given and given != cell:
            yield KeptAside(row.file, row.number, row.core, column.term, given)
