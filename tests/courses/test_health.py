"""The page that whatever watches the site asks."""

import pytest
from django.db import DatabaseError
from django.test import Client
from django.urls import reverse

from courses.views import health


@pytest.mark.django_db
def test_it_says_ok_when_the_database_answers(client: Client) -> None:
    answer = client.get(reverse("courses:healthz"))
    assert (answer.status_code, answer.content) == (200, b"ok")
    assert "no-store" in answer["Cache-Control"]


@pytest.mark.django_db
def test_it_says_so_when_the_database_does_not(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails() -> None:
        raise DatabaseError("gone")

    monkeypatch.setattr(health, "the_school", fails)
    answer = client.get(reverse("courses:healthz"))
    assert (answer.status_code, answer.content) == (503, b"the database does not answer")


@pytest.mark.django_db
def test_it_answers_to_looking_alone(client: Client) -> None:
    assert client.post(reverse("courses:healthz")).status_code == 405
