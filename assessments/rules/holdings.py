"""How many specimens of a bank one person could be shown that would count."""

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from .treatment import MOST_FROM_ONE_PLACE_AND_DAY


@dataclass(frozen=True, slots=True)
class Held:
    """One specimen of the bank: which plant it is, where it grows, when it was seen, in which stage."""

    individual: str
    locality: str
    day: date
    stage: str


def countable(specimens: Iterable[Held]) -> int:
    """How many of these, all of one species, one person could have counted: each plant once, two from a place and day.

    Plants that were seen on few days are placed first. That is at most what the best order gives, never more.
    """
    days: dict[tuple[str, str], set[date]] = defaultdict(set)
    for each in specimens:
        days[each.individual, each.locality].add(each.day)
    taken: Counter[tuple[str, date]] = Counter()
    placed = 0
    for (_individual, locality), seen in sorted(days.items(), key=lambda item: (len(item[1]), item[0])):
        free = [day for day in sorted(seen) if taken[locality, day] < MOST_FROM_ONE_PLACE_AND_DAY]
        if free:
            taken[locality, free[0]] += 1
            placed += 1
    return placed
