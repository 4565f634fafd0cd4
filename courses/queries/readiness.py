"""Who is ready to lead on a day, and what is missing; one constant number of queries for everybody."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.utils import timezone

from courses.models import Certificate, LeadingGrant, Meeting, Person, RequirementRecord, WalkPart
from courses.queries.sentences.requirements import CheckLine, check_lines, requirement_name
from courses.rules.readiness import Readiness, readiness

from .leader_facts import asked_of, leader_facts, occasion_of

SOON = timedelta(days=60)


def leader_readiness(people: Collection[int], day: date) -> dict[int, Readiness]:
    """For each of these people whether they may lead on this day; the same queries, however many people."""
    facts, asked = leader_facts(people), asked_of()
    return {person: readiness(facts[person](day), day, asked) for person in people}


def readiness_for(walk: Meeting, people: Collection[int]) -> dict[int, Readiness]:
    """For each of these people whether they may lead this very walk."""
    facts, asked, occasion = leader_facts(people), asked_of(), occasion_of(walk)
    return {person: readiness(facts[person](occasion.day), occasion, asked) for person in people}


def possible_leaders() -> list[Person]:
    """People who are on the way to leading: with any proof, assisted walk, led walk, or leader certificate."""
    seen = set(RequirementRecord.objects.values_list("person_id", flat=True))
    seen |= set(Meeting.assistants.through.objects.values_list("person_id", flat=True))
    seen |= set(Certificate.objects.filter(standard__leads_walks=True).values_list("person_id", flat=True))
    seen |= set(WalkPart.objects.values_list("person_id", flat=True))
    seen |= set(LeadingGrant.objects.values_list("person_id", flat=True))
    return list(Person.objects.here().filter(pk__in=seen))


@dataclass(frozen=True)
class LeaderLine:
    """One person on the readiness list."""

    person: Person
    ready: bool
    checks: list[CheckLine]


@dataclass(frozen=True)
class WalkLine:
    """A coming walk with its leader, and whether that leader is ready on the day."""

    walk: Meeting
    leader_is_ready: bool
    could_lead: list[Person]


@dataclass(frozen=True)
class ReadinessPage:
    """The whole list: requirements across, people down, the readiest first, and the walks to come."""

    requirements: list[str]
    lines: list[LeaderLine]
    walks: list[WalkLine]


def readiness_page(now: datetime) -> ReadinessPage:
    """Everybody who is on the way to leading, against every requirement, today; and the walks to come."""
    people, today = possible_leaders(), timezone.localdate(now)
    found = leader_readiness([person.pk for person in people], today)
    lines = [LeaderLine(person, found[person.pk].ready, check_lines(found[person.pk])) for person in people]
    lines.sort(key=lambda line: (-sum(c.status != "unmet" for c in line.checks), line.person.name))
    names = [requirement_name(each.requirement) for each in asked_of()]
    shown = list(dict.fromkeys(check.name for line in lines for check in line.checks))
    return ReadinessPage([name for name in names if name in shown or not lines], lines, _walks(people, now))


def _walks(people: list[Person], now: datetime) -> list[WalkLine]:
    """Readiness is asked for the day of each walk, since something may lapse before it."""
    walks = list(
        Meeting.objects.walks().coming(now).select_related("leader", "site__locality", "course").order_by("starts_at")
    )
    known = {person.pk: person for person in people} | {w.leader.pk: w.leader for w in walks if w.leader}
    facts, asked = leader_facts(list(known)), asked_of()
    lines = []
    for walk in walks:
        there = occasion_of(walk)
        ready = [person for pk, person in known.items() if readiness(facts[pk](there.day), there, asked).ready]
        lines.append(WalkLine(walk, walk.leader in ready, [p for p in ready if p != walk.leader]))
    return lines
