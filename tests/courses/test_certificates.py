"""Deciding on an application: what is asked, what is refused, what is kept, and what is written to the holder."""

from datetime import timedelta

import pytest
from django.core import mail
from django.db import IntegrityError
from django.utils import timezone

from assessments.queries.flora import the_flora
from courses.actions import certificates as actions
from courses.actions.certificates import (
    AlreadyApplied,
    AlreadyDecided,
    NotYet,
    apply_for,
    decline,
    issue_certificate,
    record_event,
)
from courses.models import Application, Attendance, Certificate, RoleGrant
from courses.queries.certificates import missing_before, prospects
from courses.queries.certification import gaps_before_certificate
from courses.queries.sentences.obstacles import missing_lines
from courses.rules.certification import Obstacle
from tests.factories.certificates import gather_dangerous, make_certificate
from tests.factories.courses import make_meeting
from tests.factories.people import make_person


def issue(application, decider):
    return issue_certificate(application, decider, now=timezone.now())


def obstacles(application, decider) -> tuple[Obstacle, ...]:
    """What a refusal says; it must be what the page lists, and nothing may have changed."""
    listed, lines = missing_before(application, decider, timezone.now())
    with pytest.raises(NotYet) as refused:
        issue(application, decider)
    found = refused.value.certification
    assert found.obstacles == listed.obstacles
    assert missing_lines(found, the_flora()) == lines
    assert lines
    application.refresh_from_db()
    assert application.decided_at is None
    assert not Certificate.objects.exists()
    assert not mail.outbox
    return found.obstacles


def test_a_pass_is_certified_by_an_impartial_organiser(passed, organiser) -> None:
    certificate = issue(passed, organiser)
    passed.refresh_from_db()
    assert passed.granted
    assert passed.decided_by == certificate.decided_by == organiser
    assert certificate.person == passed.person
    assert certificate.facts["decider"] == "Olga Organiser"
    assert certificate.facts["pairs"][0]["specimens"] == 18
    assert (certificate.facts["pairs"][0]["live"], certificate.facts["pairs"][0]["occasions"]) == (3, 3)


def test_the_refusal_lists_what_the_page_lists(application, organiser) -> None:
    assert obstacles(application, organiser) == (Obstacle.EVIDENCE_MISSING,)
    _found, lines = missing_before(application, organiser, timezone.now())
    assert any("badleaf" in line.sentence for line in lines)
    assert any("goodleaf" in line.sentence for line in lines)


def test_one_dangerous_miss_more_takes_the_pass_away(passed, participant, pair, tutor, organiser) -> None:
    gather_dangerous(participant, pair, tutor)
    assert Obstacle.EVIDENCE_MISSING in obstacles(passed, organiser)


def test_a_tutor_of_the_course_may_not_decide(passed, organiser, course) -> None:
    make_person("Otto Other", "organiser")
    course.tutors.add(organiser)
    assert obstacles(passed, organiser) == (Obstacle.DECIDER_TAUGHT,)


def test_whoever_led_a_meeting_that_they_were_at_may_not_decide(passed, organiser, course, participant) -> None:
    make_person("Otto Other", "organiser")
    meeting = make_meeting(course, days_ahead=-3, leader=organiser)
    marked = {"marked_by": organiser, "marked_at": timezone.now()}
    row = Attendance.objects.create(meeting=meeting, person=participant, presence="absent", **marked)
    assert gaps_before_certificate(participant, passed.standard, organiser, timezone.now()).may_be_issued
    row.presence = "present"
    row.save()
    assert obstacles(passed, organiser) == (Obstacle.DECIDER_TAUGHT,)


def test_whoever_set_a_paper_that_was_sat_may_not_decide(passed, setter) -> None:
    make_person("Otto Other", "organiser")
    RoleGrant.objects.create(person=setter, role="organiser", since=timezone.localdate())
    assert obstacles(passed, setter) == (Obstacle.DECIDER_ASSESSED,)


def test_whoever_recorded_a_live_check_may_not_decide(passed, assessor) -> None:
    make_person("Otto Other", "organiser")
    RoleGrant.objects.create(person=assessor, role="organiser", since=timezone.localdate())
    assert obstacles(passed, assessor) == (Obstacle.DECIDER_ASSESSED,)


def test_the_holder_never_decides_even_where_nobody_else_could(passed, participant, organiser) -> None:
    RoleGrant.objects.create(person=participant, role="organiser", since=timezone.localdate())
    assert obstacles(passed, participant) == (Obstacle.DECIDER_IS_THE_HOLDER,)
    RoleGrant.objects.filter(person=organiser).delete()
    assert obstacles(passed, participant) == (Obstacle.DECIDER_IS_THE_HOLDER,)


def test_a_tutor_is_no_decider(passed, tutor) -> None:
    assert Obstacle.DECIDER_MAY_NOT_DECIDE in obstacles(passed, tutor)


