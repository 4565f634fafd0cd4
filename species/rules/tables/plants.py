"""The tables of species: names, parts used, calendar, hazards, and the sources of all of it."""

from collections.abc import Collection

from species.rules.tables.cells import Cells, Tables
from species.rules.tables.problems import Fault
from species.rules.tables.records import (
    CommonNameRecord,
    HazardRecord,
    NameKind,
    PartRecord,
    Plants,
    ShowingRecord,
    SourceRecord,
    SpeciesRecord,
    SynonymRecord,
)
from species.rules.vocabulary import Edibility, Stage

Keys = Collection[str]


def read_plants(tables: Tables) -> Plants:
    """All tables of species."""
    sources = [_source(cells) for cells in tables.rows("sources.csv")]
    cited = {each.key for each in sources}
    species = [_species(cells, cited) for cells in tables.rows("species.csv")]
    keys = {each.key for each in species}
    return Plants(
        sources=tuple(sources),
        species=tuple(species),
        common_names=tuple(_common_name(cells, keys) for cells in tables.rows("common_names.csv")),
        synonyms=tuple(_synonym(cells, keys) for cells in tables.rows("synonyms.csv")),
        parts=tuple(_part(cells, keys) for cells in tables.rows("parts_used.csv")),
        showings=tuple(_showing(cells, keys) for cells in tables.rows("showing.csv")),
        hazards=tuple(_hazard(cells, keys, cited) for cells in tables.rows("hazards.csv")),
    )


def _source(cells: Cells) -> SourceRecord:
    return SourceRecord(
        cells.number, cells.key(), cells.text("kind", required=True), cells.text("citation", required=True),
        cells.text("how_read", required=True),
    )  # fmt: skip


def _species(cells: Cells, sources: Keys) -> SpeciesRecord:
    low, high = cells.whole("height_from_cm", 1, 10_000), cells.whole("height_to_cm", 1, 10_000)
    if low and high and low > high:
        cells.fault("height_to_cm", Fault.UPSIDE_DOWN, low=low, high=high)
    return SpeciesRecord(
        row=cells.number,
        key=cells.key(longest=80),
        name=cells.text("name", 120, required=True),
        author=cells.text("author", 120),
        aggregate=cells.text("aggregate", 120),
        family=cells.text("family", 60, required=True),
        edibility=cells.choice("edibility", Edibility),
        life=cells.text("life", 80),
        height_from_cm=low,
        height_to_cm=high,
        habitat=cells.text("habitat"),
        status=cells.text("status", 120),
        moisture=cells.whole("moisture", 1, 12),
        squares_britain=cells.whole("squares_britain", 0, 9999),
        squares_ireland=cells.whole("squares_ireland", 0, 9999),
        leafless_stages=cells.choices("leafless_stages", Stage, required=False),
        blur_places=cells.yes_or_no("blur_places"),
        legal=cells.text("legal"),
        note=cells.text("note"),
        sources=cells.references("sources", "source", sources),
    )


def _common_name(cells: Cells, species: Keys) -> CommonNameRecord:
    return CommonNameRecord(
        cells.number, cells.reference("species", "species", species), cells.text("name", 80, required=True),
        cells.text("language", 10, required=True),
    )  # fmt: skip


def _synonym(cells: Cells, species: Keys) -> SynonymRecord:
    return SynonymRecord(
        cells.number, cells.reference("species", "species", species), cells.text("name", 120, required=True),
        cells.choice("kind", NameKind),
    )  # fmt: skip


def _part(cells: Cells, species: Keys) -> PartRecord:
    return PartRecord(
        cells.number, cells.reference("species", "species", species), cells.text("part", 80, required=True),
        cells.months("months"), cells.choices("stages", Stage), cells.text("note"),
    )  # fmt: skip


def _showing(cells: Cells, species: Keys) -> ShowingRecord:
    return ShowingRecord(
        cells.number, cells.reference("species", "species", species), cells.choice("stage", Stage),
        cells.months("months"),
    )  # fmt: skip


def _hazard(cells: Cells, species: Keys, sources: Keys) -> HazardRecord:
    return HazardRecord(
        row=cells.number,
        species=cells.reference("species", "species", species),
        toxin=cells.text("toxin", 200),
        parts=cells.text("parts", 200),
        signs=cells.text("signs"),
        onset=cells.text("onset", 200),
        severity=cells.text("severity", 200),
        uncertain=cells.text("uncertain"),
        sources=cells.references("sources", "source", sources),
    )
