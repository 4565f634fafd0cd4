"""Pages for people without an account, their questions, and the answers."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.actions.enquiries import erase_enquiries
from courses.models import Course, Enquiry, Letter
from tests.factories.courses import enrol, make_course, make_meeting
from tests.factories.people import make_person

ASKS = {"name": "Ida Asks", "email": "ida@example.org", "text": "Is there a stile?"}


@pytest.fixture
def public(course) -> Course:
    Course.objects.filter(pk=course.pk).update(
        is_public=True, effort="Four kilometres", price="90 in all", who_may_come="Adults", bring="A hand lens"
    )
    course.refresh_from_db()
    return course


def url(course) -> str:
    return reverse("courses:learn_course", args=[course.key])


def test_a_stranger_reads_what_they_must_know_before_paying(client, public) -> None:
    make_meeting(public)
    page = client.get(url(public)).content.decode()
    for words in ("Four kilometres", "90 in all", "Adults", "A hand lens", "11 of 12 places free", "Spring carpets"):
        assert words in page
    assert "Nobody is promised a certificate" in page


def test_strangers_find_courses_certificates_and_the_check_where_they_sign_in(client, public) -> None:
    page = client.get(reverse("account_login")).content.decode()
    for name in ("learn", "about_certificates", "check_number"):
        address = reverse(f"courses:{name}")
        assert f'href="{address}"' in page
        assert client.get(address).status_code == 200


def test_nothing_of_people_or_of_exact_places_is_on_it(client, public, participant) -> None:
    meeting = make_meeting(public)
    page = client.get(url(public)).content.decode()
    assert participant.name not in page
    assert reverse("courses:meeting", args=[meeting.key]) not in page
    assert str(meeting.site.locality.latitude or "no such place") not in page


def test_places_kept_for_somebody_are_not_free(client, public, participant, stranger) -> None:
    from courses.actions.enrolment import enrol as ask_for_a_place
    from courses.actions.enrolment import withdraw

    Course.objects.filter(pk=public.pk).update(capacity=1)
    ask_for_a_place(stranger, public, now=timezone.now())
    withdraw(participant.enrolments.get(), now=timezone.now())
    assert "full, with a waiting list" in client.get(url(public)).content.decode()


def test_what_is_not_public_or_over_is_not_there(client, course, public) -> None:
    hidden = make_course("Hidden course")
    assert client.get(url(hidden)).status_code == 404
    assert "Hidden course" not in client.get(reverse("courses:learn")).content.decode()
    Course.objects.filter(pk=public.pk).update(ends_on=timezone.localdate() - timedelta(days=1))
    assert client.get(url(public)).status_code == 404


def test_without_courses_the_list_says_so(client, school) -> None:
    assert "No course is announced" in client.get(reverse("courses:learn")).content.decode()


def test_a_question_is_kept_and_the_organisers_are_written_to(client, public, organiser, tutor) -> None:
    page = client.post(url(public), ASKS, follow=True).content.decode()
    assert "Somebody of the school answers" in page
    assert Enquiry.objects.get().course == public
    assert list(Letter.objects.values_list("to", flat=True)) == [organiser.user.email]


def test_a_wrong_address_is_said_beside_it_and_nothing_typed_is_lost(client, public) -> None:
    answer = client.post(url(public), {**ASKS, "email": "ida"})
    assert answer.status_code == 422
    assert "Is there a stile?" in answer.content.decode()
    assert not Enquiry.objects.exists()


def test_questions_without_end_are_stopped(client, public) -> None:
    codes = [client.post(url(public), ASKS).status_code for _ in range(6)]
    assert codes == [302] * 5 + [429]
    assert Enquiry.objects.count() == 5


def test_an_answer_goes_out_once_as_a_letter(client, signed_in, public, organiser) -> None:
    client.post(url(public), ASKS)
    enquiry = Enquiry.objects.get()
    page = reverse("courses:enquiry", args=[enquiry.key])
    office = signed_in(organiser)
    office.post(page, {"text": "Yes, one."})
    assert "answered or closed meanwhile" in office.post(page, {"text": "Two."}, follow=True).content.decode()
    letter = Letter.objects.get(to="ida@example.org")
    assert "Yes, one." in letter.text
    assert "Answered by Olga Organiser" in office.get(page).content.decode()


def test_it_can_be_put_away(signed_in, client, public, organiser) -> None:
    client.post(url(public), ASKS)
    signed_in(organiser).post(reverse("courses:enquiry_close", args=[Enquiry.objects.get().key]))
    assert not Enquiry.objects.unanswered().exists()


@pytest.mark.parametrize("who", ["tutor", "participant", "stranger"])
def test_only_organisers_read_questions(signed_in, request, public, who) -> None:
    assert signed_in(request.getfixturevalue(who)).get(reverse("courses:enquiries")).status_code == 403


def test_questions_go_after_a_year(public, client) -> None:
    client.post(url(public), ASKS)
    assert erase_enquiries(timezone.now() + timedelta(days=364)) == 0
    assert erase_enquiries(timezone.now() + timedelta(days=366)) == 1


def test_the_list_costs_the_same_for_many(client, public, django_assert_num_queries) -> None:
    listed = reverse("courses:learn")
    client.get(listed)
    for number in range(10):
        each = make_course(f"Course {number}", is_public=True)
        enrol(make_person(f"Person {number}"), each)
    with django_assert_num_queries(2):
        client.get(listed)
