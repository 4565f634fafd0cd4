"""The shortest way to leading for people on the board: which walks come, how many pairs are left; the same queries
for one as for a page of them."""

from collections import defaultdict
from collections.abc import Collection, Mapping
from datetime import date, datetime

from django.utils import timezone

from assessments.models import Standard
from assessments.queries.kept_standings import Summary, summaries_of
from courses.models import Application, Availability, Meeting, Person
from courses.rules.readiness import Readiness
from courses.rules.requirements import Requirement
from courses.rules.way import Ahead, Way, way

from .leader_facts import KnownOfLeaders, asked_of

WALKS_AHEAD = 60
PairsLeft = tuple[int | None, int]
NO_STANDARD: PairsLeft = (None, 0)


def ways_of(found: Mapping[Person, Readiness], part: str, now: datetime) -> dict[int, Way]:
    """For each of these people, by id, the shortest way from how they stand today."""
    today, asked = timezone.localdate(now), asked_of(part)
    keys = [person.pk for person in found]
    named = {each.standard for each in asked if each.standard}
    known, walks, applied = KnownOfLeaders(keys), _walks_ahead(keys, now), _applied(keys, named)
    lacking = [person for person, each in found.items() if _lacks_the_certificate(each)]
    pairs = _pairs(lacking, named, now)
    return {
        person.pk: way(
            each,
            known.on(person.pk, today),
            asked,
            Ahead(walks[person.pk], *pairs.get(person.pk, NO_STANDARD), person.pk in applied),
            today,
        )
        for person, each in found.items()
    }


def _lacks_the_certificate(found: Readiness) -> bool:
    return any(check.requirement is Requirement.CERTIFICATE for check in found.missing)


def _walks_ahead(people: Collection[int], now: datetime) -> dict[int, tuple[date, ...]]:
    """By person the days of the next walks, less those to which they said that they cannot come."""
    walks = Meeting.objects.walks().coming(now).order_by("starts_at")[:WALKS_AHEAD]
    days = {walk: timezone.localdate(starts) for walk, starts in walks.values_list("pk", "starts_at")}
    declined: dict[int, set[int]] = defaultdict(set)
    refused = Availability.objects.filter(person__in=people, meeting__in=list(days), can_come=False)
    for person, walk in refused.values_list("person_id", "meeting_id"):
        declined[person].add(walk)
    return {
        person: tuple(sorted({day for walk, day in days.items() if walk not in declined[person]})) for person in people
    }


def _applied(people: Collection[int], named: Collection[str]) -> set[int]:
    """Those who wait for the decision on the certificate that is asked: at a named standard, or at one that leads."""
    rows = Application.objects.undecided().filter(person__in=people)
    rows = rows.filter(standard__key__in=named) if named else rows.filter(standard__leads_walks=True)
    return set(rows.values_list("person_id", flat=True))


def _pairs(people: Collection[Person], named: Collection[str], now: datetime) -> dict[int, PairsLeft]:
    """By person how many dangerous pairs are left at the leader standard that they are nearest to, and of how many."""
    if not people:
        return {}
    standards = Standard.objects.in_use()
    standards = standards.filter(key__in=named) if named else standards.filter(leads_walks=True)
    nearest: dict[int, tuple[int, int]] = {}
    for standard in standards:
        summaries: Mapping[int, Summary] = summaries_of([person.user_id for person in people], standard, now)
        for person in people:
            each = summaries[person.user_id]
            left = (each.pairs - each.pairs_passed, each.pairs)
            nearest[person.pk] = min(nearest.get(person.pk, left), left)
    return dict(nearest)
