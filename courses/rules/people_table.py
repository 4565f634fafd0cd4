"""People out of a table: every row read or refused with its reason, none half. Pure."""

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

COLUMNS = ("name", "email", "family_name", "phone", "role", "course")
NEEDED = ("name", "email")
ROLES = ("participant", "tutor", "assessor", "organiser")
LONGEST = {"name": 120, "email": 254, "family_name": 80, "phone": 40}
_ADDRESS = re.compile(r"[^@\s<>,;]+@[^@\s<>,;]+\.[^@\s<>,;]+")


@dataclass(frozen=True)
class PersonFacts:
    """One person to be taken in: `course` is a key, or empty."""

    row: int
    name: str
    email: str
    family_name: str = ""
    phone: str = ""
    role: str = "participant"
    course: str = ""


@dataclass(frozen=True)
class RowProblem:
    """What is wrong, in which row and column (empty: the whole row); `reason` is a word for whoever words it."""

    row: int
    column: str
    reason: str
    said: str = ""


@dataclass(frozen=True)
class PeopleRead:
    """A table read: who can be taken in, who is there already, and every problem."""

    people: tuple[PersonFacts, ...]
    known: tuple[PersonFacts, ...]
    problems: tuple[RowProblem, ...]

    @property
    def is_clean(self) -> bool:
        return not self.problems


def read_people(
    headings: Sequence[str],
    rows: Sequence[tuple[int, Mapping[str, str]]],
    known_addresses: Collection[str],
    course_keys: Collection[str],
) -> PeopleRead:
    """People of a table. `rows`: number and cells by heading. `known_addresses` in small letters.

    A heading may be written in any case, with spaces or underscores. Somebody whose address is known is no
    problem and is left as they are.
    """
    named = {_plain(heading): heading for heading in headings if heading}
    missing = [column for column in NEEDED if column not in named]
    strange = [heading for plain, heading in named.items() if plain not in COLUMNS]
    problems = [RowProblem(1, column, "column missing") for column in missing]
    problems += [RowProblem(1, heading, "column unknown") for heading in strange]
    if missing:
        return PeopleRead((), (), tuple(problems))
    people: list[PersonFacts] = []
    known: list[PersonFacts] = []
    first_row: dict[str, int] = {}
    for number, cells in rows:
        values = {column: cells.get(named[column], "").strip() if column in named else "" for column in COLUMNS}
        wrong = _problems_of(number, values, course_keys)
        address = values["email"].lower()
        if not wrong and address in first_row:
            wrong = [RowProblem(number, "email", "twice", str(first_row[address]))]
        problems += wrong
        if wrong:
            continue
        first_row[address] = number
        facts = PersonFacts(number, **{**values, "email": address, "role": values["role"].lower() or "participant"})
        (known if address in known_addresses else people).append(facts)
    return PeopleRead(tuple(people), tuple(known), tuple(problems))


def _problems_of(row: int, values: Mapping[str, str], courses: Collection[str]) -> list[RowProblem]:
    found = [RowProblem(row, column, "empty") for column in NEEDED if not values[column]]
    if values["email"] and not _ADDRESS.fullmatch(values["email"]):
        found.append(RowProblem(row, "email", "no address", values["email"]))
    found += [
        RowProblem(row, column, "too long", str(most)) for column, most in LONGEST.items() if len(values[column]) > most
    ]
    if values["role"] and values["role"].lower() not in ROLES:
        found.append(RowProblem(row, "role", "no role", values["role"]))
    if values["course"] and values["course"] not in courses:
        found.append(RowProblem(row, "course", "no course", values["course"]))
    return found


def _plain(heading: str) -> str:
    return re.sub(r"[\s_-]+", "_", heading.strip().lower())
