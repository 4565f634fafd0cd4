"""A character table that comes in as a file: all of it or nothing."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from species.actions.table import Wish, edit_table
from species.models import CharacterState
from species.queries.table_cells import Cell, all_cells
from species.queries.table_exchange import reading_of
from species.queries.table_preview import Lines, Preview, preview
from species.rules.grid import is_same, scores_in
from species.rules.tables.exchange import ReadCell
from species.rules.tables.problems import Fault, Problem, Problems


class FileHasProblems(Exception):
    """Nothing was taken; `problems` says why, row by row."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__(f"{len(problems)} problems in the file")
        self.problems = problems


@dataclass(frozen=True)
class ImportReport:
    """What a file changed or would change: cells by the keys of species and character, and what follows for pairs."""

    changed: tuple[tuple[str, str], ...]
    unchanged: int
    preview: Preview


@transaction.atomic
def import_table(
    file: str, content: bytes, *, by: User | None, now: datetime, why: str, dry_run: bool = False
) -> ImportReport:
    """Bring the state table to what the file says, all or nothing; cells that it does not name stay.

    Raises FileHasProblems, having changed nothing: also where a cell was changed since the file was written.
    """
    reading = reading_of(file, content)
    if reading.problems:
        raise FileHasProblems(reading.problems)
    wishes = list(_wishes(file, reading.cells))
    states = _states()
    lines: Lines = {
        (wish.species.key, wish.character.key): scores_in(wish.grid, now_.stages, states[wish.character.pk])
        for wish, now_ in wishes
    }
    what = preview(lines)
    if not dry_run:
        edit_table([wish for wish, _now in wishes], by=by, now=now, why=why)
    return ImportReport(tuple(lines), len(reading.cells) - len(wishes), what)


def _wishes(file: str, cells: tuple[ReadCell, ...]) -> Iterator[tuple[Wish, Cell]]:
    """The cells that differ, with what stands there; FileHasProblems where that is newer than the file."""
    stored = all_cells()
    problems, found = Problems(), []
    for read in cells:
        now = stored[read.species, read.character]
        wanted = {**now.grid, **read.grid}
        if is_same(now.grid, wanted):
            continue
        if read.versions - {now.version}:
            problems.add(file, read.row, "version", Fault.CHANGED_SINCE, species=read.species, character=read.character)
        found.append((Wish(now.species, now.character, wanted), now))
    if problems.found:
        raise FileHasProblems(tuple(problems.found))
    yield from found


def _states() -> dict[int, list[str]]:
    found: dict[int, list[str]] = {}
    for row in CharacterState.objects.order_by("order"):
        found.setdefault(row.character_id, []).append(row.key)
    return found
