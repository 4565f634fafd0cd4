"""What is done every day: once, twice, late, and with a step that fails."""

import json
from datetime import timedelta

import pytest
from django.core import mail
from django.core.management import CommandError, call_command
from django.utils import timezone

from assessments.models import Notice
from courses.actions import daily
from courses.actions.daily import STEPS, run_daily
from courses.actions.enquiries import ask
from courses.actions.enrolment import enrol, withdraw
from courses.actions.health import fill_form
from courses.actions.reminders import remind
from courses.models import Enquiry, Letter, Offer, Reminder, RequirementRecord
from courses.rules.notes import Agreed, Notes
from tests.factories.courses import SiteFactory, give_permission, make_course
from tests.factories.people import make_person

WITHDRAWN = {"title": "A test", "why": "rain"}


def proof(person, seen_by, days: int, kind: str = "first_aid") -> RequirementRecord:
    today = timezone.localdate()
    return RequirementRecord.objects.create(
        person=person, kind=kind, valid_from=today - timedelta(days=300),
        valid_until=today + timedelta(days=days), seen_by=seen_by, seen_on=today,
    )  # fmt: skip


def test_a_reminder_is_written_once_for_each_mark(tutor, organiser, time_machine) -> None:
    proof(tutor, organiser, 30)
    now = timezone.now()
    assert [remind(now), remind(now), remind(now + timedelta(days=5))] == [1, 0, 0]
    assert remind(now + timedelta(days=25)) == 1
    assert list(Reminder.objects.order_by("pk").values_list("days_before", flat=True)) == [30, 7]
    assert Letter.objects.filter(to=tutor.user.email).count() == 2


def test_missed_days_bring_one_letter_and_not_three(tutor, organiser) -> None:
    proof(tutor, organiser, 5)
    remind(timezone.now())
    assert Reminder.objects.get().days_before == 7


def test_what_was_renewed_needs_no_reminder(tutor, organiser) -> None:
    proof(tutor, organiser, 10)
    proof(tutor, organiser, 400)
    assert remind(timezone.now()) == 0


def test_a_permission_that_ends_is_told_to_organisers(organiser, tutor) -> None:
    give_permission(SiteFactory(), valid_until=timezone.localdate() + timedelta(days=20), given_by="The estate")
    remind(timezone.now())
    letter = Letter.objects.get()
    assert letter.to == organiser.user.email
    assert "The estate" in letter.subject


def test_whoever_has_left_is_not_reminded(tutor, organiser) -> None:
    proof(tutor, organiser, 10)
    tutor.left_on = timezone.localdate()
    tutor.save()
    assert remind(timezone.now()) == 0


def test_a_whole_day_run_twice_does_nothing_more(school, organiser, tutor) -> None:
    course, now = make_course(capacity=1), timezone.now()
    for name in ("First", "Second"):
        enrol(make_person(name), course, now=now)
    withdraw(course.enrolments.get(person__name="First"), now=now)
    proof(tutor, organiser, 10)
    later = Offer.objects.get().answer_by + timedelta(days=9)
    first = {each.name: each.count for each in run_daily(later)}
    again = {each.name: each.count for each in run_daily(later)}
    assert first["offers of places lapsed"] == 1
    assert all(not each.trouble for each in run_daily(later))
    assert set(again.values()) == {0}


def test_a_day_does_each_thing_that_has_become_due(course, participant, settings) -> None:
    settings.HEALTH_NOTES_KEPT_DAYS, settings.ENQUIRIES_KEPT_DAYS = 3, 400
    now = timezone.now()
    fill_form(participant.enrolments.get(), Notes(emergency_contact="x"), Agreed({}, 1), now)
    ask(None, name="Vera Vetch", email="vera@example.net", text="Is there room?", now=now - timedelta(days=401))
    Notice.objects.create(person=participant.user, kind="paper_withdrawn", facts=WITHDRAWN, happened_at=now)
    done = {each.name: each for each in run_daily(now + timedelta(minutes=1))}
    assert (done["enquiries erased"].count, done["notices worded"].count) == (1, 1)
    assert done["letters sent"].count == len(mail.outbox) == Letter.objects.filter(sent_at__isnull=False).count() == 1
    assert done["health notes erased"].count == 0
    over = {each.name: each for each in run_daily(now + timedelta(days=400))}
    assert over["health notes erased"].count == 1
    assert not Enquiry.objects.exists()


def test_a_step_that_fails_stops_none_of_the_others(school, monkeypatch, caplog) -> None:
    def breaks(_now) -> int:
        raise RuntimeError("the roof")

    steps = (("breaks", breaks), *STEPS)
    monkeypatch.setattr(daily, "STEPS", steps)
    done = run_daily(timezone.now())
    assert done[0].trouble == "RuntimeError: the roof"
    assert [each.name for each in done] == [name for name, _step in steps]
    assert "breaks" in caplog.text


def test_the_command_prints_a_line_a_step(school, capsys) -> None:
    call_command("daily")
    assert len(capsys.readouterr().out.splitlines()) == len(STEPS)
    call_command("daily", "--json")
    assert [each["name"] for each in json.loads(capsys.readouterr().out)] == [name for name, _step in STEPS]


def test_the_command_fails_loudly_where_a_step_did(school, monkeypatch) -> None:
    monkeypatch.setattr(daily, "STEPS", (("breaks", lambda _now: 1 // 0),))
    with pytest.raises(CommandError, match="breaks"):
        call_command("daily")
