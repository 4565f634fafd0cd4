"""The people of the school, as a list and one by one."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Prefetch, QuerySet

from courses.models import Course, Enrolment, FoundingAssessor, Person, RequirementRecord, Role, RoleGrant
from courses.querysets import PersonQuerySet


@dataclass(frozen=True)
class PersonLine:
    """One line of the list."""

    person: Person
    roles: tuple[str, ...]
    courses: tuple[str, ...]


@dataclass(frozen=True)
class PersonRecord:
    """What the page of one person shows."""

    person: Person
    held: tuple[RoleGrant, ...]
    past: tuple[RoleGrant, ...]
    taught: tuple[Course, ...]
    enrolments: tuple[Enrolment, ...]
    proofs: tuple["Proof", ...]
    founding: FoundingAssessor | None


@dataclass(frozen=True)
class Proof:
    """A proof that was shown, and whether it holds today."""

    record: RequirementRecord
    is_current: bool


def people_listed(seen: PersonQuerySet, today: date, words: str = "", role: str = "") -> QuerySet[Person]:
    """Those of the people seen who answer to some words of their name or address, and hold a role."""
    people = seen.here()
    if role in Role.values:
        people = people.filter(pk__in=Person.objects.with_role(role, today).values("pk"))
    for word in words.split():
        people = people.called(word)
    standing = Enrolment.objects.standing().select_related("course").order_by("course__starts_on")
    return people.select_related("user").prefetch_related(
        Prefetch("roles", RoleGrant.objects.held_on(today), to_attr="roles_held"),
        Prefetch("enrolments", standing.filter(course__ends_on__gte=today), to_attr="enrolments_standing"),
    )


def person_lines(people: Iterable[Any]) -> list[PersonLine]:
    """The lines of one page of the list, from `people_listed`."""
    return [
        PersonLine(
            person,
            tuple(str(grant.get_role_display()) for grant in person.roles_held),
            tuple(each.course.title for each in person.enrolments_standing),
        )
        for person in people
    ]


def record_of(person: Person, today: date) -> PersonRecord:
    """All that the page of a person shows, in five queries."""
    grants = list(person.roles.select_related("granted_by").order_by("since", "id"))
    held = [grant for grant in grants if _is_held(grant, today)]
    enrolments = person.enrolments.standing().select_related("course__standard").order_by("-course__starts_on")
    proofs = person.requirement_records.select_related("seen_by").order_by("kind", "-valid_from")
    return PersonRecord(
        person,
        tuple(held),
        tuple(grant for grant in grants if grant not in held),
        tuple(person.courses_taught.all()),
        tuple(enrolments),
        tuple(Proof(each, _is_current(each, today)) for each in proofs),
        FoundingAssessor.objects.filter(person=person).select_related("recorded_by").first(),
    )


def _is_held(grant: RoleGrant, today: date) -> bool:
    return grant.since <= today and (grant.until is None or grant.until >= today)


def _is_current(record: RequirementRecord, today: date) -> bool:
    return record.valid_from <= today and (record.valid_until is None or record.valid_until >= today)
