"""Who is ready to lead on a day, and what is missing; one constant number of queries for everybody."""

from collections import defaultdict
from collections.abc import Callable, Collection
from dataclasses import dataclass
from datetime import date, datetime

from django.utils import timezone

from courses.models import Certificate, Meeting, Person, RequirementRecord
from courses.queries.sentences.requirements import CheckLine, check_lines, requirement_name
from courses.rules.certification import state_of
from courses.rules.readiness import Held, LeaderFacts, Proof, Readiness, Requirement, readiness


def leader_readiness(people: Collection[int], day: date) -> dict[int, Readiness]:
    """For each of these people whether they may lead on this day; four queries, however many people."""
    facts = leader_facts(people)
    return {person: readiness(facts[person](day), day) for person in people}


def leader_facts(people: Collection[int]) -> dict[int, Callable[[date], LeaderFacts]]:
    """For each of these people what is known of them on whatever day is asked for; four queries in all."""
    certificates, proofs, assisted = _certificates(people), _proofs(people), _assisted(people)

    def facts_of(person: int) -> Callable[[date], LeaderFacts]:
        def on(day: date) -> LeaderFacts:
            return LeaderFacts(
                certificates=tuple(
                    Held(state_of(first, last, events, day), last) for first, last, events in certificates[person]
                ),
                first_aid=tuple(proofs[person, RequirementRecord.Kind.FIRST_AID]),
                insurance=tuple(proofs[person, RequirementRecord.Kind.INSURANCE]),
                assisted_on=tuple(assisted[person]),
            )

        return on

    return {person: facts_of(person) for person in people}


def possible_leaders() -> list[Person]:
    """People who are on the way to leading: with any proof, assisted walk, led walk, or leader certificate."""
    seen = set(RequirementRecord.objects.values_list("person_id", flat=True))
    seen |= set(Meeting.assistants.through.objects.values_list("person_id", flat=True))
    seen |= set(Certificate.objects.filter(standard__leads_walks=True).values_list("person_id", flat=True))
    return list(Person.objects.here().filter(pk__in=seen))


def _certificates(people: Collection[int]) -> dict[int, list[tuple[date, date, tuple[str, ...]]]]:
    """First and last day of every leader certificate, with what happened to it, in order."""
    found: dict[int, list[tuple[date, date, tuple[str, ...]]]] = defaultdict(list)
    rows = Certificate.objects.filter(person_id__in=people, standard__leads_walks=True)
    for row in rows.prefetch_related("events"):
        found[row.person_id].append((row.valid_from, row.valid_until, tuple(event.kind for event in row.events.all())))
    return found


def _proofs(people: Collection[int]) -> dict[tuple[int, str], list[Proof]]:
    found: dict[tuple[int, str], list[Proof]] = defaultdict(list)
    for row in RequirementRecord.objects.filter(person_id__in=people):
        found[row.person_id, row.kind].append(Proof(row.valid_from, row.valid_until))
    return found


def _assisted(people: Collection[int]) -> dict[int, list[date]]:
    """The days of walks, not cancelled, at which somebody was to assist; the rule looks at the past ones."""
    found: dict[int, list[date]] = defaultdict(list)
    rows = Meeting.objects.walks().standing().filter(assistants__in=people)
    for person, starts in rows.values_list("assistants", "starts_at"):
        found[person].append(timezone.localdate(starts))
    return found


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
    return ReadinessPage([requirement_name(each) for each in Requirement], lines, _walks(people, now))


def _walks(people: list[Person], now: datetime) -> list[WalkLine]:
    """Readiness is asked for the day of each walk, since something may lapse before it."""
    walks = list(
        Meeting.objects.walks().coming(now).select_related("leader", "site__locality", "course").order_by("starts_at")
    )
    known = {person.pk: person for person in people} | {w.leader.pk: w.leader for w in walks if w.leader}
    facts = leader_facts(list(known))
    lines = []
    for walk in walks:
        day = timezone.localdate(walk.starts_at)
        ready = [person for pk, person in known.items() if readiness(facts[pk](day), day).ready]
        lines.append(WalkLine(walk, walk.leader in ready, [p for p in ready if p != walk.leader]))
    return lines
