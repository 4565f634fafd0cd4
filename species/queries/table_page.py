"""The state table of one species as a page shows it, and the history of one cell."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Count
from django.utils.translation import gettext as _

from species.models import Character, CharacterState, Species, StateRecord, TableEdit
from species.queries.table_cells import cells_of_the_school, last_numbers, score_of, scores_of_lines
from species.queries.table_words import stage_words, words_of
from species.rules.grid import grid_of
from species.rules.vocabulary import Stage


@dataclass(frozen=True)
class TableRow:
    """One character of a species: what it shows, at which stages nothing is known, whether the school wrote it."""

    character: Character
    says: str
    unknown_at: str
    """Stages at which nothing is scored though something is at others; empty where all or none is known."""
    is_known: bool
    is_of_the_school: bool
    edits: int


@dataclass(frozen=True)
class EditLine:
    """One change of a cell, in words."""

    number: int
    at: datetime
    who: str
    why: str
    before: str
    after: str


def table_rows(species: Species) -> list[TableRow]:
    """The whole table of one species, in the order of the characters; a constant number of queries."""
    scores: dict[int, list[StateRecord]] = {}
    rows = StateRecord.objects.filter(species=species).select_related("state").order_by("state__order", "id")
    for row in rows:
        scores.setdefault(row.state.character_id, []).append(row)
    numbers, of_the_school = last_numbers(), cells_of_the_school()
    return [
        _row(
            each, scores.get(each.pk, []), numbers.get((species.pk, each.pk), 0), (species.pk, each.pk) in of_the_school
        )
        for each in Character.objects.all()
    ]


def _row(character: Character, rows: list[StateRecord], edits: int, is_of_the_school: bool) -> TableRow:
    lines, stages = [score_of(row) for row in rows], frozenset(map(Stage, character.stages))
    unknown = stages - grid_of(lines, stages).keys()
    return TableRow(
        character,
        says=words_of(lines, {row.state.key: row.state.text for row in rows}),
        unknown_at=stage_words(unknown) if lines else "",
        is_known=bool(lines),
        is_of_the_school=is_of_the_school,
        edits=edits,
    )


def history(species: Species, character: Character, states: Iterable[CharacterState]) -> list[EditLine]:
    """All changes of one cell, the last first; one query."""
    texts = {each.key: each.text for each in states}
    rows = TableEdit.objects.filter(species=species, character=character).select_related("by")
    return [
        EditLine(
            row.number,
            row.at,
            who_of(row),
            row.why,
            words_of(scores_of_lines(row.before), texts),
            words_of(scores_of_lines(row.after), texts),
        )
        for row in rows.order_by("-number")
    ]


def who_of(edit: TableEdit) -> str:
    """Who made an edit, in words."""
    if edit.by is None:
        return _("the tables that come with the program") if edit.from_tables else _("a command")
    return edit.by.get_full_name() or edit.by.email


@dataclass(frozen=True)
class SpeciesCount:
    """A species, and of how many characters the table knows something."""

    species: Species
    known: int


def species_counts() -> tuple[list[SpeciesCount], int]:
    """All species with the number of their known characters, and the number of all characters."""
    rows = Species.objects.annotate(known=Count("state_records__state__character", distinct=True))
    rows = rows.prefetch_related("common_names").order_by("name")
    return [SpeciesCount(row, row.known) for row in rows], Character.objects.count()
