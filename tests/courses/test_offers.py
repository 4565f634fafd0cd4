"""A place that became free: kept for whoever waited longest, taken, declined or lapsed; never promised twice."""

from datetime import timedelta
from threading import Barrier, Thread

import pytest
from django.db import connection
from django.urls import reverse
from django.utils import timezone

from courses.actions.enrolment import (
    OfferOver,
    decline_offer,
    enrol,
    free_places,
    lapse_offers,
    take_offer,
    withdraw,
)
from courses.models import Course, Enrolment, Offer
from tests.factories.courses import make_course
from tests.factories.people import make_person


@pytest.fixture
def queue(school) -> Course:
    """One place, taken by the first; the second and the third wait, in that order."""
    course, now = make_course(capacity=1), timezone.now()
    for number, name in enumerate(("First", "Second", "Third")):
        enrol(make_person(name), course, now=now + timedelta(seconds=number))
    return course


def turn(course: Course, name: str) -> Enrolment:
    return course.enrolments.select_related("person__user").get(person__name=name)


def free_a_place(course: Course) -> Offer:
    return withdraw(turn(course, "First"), now=timezone.now())[0]


def test_an_offer_that_is_taken_is_a_place(queue) -> None:
    offer = free_a_place(queue)
    assert offer.enrolment.person.name == "Second"
    assert not take_offer(offer, now=timezone.now()).waiting
    assert queue.enrolments.with_a_place().count() == 1


def test_while_it_is_kept_nobody_else_gets_the_place(queue) -> None:
    free_a_place(queue)
    assert free_places(queue) == 0
    assert enrol(make_person("Fourth"), queue, now=timezone.now()).waiting


def test_declined_it_goes_to_the_next_and_the_turn_is_over(queue) -> None:
    (following,) = decline_offer(free_a_place(queue), now=timezone.now())
    assert following.enrolment.person.name == "Third"
    assert turn(queue, "Second").withdrawn_at is not None


def test_lapsed_it_goes_to_the_next_and_the_turn_stays(queue) -> None:
    offer = free_a_place(queue)
    assert lapse_offers(offer.answer_by - timedelta(seconds=1)) == 0
    assert lapse_offers(offer.answer_by) == 1
    assert lapse_offers(offer.answer_by) == 0
    assert Offer.objects.open().get().enrolment.person.name == "Third"
    assert turn(queue, "Second").withdrawn_at is None


def test_whoever_let_one_lapse_is_asked_again_after_the_others(queue) -> None:
    late = free_a_place(queue).answer_by
    lapse_offers(late)
    lapse_offers(late + timedelta(days=4))
    assert Offer.objects.open().get().enrolment.person.name == "Second"


def test_too_late_or_twice_is_refused(queue) -> None:
    offer = free_a_place(queue)
    with pytest.raises(OfferOver):
        take_offer(offer, now=offer.answer_by)
    take_offer(offer, now=timezone.now())
    for again in (take_offer, decline_offer):
        with pytest.raises(OfferOver):
            again(offer, now=timezone.now())


def test_more_places_are_offered_and_not_given(queue, organiser) -> None:
    from courses.actions.courses import keep_course

    queue.capacity = 2
    keep_course(queue, tutors=[], now=timezone.now())
    assert Offer.objects.open().get().enrolment.person.name == "Second"


def test_the_page_offers_it_to_its_owner_alone(signed_in, queue) -> None:
    offer = free_a_place(queue)
    second, third = turn(queue, "Second").person, turn(queue, "Third").person
    url = reverse("courses:course", args=[queue.key])
    assert "Take the place" in signed_in(second).get(url).content.decode()
    assert "Take the place" not in signed_in(third).get(url).content.decode()
    assert signed_in(third).post(reverse("courses:offer_take", args=[offer.pk])).status_code == 404


def test_taking_by_the_page_says_so_and_too_late_too(signed_in, queue) -> None:
    offer = free_a_place(queue)
    client, take = signed_in(turn(queue, "Second").person), reverse("courses:offer_take", args=[offer.pk])
    assert "The place is yours." in client.post(take, follow=True).content.decode()
    assert "no longer kept for you" in client.post(take, follow=True).content.decode()


def test_somebody_gives_their_own_place_back(signed_in, participant, course, stranger) -> None:
    url = reverse("courses:leave", args=[course.key])
    client = signed_in(participant)
    assert "Leave Spring course?" in client.get(url).content.decode()
    client.post(url)
    assert participant.enrolments.get().withdrawn_at is not None
    assert signed_in(stranger).get(url).status_code == 404


@pytest.mark.django_db(transaction=True)
def test_taking_and_lapsing_at_once_promise_the_place_once(school) -> None:
    course, now = make_course(capacity=1), timezone.now()
    for number, name in enumerate(("First", "Second", "Third")):
        enrol(make_person(name), course, now=now + timedelta(seconds=number))
    offer = withdraw(turn(course, "First"), now=now)[0]
    start = Barrier(2)

    def race(what) -> None:
        start.wait()
        try:
            what()
        except OfferOver:
            pass
        finally:
            connection.close()

    threads = [
        Thread(target=race, args=[lambda: take_offer(offer, now=offer.answer_by - timedelta(seconds=1))]),
        Thread(target=race, args=[lambda: lapse_offers(offer.answer_by)]),
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    promised = course.enrolments.with_a_place().count() + Offer.objects.open().count()
    assert promised == 1
