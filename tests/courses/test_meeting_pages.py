"""Meetings to look at: the list, and the page of one."""

import pytest
from django.urls import reverse

from courses.models import Course, Meeting, Site
from tests.courses.pages import same_queries
from tests.factories.courses import enrol, make_course, make_meeting


@pytest.fixture
def meeting(course: Course) -> Meeting:
    return make_meeting(course)


def page_of(meeting: Meeting) -> str:
    return reverse("courses:meeting", args=[meeting.key])


def edit_of(meeting: Meeting) -> str:
    return reverse("courses:meeting_edit", args=[meeting.key])


def test_the_page_says_where_when_how_to_get_there_and_whom_to_call(signed_in, participant, meeting) -> None:
    site = meeting.site
    told = {"access": "Bus 7 to the quay", "emergency_place": "North gate", "meeting_point": "By the lime kiln"}
    Site.objects.filter(pk=site.pk).update(**told)
    page = signed_in(participant).get(page_of(meeting)).content.decode()
    for words in (*told.values(), site.locality.name, 'href="tel:112"'):
        assert words in page


def test_the_page_warns_when_no_place_for_the_ambulance_is_known(signed_in, participant, meeting) -> None:
    assert "find out how an ambulance gets there" in signed_in(participant).get(page_of(meeting)).content.decode()


def test_a_participant_sees_neither_who_comes_nor_notes(signed_in, participant, stranger, course, meeting) -> None:
    enrol(stranger, course)
    Meeting.objects.update(note="mind Strix")
    page = signed_in(participant).get(page_of(meeting)).content.decode()
    assert "Strix" not in page
    assert "Register" not in page


def test_a_walk_without_a_leader_says_so_and_one_who_is_not_ready_too(signed_in, tutor, stranger, meeting) -> None:
    client = signed_in(tutor)
    assert "Nobody yet" in client.get(page_of(meeting)).content.decode()
    Meeting.objects.update(leader=stranger)
    assert "Not ready on that day" in client.get(page_of(meeting)).content.decode()


def test_a_leader_from_elsewhere_keeps_the_register_and_plans_nothing(signed_in, stranger, meeting) -> None:
    Meeting.objects.update(leader=stranger)
    client = signed_in(stranger)
    assert client.get(reverse("courses:register", args=[meeting.key])).status_code == 200
    assert client.get(edit_of(meeting)).status_code == 403


def test_the_list_shows_what_is_to_come_before_what_is_over(signed_in, participant, course) -> None:
    make_meeting(course, days_ahead=-5, title="Over and done")
    make_meeting(course, days_ahead=5, title="Still to come")
    make_meeting(make_course("Autumn course"), title="Somebody else's")
    page = signed_in(participant).get(reverse("courses:meetings")).content.decode()
    assert page.index("Still to come") < page.index("Over and done")
    assert "Somebody else" not in page


def test_the_list_takes_as_many_queries_however_many(signed_in, tutor, course, meeting) -> None:
    def grow() -> None:
        for number in range(4):
            make_meeting(course, days_ahead=number - 2)

    assert same_queries(signed_in(tutor), reverse("courses:meetings"), grow)
