"""Who is ready to lead on a day, and what is missing; one constant number of queries for everybody."""

from collections import defaultdict
from collections.abc import Collection
from datetime import date

from django.utils import timezone

from courses.models import Certificate, Meeting, Person, RequirementRecord
from courses.rules.certification import state_of
from courses.rules.readiness import Held, LeaderFacts, Proof, Readiness, readiness


def leader_readiness(people: Collection[int], day: date) -> dict[int, Readiness]:
    """For each of these people whether they may lead on this day; four queries, however many people."""
    certificates = _certificates(people, day)
    proofs = _proofs(people)
    assisted = _assisted(people, day)
    return {
        person: readiness(
            LeaderFacts(
                certificates=tuple(certificates[person]),
                first_aid=tuple(proofs[person, RequirementRecord.Kind.FIRST_AID]),
                insurance=tuple(proofs[person, RequirementRecord.Kind.INSURANCE]),
                assisted_on=tuple(assisted[person]),
            ),
            day,
        )
        for person in people
    }


def possible_leaders() -> list[Person]:
    """People who are on the way to leading: with any proof, assisted walk, led walk, or leader certificate."""
    seen = set(RequirementRecord.objects.values_list("person_id", flat=True))
    seen |= set(Meeting.assistants.through.objects.values_list("person_id", flat=True))
    seen |= set(Certificate.objects.filter(standard__leads_walks=True).values_list("person_id", flat=True))
    return list(Person.objects.here().filter(pk__in=seen))


def _certificates(people: Collection[int], day: date) -> dict[int, list[Held]]:
    found: dict[int, list[Held]] = defaultdict(list)
    rows = Certificate.objects.filter(person_id__in=people, standard__leads_walks=True)
    for row in rows.prefetch_related("events"):
        events = tuple(event.kind for event in row.events.all())
        found[row.person_id].append(Held(state_of(row.valid_from, row.valid_until, events, day), row.valid_until))
    return found


def _proofs(people: Collection[int]) -> dict[tuple[int, str], list[Proof]]:
    found: dict[tuple[int, str], list[Proof]] = defaultdict(list)
    for row in RequirementRecord.objects.filter(person_id__in=people):
        found[row.person_id, row.kind].append(Proof(row.valid_from, row.valid_until))
    return found


def _assisted(people: Collection[int], day: date) -> dict[int, list[date]]:
    """The days of walks that took place and at which somebody assisted."""
    found: dict[int, list[date]] = defaultdict(list)
    rows = Meeting.objects.walks().standing().filter(assistants__in=people, ends_at__date__lt=day)
    for person, starts in rows.values_list("assistants", "starts_at"):
        found[person].append(timezone.localdate(starts))
    return found
