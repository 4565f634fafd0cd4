"""Cells to values. Every reader returns something usable and notes what is wrong, so that one pass finds
all.
"""

import re
from collections.abc import Collection, Iterator, Mapping
from enum import StrEnum
from typing import TypeVar

from species.rules.lists import split_list
from species.rules.names import nearest_names
from species.rules.tables.problems import Fault, Problems
from species.rules.tables.rows import RawRow, raw_rows

_KEY = re.compile(r"[a-z0-9]+(?:[-_][a-z0-9]+)*$")
_RANGE = re.compile(r"(\d{1,2})\s+to\s+(\d{1,2})$")
_YES_NO = {"yes": True, "no": False, "": False}
Choice = TypeVar("Choice", bound=StrEnum)


class Cells:
    """The cells of one row, read one by one; problems are noted with file, row and field."""

    def __init__(self, row: RawRow, problems: Problems) -> None:
        self.row = row
        self.problems = problems

    @property
    def number(self) -> int:
        return self.row.number

    def fault(self, column: str, fault: Fault, **values: object) -> None:
        """Note a problem with one field of this row."""
        self.problems.add(self.row.file, self.row.number, column, fault, **values)

    def text(self, column: str, longest: int = 4000, required: bool = False) -> str:
        """The cell as text, line breaks kept."""
        value = self.row.cells[column].replace("\r\n", "\n").replace("\r", "\n")
        if required and not value:
            self.fault(column, Fault.EMPTY)
        if len(value) > longest:
            self.fault(column, Fault.TOO_LONG, length=len(value), longest=longest)
        return value

    def key(self, column: str = "key", longest: int = 60) -> str:
        """A key: small letters, digits, hyphens and underscores."""
        value = self.text(column, longest, required=True)
        if value and not _KEY.match(value):
            self.fault(column, Fault.NOT_A_KEY, value=value)
        return value

    def choice(self, column: str, choices: type[Choice]) -> Choice:
        """One word of a closed list; the first of the list where the cell is wrong."""
        value = self.text(column, required=True)
        return self._chosen(column, value, choices) or next(iter(choices))

    def choices(self, column: str, choices: type[Choice], required: bool = True) -> tuple[Choice, ...]:
        """Several words of a closed list, in the order of that list."""
        values = split_list(self.text(column, required=required))
        found = {self._chosen(column, value, choices) for value in values}
        return tuple(choice for choice in choices if choice in found)

    def _chosen(self, column: str, value: str, choices: type[Choice]) -> Choice | None:
        if not value:
            return None
        known = [choice.value for choice in choices]
        if value in known:
            return choices(value)
        self.fault(column, Fault.NOT_A_CHOICE, value=value, choices=", ".join(known))
        return None

    def whole(self, column: str, lowest: int, highest: int) -> int | None:
        """A whole number, or nothing where the cell is empty."""
        value = self.text(column)
        if not value:
            return None
        if value.isascii() and value.isdigit() and lowest <= int(value[:9]) <= highest:
            return int(value)
        self.fault(column, Fault.NOT_A_NUMBER, value=value, lowest=lowest, highest=highest)
        return None

    def yes_or_no(self, column: str) -> bool:
        """ "yes" or "no"; empty means no."""
        value = self.text(column).casefold()
        if value not in _YES_NO:
            self.fault(column, Fault.NOT_YES_OR_NO, value=value)
        return _YES_NO.get(value, False)

    def months(self, column: str) -> tuple[int, ...]:
        """Months as "4", "10 to 4" (over the new year), a list of these, or "all year"; sorted."""
        value = self.text(column, required=True)
        if value.casefold() == "all year":
            return tuple(range(1, 13))
        found: set[int] = set()
        for piece in split_list(value):
            months = _months_of(piece)
            if not months:
                self.fault(column, Fault.NOT_MONTHS, value=piece)
            found |= months
        return tuple(sorted(found))

    def reference(self, column: str, what: str, known: Collection[str], required: bool = True) -> str:
        """A key that has to stand in another table; the nearest known one is named where it does not."""
        value = self.text(column, required=required)
        if value and value not in known:
            self._unknown(column, what, value, known)
        return value

    def references(self, column: str, what: str, known: Collection[str]) -> tuple[str, ...]:
        """Several keys of another table."""
        values = split_list(self.text(column))
        for value in values:
            if value not in known:
                self._unknown(column, what, value, known)
        return values

    def _unknown(self, column: str, what: str, value: str, known: Collection[str]) -> None:
        nearest = "".join(nearest_names(value, known, 1))
        self.fault(column, Fault.UNKNOWN_KEY, what=what, value=value, nearest=nearest)


class Tables:
    """The contents of all files by name, None where a file is missing, with the problems found in them."""

    def __init__(self, contents: Mapping[str, bytes | None], problems: Problems) -> None:
        self.contents = contents
        self.problems = problems

    def rows(self, file: str) -> Iterator[Cells]:
        """The rows of one file, ready to be read cell by cell."""
        return (Cells(row, self.problems) for row in raw_rows(file, self.contents.get(file), self.problems))


def _months_of(piece: str) -> set[int]:
    match = _RANGE.match(piece)
    first, last = (int(match[1]), int(match[2])) if match else (_whole(piece), _whole(piece))
    if not (1 <= first <= 12 and 1 <= last <= 12):
        return set()
    return {(first - 1 + step) % 12 + 1 for step in range((last - first) % 12 + 1)}


def _whole(piece: str) -> int:
    return int(piece) if piece.isascii() and piece.isdigit() and len(piece) < 3 else 0
