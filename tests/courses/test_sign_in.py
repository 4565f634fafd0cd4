"""Signing in with a code sent by e-mail."""

import re
from datetime import timedelta

import pytest
import time_machine
from django.core import mail
from django.core.cache import cache
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from courses.models import Person


@pytest.fixture(autouse=True)
def no_limit_reached() -> None:
    """Sign-in is limited by address; every test begins with a clean count."""
    cache.clear()


def ask_for_code(client: Client, email: str) -> object:
    return client.post(reverse("account_login"), {"login": email})


def code_in_mail() -> str:
    found = re.search(r"^\s+([A-Z0-9]{3,6}-[A-Z0-9]{3,6})\s*$", mail.outbox[-1].body, re.MULTILINE)
    assert found, mail.outbox[-1].body
    return found.group(1)


def enter_code(client: Client, code: str) -> object:
    return client.post(reverse("account_confirm_login_code"), {"code": code})


def is_in(client: Client) -> bool:
    return "_auth_user_id" in client.session


def test_the_code_in_the_mail_signs_in(client: Client, participant: Person) -> None:
    ask_for_code(client, participant.user.email)
    answer = enter_code(client, code_in_mail())
    assert answer["Location"] == "/"
    assert client.session["_auth_user_id"] == str(participant.user_id)


def test_case_and_dash_of_the_code_do_not_matter(client: Client, participant: Person) -> None:
    ask_for_code(client, participant.user.email)
    enter_code(client, code_in_mail().lower().replace("-", ""))
    assert is_in(client)


def test_a_code_serves_once(client: Client, participant: Person) -> None:
    ask_for_code(client, participant.user.email)
    code = code_in_mail()
    enter_code(client, code)
    client.post(reverse("account_logout"))
    enter_code(client, code)
    assert not is_in(client)


def test_a_code_belongs_to_the_browser_that_asked_for_it(client: Client, participant: Person) -> None:
    ask_for_code(client, participant.user.email)
    other = Client()
    enter_code(other, code_in_mail())
    assert not is_in(other)


def test_three_wrong_codes_void_the_right_one(client: Client, participant: Person) -> None:
    ask_for_code(client, participant.user.email)
    code = code_in_mail()
    for _try in range(3):
        enter_code(client, "AAAA-AAAA")
    enter_code(client, code)
    assert not is_in(client)


def test_a_code_is_good_for_ten_minutes(client: Client, participant: Person) -> None:
    ask_for_code(client, participant.user.email)
    code = code_in_mail()
    with time_machine.travel(timezone.now() + timedelta(minutes=11)):
        enter_code(client, code)
    assert not is_in(client)


def test_an_unknown_address_gets_the_same_answer_and_no_mail(client: Client, participant: Person) -> None:
    known = ask_for_code(client, participant.user.email)
    unknown = ask_for_code(Client(), "nobody@example.org")
    assert (known.status_code, known["Location"]) == (unknown.status_code, unknown["Location"])
    assert [message.to for message in mail.outbox] == [[participant.user.email]]


def test_signing_in_gives_a_new_session(client: Client, participant: Person) -> None:
    ask_for_code(client, participant.user.email)
    before = client.session.session_key
    enter_code(client, code_in_mail())
    assert client.session.session_key != before


def test_somebody_who_left_gets_no_further(client: Client, participant: Person) -> None:
    participant.user.is_active = False
    participant.user.save()
    ask_for_code(client, participant.user.email)
    if mail.outbox:
        enter_code(client, code_in_mail())
    assert not is_in(client)


def test_nobody_signs_up_without_an_invitation(client: Client, school: object) -> None:
    client.post(reverse("account_signup"), {"email": "new@example.org"})
    assert not Person.objects.filter(user__email="new@example.org").exists()
    assert not is_in(client)


def test_sign_in_leads_on_to_the_page_that_was_asked_for(client: Client, participant: Person) -> None:
    wanted = reverse("courses:courses")
    answer = client.post(reverse("account_login"), {"login": participant.user.email, "next": wanted}, follow=True)
    page, _status = answer.redirect_chain[-1]
    assert f'name="next" value="{wanted}"' in answer.content.decode()
    assert client.post(page, {"code": code_in_mail(), "next": wanted})["Location"] == wanted


@pytest.mark.parametrize("away", ["//evil.example", "https://evil.example/", "javascript:alert(1)"])
def test_sign_in_leads_nowhere_else(client: Client, participant: Person, away: str) -> None:
    client.post(reverse("account_login"), {"login": participant.user.email, "next": away})
    answer = client.post(reverse("account_confirm_login_code"), {"code": code_in_mail(), "next": away})
    assert is_in(client)
    assert answer["Location"] == "/"
