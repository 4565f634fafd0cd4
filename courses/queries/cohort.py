"""The people of a course against the pairs of its standard: who can tell what apart."""

from collections import Counter
from dataclasses import dataclass
from datetime import datetime

from assessments.queries.flora import the_flora
from assessments.queries.kept_standings import figures_of
from assessments.queries.standards import standards_with_parts
from courses.models import Course, Person
from courses.rules.progress import Far, Progress, progress_from


@dataclass(frozen=True)
class PairColumn:
    """One pair: its names, and how many people are how far with it."""

    key: str
    gathered: str
    mistaken: str
    passed: int
    missed: int


@dataclass(frozen=True)
class PersonRow:
    """One person: a cell per pair in the order of the columns."""

    person: Person
    cells: tuple[Progress, ...]
    has_all: bool

    @property
    def passed(self) -> int:
        return sum(cell.passed for cell in self.cells)


@dataclass(frozen=True)
class Cohort:
    """Everybody with a place in a course against every dangerous pair of its standard."""

    course: Course
    columns: tuple[PairColumn, ...]
    rows: tuple[PersonRow, ...]

    @property
    def wanting(self) -> list[PairColumn]:
        """Pairs that fewest can tell apart first; those that everybody passed are left out."""
        return sorted((c for c in self.columns if c.passed < len(self.rows)), key=lambda c: (c.passed, -c.missed))


def cohort_of(course: Course, now: datetime) -> Cohort:
    """The cohort of a course, in a constant number of queries whatever the number of people and pairs."""
    enrolments = course.enrolments.with_a_place().select_related("person").order_by("person__name", "person_id")
    people = [each.person for each in enrolments]
    flora = the_flora()
    standard = standards_with_parts().get(pk=course.standard_id)
    standings = figures_of([person.user_id for person in people], standard, now, flora)
    pairs = [row.pair for row in standard.pairs.all() if row.pair.is_dangerous]
    rows = []
    for person in people:
        cells = {each.key: progress_from(each) for each in standings[person.user_id].pairs}
        mine = tuple(cells[pair.key] for pair in pairs)
        rows.append(PersonRow(person, mine, standings[person.user_id].passed))
    passed = Counter(cell.pair for row in rows for cell in row.cells if cell.far is Far.PASSED)
    missed = Counter(cell.pair for row in rows for cell in row.cells if cell.misses)
    columns = tuple(
        PairColumn(
            pair.key,
            flora.common(pair.gathered.key),
            flora.common(pair.mistaken.key),
            passed[pair.key],
            missed[pair.key],
        )
        for pair in pairs
    )
    return Cohort(course, columns, tuple(rows))
