"""One-tap entry and kept mails, which exist in the invented school alone."""

import os

import pytest
from django.core.checks import run_checks
from django.test import Client
from django.urls import reverse

from courses.management.commands import demo
from courses.models import Person, School, SentMail


@pytest.fixture
def invented(school: School) -> School:
    school.is_demo = True
    school.save()
    return school


@pytest.mark.parametrize("who", ["participant", "tutor", "assessor", "organiser"])
def test_one_tap_enters_as_the_role(client: Client, invented, request, who: str) -> None:
    person = request.getfixturevalue(who)
    assert client.post(reverse("courses:enter_as", args=[who]))["Location"] == "/"
    assert client.session["_auth_user_id"] == str(person.user_id)


def test_somebody_called_after_the_role_stands_for_it(client: Client, invented, participant, stranger) -> None:
    stranger.user.email = "participant@demo.invalid"
    stranger.user.save()
    client.post(reverse("courses:enter_as", args=["participant"]))
    assert client.session["_auth_user_id"] == str(stranger.user_id)


def test_entering_takes_a_post(client: Client, invented, tutor: Person) -> None:
    assert client.get(reverse("courses:enter_as", args=["tutor"])).status_code == 405
    assert "_auth_user_id" not in client.session


def test_entering_gives_a_new_session(client: Client, invented, tutor: Person, organiser: Person) -> None:
    client.post(reverse("courses:enter_as", args=["tutor"]))
    before = client.session.session_key
    client.post(reverse("courses:enter_as", args=["organiser"]))
    assert client.session.session_key != before


@pytest.mark.parametrize("role", ["headmaster", "participant"])
def test_a_role_that_nobody_holds_is_not_found(client: Client, invented, role: str) -> None:
    assert client.post(reverse("courses:enter_as", args=[role])).status_code == 404


def test_a_real_school_has_no_such_door_even_in_the_demo(client: Client, school: School, tutor: Person) -> None:
    assert client.post(reverse("courses:enter_as", args=["tutor"])).status_code == 404
    assert client.get(reverse("courses:demo_mail")).status_code == 404
    assert "Try it out" not in client.get("/").content.decode()


def test_outside_the_demo_an_invented_school_has_none_either(client: Client, invented, tutor, settings) -> None:
    settings.DEMO = False
    assert client.post(reverse("courses:enter_as", args=["tutor"])).status_code == 404
    assert client.get(reverse("courses:demo_mail")).status_code == 404
    assert "Try it out" not in client.get("/").content.decode()


def test_the_welcome_page_offers_each_role_that_somebody_holds(client: Client, invented, tutor, organiser) -> None:
    page = client.get("/").content.decode()
    assert "Enter as a tutor" in page
    assert "Enter as an organiser" in page
    assert "Enter as an assessor" not in page


def test_kept_mails_show_their_codes_newest_first(client: Client, invented) -> None:
    SentMail.objects.create(to="a@demo.invalid", subject="Older", body="code AAAA-BBBB")
    SentMail.objects.create(to="b@demo.invalid", subject="Newer", body="http://testserver/invitation/xyz/ <b>")
    page = client.get(reverse("courses:demo_mail")).content.decode()
    assert page.index("Newer") < page.index("Older")
    assert "AAAA-BBBB" in page
    assert 'href="http://testserver/invitation/xyz/"' in page
    assert "&lt;b&gt;" in page


def test_without_mails_the_page_says_how_to_get_one(client: Client, invented) -> None:
    assert "No mail yet" in client.get(reverse("courses:demo_mail")).content.decode()


@pytest.mark.parametrize("demo", [True, False])
def test_the_deployment_check_fails_while_the_demo_is_on(settings, demo: bool) -> None:
    settings.DEMO = demo
    found = {message.id for message in run_checks(include_deployment_checks=True, tags=["security"])}
    assert ("courses.E001" in found) is demo


def test_a_school_served_at_another_port_writes_that_port_on_its_certificates(
    invented, settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    settings.DEMO, settings.PUBLIC_ADDRESS = True, "http://localhost:8000"
    monkeypatch.setenv("KENSPECKLE_ADDRESS", "http://localhost:8000")
    for name in ("call_command", "mark_as_demo", "refuse_taken_port", "is_whole"):
        monkeypatch.setattr(demo, name, lambda *_given, **_options: True)
    monkeypatch.setattr(demo.Command, "_serve", lambda *_given: None)
    demo.Command().handle(port=8472, no_serve=True, reset=False)
    assert settings.PUBLIC_ADDRESS == "http://localhost:8472"  # what a school made now would write
    assert School.objects.get().address != settings.PUBLIC_ADDRESS  # and of one that is there nothing changes
    demo.Command().handle(port=8471, no_serve=False, reset=False)
    assert School.objects.get().address == settings.PUBLIC_ADDRESS == "http://localhost:8471"
    assert os.environ["KENSPECKLE_ADDRESS"] == "http://localhost:8471"
