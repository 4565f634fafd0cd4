"""Messages by hand, notices and the school's letters: who sees which, and what each press does."""

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.models import Notice
from courses.models import Letter
from tests.factories.courses import enrol, make_meeting
from tests.factories.people import make_person

WORDS = {"subject": "Wet plan today", "words": "We meet at the barn."}


def message_url(course) -> str:
    return reverse("courses:course_message", args=[course.key])


def test_a_message_is_looked_at_before_it_goes(signed_in, tutor, course) -> None:
    page = signed_in(tutor).post(message_url(course), WORDS)
    text = page.content.decode()
    assert "Read it once more" in text
    assert "Hello Pat Participant" in text
    assert not Letter.objects.exists()


def test_sending_writes_one_letter_to_each_with_a_place_and_to_nobody_else(signed_in, tutor, course, stranger) -> None:
    second = make_person("Second Sitter", "participant")
    enrol(second, course)
    answer = signed_in(tutor).post(message_url(course), {**WORDS, "send": "1"})
    assert answer["Location"] == reverse("courses:course", args=[course.key])
    letters = Letter.objects.filter(kind="message")
    assert {letter.person.name for letter in letters} == {"Pat Participant", "Second Sitter"}
    assert all("We meet at the barn." in letter.text for letter in letters)
    assert not any(second.user.email in letter.text for letter in letters)


def test_changing_keeps_what_was_typed(signed_in, tutor, course) -> None:
    page = signed_in(tutor).post(message_url(course), {**WORDS, "change": "1"}).content.decode()
    assert "We meet at the barn." in page
    assert "Look at it" in page


def test_an_empty_message_is_refused_beside_its_field(signed_in, tutor, course) -> None:
    answer = signed_in(tutor).post(message_url(course), {"subject": "", "words": "x", "send": "1"})
    assert answer.status_code == 422
    assert not Letter.objects.exists()


@pytest.mark.parametrize(("who", "status"), [("participant", 403), ("stranger", 403), ("assessor", 403)])
def test_only_those_who_run_the_course_write_to_it(signed_in, request, course, who, status) -> None:
    assert signed_in(request.getfixturevalue(who)).get(message_url(course)).status_code == status


def test_a_tutor_of_another_course_finds_nothing(signed_in, course) -> None:
    assert signed_in(make_person("Other Tutor", "tutor")).get(message_url(course)).status_code == 404


def test_a_message_about_a_meeting_reaches_its_leader_too(signed_in, organiser, tutor, course) -> None:
    meeting = make_meeting(course, leader=tutor)
    signed_in(organiser).post(reverse("courses:meeting_message", args=[meeting.key]), {**WORDS, "send": "1"})
    assert set(Letter.objects.values_list("person__name", flat=True)) == {"Pat Participant", "Tilda Tutor"}


def test_notices_are_ones_own(signed_in, participant, stranger) -> None:
    facts = {"paper": "k", "title": "First test"}
    Notice.objects.create(
        person=participant.user, kind="sitting_closed_itself", facts=facts, happened_at=timezone.now()
    )
    url = reverse("courses:notices")
    assert "First test" in signed_in(participant).get(url).content.decode()
    assert "Nothing yet" in signed_in(stranger).get(url).content.decode()


@pytest.mark.parametrize(("who", "status"), [("organiser", 200), ("tutor", 403), ("participant", 403)])
def test_the_letters_are_for_organisers(signed_in, request, who, status) -> None:
    assert signed_in(request.getfixturevalue(who)).get(reverse("courses:letters")).status_code == status


def test_a_letter_that_was_given_up_can_be_tried_again(signed_in, organiser, participant) -> None:
    now = timezone.now()
    letter = Letter.objects.create(
        to="a@b.example", kind="notice", subject="S", text="T", attempts=3, trouble="550 No", given_up_at=now
    )
    client = signed_in(organiser)
    assert "550 No" in client.get(reverse("courses:letters")).content.decode()
    client.post(reverse("courses:letter_again", args=[letter.pk]))
    letter.refresh_from_db()
    assert (letter.given_up_at, letter.attempts) == (None, 0)


def test_the_pages_ask_as_often_for_many_as_for_one(signed_in, organiser, django_assert_num_queries) -> None:
    client = signed_in(organiser)
    url = reverse("courses:letters")
    client.get(url)
    for number in range(30):
        Letter.objects.create(to="a@b.example", kind="n", subject=f"S{number}", text="T", sent_at=timezone.now())
    with django_assert_num_queries(9):
        client.get(url)
