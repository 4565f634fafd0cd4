"""Changing what the state table says: in one transaction, with who, when and why, and nothing of another's lost."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from species.models import Character, CharacterState, Species, StateRecord, TableEdit
from species.queries.table_cells import Cell, cell, lines_of
from species.rules.grid import Grid, Overfull, is_same, overfull, scores_in
from species.rules.separation import Score


class Overtaken(Exception):
    """Somebody changed the cell since it was read; `now` is what stands there, `last` their edit, if it was one."""

    def __init__(self, now: Cell, last: TableEdit | None) -> None:
        super().__init__(f"{now.species}, {now.character} was changed in the meantime")
        self.now = now
        self.last = last


class TooFull(Exception):
    """At some stages something is always shown and something else as well."""

    def __init__(self, where: tuple[Overfull, ...]) -> None:
        super().__init__(", ".join(each.stage for each in where))
        self.where = where


@dataclass(frozen=True)
class Wish:
    """What somebody wants to stand in a cell, and the version that they saw; no version: whatever stands there."""

    species: Species
    character: Character
    grid: Grid
    version: str = ""


@transaction.atomic
def edit_table(wishes: Iterable[Wish], *, by: User | None, now: datetime, why: str) -> list[TableEdit]:
    """Bring these cells to what is wished, all or none; cells that say so already are left alone.

    Raises Overtaken or TooFull, having changed nothing.
    """
    return [edit for wish in wishes if (edit := _edit(wish, by=by, now=now, why=why))]


def _edit(wish: Wish, *, by: User | None, now: datetime, why: str) -> TableEdit | None:
    locked = Species.objects.select_for_update().get(pk=wish.species.pk)
    before = cell(locked, wish.character)
    if wish.version not in ("", before.version):
        edits = TableEdit.objects.filter(species=locked, character=wish.character).select_related("by")
        raise Overtaken(before, edits.order_by("number").last())
    if full := overfull(wish.grid):
        raise TooFull(full)
    if is_same(before.grid, wish.grid):
        return None
    states = list(CharacterState.objects.filter(character=wish.character))
    after = scores_in(wish.grid, before.stages, [each.key for each in states])
    write_cell(locked, wish.character, after, states)
    return note_edit(before, after, by=by, now=now, why=why)


def write_cell(
    species: Species, character: Character, scores: Iterable[Score], states: Iterable[CharacterState]
) -> None:
    """Make the stored lines of a cell these; KeyError for a state that the character has not."""
    ids = {each.key: each.pk for each in states}
    rows = [
        StateRecord(species=species, state_id=ids[state], frequency=often, stages=stages)
        for state, often, stages in lines_of(scores)
    ]
    StateRecord.objects.filter(species=species, state__character=character).delete()
    StateRecord.objects.bulk_create(rows)


def note_edit(
    before: Cell, after: Iterable[Score], *, by: User | None, now: datetime, why: str, from_tables: bool = False
) -> TableEdit:
    """Keep what a cell said and what it says now."""
    return TableEdit.objects.create(
        species=before.species,
        character=before.character,
        number=before.number + 1,
        before=lines_of(before.scores),
        after=lines_of(after),
        by=by,
        at=now,
        why=why,
        from_tables=from_tables,
    )
