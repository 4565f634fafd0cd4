"""Where the school wrote the state table itself, loading leaves its words alone unless it is told otherwise."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from django.db.models import QuerySet

from species.actions.flora.plant_rows import Ids
from species.actions.table import note_edit
from species.models import CharacterState, StateRecord
from species.queries.table_cells import Cell, cell, cells_of_the_school
from species.queries.table_words import words_of
from species.rules.grid import grid_of, is_same
from species.rules.separation import Score
from species.rules.tables.comparing import scores_by_species
from species.rules.tables.records import Lookalikes


@dataclass(frozen=True)
class SchoolEdit:
    """A cell in which the school and the tables differ: the school's words stand, or were replaced."""

    species: str
    character: str
    school: str
    tables: str
    replaced: bool


class SchoolEdits:
    """The cells that the school wrote, as they stand before the tables are loaded."""

    def __init__(self, *, replaced_at: datetime | None) -> None:
        self.replaced_at = replaced_at
        self.cells: Mapping[tuple[int, int], Cell] = {
            ids: cell(edit.species, edit.character) for ids, edit in cells_of_the_school().items()
        }

    @property
    def kept(self) -> Mapping[tuple[int, int], Cell]:
        """The cells that loading leaves alone."""
        return self.cells if self.replaced_at is None else {}

    def states_to_load(self, states: QuerySet[CharacterState], lookalikes: Lookalikes) -> QuerySet[CharacterState]:
        """The stored states without those that only the school's cells still need."""
        named = {(each.character, each.key) for each in lookalikes.states}
        spared = [
            row.pk
            for one in self.kept.values()
            for row in CharacterState.objects.filter(character=one.character, key__in=[s.state for s in one.scores])
            if (one.character.key, row.key) not in named
        ]
        return states.exclude(pk__in=spared)

    def rows_to_load(self, rows: QuerySet[StateRecord]) -> QuerySet[StateRecord]:
        """The stored lines without those of the school's cells."""
        for species, character in self.kept:
            rows = rows.exclude(species_id=species, state__character_id=character)
        return rows

    def lines_to_load(self, lookalikes: Lookalikes) -> Lookalikes:
        """The tables without what they say of the school's cells."""
        kept = {(one.species.key, one.character.key) for one in self.kept.values()}
        scores = tuple(each for each in lookalikes.scores if (each.species, each.character) not in kept)
        return replace(lookalikes, scores=scores)

    def settle(self, lookalikes: Lookalikes, species: Ids, characters: Ids) -> Iterator[SchoolEdit]:
        """The cells in which school and tables differ, after loading; a replaced one goes into the history."""
        said, texts = scores_by_species(lookalikes), _texts()
        for one in self.cells.values():
            if one.species.key not in species or one.character.key not in characters:
                continue
            theirs = said.get(one.species.key, {}).get(one.character.key, [])
            if is_same(one.grid, grid_of(theirs, one.stages)):
                continue
            if self.replaced_at is not None:
                self._note(one, theirs)
            words = texts.get(one.character.pk, {})
            yield SchoolEdit(
                one.species.key,
                one.character.key,
                school=words_of(one.scores, words),
                tables=words_of(theirs, words),
                replaced=self.replaced_at is not None,
            )

    def _note(self, one: Cell, theirs: list[Score]) -> None:
        assert self.replaced_at is not None
        why = "load_flora --replace-edits"
        note_edit(one, theirs, by=None, now=self.replaced_at, why=why, from_tables=True)


def _texts() -> dict[int, dict[str, str]]:
    found: dict[int, dict[str, Any]] = {}
    for row in CharacterState.objects.all():
        found.setdefault(row.character_id, {})[row.key] = row.text
    return found
