"""Loading the tables of the flora into the database: checked, then all or nothing, as often as wanted."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from django.db import models, transaction
from django.db.models import ProtectedError, QuerySet

from species.actions.flora import lookalike_rows, plant_rows
from species.actions.flora.conflicts import stored_otherwise
from species.actions.flora.plant_rows import Ids
from species.actions.flora.school_edits import SchoolEdit, SchoolEdits
from species.actions.flora.synchronising import Changes, synchronise
from species.models import (
    Character,
    CharacterState,
    CommonName,
    Module,
    ModulePair,
    ModuleSpecies,
    Pair,
    PairCharacter,
    PartUsed,
    Showing,
    Species,
    StateRecord,
    Synonym,
)
from species.rules.tables.layout import COLUMNS
from species.rules.tables.problems import Problem
from species.rules.tables.reading import FloraReading, read_flora
from species.rules.tables.records import Flora, Lookalikes, Plants, Teaching

DATA_FOLDER = Path(__file__).resolve().parents[2] / "data"
KEYED = (Module, Pair, Character, Species)
"""What other rooms point to, in the order in which it can be removed."""


@dataclass(frozen=True)
class Absent:
    """A stored row that the tables do not name: kept, or removed when `kept` is false."""

    model: str
    key: str
    kept: bool
    held_by: str = ""
    """What points to it, so that it cannot be removed; empty when nothing was tried."""


@dataclass(frozen=True)
class LoadReport:
    """What a load did, table by table, and which stored rows the tables do not name."""

    tables: Mapping[str, Changes]
    absent: tuple[Absent, ...]
    school_edits: tuple[SchoolEdit, ...] = ()

    @property
    def anything(self) -> bool:
        removed = any(not each.kept for each in self.absent)
        return removed or any(each.anything for each in self.tables.values())


def read_tables(folder: Path) -> FloraReading:
    """Read and check the tables of a folder; a file that cannot be opened counts as missing."""
    return read_flora({file: _content(folder / file) for file in COLUMNS})


def _content(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:
        return None


class TablesHaveProblems(Exception):
    """The tables cannot be loaded as they are; `problems` says why."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__(f"{len(problems)} problems in the tables")
        self.problems = problems


@transaction.atomic
def load_flora(
    reading: FloraReading, *, prune: bool = False, dry_run: bool = False, replace_edits_at: datetime | None = None
) -> LoadReport:
    """Bring the database to what the tables say, all or nothing. A second run changes nothing.

    Rows are found by key and changed in place. Species, pairs, characters and modules that the tables do not
    name are kept; with `prune` those go that nothing points to. What the school wrote into the state table itself
    stays as it is, and is reported where the tables differ; with a moment in `replace_edits_at` the tables replace
    it, and the history says so. `dry_run` does everything and takes it back.
    Raises TablesHaveProblems, having changed nothing.
    """
    if reading.problems:
        raise TablesHaveProblems(reading.problems)
    flora = reading.flora
    if conflicts := stored_otherwise(flora):
        raise TablesHaveProblems(conflicts)
    tables: dict[str, Changes] = {}
    species = _load_plants(flora.plants, tables)
    edits = SchoolEdits(replaced_at=replace_edits_at)
    characters = _load_characters(flora.lookalikes, species, tables, edits)
    pairs = _load_pairs(flora, species, characters, tables)
    _load_teaching(flora.teaching, species, pairs, tables)
    differing = tuple(edits.settle(flora.lookalikes, species, characters))
    report = LoadReport(tables, tuple(_absent(flora, prune)), differing)
    if dry_run:
        transaction.set_rollback(True)
    return report


def _load_plants(plants: Plants, tables: dict[str, Changes]) -> Ids:
    tables["species"] = synchronise(
        Species.objects.all(), ["key"], plant_rows.species_rows(plants), remove_others=False
    )
    species = _ids(Species, (each.key for each in plants.species))
    for name, model, key, rows in (
        ("common names", CommonName, ["species_id", "language", "name"], plant_rows.common_name_rows),
        ("synonyms", Synonym, ["species_id", "name"], plant_rows.synonym_rows),
        ("parts used", PartUsed, ["species_id", "part"], plant_rows.part_rows),
        ("stages by month", Showing, ["species_id", "stage"], plant_rows.showing_rows),
    ):
        tables[name] = synchronise(_of(model, "species", species), key, rows(plants, species))
    return species


