"""The register on a telephone."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.models import Attendance, Course, Meeting, Person
from courses.queries.meetings import meeting_lines
from tests.courses.pages import same_queries
from tests.factories.courses import enrol, make_meeting
from tests.factories.people import make_person

HTMX = {"HX-Request": "true"}


@pytest.fixture
def today(course: Course) -> Meeting:
    """A meeting of the course that is under way."""
    now = timezone.now()
    return make_meeting(course, starts_at=now - timedelta(minutes=1), ends_at=now + timedelta(minutes=1))


def page_of(meeting: Meeting) -> str:
    return reverse("courses:register", args=[meeting.key])


def mark_url(meeting: Meeting, person: Person) -> str:
    return reverse("courses:register_mark", args=[meeting.key, person.pk])


def test_everybody_with_a_place_has_a_line_with_four_buttons(signed_in, tutor, stranger, course, today) -> None:
    enrol(stranger, course, waiting=True)
    page = signed_in(tutor).get(page_of(today)).content.decode()
    assert page.count('name="presence"') == 4
    assert page.count('class="register-name"') == 1
    assert "0 of 1 here" in page
    assert "1 not marked" in page


@pytest.mark.parametrize("presence", ["present", "late", "left_early", "absent"])
def test_one_tap_marks_and_comes_back_to_the_line(signed_in, tutor, participant, today, presence: str) -> None:
    answer = signed_in(tutor).post(mark_url(today, participant), {"presence": presence})
    line = Attendance.objects.get()
    assert answer["Location"] == f"{page_of(today)}#person-{participant.pk}"
    assert (line.person, line.presence, line.marked_by) == (participant, presence, tutor)


def test_marking_again_changes_the_line(signed_in, tutor, participant, today) -> None:
    client = signed_in(tutor)
    for presence in ("absent", "late", "late"):
        client.post(mark_url(today, participant), {"presence": presence})
    assert Attendance.objects.get().presence == "late"
    assert 'aria-pressed="true"' in client.get(page_of(today)).content.decode()


def test_htmx_gets_the_line_and_the_counts_alone(signed_in, tutor, participant, today) -> None:
    answer = signed_in(tutor).post(mark_url(today, participant), {"presence": "late"}, headers=HTMX)
    page = answer.content.decode()
    assert "<html" not in page
    assert f'id="person-{participant.pk}"' in page
    assert 'hx-swap-oob="true"' in page
    assert "1 of 1 here" in page
    assert "csrfmiddlewaretoken" in page


@pytest.mark.parametrize("presence", ["", "asleep"])
def test_an_unknown_word_marks_nothing(signed_in, tutor, participant, today, presence: str) -> None:
    page = signed_in(tutor).post(mark_url(today, participant), {"presence": presence}, follow=True)
    assert "Nothing was marked" in page.content.decode()
    assert not Attendance.objects.exists()


def test_somebody_who_is_not_on_the_register_is_not_marked(signed_in, tutor, stranger, today) -> None:
    page = signed_in(tutor).post(mark_url(today, stranger), {"presence": "present"}, follow=True)
    assert "Nothing was marked" in page.content.decode()
    assert not Attendance.objects.exists()


def test_before_the_day_nobody_is_marked_and_the_page_can_be_printed(signed_in, tutor, participant, course) -> None:
    meeting = make_meeting(course, days_ahead=2)
    client = signed_in(tutor)
    page = client.get(page_of(meeting)).content.decode()
    assert "The register opens on" in page
    assert 'name="presence"' not in page
    assert "Pat Participant" in page
    page = client.post(mark_url(meeting, participant), {"presence": "present"}, follow=True).content.decode()
    assert "nobody can be marked before" in page
    assert not Attendance.objects.exists()


def test_at_a_cancelled_meeting_nobody_is_marked(signed_in, tutor, participant, today) -> None:
    Meeting.objects.update(cancelled_at=timezone.now())
    answer = signed_in(tutor).post(mark_url(today, participant), {"presence": "present"}, headers=HTMX)
    assert answer["HX-Redirect"] == page_of(today)
    assert not Attendance.objects.exists()
    assert "This meeting is cancelled" in signed_in(tutor).get(page_of(today)).content.decode()


def test_somebody_who_came_unexpectedly_is_added(signed_in, tutor, stranger, today) -> None:
    client, url = signed_in(tutor), reverse("courses:register_add", args=[today.key])
    page = client.post(url, {"person": stranger.pk}, follow=True).content.decode()
    assert "Strix Stranger is on the register" in page
    assert "not expected" in page
    assert client.get(url).status_code == 405


def test_nobody_is_added_twice(signed_in, tutor, participant, today) -> None:
    url = reverse("courses:register_add", args=[today.key])
    page = signed_in(tutor).post(url, {"person": participant.pk}, follow=True).content.decode()
    assert "not on the register yet" in page
    assert not Attendance.objects.exists()


def test_a_meeting_with_nobody_in_it_says_so(signed_in, organiser) -> None:
    walk = make_meeting(None, days_ahead=0)
    assert "Nobody is expected" in signed_in(organiser).get(page_of(walk)).content.decode()


def register_state(meeting: Meeting) -> str:
    return meeting_lines(Meeting.objects.filter(pk=meeting.pk), timezone.now())[0].register


def test_a_register_is_none_then_part_then_whole(signed_in, tutor, participant, stranger, course) -> None:
    enrol(stranger, course)
    course.enrolments.update(asked_at=timezone.now() - timedelta(days=30))
    meeting = make_meeting(course, days_ahead=-1)
    states = [register_state(meeting)]
    for person in (participant, stranger):
        signed_in(tutor).post(mark_url(meeting, person), {"presence": "present"})
        states.append(register_state(meeting))
    assert states == ["none", "part", "whole"]


def test_whoever_joined_after_a_meeting_is_not_missing_from_its_register(course: Course) -> None:
    meeting = make_meeting(course, days_ahead=-3)
    course.enrolments.update(asked_at=timezone.now() - timedelta(days=1))
    assert register_state(meeting) == "nobody"


def test_the_page_takes_as_many_queries_however_many_people(signed_in, tutor, participant, course, today) -> None:
    def grow() -> None:
        for number in range(4):
            enrol(make_person(f"Person {number}"), course)

    signed_in(tutor).post(mark_url(today, participant), {"presence": "late"})
    assert same_queries(signed_in(tutor), page_of(today), grow)


def test_others_find_no_register(client, signed_in, participant, stranger, today) -> None:
    url = mark_url(today, participant)
    assert client.post(url, {"presence": "absent"}).status_code == 302
    for person in (participant, stranger, make_person("Other Tutor", "tutor")):
        assert signed_in(person).post(url, {"presence": "absent"}).status_code == 404
        assert signed_in(person).get(page_of(today)).status_code == 404
    assert not Attendance.objects.exists()


def test_marking_takes_a_post(signed_in, tutor, participant, today) -> None:
    assert signed_in(tutor).get(mark_url(today, participant)).status_code == 405
