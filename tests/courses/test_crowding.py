"""More places than the leaders of a meeting can take: said to those who run the course, and nobody is stopped."""

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.actions.enrolment import enrol
from courses.models import Course, Meeting
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.courses import SiteFactory, make_meeting
from tests.factories.people import make_person

WARNING = "More places than room"


@pytest.fixture
def meeting(course: Course) -> Meeting:
    """At a site where one leader takes eight; the course has twelve places."""
    return make_meeting(course, site=SiteFactory(group_size=8))


def page(signed_in, person, course) -> str:
    return signed_in(person).get(reverse("courses:course", args=[course.key])).content.decode()


@pytest.mark.parametrize("who", ["tutor", "organiser"])
def test_those_who_run_it_read_which_meeting_takes_how_many(request, signed_in, course, meeting, who: str) -> None:
    shown = page(signed_in, request.getfixturevalue(who), course)
    assert faults(shown) == []
    assert WARNING in shown
    assert "nobody is named to lead yet" in shown
    assert meeting.title in shown


def test_a_participant_is_not_told(signed_in, participant, course, meeting) -> None:
    assert WARNING not in page(signed_in, participant, course)


def test_one_more_leader_makes_room(signed_in, tutor, assessor, course, meeting) -> None:
    Meeting.objects.filter(pk=meeting.pk).update(leader=tutor)
    assert "and 1 is named" in page(signed_in, tutor, course)
    meeting.assistants.add(assessor)
    assert WARNING not in page(signed_in, tutor, course)


def test_a_number_that_was_set_for_the_meeting_bounds_it(signed_in, tutor, course) -> None:
    make_meeting(course, most_people=11)
    assert "at most 11 people were set" in page(signed_in, tutor, course)
    Course.objects.filter(pk=course.pk).update(capacity=11)
    assert WARNING not in page(signed_in, tutor, course)


def test_meetings_that_are_over_or_cancelled_or_unbounded_say_nothing(signed_in, tutor, course) -> None:
    make_meeting(course, days_ahead=-3, most_people=2)
    make_meeting(course, most_people=2, cancelled_at=timezone.now())
    make_meeting(course)
    assert WARNING not in page(signed_in, tutor, course)


def test_nobody_is_stopped_from_enrolling(course, meeting) -> None:
    placed = [enrol(make_person(f"Comes {number}"), course, now=timezone.now()) for number in range(10)]
    assert not any(each.waiting for each in placed)


def test_it_takes_as_many_queries_however_many_meetings(signed_in, tutor, course, meeting) -> None:
    def grow() -> None:
        for number in range(3):
            make_meeting(course, days_ahead=3 + number, site=SiteFactory(group_size=4))

    assert same_queries(signed_in(tutor), reverse("courses:course", args=[course.key]), grow)
