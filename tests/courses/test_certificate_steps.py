"""What happens to a certificate after it is issued, and what is written to the holder."""

from datetime import timedelta

import pytest
import time_machine
from django.core import mail
from django.utils import timezone

from courses.actions.certificates import (
    NotPossibleNow,
    NotYet,
    decline,
    issue_certificate,
    record_event,
)
from courses.actions.check_page import show_name
from courses.models import Certificate, CertificateEvent
from courses.queries.certificates import certificate_lines
from courses.rules.certification import State
from tests.factories.certificates import gather_dangerous, make_certificate


def issue(application, decider):
    return issue_certificate(application, decider, now=timezone.now())


STEPS = ("suspended", "lifted", "withdrawn")


@pytest.mark.parametrize(
    ("before", "allowed"),
    [
        ((), {"suspended", "withdrawn"}),
        (("suspended",), {"lifted", "withdrawn"}),
        (("suspended", "lifted"), {"suspended", "withdrawn"}),
        (("withdrawn",), set()),
    ],
)
@pytest.mark.parametrize("step", STEPS)
def test_steps_after_the_issue(participant, standard, organiser, before, step, allowed) -> None:
    certificate, now = make_certificate(participant, standard, organiser), timezone.now()
    for each in before:
        record_event(certificate, each, organiser, "Because", now=now)
    if step in allowed:
        record_event(certificate, step, organiser, "Because", now=now)
    else:
        with pytest.raises(NotPossibleNow):
            record_event(certificate, step, organiser, "Because", now=now)
    assert CertificateEvent.objects.count() == len(before) + (step in allowed)


def test_an_expired_certificate_can_be_withdrawn_but_not_suspended(participant, standard, organiser) -> None:
    certificate = make_certificate(participant, standard, organiser)
    with time_machine.travel(timezone.now() + timedelta(days=800), tick=False):
        with pytest.raises(NotPossibleNow) as refused:
            record_event(certificate, "suspended", organiser, "Late", now=timezone.now())
        assert refused.value.state is State.EXPIRED
        assert record_event(certificate, "withdrawn", organiser, "Forged", now=timezone.now()).kind == "withdrawn"


def test_a_miss_after_the_issue_puts_a_certificate_under_review(passed, participant, pair, organiser, tutor) -> None:
    certificate = issue(passed, organiser)
    assert certificate_lines([certificate], timezone.now())[0].status == "current"
    gather_dangerous(participant, pair, tutor)
    line = certificate_lines([certificate], timezone.now())[0]
    assert (line.state, line.status) == (State.CURRENT, "review")


def test_the_holder_chooses_whether_the_name_shows(participant, standard, organiser) -> None:
    certificate = make_certificate(participant, standard, organiser)
    show_name(certificate, True)
    assert Certificate.objects.get().name_is_public
    show_name(certificate, False)
    assert not Certificate.objects.get().name_is_public


@pytest.mark.usefixtures("sends_at_once")
class TestLetters:
    """What the holder is told, by mail."""

    def letter(self):
        message = mail.outbox[-1]
        assert message.to == ["pat.participant@example.org"]
        assert "Hello Pat Participant," in message.body
        return message

    def test_of_the_issue(self, passed, organiser) -> None:
        certificate = issue(passed, organiser)
        letter = self.letter()
        assert letter.subject == f"Your certificate {certificate.number}"
        assert f"/certificates/{certificate.number}/" in letter.body
        assert "no licence" in letter.body

    def test_of_a_refusal_with_its_reason(self, passed, organiser) -> None:
        decline(passed, organiser, "Sit one more & come back", now=timezone.now())
        letter = self.letter()
        assert "Participant" in letter.subject
        assert "Sit one more & come back" in letter.body

    @pytest.mark.parametrize(
        ("before", "kind", "words"),
        [
            ((), "suspended", "is suspended"),
            (("suspended",), "lifted", "counts again"),
            ((), "withdrawn", "is withdrawn"),
        ],
    )
    def test_of_every_later_step(self, participant, standard, organiser, before, kind, words) -> None:
        certificate = make_certificate(participant, standard, organiser)
        for each in (*before, kind):
            record_event(certificate, each, organiser, "Two specimens were forged", now=timezone.now())
        assert words in self.letter().subject
        assert "Two specimens were forged" in self.letter().body
        assert len(mail.outbox) == len(before) + 1


def test_no_letter_goes_out_where_nothing_was_decided(application, organiser, sends_at_once) -> None:
    with pytest.raises(NotYet):
        issue(application, organiser)
    assert not mail.outbox
