"""Which specimens the invented bank holds: pure plan, no rows.

Every specimen stands in a stage on a day on which that stage shows, and no more than two of a species come from
one place on one day, since more than two would not count.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from random import Random

from species.rules.season import Calendar, stages_showing
from species.rules.vocabulary import Stage, Use

TYPICAL = "typical"
ODD_FORM_EVERY = 6
PER_PLACE_AND_DAY = 2


@dataclass(frozen=True)
class Kind:
    """A species as the bank wants it: when which stage shows, and which stages and forms can be drawn."""

    key: str
    calendar: Calendar
    stages: tuple[str, ...]
    forms: tuple[str, ...] = (TYPICAL,)


@dataclass(frozen=True)
class Planned:
    """One specimen to be."""

    species: str
    stage: str
    form: str
    use: Use
    place: int
    day: date
    seed: int
    retired: bool = False
    named_by_two: bool = True


def plan_specimens(
    kind: Kind, count: int, use: Use, between: tuple[date, date], places: int, random: Random, retired: bool = False
) -> list[Planned]:
    """`count` specimens of one species, stages in turn, each on a day in season between two days."""
    chosen: list[Planned] = []
    taken: dict[tuple[int, date], int] = {}
    in_season = {stage: days_in_season(kind.calendar, stage, between) for stage in kind.stages}
    for number in range(count):
        stage = kind.stages[number % len(kind.stages)]
        day = _one_of(in_season[stage], stage, between, random)
        place = next(p for p in _from(random.randrange(places), places) if taken.get((p, day), 0) < PER_PLACE_AND_DAY)
        taken[place, day] = taken.get((place, day), 0) + 1
        odd = number % ODD_FORM_EVERY == ODD_FORM_EVERY - 1
        form = random.choice(kind.forms) if odd else TYPICAL
        chosen.append(Planned(kind.key, stage, form, use, place, day, random.randrange(2**31), retired))
    return chosen


def days_in_season(calendar: Calendar, stage: str, between: tuple[date, date]) -> list[date]:
    """The days of a span on which a stage shows in the region."""
    first, last = between
    days = (first + timedelta(days=n) for n in range((last - first).days + 1))
    return [day for day in days if stage in stages_showing(calendar, day)]


def stages_to_draw(wanted: Sequence[str], drawn: Sequence[str], calendar: Calendar) -> tuple[str, ...]:
    """The wanted stages that can be drawn and that ever show, in the order wanted."""
    return tuple(stage for stage in wanted if stage in drawn and calendar.get(Stage(stage)))


def _one_of(days: Sequence[date], stage: str, between: tuple[date, date], random: Random) -> date:
    if not days:
        raise ValueError(f"The stage {stage} does not show between {between[0]} and {between[1]}.")
    return random.choice(days)


def _from(start: int, count: int) -> list[int]:
    return [(start + step) % count for step in range(count)]
