"""Courses: list, page, opening a new one, changing one."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.models import Course, Person
from tests.courses.pages import same_queries
from tests.factories.courses import enrol, make_course, make_meeting
from tests.factories.people import make_person

LIST, NEW = "/courses/", "/courses/new/"


def page_of(course: Course) -> str:
    return reverse("courses:course", args=[course.key])


def edit_of(course: Course) -> str:
    return reverse("courses:course_edit", args=[course.key])


def typed(course: Course, **changed: object) -> dict[str, object]:
    return {
        "title": course.title, "summary": "", "bring": "", "standard": course.standard_id,
        "starts_on": course.starts_on.isoformat(), "ends_on": course.ends_on.isoformat(),
        "capacity": course.capacity, "tutors": [tutor.pk for tutor in course.tutors.all()], **changed,
    }  # fmt: skip


def test_everybody_sees_their_own_courses_and_organisers_all(signed_in, participant, organiser, course) -> None:
    make_course("Autumn course")
    assert "Autumn course" not in signed_in(participant).get(LIST).content.decode()
    page = signed_in(organiser).get(LIST).content.decode()
    assert "Autumn course" in page
    assert "1 of 12 places taken" in page


def test_whoever_is_in_no_course_is_told_what_to_do(signed_in, stranger, course) -> None:
    assert "You are in no course" in signed_in(stranger).get(LIST).content.decode()


def test_running_courses_come_before_those_to_come_and_those_that_are_over(signed_in, organiser, course) -> None:
    today = timezone.localdate()
    make_course("Past course", starts_on=today - timedelta(days=90), ends_on=today - timedelta(days=30))
    make_course("Next course", starts_on=today + timedelta(days=30), ends_on=today + timedelta(days=90))
    page = signed_in(organiser).get(LIST).content.decode()
    assert page.index("Spring course") < page.index("Next course") < page.index("Past course")


def test_the_list_takes_as_many_queries_however_many_courses(signed_in, organiser, course, tutor) -> None:
    def grow() -> None:
        for number in range(4):
            make_course(f"Course {number}").tutors.add(tutor)

    assert same_queries(signed_in(organiser), LIST, grow)


def test_the_tutor_sees_who_has_a_place_and_who_waits(signed_in, tutor, stranger, course) -> None:
    enrol(stranger, course, waiting=True)
    page = signed_in(tutor).get(page_of(course)).content.decode()
    assert page.index("Pat Participant") < page.index("Waiting, first come first") < page.index("Strix Stranger")


def test_a_participant_sees_neither_people_nor_papers_nor_buttons(signed_in, participant, stranger, course) -> None:
    enrol(stranger, course)
    page = signed_in(participant).get(page_of(course)).content.decode()
    assert "Strix Stranger" not in page
    assert "Set a paper" not in page
    assert "Tilda Tutor" in page


def test_the_page_takes_as_many_queries_however_many_people_and_meetings(signed_in, tutor, course) -> None:
    def grow() -> None:
        for number in range(4):
            enrol(make_person(f"Person {number}"), course, waiting=number > 2)
            make_meeting(course, days_ahead=number - 2)

    grow_once = make_meeting(course, days_ahead=-3)
    assert grow_once
    assert same_queries(signed_in(tutor), page_of(course), grow)


def test_an_organiser_opens_a_course(signed_in, organiser, tutor, course) -> None:
    answer = signed_in(organiser).post(NEW, typed(course, title="Shore plants & seaweed"))
    made = Course.objects.get(title="Shore plants & seaweed")
    assert made.key == "shore-plants-seaweed"
    assert list(made.tutors.all()) == [tutor]
    assert answer["Location"] == page_of(made)


@pytest.mark.parametrize(("title", "key"), [("Spring course", "spring-course-2"), ("New", "new-2"), ("¿?", "course")])
def test_the_key_is_free_and_no_word_of_the_addresses(signed_in, organiser, course, title, key) -> None:
    signed_in(organiser).post(NEW, typed(course, title=title))
    assert Course.objects.filter(key=key).exists()


def test_a_wrong_course_is_refused_beside_the_field_and_nothing_typed_is_lost(signed_in, organiser, course) -> None:
    wrong = typed(course, title="Typed title", ends_on=(course.starts_on - timedelta(days=1)).isoformat())
    page = signed_in(organiser).post(NEW, wrong).content.decode()
    assert "The last day lies before the first" in page
    assert 'value="Typed title"' in page
    assert not Course.objects.filter(title="Typed title").exists()


def test_a_course_needs_a_place_at_least_and_a_tutor(signed_in, organiser, course) -> None:
    signed_in(organiser).post(NEW, typed(course, title="Empty", capacity=0))
    signed_in(organiser).post(NEW, typed(course, title="Empty", tutors=[]))
    assert not Course.objects.filter(title="Empty").exists()


def test_a_participant_is_no_choice_as_tutor(signed_in, organiser, participant: Person, course) -> None:
    page = signed_in(organiser).post(NEW, typed(course, title="Odd", tutors=[participant.pk]))
    assert page.status_code == 200
    assert not Course.objects.filter(title="Odd").exists()


def test_fewer_places_than_are_taken_are_refused(signed_in, tutor, stranger, course) -> None:
    enrol(stranger, course)
    page = signed_in(tutor).post(edit_of(course), typed(course, capacity=1)).content.decode()
    course.refresh_from_db()
    assert "2 places are taken" in page
    assert course.capacity == 12


def test_more_places_are_offered_to_those_who_waited_longest(signed_in, tutor, participant, stranger) -> None:
    full = make_course("Full course", capacity=1)
    full.tutors.add(tutor)
    enrol(participant, full)
    first, second = enrol(stranger, full, waiting=True), enrol(make_person("Late Comer"), full, waiting=True)
    signed_in(tutor).post(edit_of(full), typed(full, capacity=2))
    assert (first.offers.count(), second.offers.count()) == (1, 0)


@pytest.mark.parametrize("field", ["starts_on", "ends_on"])
def test_meetings_that_would_lie_outside_are_named(signed_in, tutor, course, field: str) -> None:
    meeting = make_meeting(course, days_ahead=2, title="Hemlock morning")
    day = timezone.localdate(meeting.starts_at)
    day += timedelta(days=1) if field == "starts_on" else timedelta(days=-1)
    page = signed_in(tutor).post(edit_of(course), typed(course, **{field: day.isoformat()})).content.decode()
    assert "Hemlock morning on" in page
    assert "would lie outside the course" in page
    course.refresh_from_db()
    assert getattr(course, field) != day


def test_a_cancelled_meeting_stands_in_nobodys_way(signed_in, tutor, course) -> None:
    meeting = make_meeting(course, days_ahead=2, cancelled_at=timezone.now())
    day = timezone.localdate(meeting.starts_at) - timedelta(days=1)
    signed_in(tutor).post(edit_of(course), typed(course, ends_on=day.isoformat()))
    course.refresh_from_db()
    assert course.ends_on == day


def test_the_key_stays_when_the_title_changes(signed_in, tutor, course) -> None:
    signed_in(tutor).post(edit_of(course), typed(course, title="Summer course"))
    course.refresh_from_db()
    assert (course.key, course.title) == ("spring-course", "Summer course")


def test_changing_asks_for_sign_in_and_for_a_right(client, signed_in, stranger, participant, course) -> None:
    assert client.post(edit_of(course), typed(course, title="X")).status_code == 302
    for person in (stranger, participant):
        assert signed_in(person).post(edit_of(course), typed(course, title="X")).status_code == 403
    assert signed_in(participant).delete(edit_of(course)).status_code == 405
    course.refresh_from_db()
    assert course.title == "Spring course"
