"""Meetings: list, page, planning, moving, cancelling, restoring."""

from datetime import UTC, date, datetime, timedelta

import pytest
import time_machine
from django.core import mail
from django.urls import reverse
from django.utils import timezone

from courses.actions.meetings import cancel_meeting, change_to_wet_plan, keep_meeting, restore_meeting
from courses.models import Course, Letter, Meeting
from species.models import Module
from tests.factories.courses import SiteFactory, enrol, give_permission, make_course, make_meeting
from tests.factories.people import make_person


@pytest.fixture
def meeting(course: Course) -> Meeting:
    return make_meeting(course)


@pytest.fixture
def module(db: None) -> Module:
    return Module.objects.create(key="hemlock-first", title="Hemlock first", order=1)


def page_of(meeting: Meeting) -> str:
    return reverse("courses:meeting", args=[meeting.key])


def edit_of(meeting: Meeting) -> str:
    return reverse("courses:meeting_edit", args=[meeting.key])


def new_of(course: Course) -> str:
    return f"{reverse('courses:meeting_new')}?course={course.key}"


def typed(day: date, **changed: object) -> dict[str, object]:
    return {
        "title": "Bluebell wood", "day": day.isoformat(), "begins": "09:30", "ends": "12:30", "site": "",
        "place": "The old barn", "is_walk": "on", "leader": "", "note": "", "spot_test": "", **changed,
    }  # fmt: skip


def in_days(days: int) -> date:
    return timezone.localdate() + timedelta(days=days)


def test_a_tutor_plans_a_meeting_with_its_modules_in_order(signed_in, tutor, course, module) -> None:
    other = Module.objects.create(key="carrot", title="Carrot kin", order=0)
    chosen = {"module_1": module.pk, "module_3": other.pk, "assistant_1": make_person("Ann Assistant").pk}
    answer = signed_in(tutor).post(new_of(course), typed(in_days(3), leader=tutor.pk, **chosen))
    made = Meeting.objects.get(title="Bluebell wood")
    assert answer["Location"] == page_of(made)
    assert made.course == course
    assert made.leader == tutor
    assert [row.module.title for row in made.modules_in_order.all()] == ["Hemlock first", "Carrot kin"]
    assert [person.name for person in made.assistants.all()] == ["Ann Assistant"]


@time_machine.travel(datetime(2026, 5, 12, 12, tzinfo=UTC))
def test_times_are_those_of_the_school(signed_in, school: object) -> None:
    course = make_course()
    signed_in(make_person("Olaf Organiser", "organiser")).post(new_of(course), typed(date(2026, 5, 14)))
    made = Meeting.objects.get(title="Bluebell wood")
    assert made.starts_at == datetime(2026, 5, 14, 8, 30, tzinfo=UTC)  # summer time in Britain


@time_machine.travel(datetime(2026, 3, 12, 12, tzinfo=UTC))
def test_an_hour_that_the_clocks_skip_is_refused(signed_in, school: object) -> None:
    client = signed_in(make_person("Olaf Organiser", "organiser"))
    page = client.post(new_of(make_course()), typed(date(2026, 3, 29), begins="01:30", ends="03:30"))
    assert page.status_code == 200
    assert not Meeting.objects.exists()


WRONG = {
    "the end before the beginning": ({"ends": "09:00"}, "The end lies before the beginning"),
    "no place": ({"place": ""}, "People must know where"),
    "no title": ({"title": ""}, "This field is required"),
    "a day outside the course": ({"day": "2031-01-01"}, "The course runs from"),
}


@pytest.mark.parametrize(("changed", "sentence"), WRONG.values(), ids=WRONG)
def test_a_wrong_meeting_is_refused_and_nothing_typed_is_lost(signed_in, tutor, course, changed, sentence) -> None:
    data = typed(in_days(3), note="typed note")
    page = signed_in(tutor).post(new_of(course), {**data, **changed}).content.decode()
    assert sentence in page
    assert "typed note" in page
    assert not Meeting.objects.exists()


def test_a_site_and_a_place_are_one_too_many(signed_in, tutor, course) -> None:
    page = signed_in(tutor).post(new_of(course), typed(in_days(3), site=SiteFactory().pk)).content.decode()
    assert "A site is chosen already" in page
    assert not Meeting.objects.exists()


def test_a_module_is_chosen_once_and_a_leader_assists_nobody(signed_in, tutor, course, module) -> None:
    twice = {"module_1": module.pk, "module_2": module.pk, "leader": tutor.pk, "assistant_1": tutor.pk}
    page = signed_in(tutor).post(new_of(course), typed(in_days(3), **twice)).content.decode()
    assert "Hemlock first is chosen already" in page
    assert "The leader is named as an assistant too" in page
    assert not Meeting.objects.exists()


def test_a_new_meeting_begins_as_the_last_one_a_week_later(signed_in, tutor, course, meeting) -> None:
    page = signed_in(tutor).get(new_of(course)).content.decode()
    day = timezone.localdate(meeting.starts_at) + timedelta(days=7)
    assert f'value="{day.isoformat()}"' in page


def test_saving_a_long_meeting_loses_nothing(signed_in, tutor, course, meeting) -> None:
    for number in range(6):
        row = Module.objects.create(key=f"m{number}", title=f"M {number}")
        meeting.modules.add(row, through_defaults={"order": number})
    client = signed_in(tutor)
    shown = client.get(edit_of(meeting)).context["form"]
    data = {name: shown[name].value() or "" for name in shown.fields}
    client.post(edit_of(meeting), {**data, "begins": "09:00", "ends": "10:00", "day": in_days(2).isoformat()})
    assert [row.module.title for row in meeting.modules_in_order.all()] == [f"M {number}" for number in range(6)]


