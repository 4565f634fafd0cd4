"""The character table as one CSV file, both ways: plants by characters, each state coded.

One row is one plant at one character, at stages where it shows the same. Every state of the character stands in one
of four columns: *present* (always shown), *variable* (with its frequency in brackets), *absent* (never shown) or
*not_known*. What is not known is never absent: a row has all its states in not_known, or none of them. Lists are
separated by " | ". The terms are those of descriptive data in biology (TDWG SDD).
"""

import csv
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from io import StringIO

from species.rules.grid import Grid, in_order
from species.rules.lists import joined_list, split_list
from species.rules.names import nearest_names, squeezed
from species.rules.tables.cells import Cells
from species.rules.tables.problems import Fault, Problem, Problems
from species.rules.tables.rows import raw_rows
from species.rules.vocabulary import Frequency, Stage

COLUMNS = ("species", "name", "character", "stages", "present", "variable", "absent", "not_known", "version")
REQUIRED = ("species", "character", "present", "variable", "absent", "not_known")
CODED = ("present", "variable", "absent", "not_known")
_VARIABLE = re.compile(r"(\S+)\s*\((usually|sometimes)\)$")


@dataclass(frozen=True)
class CharacterFacts:
    """A character as a file refers to it: the keys of its states and the stages at which it can be seen, in order."""

    key: str
    stages: tuple[Stage, ...]
    states: tuple[str, ...]


@dataclass(frozen=True)
class TaxonCell:
    """One plant at one character, with what the table says and the version of that."""

    species: str
    name: str
    character: CharacterFacts
    grid: Grid
    version: str


@dataclass(frozen=True)
class ReadCell:
    """What a file says of one plant at one character. Stages that it does not name stay as they are."""

    row: int
    species: str
    character: str
    grid: Grid
    versions: frozenset[str]
    """As written beside its rows; empty where none was kept."""


@dataclass(frozen=True)
class ExchangeReading:
    """What a file says and everything that is wrong with it; with problems it is for looking at only."""

    cells: tuple[ReadCell, ...]
    problems: tuple[Problem, ...]


