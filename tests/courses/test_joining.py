"""The joining form: who tells what, who reads it, until when; sealed in the database. DP-1, DP-2, DP-3, DP-11."""

from datetime import timedelta

import pytest
from django.core.management import call_command
from django.db import connection
from django.urls import reverse
from django.utils import timezone

from courses.actions.enrolment import withdraw
from courses.actions.health import erase_health_notes, fill_form, open_notes, withdraw_consent
from courses.models import Consent, HealthReading, JoiningForm
from courses.queries.health import erased_after
from courses.queries.health_keys import health_keys, keys_file
from courses.rules.notes import Agreed, Notes
from tests.factories.courses import enrol
from tests.factories.people import make_person

TOLD = {"emergency_contact": "Nan, 01234", "allergies": "celery and umbellifers", "mobility": "slow uphill"}
AGREES = {"agrees_health": "on", "agrees_tasting": "on"}


@pytest.fixture(autouse=True)
def own_keys(settings, tmp_path) -> None:
    settings.VAR_DIR = tmp_path


@pytest.fixture
def place(participant, course):
    return participant.enrolments.get()


@pytest.fixture
def form(place) -> JoiningForm:
    notes = Notes("Nan, 01234", allergies="celery and umbellifers", mobility="slow uphill")
    return fill_form(place, notes, Agreed({"health": "words", "tasting": "words"}), timezone.now())


def test_whoever_told_nothing_stands_in_one_list_after_those_who_did(signed_in, tutor, course, form) -> None:
    for name in ("Sid Silent", "Sue Silent"):
        enrol(make_person(name, "participant"), course)
    told, silent = signed_in(tutor).get(url(course, "joining_notes")).content.decode().split("No form yet: ask before")
    assert "Pat Participant" in told
    assert "celery and umbellifers" in told
    assert "Sid Silent" in silent
    assert "Sue Silent" in silent
    assert "Pat Participant" not in silent


def url(course, name="joining", *more) -> str:
    return reverse(f"courses:{name}", args=[course.key, *more])


def test_a_participant_tells_and_sees_it_again(signed_in, participant, course) -> None:
    client = signed_in(participant)
    assert client.post(url(course), {**TOLD, **AGREES})["Location"] == url(course)
    page = client.get(url(course)).content.decode()
    assert "celery and umbellifers" in page
    assert Consent.objects.get(kind="health").words.startswith("The tutors of this course may read")


def test_nothing_readable_stands_in_the_database(form) -> None:
    with connection.cursor() as cursor:
        cursor.execute("SELECT * FROM courses_joiningform")
        row = b"|".join(each if isinstance(each, bytes) else str(each).encode() for each in cursor.fetchone())
    assert b"celery" not in row
    assert b"01234" not in row


def test_health_is_kept_only_with_consent_and_what_was_typed_stays(signed_in, participant, course) -> None:
    answer = signed_in(participant).post(url(course), TOLD)
    assert answer.status_code == 422
    assert "only if you agree" in answer.content.decode()
    assert "celery and umbellifers" in answer.content.decode()
    assert not JoiningForm.objects.exists()


def test_the_contact_alone_needs_no_consent(signed_in, participant, course) -> None:
    assert signed_in(participant).post(url(course), {"emergency_contact": "Nan"}).status_code == 302
    assert not Consent.objects.exists()


def test_the_tutor_reads_it_and_the_participant_sees_who_and_when(signed_in, tutor, participant, course, form) -> None:
    page = signed_in(tutor).get(url(course, "joining_notes")).content.decode()
    assert "celery and umbellifers" in page
    reading = HealthReading.objects.get()
    assert (reading.reader, reading.form) == (tutor, form)
    assert "Tilda Tutor" in signed_in(participant).get(url(course)).content.decode()


@pytest.mark.parametrize("who", ["organiser", "participant", "stranger", "assessor"])
def test_nobody_else_reads_it_not_even_organisers(signed_in, request, course, form, who) -> None:
    answer = signed_in(request.getfixturevalue(who)).get(url(course, "joining_notes"))
    assert answer.status_code == 403
    assert not HealthReading.objects.exists()


