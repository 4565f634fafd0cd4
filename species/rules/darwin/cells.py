"""The cells of a row of an archive to values: what is wrong is noted, and something usable comes back."""

from collections.abc import Collection, Iterable
from datetime import date, datetime, timedelta
from enum import StrEnum
from typing import TypeVar

from species.rules.darwin.layouts import Layout
from species.rules.darwin.rows import ReadRow
from species.rules.darwin.slips import KeptAside, Notes, Remark, Wrong
from species.rules.lists import split_list
from species.rules.names import nearest_names

Choice = TypeVar("Choice", bound=StrEnum)


class Cells:
    """One row of a table whose layout is known; cells are asked for by the name of their column."""

    def __init__(self, row: ReadRow, layout: Layout, notes: Notes) -> None:
        self.row, self.notes = row, notes
        self.terms = {each.name: each.term for each in layout.columns}

    @property
    def number(self) -> int:
        return self.row.number

    @property
    def file(self) -> str:
        return self.row.file

    def wrong(self, what: Wrong, column: str = "", **values: object) -> None:
        """Note a problem with this row."""
        self.notes.add(what, self.row.file, self.row.number, column, **values)

    def remark(self, what: Remark, column: str = "", **values: object) -> None:
        """Note what is worth saying of this row."""
        self.notes.add(what, self.row.file, self.row.number, column, **values)

    def keep_aside(self) -> None:
        """Keep the whole row aside: nothing of it has a place here."""
        row = self.row
        self.notes.aside += [KeptAside(row.file, row.number, row.core, term, row.cells[term]) for term in row.cells]

    def text(self, column: str, longest: int = 20_000, required: bool = False) -> str:
        value = self.row.text(self.terms[column])
        if required and not value:
            self.wrong(Wrong.EMPTY, column)
        if len(value) > longest:
            self.wrong(Wrong.TOO_LONG, column, length=len(value), longest=longest)
        return value

    def several(self, column: str, longest: int = 20_000) -> tuple[str, ...]:
        return split_list(self.text(column, longest))

    def choice(self, column: str, choices: type[Choice], required: bool = True) -> Choice | None:
        """One word of a closed list; None where the cell is empty or wrong, which is noted."""
        value = self.text(column, required=required)
        return choices(value) if value and self.one_of(column, value, [each.value for each in choices]) else None

    def stages(self, column: str, choices: type[Choice]) -> tuple[str, ...]:
        """Several words of a closed list, in the order of that list."""
        known = [each.value for each in choices]
        found = {value for value in self.several(column) if self.one_of(column, value, known)}
        return tuple(each for each in known if each in found)

    def one_of(self, column: str, value: str, choices: Collection[str]) -> bool:
        """Whether a value is one of the choices; noted where it is not."""
        if value not in choices:
            self.wrong(Wrong.NOT_A_CHOICE, column, value=value, choices=", ".join(choices))
        return value in choices

    def whole(self, column: str, lowest: int, highest: int) -> int | None:
        value = self.text(column)
        sign, digits = ("-", value[1:]) if value.startswith("-") else ("", value)
        if not value:
            return None
        if digits.isascii() and digits.isdigit() and lowest <= int(sign + digits[:9]) <= highest:
            return int(value)
        self.wrong(Wrong.NOT_A_NUMBER, column, value=value, lowest=lowest, highest=highest)
        return None

    def number_in(self, column: str, lowest: float, highest: float, required: bool = False) -> float | None:
        value = self.text(column, required=required)
        if not value:
            return None
        try:
            number = float(value)
        except ValueError:
            number = float("nan")
        if lowest <= number <= highest:
            return number
        self.wrong(Wrong.NOT_A_NUMBER, column, value=value, lowest=lowest, highest=highest)
        return None

    def months(self, column: str) -> tuple[int, ...]:
        found = set()
        for value in self.several(column):
            if value.isascii() and value.isdigit() and 1 <= int(value[:3]) <= 12:
                found.add(int(value))
            else:
                self.wrong(Wrong.NOT_A_NUMBER, column, value=value, lowest=1, highest=12)
        return tuple(sorted(found))

    def day(self, column: str, today: date) -> date | None:
        """A day, of a range the first, of a moment its day; not one that lies ahead."""
        value = self.text(column, required=True)
        if not value:
            return None
        try:
            day = date.fromisoformat(value.split("/")[0].split("T")[0])
        except ValueError:
            self.wrong(Wrong.NOT_A_DATE, column, value=value)
            return None
        if day > today:
            self.wrong(Wrong.DAY_AHEAD, column, value=value)
        return day

    def moment(self, column: str, now: datetime, required: bool = False) -> datetime | None:
        """A moment with its zone; a bare day, or a time without a zone, counts as UTC."""
        value = self.text(column, required=required)
        if not value:
            return None
        try:
            found = datetime.fromisoformat(value.split("/")[0])
        except ValueError:
            self.wrong(Wrong.NOT_A_DATE, column, value=value)
            return None
        moment = found if found.tzinfo else found.replace(tzinfo=now.tzinfo)
        if moment > now + timedelta(days=1):
            self.wrong(Wrong.DAY_AHEAD, column, value=value)
        return moment


def nearest(name: str, known: Iterable[str]) -> str:
    """The known names that look most like a wrong one, in one text."""
    return ", ".join(nearest_names(name, known))
