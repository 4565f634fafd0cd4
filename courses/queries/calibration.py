"""How sure the people of a course are, and how often right: levels with counts first, one figure last if at all."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.utils.translation import gettext as _

from assessments.documents.tables import written_table
from assessments.rules.confidence import (
    FEWEST_FOR_A_SCORE,
    ODDS,
    Calibration,
    Level,
    calibration,
    chance_reliability,
    levels_table,
)
from courses.models import Course

from .cohort_answers import AnswerLine, answers_in


@dataclass(frozen=True)
class LevelLine:
    """A level with its words."""

    words: str
    level: Level

    @property
    def expected(self) -> float:
        """How many would be right if the odds were kept."""
        return self.level.promised * self.level.said


@dataclass(frozen=True)
class PersonLevels:
    """One person: what came of each level, and how often they would surely have gathered a dangerous plant."""

    person: str
    user: int
    levels: tuple[Level, ...]
    claims: int
    sure_and_wrong: int


@dataclass(frozen=True)
class CalibrationPage:
    """The whole page. `score` is None below so many answers; `by_chance`: the part of it that chance alone gives."""

    course: Course
    claims: int
    sure_and_wrong: tuple[AnswerLine, ...]
    levels: tuple[LevelLine, ...]
    people: tuple[PersonLevels, ...]
    score: Calibration | None
    by_chance: float | None
    fewest: int = FEWEST_FOR_A_SCORE


def calibration_page(course: Course) -> CalibrationPage:
    """What the page shows, in a constant number of queries. Plants left alone are no claim and are not counted."""
    mine = answers_in(course)
    claims = {user: mine.found.claims_of([user]) for user in mine.answered_by}
    every = [claim for several in claims.values() for claim in several]
    wrong = mine.lines(mine.found.sure_and_wrong())
    said, right = [each[0] for each in every], [each[1] for each in every]
    enough = len(every) >= FEWEST_FOR_A_SCORE
    people = (_person(mine.people[user], user, claims[user], wrong) for user in claims if claims[user])
    return CalibrationPage(
        course,
        len(every),
        wrong,
        tuple(LevelLine(words, level) for words, level in zip(_words(), levels_table(said, right), strict=True)),
        tuple(sorted(people, key=lambda line: -line.sure_and_wrong)),
        calibration(said, right) if enough else None,
        chance_reliability(said) if enough else None,
    )


def _person(name: str, user: int, claims: list[tuple[str, bool]], wrong: Iterable[AnswerLine]) -> PersonLevels:
    levels = levels_table([said for said, _right in claims], [right for _said, right in claims])
    return PersonLevels(name, user, levels, len(claims), sum(line.user == user for line in wrong))


def _words() -> tuple[str, ...]:
    """The levels in the order of `ODDS`."""
    words = {"sure": _("Sure: 19 in 20"), "fairly": _("Fairly sure: 3 in 4"), "unsure": _("Unsure: 1 in 2")}
    return tuple(words[level] for level in ODDS)


def calibration_table(page: CalibrationPage) -> bytes:
    """The course and everybody in it as a file: of each level how many answers, and how many of them right."""
    ways = [word for words in _words() for word in (words, _("%s, right") % words)]
    columns = [_("name"), *ways, _("sure, and would have gathered a dangerous plant")]
    whole = [count for line in page.levels for count in (line.level.said, line.level.right)]
    rows: list[list[object]] = [[_("everybody"), *whole, len(page.sure_and_wrong)]]
    for line in page.people:
        rows.append([line.person, *(n for each in line.levels for n in (each.said, each.right)), line.sure_and_wrong])
    return written_table(columns, rows)
