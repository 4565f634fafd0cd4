"""What certification of persons asks, one test for each line of the list by its number (CP-1 to CP-17)."""

from datetime import timedelta
from io import BytesIO

import pytest
from django.core.exceptions import ValidationError
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader

from assessments.models import Standard
from courses.actions.certificates import NotPossibleNow, NotYet, apply_for, issue_certificate, record_event
from courses.actions.complaints import AlreadyAnswered, answer_complaint
from courses.actions.conflicts import declare_conflict, end_conflict
from courses.actions.renewals import begin_renewal
from courses.documents.facts import CertificateFacts
from courses.models import Application, Certificate, Complaint, Letter
from courses.queries.certificate_words import certificate_words
from courses.rules.certification import Obstacle
from courses.rules.life import StepRefusal
from tests.factories.certificates import give_pass, make_application, make_certificate
from tests.factories.people import make_person


def url(name: str, *args: object) -> str:
    return reverse(f"courses:{name}", args=args)


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


def issue(application, decider) -> Certificate:
    return issue_certificate(application, decider, now=timezone.now())


def refused(application, decider) -> tuple[Obstacle, ...]:
    with pytest.raises(NotYet) as found:
        issue(application, decider)
    assert not Certificate.objects.exists()
    return found.value.certification.obstacles


def test_cp_01_a_named_person_decides_and_the_record_says_who_when_and_on_what(client, passed, organiser) -> None:
    client.post(url("application_decide", passed.pk), {"issue": "yes"})
    assert not Certificate.objects.exists()
    issued = issue(passed, organiser)
    passed.refresh_from_db()
    assert (issued.decided_by, passed.decided_by) == (organiser, organiser)
    assert passed.decided_at is not None
    assert issued.facts["pairs"][0]["specimens"] == 18


def test_cp_02_who_taught_may_not_decide_unless_alone_and_then_it_is_printed(client, passed, organiser, course) -> None:
    other = make_person("Otto Other", "organiser")
    course.tutors.add(organiser)
    assert Obstacle.DECIDER_TAUGHT in refused(passed, organiser)
    other.roles.all().delete()
    issued = issue(passed, organiser)
    words = certificate_words(CertificateFacts.from_json(issued.facts))
    assert "taught the holder" in words.exception
    assert "taught the holder" in text(client.get(url("check", issued.key)))


def test_cp_02_a_declared_conflict_blocks_until_it_is_over(passed, organiser, participant) -> None:
    make_person("Otto Other", "organiser")
    today = timezone.localdate()
    declare_conflict(organiser, participant, "A cousin", today - timedelta(days=1))
    assert Obstacle.DECIDER_HAS_CONFLICT in refused(passed, organiser)
    end_conflict(organiser, participant, today)
    assert issue(passed, organiser).exception == ""


def test_cp_02_a_school_of_one_person_prints_a_declared_conflict_without_its_reason(
    client, signed_in, passed, organiser, participant
) -> None:
    declare_conflict(organiser, participant, "A cousin", timezone.localdate())
    assert "the certificate will say so" in text(signed_in(organiser).get(url("application", passed.pk)))
    issued = issue(passed, organiser)
    paper = PdfReader(BytesIO(client.get(url("certificate_pdf", issued.number)).content)).pages[0].extract_text()
    for shown in (
        paper,
        text(client.get(url("certificate", issued.number))),
        text(client.get(url("check", issued.key))),
    ):
        assert "declared a conflict of interest about the holder" in " ".join(shown.split())
        assert "cousin" not in shown


def test_cp_03_no_course_is_needed(stranger, standard, pair, setter, assessor, organiser) -> None:
    give_pass(stranger, standard, pair, set_by=setter, checked_by=assessor)
    assert not stranger.enrolments.exists()
    assert issue(make_application(stranger, standard), organiser).person == stranger


def test_cp_05_from_a_certificate_to_its_application_and_every_piece_of_evidence(passed, organiser) -> None:
    issued = issue(passed, organiser)
    evidence = issued.person.user.evidence.filter(decision="refuse")
    assert issued.application == passed
    assert evidence.count() == issued.facts["pairs"][0]["specimens"]
    assert set(Certificate.objects.filter(person__user__evidence__in=evidence)) == {issued}


@pytest.mark.parametrize("name", ["about_certificates", "check_number"])
def test_cp_06_what_is_public_answers_without_signing_in(client, school, name) -> None:
    assert client.get(url(name)).status_code == 200


def test_cp_06_the_standards_answer_without_signing_in(client, standard) -> None:
    assert client.get(reverse("assessments:standards")).status_code == 200
    page = text(client.get(reverse("assessments:standard", args=[standard.key, standard.version])))
    assert "appeal" in page


def test_cp_07_nobody_else_sees_a_result(signed_in, stranger, participant, standard, organiser) -> None:
    held = make_certificate(participant, standard, organiser)
    client = signed_in(stranger)
    assert client.get(url("certificate", held.number)).status_code == 404
    assert client.get(url("certificate_credential", held.number)).status_code == 404


def test_cp_09_a_version_in_use_cannot_be_edited(standard) -> None:
    found = Standard.objects.get(pk=standard.pk)
    found.valid_months = 99
    with pytest.raises(ValidationError, match="never edited"):
        found.save()


def test_cp_10_applying_takes_the_statement_that_it_is_true(signed_in, participant, passed) -> None:
    Application.objects.all().delete()
    client, address = signed_in(participant), url("apply", passed.standard_id)
    client.post(address, {"agreement": "on"})
    assert not Application.objects.exists()
    client.post(address, {"statement": "on", "agreement": "on"})
    assert Application.objects.get().statement


