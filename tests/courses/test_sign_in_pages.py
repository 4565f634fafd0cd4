"""The pages and mails of signing in: by a code, by a passkey, never by a password, and in plain words."""

import re

import pytest
from django.core import mail
from django.core.cache import cache

from tests.courses.markup import faults, found

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def nobody_has_tried_before() -> None:
    """Tries are counted in the cache, which outlives a test."""
    cache.clear()


def ask_for_code(client, email: str):
    return client.post("/account/login/", {"login": email}, follow=True)


def test_the_page_asks_for_an_address_and_no_password(client, school):
    html = client.get("/account/login/").content.decode()
    kinds = [each.attributes.get("type") for each in found(html, "input")]
    assert faults(html) == []
    assert "password" not in kinds
    assert "There is no password." in html
    assert [each.text for each in found(html, "button", "button")] == ["Send me a code", "Use my passkey"]


def test_the_address_field_can_be_filled_by_the_browser(client, school):
    html = client.get("/account/login/").content.decode()
    (field,) = [each for each in found(html, "input") if each.attributes.get("name") == "login"]
    assert field.attributes["autocomplete"] == "email"


def test_a_code_comes_by_mail_and_lets_one_in(client, participant):
    page = ask_for_code(client, participant.user.email)
    assert faults(page.content.decode()) == []
    assert participant.user.email in page.content.decode()
    (code,) = re.findall(r"^    (\S+)$", str(mail.outbox[0].body), re.MULTILINE)
    client.post("/account/login/code/confirm/", {"code": code})
    assert client.session["_auth_user_id"] == str(participant.user.pk)


def test_the_mail_is_short_plain_and_names_the_school(client, participant, school):
    ask_for_code(client, participant.user.email)
    letter = mail.outbox[0]
    assert letter.subject == "Your code to sign in"
    assert school.name in letter.body
    assert "Nobody from the school will ever ask you for it." in letter.body
    assert "&#x27;" not in letter.body


def test_the_code_can_be_pasted_and_offered_by_the_telephone(client, participant):
    html = ask_for_code(client, participant.user.email).content.decode()
    (field,) = [each for each in found(html, "input") if each.attributes.get("name") == "code"]
    assert field.attributes["autocomplete"] == "one-time-code"


def test_a_wrong_code_is_refused_beside_the_field_and_above(client, participant):
    ask_for_code(client, participant.user.email)
    html = client.post("/account/login/code/confirm/", {"code": "WRONG"}).content.decode()
    assert faults(html) == []
    assert found(html, "div", "error-summary")
    assert found(html, "div", "field-errors")[0].attributes["id"] == "id_code_error"


def test_an_unknown_address_gets_the_same_page(client, participant):
    known = ask_for_code(client, participant.user.email).content.decode().replace(participant.user.email, "…")
    client.cookies.clear()
    unknown = ask_for_code(client, "nobody@example.invalid").content.decode().replace("nobody@example.invalid", "…")
    assert [each.text for each in found(known, "p")] == [each.text for each in found(unknown, "p")]


def test_nobody_makes_an_account_alone(client, school):
    html = client.get("/account/signup/").content.decode()
    assert faults(html) == []
    assert "invitation comes by e-mail" in html
    assert found(html, "input") == []


ADDRESSES = [
    "/account/logout/",
    "/account/email/",
    "/account/2fa/",
    "/account/2fa/webauthn/",
    "/account/2fa/webauthn/add/",
    "/account/2fa/totp/activate/",
]


@pytest.mark.parametrize("address", ADDRESSES)
def test_the_pages_of_somebody_signed_in_are_sound(signed_in, participant, address):
    answer = signed_in(participant).get(address, follow=True)
    html = answer.content.decode()
    assert answer.status_code == 200
    assert faults(html) == []
    assert len(found(html, "h1")) == 1


def test_the_sign_in_page_says_what_comes_after_the_first_passkey(signed_in, participant):
    html = signed_in(participant).get("/account/2fa/").content.decode()
    assert "recovery codes" in html
    assert "having signed in by an e-mailed code does not count" in html


def test_the_authenticator_page_needs_no_picture_from_inside_the_page(signed_in, participant):
    html = signed_in(participant).get("/account/2fa/totp/activate/").content.decode()
    assert "data:" not in html
    assert "otpauth://" in html


def test_signing_out_is_a_button_that_keeps_what_was_answered(signed_in, participant):
    client = signed_in(participant)
    assert "What you have answered is kept." in client.get("/account/logout/").content.decode()
    client.post("/account/logout/")
    assert "_auth_user_id" not in client.session


def test_the_invented_name_of_an_account_is_never_shown(client, participant):
    participant.user.username = "never_shown_4711"
    participant.user.save()
    ask_for_code(client, participant.user.email)
    assert "never_shown_4711" not in mail.outbox[0].body
    client.force_login(participant.user)
    assert "never_shown_4711" not in client.get("/account/2fa/").content.decode()
