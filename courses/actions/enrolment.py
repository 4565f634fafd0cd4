"""Places in courses: first come, first served; a place that is given back is offered to whoever waited longest.

An offer holds its place until an hour. Taken, it is a place; declined, the turn is over; not answered, the turn
stays and others are asked first. The row of the course is locked whenever its places are counted, so no place
is promised twice.
"""

from datetime import datetime, timedelta

from django.conf import settings
from django.db import transaction
from django.db.models import Count, Q
from django.urls import reverse
from django.utils import timezone

from courses.actions.health import erase_notes_of
from courses.actions.letters import full_address, write_to
from courses.actions.papers import seat_in_papers
from courses.models import Course, Enrolment, Offer, Person


class AlreadyEnrolled(Exception):
    """The person has a place in this course, or a turn on its waiting list."""


class CourseOver(Exception):
    """The course has ended, so nobody can be enrolled in it any more."""


class AlreadyWithdrawn(Exception):
    """The enrolment was ended before."""


class OfferOver(Exception):
    """The offer was answered before, or its time is over."""


def enrol(person: Person, course: Course, *, now: datetime) -> Enrolment:
    """A place if one is free and nobody waits for it, otherwise a turn on the waiting list.

    Raises AlreadyEnrolled or CourseOver. Two people who ask for the last place at once cannot both have it.
    """
    with transaction.atomic():
        locked = _locked(course.pk)
        if locked.enrolments.standing().filter(person=person).exists():
            raise AlreadyEnrolled
        if locked.ends_on < timezone.localdate(now):
            raise CourseOver
        is_free = free_places(locked) > 0 and not locked.enrolments.waiting_in_order().exists()
        enrolment = Enrolment.objects.create(course=locked, person=person, asked_at=now, waiting=not is_free)
        if is_free:
            _give_place(enrolment, now)
        else:
            write_to([person], "waiting", _facts(locked))
            offer_places(locked, now=now)
    return enrolment


def withdraw(enrolment: Enrolment, *, now: datetime) -> list[Offer]:
    """End an enrolment; its place is offered to whoever waited longest. Gives the offers made.

    Raises AlreadyWithdrawn.
    """
    with transaction.atomic():
        locked = _locked(enrolment.course_id)
        if not locked.enrolments.standing().filter(pk=enrolment.pk).update(withdrawn_at=now):
            raise AlreadyWithdrawn
        Offer.objects.open().filter(enrolment=enrolment).update(declined_at=now)
        erase_notes_of(enrolment, now)
        return offer_places(locked, now=now)


def take_offer(offer: Offer, *, now: datetime) -> Enrolment:
    """Take the place that is kept. Raises OfferOver."""
    with transaction.atomic():
        _locked(offer.enrolment.course_id)
        if not Offer.objects.open().filter(pk=offer.pk, answer_by__gt=now).update(taken_at=now):
            raise OfferOver
        enrolment = Enrolment.objects.select_related("person__user", "course").get(pk=offer.enrolment_id)
        _give_place(enrolment, now)
    return enrolment


def decline_offer(offer: Offer, *, now: datetime) -> list[Offer]:
    """Leave the place to the next, and the waiting list with it. Raises OfferOver."""
    with transaction.atomic():
        locked = _locked(offer.enrolment.course_id)
        if not Offer.objects.open().filter(pk=offer.pk).update(declined_at=now):
            raise OfferOver
        Enrolment.objects.filter(pk=offer.enrolment_id).update(withdrawn_at=now)
        return offer_places(locked, now=now)


def lapse_offers(now: datetime) -> int:
    """Let offers go whose hour is over, and ask the next; their number. Safe to run twice and late."""
    courses = set(Offer.objects.open().filter(answer_by__lte=now).values_list("enrolment__course_id", flat=True))
    count = 0
    for course in sorted(courses):
        with transaction.atomic():
            locked = _locked(course)
            late = Offer.objects.open().filter(enrolment__course=locked, answer_by__lte=now)
            count += late.update(lapsed_at=now)
            offer_places(locked, now=now)
    return count


def offer_places(course: Course, *, now: datetime) -> list[Offer]:
    """Offer what is free to those who waited longest, and write to them. The course must be locked.

    Whoever let an offer lapse is asked again after everybody who did not. Nobody is asked once the course is over.
    """
    free = free_places(course)
    if free <= 0 or course.ends_on < timezone.localdate(now):
        return []
    asked = Q(offers__in=Offer.objects.open())
    waiting = course.enrolments.standing().filter(waiting=True).exclude(asked).select_related("person__user")
    lapsed = Count("offers", filter=Q(offers__lapsed_at__isnull=False))
    first = list(waiting.annotate(lapsed=lapsed).order_by("lapsed", "asked_at", "id")[:free])
    until = now + timedelta(hours=settings.OFFERS_LAST_HOURS)
    offers = [Offer.objects.create(enrolment=each, offered_at=now, answer_by=until) for each in first]
    for offer in offers:
        write_to([offer.enrolment.person], "offer", {**_facts(course), "offer": offer})
    return offers


def free_places(course: Course) -> int:
    """Places that nobody has and that are kept for nobody."""
    kept = Offer.objects.open().filter(enrolment__course=course).count()
    return course.capacity - course.enrolments.with_a_place().count() - kept


def _give_place(enrolment: Enrolment, now: datetime) -> None:
    """A place, with a seat in the open papers, and a letter that says so."""
    enrolment.waiting = False
    enrolment.save(update_fields=["waiting"])
    seat_in_papers(enrolment.course, [enrolment.person], now=now)
    write_to([enrolment.person], "place", _facts(enrolment.course))


def _locked(course_id: int) -> Course:
    return Course.objects.select_for_update().get(pk=course_id)


def _facts(course: Course) -> dict[str, object]:
    return {"course": course, "link": full_address(reverse("courses:course", args=[course.key]))}