def test_whoever_would_come_in_vain_is_told_of_a_new_time(
    signed_in, tutor, stranger, course, meeting, django_capture_on_commit_callbacks
) -> None:
    enrol(stranger, course, waiting=True)
    with django_capture_on_commit_callbacks(execute=True):
        signed_in(tutor).post(edit_of(meeting), typed(in_days(4)))
    assert [message.to for message in mail.outbox] == [["pat.participant@example.org"]]
    assert "Bluebell wood has moved." in mail.outbox[0].body
    assert "The old barn" in mail.outbox[0].body


def test_a_new_note_is_nobodys_mail(signed_in, tutor, course, meeting, django_capture_on_commit_callbacks) -> None:
    start = timezone.localtime(meeting.starts_at).replace(hour=9, minute=0, second=0, microsecond=0)
    Meeting.objects.update(starts_at=start, ends_at=start + timedelta(hours=1))
    give_permission(meeting.site)
    data = typed(start.date(), begins="09:00", ends="10:00", site=meeting.site_id, place="", note="bring rope")
    with django_capture_on_commit_callbacks(execute=True):
        assert signed_in(tutor).post(edit_of(meeting), data).status_code == 302
    assert mail.outbox == []


def test_cancelling_asks_first_then_tells_everybody_with_a_place(
    signed_in, tutor, course, meeting, django_capture_on_commit_callbacks
) -> None:
    client, url = signed_in(tutor), reverse("courses:meeting_cancel", args=[meeting.key])
    assert "Everybody who has a place is written to, and so is whoever leads" in client.get(url).content.decode()
    with django_capture_on_commit_callbacks(execute=True):
        client.post(url)
    meeting.refresh_from_db()
    assert meeting.cancelled_at is not None
    assert "is cancelled. Please do not come." in mail.outbox[0].body


@pytest.mark.parametrize("step", ["cancelled", "restored", "moved", "wet"])
def test_whoever_leads_assists_or_stands_in_is_told_as_well_and_once(course, participant, organiser, step) -> None:
    lead, aide, stands_in, taken_back, gone, pupil = (make_person(f"Ann Number {number}") for number in range(6))
    walk, now = make_meeting(course, leader=lead, wet_plan="A talk in the barn"), timezone.now()
    walk.assistants.add(aide, gone)
    enrol(pupil, course)
    enrol(aide, course)  # in both ways, and written to once
    walk.stand_ins.create(person=stands_in, named_by=organiser, named_at=now)
    walk.stand_ins.create(person=taken_back, named_by=organiser, named_at=now, taken_back_at=now)
    type(gone).objects.filter(pk=gone.pk).update(left_on=timezone.localdate())
    if step == "moved":
        walk.starts_at -= timedelta(hours=1)
        keep_meeting(walk, modules=[], assistants=[aide, gone], now=now)
    elif step == "wet":
        change_to_wet_plan(walk, now=now)
    else:
        cancel_meeting(walk, now=now)
        if step == "restored":
            restore_meeting(walk, now=now)
    told = sorted(Letter.objects.filter(kind=step).values_list("to", flat=True))
    assert told == sorted(each.user.email for each in (lead, aide, stands_in, pupil, participant))


def test_a_meeting_that_has_begun_is_not_cancelled(signed_in, tutor, course) -> None:
    now, hour = timezone.now(), timedelta(hours=1)
    begun = make_meeting(course, starts_at=now - hour, ends_at=now + hour)
    page = signed_in(tutor).post(reverse("courses:meeting_cancel", args=[begun.key]), follow=True)
    begun.refresh_from_db()
    assert "can no longer be cancelled" in page.content.decode()
    assert begun.cancelled_at is None


def test_a_cancelled_meeting_is_restored_and_everybody_hears_of_it(
    signed_in, tutor, course, django_capture_on_commit_callbacks
) -> None:
    meeting = make_meeting(course, cancelled_at=timezone.now())
    url = reverse("courses:meeting_restore", args=[meeting.key])
    client = signed_in(tutor)
    assert client.get(url).status_code == 405
    with django_capture_on_commit_callbacks(execute=True):
        client.post(url)
    meeting.refresh_from_db()
    assert meeting.cancelled_at is None
    assert "takes place after all" in mail.outbox[0].body


def test_an_organiser_plans_a_walk_outside_a_course_and_a_tutor_does_not(signed_in, organiser, tutor) -> None:
    url = reverse("courses:meeting_new")
    assert signed_in(tutor).get(url).status_code == 403
    signed_in(organiser).post(url, typed(in_days(90)))
    assert Meeting.objects.get().course is None


def test_planning_asks_for_sign_in_and_for_the_course(client, signed_in, course, meeting) -> None:
    assert client.post(edit_of(meeting), typed(in_days(4))).status_code == 302
    other = signed_in(make_person("Other Tutor", "tutor"))
    assert other.post(edit_of(meeting), typed(in_days(4))).status_code == 404
    assert other.post(new_of(course), typed(in_days(4))).status_code == 404
    meeting.refresh_from_db()
    assert meeting.title == "Spring carpets"
    assert Meeting.objects.count() == 1
