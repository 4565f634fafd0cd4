"""A leader proposed for every walk of the season that has none, with the reason for each choice and each gap."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from courses.models import Meeting, Person
from courses.rules.leaders import Bar, Candidate, Chosen, WalkFacts, propose_leaders

from .walks import CandidateLine, candidates_of

SEASON = timedelta(days=183)


@dataclass(frozen=True)
class Proposed:
    """One walk of a proposal: who is proposed out of those who could, or what bars each."""

    walk: Meeting
    person: Person | None
    could: tuple[Person, ...]
    barred: tuple[tuple[Person, str], ...]

    @property
    def tick(self) -> str:
        """What a tick beside it says: this walk, and this person for it."""
        return f"{self.walk.key} {self.person.uuid}" if self.person else ""


def proposal(now: datetime) -> list[Proposed]:
    """A leader for every walk of the season that has none, as the rule proposes; the same queries for all."""
    rows = Meeting.objects.walks().coming(now).without_leader().filter(starts_at__lte=now + SEASON)
    walks = list(rows.select_related("course", "site__locality").order_by("starts_at", "pk"))
    lines, _pairs = candidates_of(walks, now)
    people = {line.person.pk: line.person for each in lines.values() for line in each}
    led = _led(people, now)
    candidates = [
        Candidate(str(pk), led.get(pk, 0), _bars(pk, walks, lines))
        for pk, _person in sorted(people.items(), key=lambda item: item[1].name)
    ]
    facts = [WalkFacts(walk.key, walk.starts_at, walk.ends_at) for walk in walks]
    by_key = {walk.key: walk for walk in walks}
    return [_proposed(each, by_key[each.walk], people) for each in propose_leaders(facts, candidates)]


def _proposed(chosen: Chosen, walk: Meeting, people: Mapping[int, Person]) -> Proposed:
    person = people[int(chosen.person)] if chosen.person else None
    barred = tuple((people[int(key)], bar.value) for key, bar in chosen.barred.items())
    return Proposed(walk, person, tuple(people[int(key)] for key in chosen.could), barred)


def _bars(person: int, walks: Sequence[Meeting], lines: Mapping[int, Sequence[CandidateLine]]) -> dict[str, Bar]:
    bars: dict[str, Bar] = {}
    for walk in walks:
        line = next((each for each in lines[walk.pk] if each.person.pk == person), None)
        if line is None or line.missing:
            bars[walk.key] = Bar.NOT_READY
        elif line.lacks:
            bars[walk.key] = Bar.LACKS_PAIRS
        elif line.can_come is False:
            bars[walk.key] = Bar.NOT_FREE
        elif line.is_busy:
            bars[walk.key] = Bar.BUSY
    return bars


def _led(people: Collection[int], now: datetime) -> dict[int, int]:
    """How many walks of the season around now each leads already."""
    rows = Meeting.objects.walks().standing().filter(leader__in=people)
    rows = rows.filter(starts_at__gte=now - SEASON, starts_at__lte=now + SEASON)
    found: dict[int, int] = {}
    for leader in rows.values_list("leader_id", flat=True):
        if leader is not None:
            found[leader] = found.get(leader, 0) + 1
    return found
