"""Letters: kept with their change, posted once, tried again. Tried on a real mail server on loopback (aiosmtpd)."""

import smtplib
import socket
import threading
from collections.abc import Iterator
from datetime import timedelta
from email import message_from_bytes, policy
from email.message import EmailMessage

import pytest
from aiosmtpd.controller import Controller
from django.core.management import call_command
from django.db import connections, transaction
from django.utils import timezone

from courses.actions.letters import draft_letter, send_letter
from courses.actions.posting import CLAIM_LASTS, claim_letters, is_refused_for_good, post_letters
from courses.models import Letter
from courses.rules.posting import GIVE_UP_AFTER, wait_before_attempt

FACTS = {"subject": "A test for you", "lines": ["Sit it alone.", "Ramsons & <lily>"], "link": "https://x.example/y"}


class Letterbox:
    """What the mail server took in, and what it says to somebody."""

    def __init__(self) -> None:
        self.mails: list[EmailMessage] = []
        self.answers: dict[str, str] = {}

    async def handle_RCPT(self, server, session, envelope, address, options):
        if address in self.answers:
            return self.answers[address]
        envelope.rcpt_tos.append(address)
        return "250 OK"

    async def handle_DATA(self, server, session, envelope):
        self.mails.append(message_from_bytes(envelope.original_content, policy=policy.default))
        return "250 OK"


@pytest.fixture
def letterbox() -> Letterbox:
    return Letterbox()


def serve(letterbox: Letterbox) -> Controller:
    """A mail server at a port that was free a moment ago."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    controller = Controller(letterbox, hostname="127.0.0.1", port=port)
    controller.start()
    return controller


@pytest.fixture
def mail_server(letterbox: Letterbox, settings) -> Iterator[Controller]:
    settings.EMAIL_BACKEND = "django.core.mail.backends.smtp.EmailBackend"
    settings.LETTERS_AT_ONCE = False
    controller = serve(letterbox)
    settings.EMAIL_HOST, settings.EMAIL_PORT = controller.hostname, controller.port
    yield controller
    if controller.server is not None:
        controller.stop()


def queue(person, **facts) -> Letter:
    return send_letter(person.user.email, "notice", {"person": person, **FACTS, **facts}, person)


def test_a_letter_arrives_as_text_and_as_html_with_the_same_words(mail_server, letterbox, participant) -> None:
    letter = queue(participant)
    assert post_letters(timezone.now()).sent == 1
    (mail,) = letterbox.mails
    text, html = mail.get_body(("plain",)).get_content(), mail.get_body(("html",)).get_content()
    assert (mail["Subject"], mail["To"]) == ("A test for you", participant.user.email)
    assert "Ramsons & <lily>" in text
    assert "Ramsons &amp; &lt;lily&gt;" in html
    assert str(letter.uuid) in mail["Message-ID"]


def test_nothing_is_sent_twice_by_a_second_run(mail_server, letterbox, participant) -> None:
    queue(participant)
    post_letters(timezone.now())
    call_command("work", once=True)
    assert len(letterbox.mails) == 1
    assert Letter.objects.get().sent_at is not None


def test_a_change_that_fails_takes_its_letter_with_it(mail_server, letterbox, participant) -> None:
    with transaction.atomic():
        queue(participant)
        transaction.set_rollback(True)
    post_letters(timezone.now())
    assert letterbox.mails == []


def test_nothing_is_lost_while_the_server_is_away(mail_server, letterbox, participant, settings) -> None:
    mail_server.stop()
    queue(participant)
    now = timezone.now()
    assert post_letters(now).waiting == 1
    letter = Letter.objects.get()
    assert (letter.attempts, letter.claimed_at, letter.sent_at) == (1, None, None)
    assert "Error" in letter.trouble
    again = serve(letterbox)
    settings.EMAIL_PORT = again.port
    try:
        assert post_letters(now).tried == 0  # not before its time
        assert post_letters(now + timedelta(minutes=2)).sent == 1
    finally:
        again.stop()
    assert len(letterbox.mails) == 1


def test_an_address_refused_for_good_is_given_up_and_keeps_nobody_waiting(
    mail_server, letterbox, participant, stranger
) -> None:
    letterbox.answers[participant.user.email] = "550 No such person here"
    queue(participant)
    queue(stranger)
    posted = post_letters(timezone.now())
    assert (posted.sent, posted.given_up) == (1, 1)
    (undelivered,) = Letter.objects.undelivered()
    assert "550" in undelivered.trouble
    assert undelivered.person == participant


def test_an_address_refused_for_now_is_tried_again(mail_server, letterbox, participant) -> None:
    letterbox.answers[participant.user.email] = "451 Later"
    queue(participant)
    assert post_letters(timezone.now()).waiting == 1
    letterbox.answers.clear()
    assert post_letters(timezone.now() + timedelta(minutes=2)).sent == 1


def test_after_five_days_it_is_given_up(mail_server, letterbox, participant) -> None:
    letterbox.answers[participant.user.email] = "451 Later"
    queue(participant)
    assert post_letters(timezone.now() + GIVE_UP_AFTER).given_up == 1


def test_what_one_worker_claimed_no_other_takes_until_the_claim_is_old(mail_server, participant) -> None:
    queue(participant)
    now = timezone.now()
    assert len(claim_letters(now)) == 1
    assert claim_letters(now) == []
    assert claim_letters(now + CLAIM_LASTS) == []
    assert len(claim_letters(now + CLAIM_LASTS + timedelta(seconds=1))) == 1


@pytest.mark.django_db(transaction=True)
def test_two_workers_at_once_send_each_letter_once(mail_server, letterbox, participant) -> None:
    for number in range(40):
        queue(participant, subject=f"Letter {number}")
    start = threading.Barrier(2)

    def work() -> None:
        start.wait()
        while post_letters(timezone.now()).tried:
            pass
        connections.close_all()

    workers = [threading.Thread(target=work) for _ in range(2)]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
    assert sorted(mail["Subject"] for mail in letterbox.mails) == sorted(f"Letter {n}" for n in range(40))


def test_a_subject_never_holds_a_second_line(participant) -> None:
    draft = draft_letter("notice", {"person": participant, **FACTS, "subject": "One\r\nBcc: all@example.org"})
    assert "\n" not in draft.subject
    assert draft.subject.startswith("One")


@pytest.mark.parametrize(
    ("error", "for_good"),
    [
        (smtplib.SMTPRecipientsRefused({"a@b.example": (550, b"")}), True),
        (smtplib.SMTPRecipientsRefused({"a@b.example": (450, b"")}), False),
        (smtplib.SMTPDataError(554, b""), True),
        (smtplib.SMTPDataError(452, b""), False),
        (smtplib.SMTPAuthenticationError(535, b""), False),  # the school's own mistake, not this letter's
        (ConnectionRefusedError(), False),
        (ValueError("header"), True),
    ],
)
def test_only_what_the_server_says_of_this_mail_ends_it(error, for_good) -> None:
    assert is_refused_for_good(error) is for_good


def test_waits_grow_as_mail_servers_let_them() -> None:
    """RFC 5321, 4.5.4.1: at least 30 minutes between tries once the first few have failed; from memory."""
    waits = [wait_before_attempt(n) for n in range(1, 30)]
    assert waits == sorted(waits)
    assert all(wait >= timedelta(minutes=30) for wait in waits[2:])
    with pytest.raises(ValueError, match="tried"):
        wait_before_attempt(0)
