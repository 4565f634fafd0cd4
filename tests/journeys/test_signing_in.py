"""Signing in by a code on a phone, and by a passkey at a desk, as a person does it."""

import re

import pytest
from django.core import mail
from django.core.cache import cache
from playwright.sync_api import Page, expect

from courses.models import Person
from tests.journeys.watching import WatchedPage


@pytest.fixture(autouse=True)
def nobody_has_tried_before() -> None:
    """Tries are counted in the cache, which outlives a test."""
    cache.clear()


def code_from_mail() -> str:
    return re.findall(r"^    (\S+)$", str(mail.outbox[-1].body), re.MULTILINE)[0]


def sign_in_by_code(window: WatchedPage, person: Person) -> None:
    window.visit("/account/login/")
    window.get_by_label("Email").fill(person.user.email)
    window.get_by_role("button", name="Send me a code").click()
    window.get_by_label("Code").fill(code_from_mail())
    window.get_by_role("button", name="Go on").click()
    expect(window.get_by_role("status")).to_contain_text("You are signed in.")


def add_authenticator(page: Page) -> None:
    """A pretended telephone that unlocks itself."""
    devtools = page.context.new_cdp_session(page)
    devtools.send("WebAuthn.enable")
    options = {
        "protocol": "ctap2",
        "transport": "internal",
        "hasResidentKey": True,
        "hasUserVerification": True,
        "isUserVerified": True,
    }
    devtools.send("WebAuthn.addVirtualAuthenticator", {"options": options})


def test_a_wrong_code_takes_the_focus_and_the_right_one_lets_in(phone_page, participant):
    phone_page.visit("/account/login/")
    phone_page.assert_fits()
    phone_page.assert_accessible()
    phone_page.get_by_label("Email").fill(participant.user.email)
    phone_page.get_by_role("button", name="Send me a code").click()
    phone_page.get_by_label("Code").fill("WRONG")
    phone_page.get_by_role("button", name="Go on").click()
    expect(phone_page.locator(".error-summary")).to_be_focused()
    phone_page.assert_accessible()
    phone_page.get_by_label("Code").fill(code_from_mail())
    phone_page.get_by_role("button", name="Go on").click()
    expect(phone_page.get_by_role("status")).to_contain_text("You are signed in.")


def test_the_contents_open_by_keyboard_on_a_phone(phone_page, participant):
    sign_in_by_code(phone_page, participant)
    phone_page.locator("summary", has_text="Contents").focus()
    phone_page.keyboard.press("Enter")
    expect(phone_page.get_by_role("button", name="Sign out")).to_be_visible()
    phone_page.assert_fits()


def test_the_first_tab_leads_past_the_head(watched_page, school):
    watched_page.visit("/account/login/")
    watched_page.keyboard.press("Tab")
    expect(watched_page.get_by_role("link", name="Skip to the page")).to_be_focused()
    watched_page.keyboard.press("Enter")
    expect(watched_page.locator("main")).to_be_focused()


def test_a_passkey_is_made_and_then_signs_in(watched_page, organiser):
    add_authenticator(watched_page.page)
    sign_in_by_code(watched_page, organiser)
    watched_page.visit("/account/2fa/webauthn/add/")
    watched_page.assert_accessible()
    watched_page.get_by_label("Name").fill("my telephone")
    watched_page.get_by_label("Passwordless").check()
    watched_page.get_by_role("button", name="Add it").click()
    expect(watched_page.get_by_role("heading", level=1)).to_have_text("Is it you?")
    watched_page.assert_accessible()
    watched_page.get_by_role("link", name="With my passkey").click()
    watched_page.get_by_role("button", name="Use my passkey").click()
    expect(watched_page.get_by_role("heading", level=1)).to_have_text("Recovery codes")
    watched_page.assert_accessible()
    watched_page.get_by_role("button", name="Sign out").click()
    expect(watched_page.get_by_role("link", name="Sign in").first).to_be_visible()
    watched_page.visit("/account/login/")
    watched_page.get_by_role("button", name="Use my passkey").click()
    expect(watched_page.get_by_role("status").first).to_contain_text("You are signed in.")


def test_a_passkey_that_is_not_there_is_said_in_words(watched_page, school):
    watched_page.visit("/account/login/")
    watched_page.evaluate("document.dispatchEvent(new CustomEvent('allauth.error', {cancelable: true}))")
    expect(watched_page.locator("#passkey-trouble")).to_contain_text("The passkey was not used.")
