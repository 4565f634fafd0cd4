"""One species at one character as the school has it: its grid, where it stands, and who changed it."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import Any

from django.db.models import Max

from species.models import Character, Species, StateRecord, TableEdit
from species.rules.grid import fingerprint, grid_of
from species.rules.separation import Score
from species.rules.vocabulary import Frequency, Stage

Lines = list[list[Any]]
"""Lines as they are stored with an edit: [state, how often, [stages]]."""


@dataclass(frozen=True)
class Cell:
    """What the table says of one species at one character."""

    species: Species
    character: Character
    scores: tuple[Score, ...]
    number: int
    """Of its last edit; 0 before the first."""

    @property
    def stages(self) -> tuple[Stage, ...]:
        return tuple(map(Stage, self.character.stages))

    @property
    def grid(self) -> dict[Stage, dict[str, Frequency]]:
        return grid_of(self.scores, self.stages)

    @property
    def version(self) -> str:
        """A word that changes with every edit and with whatever else changes the lines."""
        return version_of(self.number, self.scores, self.stages)


def version_of(number: int, scores: Iterable[Score], stages: Iterable[Stage]) -> str:
    """The number of the last edit, and a fingerprint of the lines."""
    return f"{number}-{fingerprint(grid_of(scores, stages))}"


def cell(species: Species, character: Character) -> Cell:
    """The cell as it is stored now; two queries."""
    rows = StateRecord.objects.filter(species=species, state__character=character).select_related("state")
    last = TableEdit.objects.filter(species=species, character=character).aggregate(last=Max("number"))["last"]
    return Cell(species, character, tuple(score_of(row) for row in rows.order_by("state__order", "id")), last or 0)


def all_cells() -> dict[tuple[str, str], Cell]:
    """Every cell, also those of which nothing is known, by the keys of species and character; four queries."""
    numbers, scores = last_numbers(), _all_scores()
    characters = list(Character.objects.all())
    return {
        (species.key, character.key): Cell(
            species,
            character,
            tuple(scores.get((species.pk, character.pk), ())),
            numbers.get((species.pk, character.pk), 0),
        )
        for species in Species.objects.all()
        for character in characters
    }


def _all_scores() -> dict[tuple[int, int], list[Score]]:
    found: dict[tuple[int, int], list[Score]] = {}
    for row in StateRecord.objects.select_related("state").order_by("state__order", "id"):
        found.setdefault((row.species_id, row.state.character_id), []).append(score_of(row))
    return found


def last_numbers() -> dict[tuple[int, int], int]:
    """The number of the last edit by the ids of species and character; one query."""
    rows = TableEdit.objects.values("species_id", "character_id").annotate(last=Max("number")).order_by()
    return {(row["species_id"], row["character_id"]): row["last"] for row in rows}


def cells_of_the_school() -> dict[tuple[int, int], TableEdit]:
    """The last edit of each cell whose lines are the school's own, by the ids of species and character."""
    last = {}
    for row in TableEdit.objects.select_related("species", "character").order_by("number"):
        last[row.species_id, row.character_id] = row
    return {ids: row for ids, row in last.items() if not row.from_tables}


def score_of(row: StateRecord) -> Score:
    return Score(row.state.key, Frequency(row.frequency), frozenset(map(Stage, row.stages)))


def lines_of(scores: Iterable[Score]) -> Lines:
    """Lines as they are stored with an edit."""
    return [
        [each.state, each.frequency.value, [stage.value for stage in Stage if stage in each.stages]] for each in scores
    ]


def scores_of_lines(lines: Iterable[Collection[Any]]) -> tuple[Score, ...]:
    """The lines of an edit as the rules read them."""
    return tuple(Score(state, Frequency(often), frozenset(map(Stage, stages))) for state, often, stages in lines)
