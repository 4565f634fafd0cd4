"""Taking in the people of a table, all of them or none."""

from dataclasses import dataclass
from datetime import datetime

from django.db import transaction
from django.utils import timezone

from courses.actions.enrolment import AlreadyEnrolled, CourseOver, enrol
from courses.actions.people import take_in
from courses.models import Course, Person
from courses.rules.people_table import PeopleRead


class NotClean(Exception):
    """The table has problems: nothing was done."""


@dataclass(frozen=True)
class TakenIn:
    """How many came in, and how many of them have a place or a turn in a course."""

    people: int
    enrolled: int


def take_in_table(read: PeopleRead, *, by: Person, now: datetime) -> TakenIn:
    """Take everybody in who is not there yet. Raises NotClean, or AddressTaken if somebody came meanwhile."""
    if not read.is_clean:
        raise NotClean
    courses = {course.key: course for course in Course.objects.all()}
    enrolled = 0
    with transaction.atomic():
        for facts in read.people:
            person = take_in(
                facts.email, facts.name, today=timezone.localdate(now), roles=[facts.role], by=by, phone=facts.phone
            )
            if facts.family_name:
                Person.objects.filter(pk=person.pk).update(family_name=facts.family_name)
            if facts.course:
                enrolled += _enrol(person, courses[facts.course], now)
    return TakenIn(len(read.people), enrolled)


def _enrol(person: Person, course: Course, now: datetime) -> int:
    try:
        enrol(person, course, now=now)
    except (AlreadyEnrolled, CourseOver):
        return 0
    return 1
