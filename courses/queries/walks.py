"""This walk: which dangerous pairs can be met there and then, and who could lead it."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from courses.models import Availability, Meeting, Person, Requirement
from courses.queries.sentences.requirements import CheckLine, check_line
from courses.rules.readiness import readiness
from courses.rules.walk_check import Lack, lacking, leaders_needed
from species.models.flora import STAGE_WORDS

from .leader_facts import KnownOfLeaders, asked_of, occasion_of
from .leader_pairs import pairs_covered
from .readiness import possible_leaders
from .walk_pairs import PairLine, pairs_met

STAGES = dict(STAGE_WORDS)
ASSISTANT = Requirement.Part.ASSISTANT.value
ADULTS_TO_A_LEADER = 12
"""Where a site says nothing: common practice, no source."""


@dataclass(frozen=True)
class LackLine:
    """What a candidate lacks on a pair: the pair, and the stages; all of it where `whole`."""

    pair: PairLine
    stages: tuple[str, ...]
    whole: bool


@dataclass(frozen=True)
class CandidateLine:
    """Somebody who might lead this walk: what is missing of requirements and of pairs; whether they can come."""

    person: Person
    missing: tuple[CheckLine, ...]
    lacks: tuple[LackLine, ...]
    can_come: bool | None
    is_busy: bool

    @property
    def is_ready(self) -> bool:
        """Whether they meet what is asked on that day and there, and tell every pair that can be met apart."""
        return not self.missing and not self.lacks

    @property
    def could_lead(self) -> bool:
        return self.is_ready and self.can_come is not False and not self.is_busy


@dataclass(frozen=True)
class AssistantLine:
    """Somebody named as an assistant, and what is missing of what the school asks of assistants."""

    person: Person
    missing: tuple[CheckLine, ...]


@dataclass(frozen=True)
class WalkPage:
    """One walk: what can be met, who could lead, how many leaders and assistants the group asks for."""

    walk: Meeting
    pairs: tuple[PairLine, ...]
    candidates: tuple[CandidateLine, ...]
    assistants: tuple[AssistantLine, ...]
    people: int
    group_size: int
    leaders_needed: int

    @property
    def able(self) -> list[Person]:
        """Those who could lead it, by name."""
        return [line.person for line in self.candidates if line.could_lead]

    @property
    def named(self) -> int:
        """Leader and assistants as they are named."""
        return (1 if self.walk.leader_id else 0) + len(self.assistants)


def walk_page(walk: Meeting, now: datetime) -> WalkPage:
    """All of one walk, in a constant number of queries."""
    lines, pairs = candidates_of([walk], now)
    people = walk.course.enrolments.with_a_place().count() if walk.course else 0
    group = (walk.site.group_size if walk.site else None) or ADULTS_TO_A_LEADER
    return WalkPage(
        walk,
        tuple(pairs[walk.pk]),
        tuple(sorted(lines[walk.pk], key=lambda line: (not line.could_lead, line.person.name))),
        _assistants(walk),
        people,
        group,
        leaders_needed(people, group),
    )


def _assistants(walk: Meeting) -> tuple[AssistantLine, ...]:
    people = list(walk.assistants.order_by("name"))
    known, asked, there = KnownOfLeaders([person.pk for person in people]), asked_of(ASSISTANT), occasion_of(walk)
    return tuple(
        AssistantLine(
            person,
            tuple(check_line(check) for check in readiness(known.on(person.pk, there.day), there, asked).missing),
        )
        for person in people
    )


def candidates_of(
    walks: Sequence[Meeting], now: datetime, people: Collection[Person] | None = None
) -> tuple[dict[int, list[CandidateLine]], dict[int, list[PairLine]]]:
    """For each walk these people, or everybody who is on the way to leading, and the pairs to be met.

    The same queries for all walks.
    """
    people = possible_leaders() if people is None else people
    keys = [person.pk for person in people]
    known, asked, passed = KnownOfLeaders(keys), asked_of(), pairs_covered(people, now)
    pairs, there = pairs_met(walks)
    said = {(row.person_id, row.meeting_id): row.can_come for row in Availability.objects.filter(meeting__in=walks)}
    busy = _busy(keys)
    lines: dict[int, list[CandidateLine]] = {}
    for walk in walks:
        occasion = occasion_of(walk)
        lines[walk.pk] = [
            CandidateLine(
                person,
                tuple(
                    check_line(check) for check in readiness(known.on(person.pk, occasion.day), occasion, asked).missing
                ),
                tuple(_lack_line(each, pairs) for each in lacking(there[walk.pk], passed.get(person.pk, {}))),
                said.get((person.pk, walk.pk)),
                any(
                    key != walk.pk and starts < walk.ends_at and ends > walk.starts_at
                    for key, starts, ends in busy.get(person.pk, ())
                ),
            )
            for person in people
        ]
    shown = {pk: [pairs[each.key] for each in found] for pk, found in there.items()}
    stages = {pk: {each.key: each.stages for each in found} for pk, found in there.items()}
    return lines, {
        pk: [PairLine(p.key, p.gathered, p.mistaken, _words(stages[pk][p.key])) for p in found]
        for pk, found in shown.items()
    }


def _busy(people: Collection[int]) -> dict[int, list[tuple[int, datetime, datetime]]]:
    found: dict[int, list[tuple[int, datetime, datetime]]] = {}
    rows = Meeting.objects.standing()
    led = rows.filter(leader__in=people).values_list("leader", "pk", "starts_at", "ends_at")
    assisted = rows.filter(assistants__in=people).values_list("assistants", "pk", "starts_at", "ends_at")
    for person, key, starts, ends in [*led, *assisted]:
        found.setdefault(person, []).append((key, starts, ends))
    return found


def _lack_line(lack: Lack, pairs: Mapping[str, PairLine]) -> LackLine:
    return LackLine(pairs[lack.pair], _words(lack.stages), lack.whole)


def _words(stages: Sequence[str]) -> tuple[str, ...]:
    return tuple(str(STAGES[stage]) for stage in stages)