def test_cp_12_page_shows_name_number_school_version_scope_and_dates(signed_in, participant, passed, organiser) -> None:
    issued = issue(passed, organiser)
    page = text(signed_in(participant).get(url("certificate", issued.number)))
    for said in (participant.name, issued.number, "version 1", "told from", "Valid from", "Valid until"):
        assert said in page


@pytest.mark.parametrize("kind", ["suspended", "narrowed", "withdrawn"])
def test_cp_13_every_step_has_actor_reason_date_and_message_and_shows_at_once(
    client, participant, standard, organiser, kind
) -> None:
    held = make_certificate(participant, standard, organiser)
    first = held.facts["pairs"][0]
    Certificate.objects.update(facts={**held.facts, "pairs": [first, {**first, "key": "pair-2"}]})
    event = record_event(held, kind, organiser, "Because", now=timezone.now(), keeping=["pair-1"])
    assert (event.by, event.reason) == (organiser, "Because")
    held.refresh_from_db()
    said = client.get(url("check_json", held.key)).json()
    shown = len(said["pairs"]) if kind == "narrowed" else said["status"]
    assert shown == (1 if kind == "narrowed" else kind)
    assert Letter.objects.filter(kind=f"certificate_{kind}", to=participant.user.email).count() == 1


def test_cp_13_the_paper_of_a_narrowed_one_no_longer_shows_what_was_taken_away(
    signed_in, participant, standard, organiser
) -> None:
    held = make_certificate(participant, standard, organiser)
    first = held.facts["pairs"][0]
    lost = {**first, "key": "pair-2", "mistaken": {**first["mistaken"], "common": "lostleaf"}}
    Certificate.objects.update(facts={**held.facts, "pairs": [first, lost]})
    paper = url("certificate_pdf", held.number)
    assert "lostleaf" in PdfReader(BytesIO(signed_in(participant).get(paper).content)).pages[0].extract_text()
    held.refresh_from_db()
    record_event(held, "narrowed", organiser, "Because", now=timezone.now(), keeping=["pair-1"])
    printed = " ".join(PdfReader(BytesIO(signed_in(participant).get(paper).content)).pages[0].extract_text().split())
    assert printed.count("lostleaf") == 1
    assert "It no longer stands for: Goodleaf 1 told from lostleaf." in printed


def test_cp_13_only_an_organiser_who_is_not_the_holder_and_says_why(participant, tutor, standard, organiser) -> None:
    held = make_certificate(participant, standard, organiser)
    for by, reason, refusal in (
        (tutor, "Because", StepRefusal.MAY_NOT),
        (participant, "Because", StepRefusal.IS_THE_HOLDER),
        (organiser, " ", StepRefusal.NO_REASON),
    ):
        with pytest.raises(NotPossibleNow) as found:
            record_event(held, "suspended", by, reason, now=timezone.now())
        assert found.value.refusal is refusal
    assert not held.events.exists()


def test_cp_14_no_step_moves_the_last_day(passed, organiser) -> None:
    issued = issue(passed, organiser)
    until = issued.valid_until
    for kind in ("suspended", "lifted", "withdrawn"):
        record_event(issued, kind, organiser, "Because", now=timezone.now())
        assert Certificate.objects.get().valid_until == until


def test_cp_14_a_renewal_rests_on_new_tests_and_leaves_the_old_last_day(
    participant, standard, pair, setter, assessor, organiser
) -> None:
    now = timezone.now()
    last = timezone.localdate() + timedelta(days=30)
    old = make_certificate(participant, standard, organiser, issued_at=now - timedelta(days=700), valid_until=last)
    asked = apply_for(participant, standard, statement=True, agreed=True, renews=old, now=now)
    begin_renewal(old, organiser, now - timedelta(days=4))
    assert Obstacle.EVIDENCE_MISSING in _obstacles(asked, organiser)
    assert Certificate.objects.get(pk=old.pk).valid_until == last


def test_cp_14_a_renewal_on_new_tests_is_another_certificate_with_a_last_day_of_its_own(
    participant, standard, pair, setter, assessor, organiser
) -> None:
    now, last = timezone.now(), timezone.localdate() + timedelta(days=30)
    old = make_certificate(participant, standard, organiser, issued_at=now - timedelta(days=700), valid_until=last)
    asked = apply_for(participant, standard, statement=True, agreed=True, renews=old, now=now)
    give_pass(participant, standard, pair, set_by=setter, checked_by=assessor)
    new = issue(asked, organiser)
    assert new.valid_until > last
    assert old.events.get().facts == {"renewed_by": new.number}
    assert Certificate.objects.get(pk=old.pk).valid_until == last


def _obstacles(application, decider) -> tuple[Obstacle, ...]:
    with pytest.raises(NotYet) as found:
        issue(application, decider)
    return found.value.certification.obstacles


def test_cp_15_no_certificate_before_the_agreement(passed, organiser, participant) -> None:
    Application.objects.update(agreed_at=None)
    assert Obstacle.NOT_AGREED in refused(passed, organiser)
    apply_for(participant, passed.standard, statement=True, agreed=True, now=timezone.now())
    assert issue(passed, organiser).application.agreed_at is not None


def test_cp_17_a_complaint_is_kept_apart_from_appeals_and_answered_once(client, school, organiser) -> None:
    client.post(url("about_certificates"), {"name": "Ann", "email": "ann@example.org", "text": "The bus was late."})
    kept = Complaint.objects.get()
    answer_complaint(kept, "We are sorry.", by=organiser, now=timezone.now())
    kept.refresh_from_db()
    assert (kept.answer, kept.answered_by) == ("We are sorry.", organiser)
    with pytest.raises(AlreadyAnswered):
        answer_complaint(kept, "Again", by=organiser, now=timezone.now())
