"""Places: first come, first served; and the next in the queue when one is given back."""

from datetime import timedelta

import pytest
from django.core import mail
from django.urls import reverse
from django.utils import timezone

from assessments.models import Paper
from courses.actions.enrolment import AlreadyEnrolled, CourseOver, enrol
from courses.models import Course, Enrolment, Offer, Person
from tests.factories.courses import make_course
from tests.factories.people import make_person


@pytest.fixture
def full(course: Course) -> Course:
    """The course with its one place taken."""
    Course.objects.filter(pk=course.pk).update(capacity=1)
    course.refresh_from_db()
    return course


def enrol_url(course: Course) -> str:
    return reverse("courses:enrol", args=[course.key])


def withdraw_url(person: Person) -> str:
    return reverse("courses:withdraw", args=[person.enrolments.standing().get().pk])


def test_a_free_place_is_given_and_a_mail_says_so(
    signed_in, tutor, stranger, course, django_capture_on_commit_callbacks
) -> None:
    with django_capture_on_commit_callbacks(execute=True):
        page = signed_in(tutor).post(enrol_url(course), {"person": stranger.pk}, follow=True).content.decode()
    assert "Strix Stranger has a place." in page
    assert not stranger.enrolments.get().waiting
    assert mail.outbox[0].to == [stranger.user.email]
    assert mail.outbox[0].subject == "You have a place: Spring course"


def test_a_full_course_gives_a_turn_on_the_waiting_list_and_a_mail_says_so(
    signed_in, tutor, stranger, full, django_capture_on_commit_callbacks
) -> None:
    with django_capture_on_commit_callbacks(execute=True):
        signed_in(tutor).post(enrol_url(full), {"person": stranger.pk})
    assert stranger.enrolments.get().waiting
    assert [message.subject for message in mail.outbox] == ["You are on the waiting list: Spring course"]


def test_nobody_passes_those_who_wait(stranger: Person) -> None:
    course, now = make_course(capacity=1), timezone.now()
    Enrolment.objects.create(person=stranger, course=course, asked_at=now - timedelta(days=1), waiting=True)
    late = enrol(make_person("Late Comer"), course, now=now)
    assert late.waiting
    assert Offer.objects.get().enrolment.person == stranger


def test_nobody_is_enrolled_twice(signed_in, tutor, participant, course) -> None:
    with pytest.raises(AlreadyEnrolled):
        enrol(participant, course, now=timezone.now())
    page = signed_in(tutor).post(enrol_url(course), {"person": participant.pk})
    assert page.status_code == 200
    assert participant.enrolments.count() == 1


def test_tutors_are_not_offered_a_place_in_their_own_course(signed_in, tutor, course) -> None:
    signed_in(tutor).post(enrol_url(course), {"person": tutor.pk})
    assert not tutor.enrolments.exists()


def test_nobody_joins_a_course_that_is_over(stranger: Person, course: Course) -> None:
    Course.objects.filter(pk=course.pk).update(ends_on=timezone.localdate() - timedelta(days=1))
    with pytest.raises(CourseOver):
        enrol(stranger, course, now=timezone.now())


def test_ending_asks_first_and_says_who_moves_up(signed_in, tutor, participant, stranger, full) -> None:
    enrol(stranger, full, now=timezone.now())
    page = signed_in(tutor).get(withdraw_url(participant)).content.decode()
    assert "The place is offered to Strix Stranger" in page
    assert participant.enrolments.get().withdrawn_at is None


def test_the_place_is_offered_to_whoever_waited_longest(
    signed_in, tutor, participant, stranger, full, django_capture_on_commit_callbacks
) -> None:
    enrol(stranger, full, now=timezone.now())
    enrol(make_person("Late Comer"), full, now=timezone.now())
    with django_capture_on_commit_callbacks(execute=True):
        signed_in(tutor).post(withdraw_url(participant))
    assert Offer.objects.get().enrolment.person == stranger
    assert stranger.enrolments.get().waiting
    told = [message.to for message in mail.outbox if message.subject.startswith("A place is free for you")]
    assert told == [[stranger.user.email]]


def test_ending_a_turn_on_the_waiting_list_moves_nobody(signed_in, tutor, stranger, full) -> None:
    enrol(stranger, full, now=timezone.now())
    later = enrol(make_person("Late Comer"), full, now=timezone.now())
    signed_in(tutor).post(withdraw_url(stranger))
    later.refresh_from_db()
    assert later.waiting


def test_nobody_moves_up_once_the_course_is_over(signed_in, tutor, participant, stranger, full) -> None:
    enrol(stranger, full, now=timezone.now())
    Course.objects.filter(pk=full.pk).update(ends_on=timezone.localdate() - timedelta(days=1))
    signed_in(tutor).post(withdraw_url(participant))
    assert stranger.enrolments.get().waiting


def test_an_enrolment_ends_once(signed_in, tutor, participant, course) -> None:
    url = withdraw_url(participant)
    client = signed_in(tutor)
    client.post(url)
    assert client.post(url).status_code == 404


def test_whoever_left_may_join_again(signed_in, tutor, participant, course) -> None:
    client = signed_in(tutor)
    client.post(withdraw_url(participant))
    client.post(enrol_url(course), {"person": participant.pk})
    assert participant.enrolments.standing().count() == 1


def test_a_place_gained_later_brings_a_seat_in_the_open_papers(tutor, stranger, course) -> None:
    now = timezone.now()
    for title, closes in [("Open", now + timedelta(days=1)), ("Closed", now - timedelta(days=1))]:
        paper = Paper.objects.create(
            title=title, standard=course.standard, questions=4, opens_at=now - timedelta(days=2),
            closes_at=closes, seed=1, set_by=tutor.user, set_at=now,
        )  # fmt: skip
        course.papers.add(paper)
    enrol(stranger, course, now=now)
    assert [seat.paper.title for seat in stranger.user.seats.all()] == ["Open"]


@pytest.mark.parametrize("who", ["participant", "stranger", "assessor"])
def test_others_neither_enrol_nor_end(client, signed_in, request, participant, stranger, course, who) -> None:
    assert client.post(enrol_url(course), {"person": stranger.pk}).status_code == 302
    client = signed_in(request.getfixturevalue(who))
    assert client.post(enrol_url(course), {"person": stranger.pk}).status_code == 403
    assert client.post(withdraw_url(participant)).status_code == 403
    assert Enrolment.objects.standing().count() == 1


def test_a_tutor_of_another_course_neither_enrols_nor_ends(signed_in, participant, stranger, course) -> None:
    client = signed_in(make_person("Other Tutor", "tutor"))
    assert client.post(enrol_url(course), {"person": stranger.pk}).status_code == 404
    assert client.post(withdraw_url(participant)).status_code == 404


def test_enrolling_takes_a_post(signed_in, tutor, course) -> None:
    assert signed_in(tutor).get(enrol_url(course)).status_code == 405
