"""A code goes out at once; where the mail server is out of order it is queued, posted within seconds, and not kept."""

import re
import socket
from collections.abc import Iterator
from datetime import timedelta
from email import message_from_bytes, policy

import pytest
from aiosmtpd.controller import Controller
from django.core import mail
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from courses.actions.posting import post_letters
from courses.models import Letter, Person
from courses.rules.posting import CODES_LAST, GIVE_UP_AFTER, URGENT, give_up_after, wait_before_attempt


class Letterbox:
    """A mail server that takes everything, or refuses everything for good."""

    def __init__(self) -> None:
        self.texts: list[str] = []
        self.answer = "250 OK"

    async def handle_RCPT(self, server, session, envelope, address, options):
        if self.answer.startswith("250"):
            envelope.rcpt_tos.append(address)
        return self.answer

    async def handle_DATA(self, server, session, envelope):
        mail = message_from_bytes(envelope.original_content, policy=policy.default)
        self.texts.append(mail.get_body(("plain",)).get_content())
        return "250 OK"


@pytest.fixture
def free_port(settings) -> int:
    """A port at which nobody listens, set as that of the mail server."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = int(probe.getsockname()[1])
    settings.EMAIL_BACKEND = "django.core.mail.backends.smtp.EmailBackend"
    settings.EMAIL_HOST, settings.EMAIL_PORT, settings.LETTERS_AT_ONCE = "127.0.0.1", port, False
    return port


@pytest.fixture
def letterbox() -> Letterbox:
    return Letterbox()


@pytest.fixture
def start(free_port: int, letterbox: Letterbox) -> Iterator:
    """Start the mail server."""
    controller = Controller(letterbox, hostname="127.0.0.1", port=free_port)
    yield controller.start
    if controller.server is not None:
        controller.stop()


def ask(client: Client, person: Person):
    return client.post(reverse("account_login"), {"login": person.user.email})


def code_in(text: str) -> str:
    found = re.search(r"^\s+([A-Z0-9]{3,6}-[A-Z0-9]{3,6})\s*$", text, re.MULTILINE)
    assert found, text
    return found.group(1)


def test_a_code_is_handed_over_at_once_and_kept_nowhere(client, participant, start, letterbox) -> None:
    start()
    assert ask(client, participant).status_code == 302
    assert code_in(letterbox.texts[0])
    assert not Letter.objects.exists()


def test_without_a_mail_server_the_page_is_the_same_and_the_code_waits(client, participant, free_port) -> None:
    answer = ask(client, participant)
    assert answer["Location"] == reverse("account_confirm_login_code")
    letter = Letter.objects.get()
    assert (letter.to, letter.kind) == (participant.user.email, URGENT)
    assert code_in(letter.text)


def test_the_worker_posts_it_when_the_server_is_back_and_it_signs_in(client, participant, start, letterbox) -> None:
    ask(client, participant)
    assert post_letters(timezone.now()).waiting == 1
    start()
    assert post_letters(timezone.now() + timedelta(seconds=11)).sent == 1
    assert not Letter.objects.exists()
    client.post(reverse("account_confirm_login_code"), {"code": code_in(letterbox.texts[0])})
    assert client.session["_auth_user_id"] == str(participant.user_id)


def test_a_code_that_is_no_longer_good_is_given_up_and_gone(client, participant, free_port) -> None:
    ask(client, participant)
    assert post_letters(timezone.now() + CODES_LAST).given_up == 1
    assert not Letter.objects.exists()


def test_what_is_refused_for_good_is_not_queued_and_the_page_is_the_same(client, participant, start, letterbox) -> None:
    letterbox.answer = "550 no such place"
    start()
    answer = ask(client, participant)
    assert answer["Location"] == reverse("account_confirm_login_code")
    assert not Letter.objects.exists()


def test_what_is_put_off_is_queued(client, participant, start, letterbox) -> None:
    letterbox.answer = "451 come back later"
    start()
    ask(client, participant)
    assert Letter.objects.get().kind == URGENT


def test_nobody_learns_from_a_broken_server_who_has_an_account(client, participant, free_port) -> None:
    known = ask(client, participant)
    unknown = Client().post(reverse("account_login"), {"login": "nobody@example.org"})
    assert (known.status_code, known["Location"]) == (unknown.status_code, unknown["Location"])


def test_the_page_of_letters_shows_no_code(client, signed_in, participant, organiser, free_port) -> None:
    ask(client, participant)
    code = code_in(Letter.objects.get().text)
    post_letters(timezone.now())
    page = signed_in(organiser).get(reverse("courses:letters")).content.decode()
    assert participant.user.email in page
    assert code not in page


def test_codes_are_tried_sooner_and_given_up_sooner_than_letters() -> None:
    assert [wait_before_attempt(n, URGENT).total_seconds() for n in (1, 2, 3, 9)] == [10, 20, 60, 60]
    assert wait_before_attempt(1) == timedelta(minutes=1)
    assert (give_up_after(URGENT), give_up_after("notice")) == (CODES_LAST, GIVE_UP_AFTER)


def test_codes_last_as_long_as_the_sign_in_says(settings) -> None:
    assert CODES_LAST.total_seconds() == settings.ACCOUNT_LOGIN_BY_CODE_TIMEOUT


def test_mail_in_memory_still_works(client, participant) -> None:
    ask(client, participant)
    assert code_in(mail.outbox[-1].body)