def written(cells: Iterable[TaxonCell]) -> str:
    """The file: header, then plant by plant and character by character."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for each in cells:
        writer.writerows(_rows(each))
    return out.getvalue()


def _rows(each: TaxonCell) -> Iterator[list[str]]:
    groups: dict[tuple[tuple[str, Frequency], ...], list[Stage]] = {}
    for stage in in_order(each.character.stages):
        groups.setdefault(tuple(sorted(each.grid.get(stage, {}).items())), []).append(stage)
    for shown, stages in groups.items():
        said = dict(shown)
        states = each.character.states
        coded = (
            [state for state in states if said.get(state) == Frequency.ALWAYS],
            [f"{s} ({said[s]})" for s in states if said.get(s, Frequency.ALWAYS) != Frequency.ALWAYS],
            [state for state in states if said and state not in said],
            [] if said else list(states),
        )
        lists = map(joined_list, coded)
        yield [each.species, each.name, each.character.key, joined_list(stages), *lists, each.version]


def read_exchange(
    file: str, content: bytes, names: Mapping[str, str], characters: Mapping[str, CharacterFacts]
) -> ExchangeReading:
    """Read and check a file; `names` holds the key of a species by each of its names and by the key itself.

    Everything that is wrong is collected, row by row; nothing is raised.
    """
    problems = Problems()
    reader = _Reader(names, characters)
    for raw in raw_rows(file, content, problems, COLUMNS, REQUIRED):
        reader.take(Cells(raw, problems))
    return ExchangeReading(tuple(reader.cells()), problems.in_order([file]))


class _Reader:
    """Rows gathered into cells."""

    def __init__(self, names: Mapping[str, str], characters: Mapping[str, CharacterFacts]) -> None:
        self.names = names
        self.keys = {squeezed(name): key for name, key in names.items()} | {key: key for key in names.values()}
        self.characters = characters
        self.grids: dict[tuple[str, str], dict[Stage, dict[str, Frequency]]] = {}
        self.rows: dict[tuple[str, str], dict[Stage, int]] = {}
        self.versions: dict[tuple[str, str], set[str]] = {}

    def cells(self) -> Iterator[ReadCell]:
        for (species, character), grid in self.grids.items():
            ids = species, character
            yield ReadCell(
                min(self.rows[ids].values()), species, character, grid, frozenset(self.versions.get(ids, set()))
            )

    def take(self, cells: Cells) -> None:
        species = self._species(cells)
        key = cells.reference("character", "character", self.characters)
        character = self.characters.get(key)
        if character is None:
            return
        stages = self._stages(cells, character)
        shown = self._shown(cells, character)
        if not species or shown is None:
            return
        grid, rows = self.grids.setdefault((species, key), {}), self.rows.setdefault((species, key), {})
        for stage in stages:
            if stage in rows:
                first = f"{cells.row.file}, row {rows[stage]}"
                cells.fault("stages", Fault.TWICE, value=f"{species} {key} {stage}", first=first)
            rows[stage] = cells.number
            grid[stage] = shown
        if version := cells.text("version", 60):
            self.versions.setdefault((species, key), set()).add(version)

    def _species(self, cells: Cells) -> str:
        """By key or by any name; the column of names serves where that of keys is empty."""
        column = "species" if cells.row.cells["species"] or not cells.row.cells["name"] else "name"
        text = cells.text(column, 160, required=True)
        found = self.keys.get(text) or self.keys.get(squeezed(text), "")
        if text and not found:
            nearest = ", ".join(nearest_names(text, self.names))
            cells.fault(column, Fault.UNKNOWN_NAME, value=text, nearest=nearest)
        return found

    def _stages(self, cells: Cells, character: CharacterFacts) -> tuple[Stage, ...]:
        stages = cells.choices("stages", Stage, required=False) or character.stages
        for stage in stages:
            if stage not in character.stages:
                cells.fault("stages", Fault.OUTSIDE_CHARACTER, value=stage, character=character.key)
        return tuple(stage for stage in stages if stage in character.stages)

    def _shown(self, cells: Cells, character: CharacterFacts) -> dict[str, Frequency] | None:
        """The states that are shown, none where they are not known; nothing where the row contradicts itself."""
        before = len(cells.problems.found)
        coded: dict[str, tuple[str, Frequency | None]] = {}
        for column in CODED:
            for piece in split_list(cells.text(column)):
                self._take_state(cells, character, column, piece, coded)
        missing = [state for state in character.states if state not in coded]
        unknown = [state for state, (column, _) in coded.items() if column == "not_known"]
        shown = {state: often for state, (_, often) in coded.items() if often is not None}
        if missing:
            cells.fault("not_known", Fault.STATE_NOT_CODED, value=", ".join(missing))
        elif unknown and len(unknown) < len(coded):
            cells.fault("not_known", Fault.HALF_KNOWN, value=", ".join(unknown))
        elif not unknown and not shown:
            cells.fault("absent", Fault.NOTHING_SHOWN, character=character.key)
        elif len(shown) > 1 and Frequency.ALWAYS in shown.values():
            cells.fault("present", Fault.ALWAYS_AND_OTHERS, value=", ".join(shown))
        return shown if len(cells.problems.found) == before else None

    def _take_state(
        self,
        cells: Cells,
        character: CharacterFacts,
        column: str,
        piece: str,
        coded: dict[str, tuple[str, Frequency | None]],
    ) -> None:
        state, often = piece, Frequency.ALWAYS if column == "present" else None
        if column == "variable":
            match = _VARIABLE.match(piece)
            if match is None:
                cells.fault(column, Fault.NOT_A_FREQUENCY, value=piece)
            state, often = (match[1], Frequency(match[2])) if match else (piece, Frequency.SOMETIMES)
        if state not in character.states:
            nearest = "".join(nearest_names(state, character.states, 1))
            cells.fault(column, Fault.UNKNOWN_KEY, what=f"state of {character.key}", value=state, nearest=nearest)
        elif state in coded:
            cells.fault(column, Fault.TWICE, value=state, first=coded[state][0])
        else:
            coded[state] = (column, often)
