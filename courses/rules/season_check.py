"""What of a plan can be met on its day, what cannot, what else can, and which week would be better. Pure."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from species.rules.season import Calendar, stages_showing
from species.rules.vocabulary import Stage

ABOVE_GROUND = frozenset(Stage) - {Stage.DORMANT}
WEEK = timedelta(days=7)


@dataclass(frozen=True)
class Outing:
    """One meeting as the check sees it: its day, the days its place runs late, and the species on its plan."""

    key: str
    day: date
    planned: tuple[str, ...]
    days_late: int = 0


@dataclass(frozen=True)
class Missing:
    """A planned species that shows nothing on the day; the other meetings of the plan at which it would."""

    species: str
    shows_at: tuple[str, ...]
    next_week: date | None


@dataclass(frozen=True)
class Checked:
    """One meeting checked: what shows, what does not, and what else on the wish list shows."""

    outing: Outing
    showing: tuple[str, ...]
    missing: tuple[Missing, ...]
    instead: tuple[str, ...]

    @property
    def is_fine(self) -> bool:
        return not self.missing


def shows(calendar: Calendar, day: date, days_late: int = 0) -> bool:
    """Whether anything of a species can be seen above ground."""
    return bool(set(stages_showing(calendar, day, days_late)) & ABOVE_GROUND)


def check_plan(
    outings: Sequence[Outing],
    calendars: Mapping[str, Calendar],
    known_there: Mapping[str, Iterable[str]],
    first: date,
    last: date,
) -> tuple[Checked, ...]:
    """The plan, meeting by meeting.

    `known_there`: by the key of a meeting, other species on record at its place. `first`, `last`: between which
    weeks a better one is looked for. A species without a calendar is never missed: nothing is known of it.
    """
    return tuple(_checked(each, outings, calendars, known_there.get(each.key, ()), first, last) for each in outings)


def _checked(
    outing: Outing,
    outings: Sequence[Outing],
    calendars: Mapping[str, Calendar],
    known: Iterable[str],
    first: date,
    last: date,
) -> Checked:
    def shown(species: str, day: date) -> bool:
        return not calendars.get(species) or shows(calendars[species], day, outing.days_late)

    showing = tuple(species for species in outing.planned if shown(species, outing.day))
    missing = tuple(
        Missing(
            species,
            tuple(each.key for each in outings if each.key != outing.key and shown(species, each.day)),
            next((day for day in _weeks(outing.day, first, last) if shown(species, day)), None),
        )
        for species in outing.planned
        if species not in showing
    )
    planned = {species for each in outings for species in each.planned}
    instead = (each for each in dict.fromkeys(known) if each not in planned and calendars.get(each))
    return Checked(outing, showing, missing, tuple(each for each in instead if shown(each, outing.day)))


def _weeks(day: date, first: date, last: date) -> list[date]:
    """The same weekday in the other weeks between two days, nearest first, the later of two equally near."""
    ahead, back = day + WEEK, day - WEEK
    found = []
    while ahead <= last or back >= first:
        if ahead <= last:
            found.append(ahead)
        if back >= first:
            found.append(back)
        ahead, back = ahead + WEEK, back - WEEK
    return found


def days_of_weekday(first: date, last: date, weekday: int, weeks: int, skipped: Iterable[date] = ()) -> list[date]:
    """At most so many days of one weekday (0: Monday), from the first day on, without those that are skipped.

    A skipped week is made up for at the end, as long as it lies before the last day. ValueError for a weekday
    that there is none.
    """
    if not 0 <= weekday <= 6 or weeks < 0:
        raise ValueError("A weekday from 0 to 6, and no fewer weeks than none.")
    left_out = set(skipped)
    days: list[date] = []
    day = first + timedelta(days=(weekday - first.weekday()) % 7)
    while day <= last and len(days) < weeks:
        if day not in left_out:
            days.append(day)
        day += WEEK
    return days
