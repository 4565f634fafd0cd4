"""Season: which stages of a plant show on a date at a locality, and when one will show again.

Months are whole and stand for the region; give or take about three weeks by year and place. A locality may
run some days late (positive) or early (negative): what shows there on a date is what shows in the region
that many days before. A stage that shows in no month never shows.
"""

from calendar import monthrange
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from species.rules.vocabulary import Stage

Months = frozenset[int]
Calendar = Mapping[Stage, Months]
COMMON_YEAR = 2001
"""A year without a leap day, for what holds of every year."""
ALL_MONTHS: Months = frozenset(range(1, 13))


@dataclass(frozen=True)
class Spell:
    """A run of months without a break, from first to last, which may pass over the new year."""

    first: int
    last: int

    @property
    def is_all_year(self) -> bool:
        return self.last % 12 + 1 == self.first

    @property
    def months(self) -> tuple[int, ...]:
        """The months in their order; 11, 12, 1 for a spell over the new year."""
        length = (self.last - self.first) % 12 + 1
        return tuple((self.first - 1 + step) % 12 + 1 for step in range(length))


@dataclass(frozen=True)
class StageStrip:
    """Twelve answers, January first: does this stage show in the month?"""

    stage: Stage
    months: tuple[bool, ...]


@dataclass(frozen=True)
class Showing:
    """Days between which a stage shows at a locality, both included. All year: the year from `first` on."""

    first: date
    last: date

    def contains(self, day: date) -> bool:
        return self.first <= day <= self.last


def season_month(day: date, days_late: int = 0) -> int:
    """The month of the region's calendar that a locality has reached on a day."""
    return (day - timedelta(days=days_late)).month


def stages_in_month(calendar: Calendar, month: int) -> tuple[Stage, ...]:
    """The stages that can be met in a month, in the order of a plant's life."""
    return tuple(stage for stage in Stage if month in calendar.get(stage, frozenset()))


def stages_showing(calendar: Calendar, day: date, days_late: int = 0) -> tuple[Stage, ...]:
    """The stages that can be met on a day at a locality, in the order of a plant's life."""
    return stages_in_month(calendar, season_month(day, days_late))


def year_at(calendar: Calendar, days_late: int = 0) -> tuple[tuple[Stage, ...], ...]:
    """For each month, January first, the stages that can be met at a locality on any of its days."""
    return tuple(_stages_within(calendar, month, days_late) for month in range(1, 13))


def _stages_within(calendar: Calendar, month: int, days_late: int) -> tuple[Stage, ...]:
    days = range(1, monthrange(COMMON_YEAR, month)[1] + 1)
    reached = {season_month(date(COMMON_YEAR, month, day), days_late) for day in days}
    return tuple(stage for stage in Stage if reached & calendar.get(stage, frozenset()))


def month_strip(calendar: Calendar) -> tuple[StageStrip, ...]:
    """One strip of twelve months per stage that ever shows, in the order of a plant's life."""
    return tuple(
        StageStrip(stage, tuple(month in calendar[stage] for month in range(1, 13)))
        for stage in Stage
        if calendar.get(stage)
    )


def spells(months: Iterable[int]) -> tuple[Spell, ...]:
    """The months as runs without a break; a run over the new year is one and begins before it."""
    wanted = frozenset(months)
    if wanted >= ALL_MONTHS:
        return (Spell(1, 12),)
    firsts = [month for month in sorted(wanted) if (month - 2) % 12 + 1 not in wanted]
    return tuple(Spell(first, _end_of_run(first, wanted)) for first in firsts)


def _end_of_run(first: int, wanted: Months) -> int:
    last = first
    while last % 12 + 1 in wanted:
        last = last % 12 + 1
    return last


def next_showing(months: Iterable[int], day: date, days_late: int = 0) -> Showing | None:
    """When a stage shows at a locality, on the day itself or next after it; nothing if it never shows.

    If the stage shows on the day, `first` is the day itself.
    """
    wanted = frozenset(months)
    if not wanted:
        return None
    shift = timedelta(days=days_late)
    there = day - shift
    first = there if there.month in wanted else _first_day_of_next(there, wanted)
    return Showing(first + shift, _last_day_of_run(first, wanted) + shift)


def _first_day_of_next(day: date, wanted: Months) -> date:
    year, month = day.year, day.month
    while month not in wanted:
        year, month = (year + 1, 1) if month == 12 else (year, month + 1)
    return date(year, month, 1)


def _last_day_of_run(first: date, wanted: Months) -> date:
    year, month = first.year, first.month
    for _ in range(11):
        next_year, next_month = (year + 1, 1) if month == 12 else (year, month + 1)
        if next_month not in wanted:
            break
        year, month = next_year, next_month
    return date(year, month, monthrange(year, month)[1])