def test_in_a_school_of_one_person_the_exception_is_printed(passed, organiser, course) -> None:
    course.tutors.add(organiser)
    certificate = issue(passed, organiser)
    assert "also taught the holder" in certificate.exception
    assert certificate.facts["exception"] == certificate.exception


def test_somebody_with_a_current_certificate_gets_no_second(passed, organiser, participant) -> None:
    held = make_certificate(participant, passed.standard, organiser)
    with pytest.raises(NotYet) as refused:
        issue(passed, organiser)
    assert refused.value.certification.obstacles == (Obstacle.HAS_A_CURRENT_ONE,)
    record_event(held, "withdrawn", organiser, "By mistake", now=timezone.now())
    assert issue(passed, organiser).number != held.number


def test_a_name_that_cannot_be_printed_is_refused_before_it_is_too_late(passed, organiser, participant) -> None:
    participant.name = "花 Participant"
    participant.save()
    assert obstacles(passed, organiser) == (Obstacle.NAME_CANNOT_BE_PRINTED,)
    assert any("letters" in line.sentence for line in prospects(participant, timezone.now())[0].missing)


def test_other_names_that_cannot_be_printed_are_refused_as_well(passed, organiser, school) -> None:
    school.region = "花 Coast"
    school.save()
    assert obstacles(passed, organiser) == (Obstacle.WORDS_CANNOT_BE_PRINTED,)


def test_a_pass_that_is_too_old_gives_no_certificate_that_is_over(old_pass, organiser) -> None:
    """Passed 400 days ago under a standard whose certificates last a year, in a period of two years."""
    assert obstacles(old_pass, organiser) == (Obstacle.PASS_RAN_OUT,)
    old_pass.standard.valid_months = 14
    type(old_pass.standard).objects.filter(pk=old_pass.standard.pk).update(valid_months=14)
    assert issue(old_pass, organiser).valid_until > timezone.localdate()


def test_an_application_is_made_once_and_decided_once(participant, standard, organiser) -> None:
    now = timezone.now()
    application = apply_for(participant, standard, statement=True, now=now)
    with pytest.raises(AlreadyApplied):
        apply_for(participant, standard, statement=True, now=now)
    decline(application, organiser, "Not yet", now=now)
    with pytest.raises(AlreadyDecided):
        decline(application, organiser, "Again", now=now)
    with pytest.raises(AlreadyDecided):
        issue_certificate(application, organiser, now=now)
    assert apply_for(participant, standard, statement=True, now=now).pk != application.pk


def test_numbers_run_within_the_year_past_four_digits(participant, standard, stranger, organiser) -> None:
    now = timezone.now()
    year = timezone.localdate(now).year
    assert actions._next_number(now) == f"{year}-0001"
    make_certificate(stranger, standard, organiser, number=f"{year - 1}-0099")
    make_certificate(stranger, standard, organiser, number=f"{year}-9999")
    assert actions._next_number(now) == f"{year}-10000"
    make_certificate(stranger, standard, organiser, number=f"{year}-10000")
    assert actions._next_number(now) == f"{year}-10001"


def test_a_number_taken_meanwhile_is_tried_again(passed, organiser, stranger, monkeypatch) -> None:
    make_certificate(stranger, passed.standard, organiser, number="2026-0001")
    numbers = iter(["2026-0001", "2026-0001", "2026-0002"])
    monkeypatch.setattr(actions, "_next_number", lambda _now: next(numbers))
    assert issue(passed, organiser).number == "2026-0002"


def test_after_five_tries_the_error_is_shown_and_nothing_is_decided(passed, organiser, stranger, monkeypatch) -> None:
    make_certificate(stranger, passed.standard, organiser, number="2026-0001")
    monkeypatch.setattr(actions, "_next_number", lambda _now: "2026-0001")
    with pytest.raises(IntegrityError):
        issue(passed, organiser)
    assert Application.objects.get(pk=passed.pk).decided_at is None


def test_validity_counts_from_the_pass_and_is_never_moved(passed, organiser) -> None:
    certificate = issue(passed, organiser)
    passed_on = timezone.localdate() - timedelta(days=3)
    dates = (certificate.valid_from, certificate.valid_until)
    assert certificate.valid_from == passed_on
    record_event(certificate, "suspended", organiser, "A doubt", now=timezone.now())
    record_event(certificate, "lifted", organiser, "Settled", now=timezone.now())
    certificate.refresh_from_db()
    assert (certificate.valid_from, certificate.valid_until) == dates


def test_the_frozen_words_stay_when_names_change(passed, organiser, participant) -> None:
    certificate = issue(passed, organiser)
    participant.name = "Another Name"
    participant.save()
    certificate.refresh_from_db()
    assert certificate.facts["holder"] == "Pat Participant"
