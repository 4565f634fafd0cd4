"""What can be wrong with the tables of the flora, as facts: the words for it stand elsewhere."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum


class Fault(StrEnum):
    """What is wrong with a cell, a row or a file."""

    FILE_MISSING = "file missing"
    NOT_TEXT = "not UTF-8 text"
    NOT_A_TABLE = "not readable as a table"
    COLUMN_MISSING = "column missing"
    COLUMN_UNKNOWN = "column unknown"
    TOO_MANY_CELLS = "more cells than columns"
    EMPTY = "empty"
    TOO_LONG = "too long"
    NOT_A_KEY = "not a key"
    NOT_A_CHOICE = "not one of the choices"
    NOT_YES_OR_NO = "neither yes nor no"
    NOT_A_NUMBER = "not a number in range"
    NOT_MONTHS = "not months"
    UNKNOWN_KEY = "no such key"
    TWICE = "twice"
    NAME_OF_TWO = "one name for two species"
    SAME_SPECIES = "a pair of one species"
    UPSIDE_DOWN = "lower number above the higher"
    NEVER_SHOWS = "stage never shows"
    NEVER_TOGETHER = "stages never meet"
    NOT_GATHERED_THEN = "stage does not show in the months of gathering"
    POISON_GATHERED = "part of a poisonous species"
    NO_HAZARD = "poisonous without a hazard"
    TOO_MILD = "deadly species in a pair that is not dangerous"
    CORE_IS_SAFE = "core pair that is not dangerous"
    NOTHING_SHOWS = "species that never shows"
    OUTSIDE_CHARACTER = "stage at which the character cannot be seen"
    ALWAYS_AND_MORE = "always, and another state beside it"
    LABEL_OR_CHARACTER = "character and label, or neither"
    SIDE_MISSING = "text of one side missing"
    TOO_SURE = "decisive, but the table does not separate"
    STAGE_NOT_CONFUSED = "stage in no combination of the pair"
    NO_COMBINATION = "pair without stages"
    STORED_OTHERWISE = "stored under another key"
    SIDE_NOT_TAUGHT = "pair of a module without its species"
    NOT_A_DATE = "not a date"
    UNKNOWN_NAME = "no plant of that name"
    FILE_NOT_THERE = "file named in a row is not there"
    STATE_NOT_CODED = "state in none of the four columns"
    HALF_KNOWN = "some states known, others not"
    NOTHING_SHOWN = "every state absent"
    ALWAYS_AND_OTHERS = "present, and others beside it"
    NOT_A_FREQUENCY = "variable without how often"
    CHANGED_SINCE = "changed since the file was written"
    SPECIMEN_DIFFERS = "one specimen described in two ways"


@dataclass(frozen=True)
class Problem:
    """One thing that is wrong, and where. `row` counts as a spreadsheet does, the header being row 1;
    0 means the whole file. `values` are the figures and words that belong to the fault."""

    file: str
    row: int
    field: str
    fault: Fault
    values: tuple[tuple[str, str], ...] = ()

    def value(self, name: str) -> str:
        """One of the values, or an empty string."""
        return dict(self.values).get(name, "")


@dataclass
class Problems:
    """All problems found so far, in the order in which they were met."""

    found: list[Problem] = field(default_factory=list)

    def add(self, file: str, row: int, column: str, fault: Fault, **values: object) -> None:
        """Note a problem; values are kept as text."""
        words = tuple((name, str(value)) for name, value in values.items())
        self.found.append(Problem(file, row, column, fault, words))

    def in_order(self, files: Iterable[str]) -> tuple[Problem, ...]:
        """All problems, file by file in the given order, then by row."""
        place = {file: number for number, file in enumerate(files)}
        return tuple(sorted(self.found, key=lambda each: (place.get(each.file, len(place)), each.row)))
