"""Being erased: a certificate keeps its name for its time, answers whoever checks it, and loses the name then."""

from datetime import timedelta

import pytest
from django.core.management import CommandError, call_command
from django.urls import reverse
from django.utils import timezone

from courses.actions.certificates import issue_certificate, record_event
from courses.actions.daily import run_daily
from courses.actions.erasure import complete_erasures
from courses.actions.posting import post_letters
from courses.models import Certificate, ErasureRequest, Letter
from tests.courses.erasure.traces import NAME, ON_CERTIFICATES, WORDS, erase_now, erased_and_posted, found_in_database
from tests.factories.people import make_person


def test_when_the_keeping_time_is_over_nothing_is_left_at_all(told_everywhere, organiser, certificate) -> None:
    request = erased_and_posted(told_everywhere, organiser)
    assert request.names_until is not None
    last = timezone.now().replace(year=request.names_until.year, month=request.names_until.month, day=1)
    assert complete_erasures(last - timedelta(days=1)) == 0
    assert found_in_database(NAME) == ON_CERTIFICATES
    assert complete_erasures(last + timedelta(days=32)) == 1
    assert found_in_database(*WORDS) == []
    request.refresh_from_db()
    assert request.completed_at is not None
    certificate.refresh_from_db()
    assert certificate.credential == ""
    assert certificate.facts["holder"] == certificate.person.name
    assert [each.reason for each in certificate.events.all()] == [""]


def test_completing_twice_changes_nothing(told_everywhere, organiser) -> None:
    erased_and_posted(told_everywhere, organiser)
    late = timezone.now() + timedelta(days=365 * 9)
    assert complete_erasures(late) == 1
    stands = list(Certificate.objects.values()), list(ErasureRequest.objects.values())
    assert complete_erasures(late) == 0
    assert (list(Certificate.objects.values()), list(ErasureRequest.objects.values())) == stands


def test_the_day_completes_what_is_due(told_everywhere, organiser) -> None:
    erased_and_posted(told_everywhere, organiser)
    done = {each.name: each for each in run_daily(timezone.now() + timedelta(days=365 * 9))}
    assert (done["erasures completed"].count, done["erasures completed"].trouble) == (1, "")


def test_who_decided_a_certificate_stays_on_it_while_it_counts(passed, organiser) -> None:
    certificate = issue_certificate(passed, organiser, now=timezone.now())
    other = make_person("Second Organiser", "organiser")
    request = erase_now(organiser, other)
    assert request.names_until is not None
    certificate.refresh_from_db()
    assert certificate.facts["decider"] == "Olga Organiser"
    assert complete_erasures(timezone.now() + timedelta(days=365 * 9)) == 1
    certificate.refresh_from_db()
    assert certificate.facts["decider"].startswith("Erased person")
    assert certificate.facts["holder"] == NAME
    assert certificate.credential
    post_letters(timezone.now())
    assert found_in_database("Olga Organiser", "olga.organiser@") == []


def test_the_check_answers_by_number_and_name_while_the_name_is_kept(client, life, organiser, certificate) -> None:
    erase_now(life, organiser)
    page = client.post(reverse("courses:check_number"), {"number": certificate.number, "family_name": "Participant"})
    assert page.status_code == 200
    assert NAME not in page.content.decode()
    other = client.post(reverse("courses:check_number"), {"number": certificate.number, "family_name": "Nobody"})
    assert other.status_code == 404


def test_the_check_answers_by_number_when_the_name_is_gone_and_says_so(client, life, organiser, certificate) -> None:
    erase_now(life, organiser)
    complete_erasures(timezone.now() + timedelta(days=365 * 9))
    asked = {"number": certificate.number, "family_name": "Whoever"}
    for page in (
        client.post(reverse("courses:check_number"), asked),
        client.get(reverse("courses:check", args=[certificate.key])),
    ):
        assert page.status_code == 200
        assert "cannot say to whom it was given" in page.content.decode()
        assert "Erased person" not in page.content.decode()


def test_a_withdrawn_certificate_still_says_so(client, passed, participant, organiser) -> None:
    certificate = issue_certificate(passed, organiser, now=timezone.now())
    record_event(certificate, "withdrawn", organiser, "false answers", now=timezone.now())
    erase_now(participant, organiser)
    complete_erasures(timezone.now() + timedelta(days=365 * 9))
    assert "withdrawn" in client.get(reverse("courses:check", args=[certificate.key])).content.decode()


def test_the_signed_file_is_not_made_again_for_somebody_who_is_gone(life, organiser, certificate, tmp_path) -> None:
    erase_now(life, organiser)
    complete_erasures(timezone.now() + timedelta(days=365 * 9))
    with pytest.raises(CommandError, match="was erased"):
        call_command("export_credential", certificate.number, str(tmp_path / "out"))
    certificate.refresh_from_db()
    assert certificate.credential == ""
    assert certificate.status_index is not None


@pytest.mark.parametrize("kind", ["withdrawn", "suspended"])
def test_a_step_after_its_holder_is_gone_writes_to_nobody_and_signs_nothing(
    certificate, participant, organiser, kind: str
) -> None:
    erased_and_posted(participant, organiser)
    letters, signed = Letter.objects.count(), Certificate.objects.get(pk=certificate.pk).credential
    step = record_event(certificate, kind, organiser, "false answers", now=timezone.now())
    certificate.refresh_from_db()
    assert step.kind == kind
    assert Letter.objects.count() == letters
    assert (certificate.credential, certificate.status_index) == (signed, step.facts["retired_index"])


def test_lifting_a_suspension_signs_no_file_for_an_empty_address(certificate, participant, organiser) -> None:
    record_event(certificate, "suspended", organiser, "a doubt", now=timezone.now())
    erased_and_posted(participant, organiser)
    signed = Certificate.objects.get(pk=certificate.pk).credential
    record_event(certificate, "lifted", organiser, "cleared up", now=timezone.now())
    certificate.refresh_from_db()
    assert certificate.credential == signed
