"""Opening and changing courses."""

from collections.abc import Iterable
from datetime import date, datetime

from django.db import transaction
from django.utils.text import slugify

from courses.actions.enrolment import offer_places
from courses.models import Course, Person

# Words that stand for something else where the key of a course stands in an address.
TAKEN_BY_ADDRESSES = {"", "new"}


class PlacesTaken(Exception):
    """More places are taken than the course would have; `taken` says how many."""

    def __init__(self, taken: int) -> None:
        super().__init__(taken)
        self.taken = taken


def keep_course(course: Course, *, tutors: Iterable[Person], now: datetime) -> Course:
    """Save a new or changed course. New places are offered to those who waited longest. Raises PlacesTaken."""
    with transaction.atomic():
        if course.pk:
            Course.objects.select_for_update().get(pk=course.pk)
            taken = course.enrolments.with_a_place().count()
            if taken > course.capacity:
                raise PlacesTaken(taken)
        else:
            course.key = free_key(course.title)
        course.save()
        course.tutors.set(tutors)
        offer_places(course, now=now)
    return course


def keep_skipped_days(course: Course, days: Iterable[date]) -> None:
    """The days on which this course does not meet."""
    course.skipped_days = [day.isoformat() for day in sorted(set(days))]
    course.save(update_fields=["skipped_days"])


def free_key(title: str) -> str:
    """The title as it can stand in an address, with a number where it is taken."""
    wanted = slugify(title)[:50].strip("-") or "course"
    key, number = wanted, 1
    while key in TAKEN_BY_ADDRESSES or Course.objects.filter(key=key).exists():
        number += 1
        key = f"{wanted}-{number}"
    return key