def _load_characters(lookalikes: Lookalikes, species: Ids, tables: dict[str, Changes], edits: SchoolEdits) -> Ids:
    tables["characters"] = synchronise(
        Character.objects.all(), ["key"], lookalike_rows.character_rows(lookalikes), remove_others=False
    )
    characters = _ids(Character, (each.key for each in lookalikes.characters))
    tables["states"] = synchronise(
        edits.states_to_load(_of(CharacterState, "character", characters), lookalikes), ["character_id", "key"],
        lookalike_rows.state_rows(lookalikes, characters),
    )  # fmt: skip
    states = {
        (state.character.key, state.key): state.pk
        for state in _of(CharacterState, "character", characters).select_related("character")
    }
    tables["state table"] = synchronise(
        edits.rows_to_load(_of(StateRecord, "species", species)), ["species_id", "state_id", "stages"],
        lookalike_rows.score_rows(edits.lines_to_load(lookalikes), species, states),
    )  # fmt: skip
    return characters


def _load_pairs(flora: Flora, species: Ids, characters: Ids, tables: dict[str, Changes]) -> Ids:
    lookalikes = flora.lookalikes
    tables["pairs"] = synchronise(
        Pair.objects.all(), ["key"], lookalike_rows.pair_rows(flora, species), remove_others=False
    )
    pairs = _ids(Pair, (each.key for each in lookalikes.pairs))
    tables["characters of pairs"] = synchronise(
        _of(PairCharacter, "pair", pairs), ["pair_id", "character_id", "label", "trust"],
        lookalike_rows.pair_character_rows(lookalikes, pairs, characters),
    )  # fmt: skip
    return pairs


def _load_teaching(teaching: Teaching, species: Ids, pairs: Ids, tables: dict[str, Changes]) -> None:
    tables["modules"] = synchronise(
        Module.objects.all(), ["key"], lookalike_rows.module_rows(teaching), remove_others=False
    )
    modules = _ids(Module, (each.key for each in teaching.modules))
    tables["species of modules"] = synchronise(
        _of(ModuleSpecies, "module", modules), ["module_id", "species_id"],
        lookalike_rows.module_species_rows(teaching, modules, species),
    )  # fmt: skip
    tables["pairs of modules"] = synchronise(
        _of(ModulePair, "module", modules), ["module_id", "pair_id"],
        lookalike_rows.module_pair_rows(teaching, modules, pairs),
    )  # fmt: skip


def _ids(model: type[models.Model], keys: Iterable[str]) -> Ids:
    return dict(model._default_manager.filter(key__in=list(keys)).values_list("key", "pk"))


def _of(model: type[models.Model], parent: str, ids: Ids) -> QuerySet[Any]:
    return model._default_manager.filter(**{f"{parent}_id__in": list(ids.values())})


def _absent(flora: Flora, prune: bool) -> Iterator[Absent]:
    named = {
        Module: {each.key for each in flora.teaching.modules},
        Pair: {each.key for each in flora.lookalikes.pairs},
        Character: {each.key for each in flora.lookalikes.characters},
        Species: {each.key for each in flora.plants.species},
    }
    for model in KEYED:
        for row in model._default_manager.exclude(key__in=named[model]).order_by("key"):
            yield _removed(row) if prune else Absent(model.__name__, row.key, kept=True)


def _removed(row: Any) -> Absent:
    """Remove a row, unless something that is kept points to it."""
    name, key = type(row).__name__, row.key
    try:
        with transaction.atomic():
            row.delete()
    except ProtectedError as error:
        holders = sorted({str(each._meta.verbose_name) for each in error.protected_objects})
        return Absent(name, key, kept=True, held_by=", ".join(holders))
    return Absent(name, key, kept=False)
