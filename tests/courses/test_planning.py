"""Planning a course: a draft that is looked at first, the season check, last year's again, what is still needed."""

from datetime import timedelta

import pytest
from django.core.management import call_command
from django.urls import reverse
from django.utils import timezone

from courses.actions.planning import copy_course
from courses.models import Course, Meeting
from species.models import Module, ModuleSpecies, Showing
from tests.factories.courses import SiteFactory, enrol, give_permission, make_course, make_meeting
from tests.factories.people import make_person
from tests.factories.species import make_species

DRAFT = {"weekday": "2", "weeks": "3", "begins": "10:00", "ends": "13:00", "site": "", "place": "The barn"}


def url(course, name="course_draft") -> str:
    return reverse(f"courses:{name}", args=[course.key])


@pytest.fixture
def module(school) -> Module:
    made = Module.objects.create(key="carpets", title="Carpets")
    plant = make_species("goodleaf")
    Showing.objects.create(species=plant, stage="rosette", months=[timezone.localdate().month])
    ModuleSpecies.objects.create(module=made, species=plant)
    return made


def test_a_draft_is_looked_at_and_makes_nothing(signed_in, tutor, course, module) -> None:
    page = signed_in(tutor).post(url(course), DRAFT).content.decode()
    assert "Make 3 meetings" in page
    assert "Carpets" in page
    assert not Meeting.objects.exists()


def test_a_second_press_makes_them_all_by_the_clock_on_the_wall(signed_in, tutor, course, module) -> None:
    signed_in(tutor).post(url(course), {**DRAFT, "make": "1"})
    starts = [timezone.localtime(each.starts_at) for each in Meeting.objects.order_by("starts_at")]
    assert [each.hour for each in starts] == [10, 10, 10]
    assert {each.weekday() for each in starts} == {2}
    assert Meeting.objects.first().modules.get() == module


def test_skipped_days_and_days_with_a_meeting_are_left_out(signed_in, tutor, course, module) -> None:
    client = signed_in(tutor)
    client.post(url(course), {**DRAFT, "weeks": "1", "make": "1"})
    taken = timezone.localdate(Meeting.objects.get().starts_at)
    skip = taken + timedelta(days=7)
    client.post(url(course), {**DRAFT, "weeks": "1", "skipped": skip.isoformat(), "make": "1"})
    days = {timezone.localdate(each.starts_at) for each in Meeting.objects.all()}
    assert days == {taken, taken + timedelta(days=14)}
    course.refresh_from_db()
    assert course.skipped_days == [skip.isoformat()]


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"skipped": "2026-13-01"}, "Line 1: “2026-13-01” is no day"),
        ({"ends": "09:00"}, "lies before the beginning"),
        ({"place": ""}, "People must know where"),
    ],
)
def test_a_wrong_draft_is_said_beside_the_field(signed_in, tutor, course, module, typed, words) -> None:
    answer = signed_in(tutor).post(url(course), {**DRAFT, **typed})
    assert answer.status_code == 422
    assert words in answer.content.decode()


def test_the_season_check_says_what_will_not_show(signed_in, tutor, course) -> None:
    plant, made = make_species("latecomer"), Module.objects.create(key="m", title="M")
    month = (timezone.localdate() + timedelta(days=180)).month
    Showing.objects.create(species=plant, stage="flower", months=[month])
    ModuleSpecies.objects.create(module=made, species=plant)
    make_meeting(course).modules.add(made, through_defaults={"order": 1})
    page = signed_in(tutor).get(url(course, "course_season")).content.decode()
    assert "Latecomer" in page
    assert "will not show." in page
    assert "In no week of this course." in page


def test_of_a_meeting_that_is_over_nothing_is_said_of_what_will_be(signed_in, tutor, course) -> None:
    plant, made = make_species("latecomer"), Module.objects.create(key="m", title="M")
    month = (timezone.localdate() + timedelta(days=180)).month
    Showing.objects.create(species=plant, stage="flower", months=[month])
    ModuleSpecies.objects.create(module=made, species=plant)
    make_meeting(course, days_ahead=-3).modules.add(made, through_defaults={"order": 1})
    page = signed_in(tutor).get(url(course, "course_season")).content.decode()
    assert "was not to be expected on that day." in page
    assert "will not show" not in page
    assert "In no week of this course." not in page


def test_it_says_what_everybody_still_needs(signed_in, tutor, course, participant) -> None:
    page = signed_in(tutor).get(url(course, "course_season")).content.decode()
    assert "Pat Participant" in page
    assert "8 weeks are left" in page or "6 weeks are left" in page


