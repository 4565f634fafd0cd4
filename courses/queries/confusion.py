"""What the people of a course take for what, how sure they are, and which photographs to look at again."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import Exists, OuterRef

from assessments.models import Evidence, Voiding
from assessments.queries.flora import Flora, the_flora
from assessments.queries.standards import standard_facts
from assessments.rules.confidence import Calibration, Level, calibration, levels_table
from assessments.rules.confusion_map import ANOTHER, NOTHING, ConfusionMap, Said, confusion_map
from assessments.rules.flags import KEY, LEFT, Flag, flags_of
from assessments.rules.intervals import Interval, exact_interval
from assessments.rules.kinds.catalogue import KINDS
from courses.models import Course
from species.rules.vocabulary import Settlement

ENOUGH_FOR_ONE_FIGURE = 30
FEWEST_FOR_AN_ITEM = 4
COUNTING = tuple(kind.key for kind in KINDS if kind.counts)


@dataclass(frozen=True)
class AnswerLine:
    """One answer, for looking behind a cell."""

    person: str
    at: datetime
    specimen: str
    shown: str
    said: str
    decision: str
    confidence: str
    is_live: bool

    @property
    def is_sure(self) -> bool:
        return self.confidence == "sure"


@dataclass(frozen=True)
class ItemLine:
    """One plant of the bank as several people answered it: counts and an interval, never a bare share."""

    specimen: str
    plant: str
    right: int
    answered: int
    interval: Interval
    flags: tuple[Flag, ...]


@dataclass(frozen=True)
class MapRow:
    """One row of the map as it is printed: the plant shown, and a cell for each name said."""

    key: str
    name: str
    is_dangerous: bool
    cells: tuple[tuple[str, int, int, bool, bool], ...]
    """By name said: its key, answers, gathered, whether that is the right name, whether it is a miss."""


@dataclass(frozen=True)
class ConfusionPage:
    """The whole page."""

    course: Course
    answers: int
    people: int
    columns: tuple[tuple[str, str], ...]
    rows: tuple[MapRow, ...]
    sure_and_wrong: tuple[AnswerLine, ...]
    levels: tuple[Level, ...]
    score: Calibration | None
    items: tuple[ItemLine, ...]
    behind: tuple[AnswerLine, ...]

    @property
    def to_look_at(self) -> tuple[ItemLine, ...]:
        return tuple(item for item in self.items if item.flags)


def confusion_page(course: Course, shown: str = "", said: str = "") -> ConfusionPage:
    """What the page shows, in a constant number of queries; `shown` and `said` name the cell to look behind."""
    flora, rows = the_flora(), _rows(course)
    standard = standard_facts(course.standard)
    dangerous = frozenset(pair.mistaken for pair in standard.dangerous_pairs)
    found = confusion_map([_said(row) for row in rows], dangerous)
    judged = [row for row in rows if row["confidence"]]
    levels = [row["confidence"] for row in judged]
    right = [_is_right(row, dangerous) for row in judged]
    return ConfusionPage(
        course,
        len(rows),
        len({row["person"] for row in rows}),
        tuple((key, _name(key, flora)) for key in found.said),
        tuple(_map_row(key, found, flora) for key in found.shown),
        tuple(_line(row, flora) for row in rows if _is_sure_and_wrong(row, dangerous)),
        levels_table(levels, right),
        calibration(levels, right) if len(judged) >= ENOUGH_FOR_ONE_FIGURE else None,
        _items(rows, dangerous, flora),
        tuple(_line(row, flora) for row in rows if shown and _cell_of(row) == (shown, said)),
    )


def _rows(course: Course) -> list[dict[str, Any]]:
    """The answers that count of everybody with a place, on plants whose name is settled; one query."""
    users = course.enrolments.with_a_place().values("person__user")
    void = Voiding.objects.filter(specimen=OuterRef("specimen"))
    rows = Evidence.objects.filter(
        ~Exists(void),
        person__in=users,
        kind__in=COUNTING,
        specimen__settlement=Settlement.CONFIRMED,
        specimen__species__isnull=False,
        sitting__annulled_at__isnull=True,
    )
    columns = (
        "person", "person__person__name", "specimen", "specimen__key", "specimen__species__key", "named__key", "said",
        "decision", "confidence", "opened_at", "medium",
    )  # fmt: skip
    return list(rows.order_by("opened_at", "position").values(*columns))


def _cell_of(row: dict[str, Any]) -> tuple[str, str]:
    named = row["named__key"] or (ANOTHER if row["said"].strip() else NOTHING)
    return row["specimen__species__key"], named


def _said(row: dict[str, Any]) -> Said:
    shown, named = _cell_of(row)
    return Said(shown, named, row["decision"] == "gather")


def _is_right(row: dict[str, Any], dangerous: frozenset[str]) -> bool:
    """On a dangerous plant whoever leaves it alone is right enough; on another whoever names it."""
    shown, named = _cell_of(row)
    return row["decision"] != "gather" if shown in dangerous else named == shown


def _is_sure_and_wrong(row: dict[str, Any], dangerous: frozenset[str]) -> bool:
    shown, _named = _cell_of(row)
    return shown in dangerous and row["decision"] == "gather" and row["confidence"] == "sure"


def _map_row(key: str, found: ConfusionMap, flora: Flora) -> MapRow:
    cells = []
    for said in found.said:
        cell = found.cell(key, said)
        cells.append((said, cell.answers, cell.gathered, said == key, found.is_miss(key, said)))
    return MapRow(key, _name(key, flora), key in found.dangerous, tuple(cells))


def _name(key: str, flora: Flora) -> str:
    return key if key in (ANOTHER, NOTHING) else flora.common(key)


def _line(row: dict[str, Any], flora: Flora) -> AnswerLine:
    shown, named = _cell_of(row)
    said = row["said"] or ""
    return AnswerLine(
        row["person__person__name"] or "",
        row["opened_at"],
        row["specimen__key"],
        flora.common(shown),
        flora.common(named) if named not in (ANOTHER, NOTHING) else said,
        row["decision"],
        row["confidence"],
        row["medium"] == "live",
    )


def _items(rows: Sequence[dict[str, Any]], dangerous: frozenset[str], flora: Flora) -> tuple[ItemLine, ...]:
    """Plants that enough people answered, those with a flag first. The rest score is over a person's other answers."""
    right = {(row["person"], row["specimen"]): _is_right(row, dangerous) for row in rows}
    by_person: dict[int, list[bool]] = defaultdict(list)
    for (person, _specimen), was_right in right.items():
        by_person[person].append(was_right)
    by_specimen: dict[int, list[dict[str, Any]]] = defaultdict(list)
    for row in rows:
        by_specimen[row["specimen"]].append(row)
    items = []
    for specimen, mine in by_specimen.items():
        if len(mine) < FEWEST_FOR_AN_ITEM:
            continue
        answers = [_as_answer(row, right[row["person"], specimen]) for row in mine]
        rest = [_rest(by_person[row["person"]], right[row["person"], specimen]) for row in mine]
        count = sum(right[row["person"], specimen] for row in mine)
        plant = flora.common(mine[0]["specimen__species__key"])
        key = mine[0]["specimen__key"]
        items.append(ItemLine(key, plant, count, len(mine), exact_interval(count, len(mine)), flags_of(answers, rest)))
    return tuple(sorted(items, key=lambda item: (not item.flags, item.right / item.answered, item.specimen)))


def _as_answer(row: dict[str, Any], was_right: bool) -> str:
    if was_right:
        return KEY
    return LEFT if row["decision"] in ("leave", "") else _cell_of(row)[1]


def _rest(mine: Sequence[bool], this: bool) -> float:
    others = len(mine) - 1
    return (sum(mine) - this) / others if others else 0.0