def test_a_tutor_of_another_course_finds_nothing(signed_in, course, form) -> None:
    assert signed_in(make_person("Other Tutor", "tutor")).get(url(course, "joining_notes")).status_code == 404


@pytest.mark.parametrize("who", ["tutor", "organiser", "stranger"])
def test_the_form_is_for_whoever_has_the_place(signed_in, request, course, form, who) -> None:
    assert signed_in(request.getfixturevalue(who)).get(url(course)).status_code == 404


def test_taking_consent_back_erases_at_once_and_keeps_the_place(signed_in, participant, course, form, tutor) -> None:
    signed_in(participant).post(url(course, "consent_withdraw", "health"))
    form.refresh_from_db()
    assert bytes(form.allergies) == b""
    assert bytes(form.emergency_contact) != b""
    assert participant.enrolments.get().withdrawn_at is None
    assert Consent.objects.get(kind="health").withdrawn_at is not None


def test_giving_the_place_back_erases_everything(place, form) -> None:
    withdraw(place, now=timezone.now())
    form.refresh_from_db()
    assert form.erased_at is not None
    assert bytes(form.emergency_contact) == b""


def test_notes_go_fourteen_days_after_the_course_and_not_before(form, course) -> None:
    last = timezone.make_aware(timezone.datetime.combine(erased_after(course), timezone.datetime.min.time()))
    assert erase_health_notes(last) == 0
    assert erase_health_notes(last + timedelta(days=1, hours=1)) == 1
    assert erase_health_notes(last + timedelta(days=2)) == 0
    form.refresh_from_db()
    assert not any(bytes(getattr(form, name)) for name in ("emergency_contact", "allergies", "mobility"))


def test_a_text_moved_to_another_row_or_field_is_said_to_be_unreadable(form, course, tutor) -> None:
    other = fill_form(enrol(make_person("Second"), course), Notes("Uncle"), Agreed({}), timezone.now())
    JoiningForm.objects.filter(pk=other.pk).update(allergies=form.allergies)
    JoiningForm.objects.filter(pk=form.pk).update(mobility=form.allergies)
    opened = open_notes([other.enrolment, form.enrolment], tutor, timezone.now())
    assert opened[other.enrolment_id].cannot_be_read
    assert opened[form.enrolment_id].cannot_be_read
    assert opened[form.enrolment_id].allergies == "celery and umbellifers"


def test_unreadable_notes_ask_the_tutor_to_ask(signed_in, tutor, course, form) -> None:
    keys_file().write_text("bbbbbbbb " + "00" * 32 + "\n")
    page = signed_in(tutor).get(url(course, "joining_notes")).content.decode()
    assert "cannot be read any more. Ask them." in page


def test_a_new_key_seals_everything_anew_and_the_old_one_is_gone(form, tutor, capsys) -> None:
    before = health_keys()
    call_command("rotate_health_key")
    after = health_keys()
    assert before.current not in after.keys
    assert "3 notes sealed" in capsys.readouterr().out
    assert open_notes([form.enrolment], tutor, timezone.now())[form.enrolment_id].allergies.startswith("celery")


def test_the_key_file_is_readable_by_its_owner_alone(form) -> None:
    assert keys_file().stat().st_mode & 0o077 == 0


def test_taking_back_and_filling_in_again_keeps_both_consents_in_the_record(place, form) -> None:
    withdraw_consent(place, "tasting", timezone.now())
    fill_form(place, Notes("Nan"), Agreed({"tasting": "words"}), timezone.now())
    rows = list(Consent.objects.filter(kind="tasting").order_by("given_at").values_list("withdrawn_at", flat=True))
    assert len(rows) == 2
    assert rows[0] is not None
    assert rows[1] is None


def test_reading_the_notes_costs_the_same_for_many(signed_in, tutor, course, form, django_assert_max_num_queries):
    for number in range(12):
        fill_form(enrol(make_person(f"P{number}"), course), Notes("Nan"), Agreed({}), timezone.now())
    client = signed_in(tutor)
    with django_assert_max_num_queries(14):
        client.get(url(course, "joining_notes"))
