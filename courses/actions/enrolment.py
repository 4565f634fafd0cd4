"""Places in courses: first come, first served, and the next in the queue when one is given back."""

from datetime import datetime

from django.db import transaction
from django.urls import reverse
from django.utils import timezone

from courses.actions.health import erase_notes_of
from courses.actions.letters import full_address, write_to
from courses.actions.papers import seat_in_papers
from courses.models import Course, Enrolment, Person


class AlreadyEnrolled(Exception):
    """The person has a place in this course, or a turn on its waiting list."""


class CourseOver(Exception):
    """The course has ended, so nobody can be enrolled in it any more."""


class AlreadyWithdrawn(Exception):
    """The enrolment was ended before."""


def enrol(person: Person, course: Course, *, now: datetime) -> Enrolment:
    """A place if one is free and nobody waits for it, otherwise a turn on the waiting list.

    Raises AlreadyEnrolled or CourseOver. Two people who ask for the last place at once cannot both have it:
    the row of the course is locked while its places are counted.
    """
    with transaction.atomic():
        locked = Course.objects.select_for_update().get(pk=course.pk)
        if locked.enrolments.standing().filter(person=person).exists():
            raise AlreadyEnrolled
        if locked.ends_on < timezone.localdate(now):
            raise CourseOver
        enrolment = Enrolment.objects.create(course=locked, person=person, asked_at=now, waiting=True)
        gained = fill_places(locked, now=now)
        enrolment.waiting = enrolment not in gained
        if enrolment.waiting:
            write_to([person], "waiting", _facts(locked))
    return enrolment


def withdraw(enrolment: Enrolment, *, now: datetime) -> list[Enrolment]:
    """End an enrolment; whoever waited longest has the place. Gives the enrolments that moved up.

    Raises AlreadyWithdrawn.
    """
    with transaction.atomic():
        locked = Course.objects.select_for_update().get(pk=enrolment.course_id)
        if not locked.enrolments.standing().filter(pk=enrolment.pk).update(withdrawn_at=now):
            raise AlreadyWithdrawn
        erase_notes_of(enrolment, now)
        return fill_places(locked, now=now)


def fill_places(course: Course, *, now: datetime) -> list[Enrolment]:
    """Give free places to those who waited longest, with a seat in the open papers, and write to them.

    The course must be locked. Nobody moves up in a course that is over.
    """
    free = course.capacity - course.enrolments.with_a_place().count()
    if free <= 0 or course.ends_on < timezone.localdate(now):
        return []
    gained = list(course.enrolments.waiting_in_order().select_related("person__user")[:free])
    course.enrolments.filter(pk__in=[each.pk for each in gained]).update(waiting=False)
    people = [each.person for each in gained]
    seat_in_papers(course, people, now=now)
    write_to(people, "place", _facts(course))
    return gained


def _facts(course: Course) -> dict[str, object]:
    return {"course": course, "link": full_address(reverse("courses:course", args=[course.key]))}