def test_last_years_course_comes_again_on_new_days(signed_in, organiser, course, tutor, module, participant) -> None:
    meeting = make_meeting(course, leader=tutor, note="Ropes")
    meeting.modules.add(module, through_defaults={"order": 1})
    make_meeting(course, title="Cancelled one", cancelled_at=timezone.now())
    first = timezone.localdate() + timedelta(days=371)
    answer = signed_in(organiser).post(url(course, "course_copy"), {"title": "Again", "starts_on": first.isoformat()})
    made = Course.objects.get(title="Again")
    assert answer["Location"] == url(made, "course_season")
    copied = made.meetings.get()
    assert (copied.note, copied.leader, copied.modules.get()) == ("Ropes", None, module)
    old, new = timezone.localtime(meeting.starts_at), timezone.localtime(copied.starts_at)
    assert new.time() == old.time()
    assert (new.date() - old.date()) == first - course.starts_on
    assert not made.enrolments.exists()
    assert list(made.tutors.all()) == [tutor]


def test_ten_in_the_morning_stays_ten_when_the_clocks_have_changed(course) -> None:
    ten = timezone.make_aware(timezone.datetime(2026, 7, 6, 10))
    make_meeting(course, starts_at=ten, ends_at=ten + timedelta(hours=2))
    shift = timezone.datetime(2027, 1, 4).date() - timezone.datetime(2026, 7, 6).date()
    made = copy_course(course, title="Winter", starts_on=course.starts_on + shift, now=timezone.now())
    assert timezone.localtime(made.meetings.get().starts_at).hour == 10


def test_a_course_begins_ahead(signed_in, organiser, course) -> None:
    today = timezone.localdate().isoformat()
    assert signed_in(organiser).post(url(course, "course_copy"), {"title": "A", "starts_on": today}).status_code == 422


@pytest.mark.parametrize(("who", "status"), [("participant", 403), ("stranger", 403), ("assessor", 403)])
def test_others_do_not_plan(signed_in, request, course, who, status) -> None:
    client = signed_in(request.getfixturevalue(who))
    assert {client.get(url(course, n)).status_code for n in ("course_draft", "course_season")} == {status}


def test_copying_is_for_organisers(signed_in, tutor, course) -> None:
    assert signed_in(tutor).get(url(course, "course_copy")).status_code == 403


def test_a_site_without_permission_is_said_beside_it_and_a_reason_lets_it_pass(signed_in, tutor, course) -> None:
    site, day = SiteFactory(), timezone.localdate() + timedelta(days=2)
    new = reverse("courses:meeting_new") + f"?course={course.key}"
    typed = {"title": "T", "day": day.isoformat(), "begins": "10:00", "ends": "12:00", "site": site.pk, "is_walk": "on"}
    client = signed_in(tutor)
    assert "No permission for this day is on record" in client.post(new, typed).content.decode()
    assert client.post(new, {**typed, "without_permission": "Public footpath"}).status_code == 302
    give_permission(site)
    assert client.post(new, typed).status_code == 302


def test_nobody_is_in_two_places_at_once(signed_in, tutor, course) -> None:
    first = make_meeting(course, leader=tutor, title="Elsewhere")
    starts = timezone.localtime(first.starts_at)
    if starts.hour >= 20:
        pytest.skip("too late in the day for a meeting that ends on it")
    typed = {
        "title": "T", "day": starts.date().isoformat(), "begins": starts.strftime("%H:%M"),
        "ends": (starts + timedelta(hours=2)).strftime("%H:%M"), "place": "Barn", "leader": tutor.pk,
    }  # fmt: skip
    page = signed_in(tutor).post(reverse("courses:meeting_new") + f"?course={course.key}", typed).content.decode()
    assert "is at “Elsewhere” then" in page


def test_the_check_costs_the_same_for_many(signed_in, tutor, course, module, django_assert_max_num_queries) -> None:
    make_meeting(course).modules.add(module, through_defaults={"order": 1})
    client = signed_in(tutor)
    with django_assert_max_num_queries(60) as first:
        client.get(url(course, "course_season"))
    for number in range(8):
        make_meeting(course).modules.add(module, through_defaults={"order": 1})
        enrol(make_person(f"P{number}"), course)
    with django_assert_max_num_queries(len(first)):
        client.get(url(course, "course_season"))


def test_with_the_real_plants_a_draft_puts_something_that_shows_into_every_week(signed_in, tutor, school) -> None:
    call_command("load_flora", verbosity=0)
    course = make_course("Real")
    course.tutors.add(tutor)
    page = signed_in(tutor).post(url(course), {**DRAFT, "weeks": "8"}).content.decode()
    assert "Make 8 meetings" in page
