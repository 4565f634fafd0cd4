"""Which dangerous pairs can be met on a walk, and what a leader lacks to lead there and then. Pure."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from species.rules.season import Calendar, stages_showing
from species.rules.vocabulary import Stage

ABOVE_GROUND = frozenset(Stage) - {Stage.DORMANT}


@dataclass(frozen=True)
class PairFacts:
    """A dangerous pair by the keys of its two species."""

    key: str
    gathered: str
    mistaken: str


@dataclass(frozen=True)
class PairThere:
    """A pair that can be met: the stages in which its dangerous plant shows there and then."""

    key: str
    mistaken: str
    stages: tuple[str, ...]


@dataclass(frozen=True)
class Lack:
    """What a leader lacks on one pair: all of it, or the stages that they were never shown to tell."""

    pair: str
    stages: tuple[str, ...]
    whole: bool


def pairs_there(
    pairs: Iterable[PairFacts],
    calendars: Mapping[str, Calendar],
    known_there: Collection[str],
    day: date,
    days_late: int = 0,
    seen_lately: Mapping[str, Collection[str]] | None = None,
) -> tuple[PairThere, ...]:
    """The pairs that can be met at a place on a day.

    One can be met when its dangerous plant is known at the place and shows above ground, by the calendar or
    because it was seen there lately (`seen_lately`: species to stages), and when the plant it is mistaken for
    shows somewhere in the region on that day: nobody takes it for what nobody gathers then.
    """
    lately = seen_lately or {}
    found = []
    for pair in pairs:
        if pair.mistaken not in known_there:
            continue
        showing = set(stages_showing(calendars.get(pair.mistaken, {}), day, days_late)) & ABOVE_GROUND
        stages = {stage.value for stage in showing} | set(lately.get(pair.mistaken, ()))
        gathered = set(stages_showing(calendars.get(pair.gathered, {}), day, days_late)) & ABOVE_GROUND
        if stages and (gathered or not calendars.get(pair.gathered)):
            ordered = tuple(stage.value for stage in Stage if stage.value in stages)
            found.append(PairThere(pair.key, pair.mistaken, ordered))
    return tuple(found)


def lacking(there: Iterable[PairThere], passed: Mapping[str, Collection[str]]) -> tuple[Lack, ...]:
    """What somebody lacks who passed these pairs in these stages (pair to stages), under a current certificate."""
    lacks = []
    for pair in there:
        if pair.key not in passed:
            lacks.append(Lack(pair.key, pair.stages, True))
            continue
        missing = tuple(stage for stage in pair.stages if stage not in passed[pair.key])
        if missing:
            lacks.append(Lack(pair.key, missing, False))
    return tuple(lacks)


def leaders_needed(people: int, group_size: int) -> int:
    """How many leaders and assistants a group asks for: one to each full or begun group of that size."""
    if group_size < 1 or people < 0:
        raise ValueError("A group holds somebody, and no fewer people than none come.")
    return max(1, -(-people // group_size))
