"""The first page: who sees which parts of it."""

import pytest
from django.test import Client
from django.urls import reverse

from courses.models import Course, Person
from tests.factories.people import UserFactory, make_person

PARTS = {
    "participant": "When and where",
    "tutor": "Who needs me",
    "assessor": "To be named",
    "organiser": "What is overdue",
}


def test_somebody_who_is_not_signed_in_reads_what_the_school_is(client: Client, school: object) -> None:
    page = client.get("/").content.decode()
    assert "Test School of Wild Food" in page
    assert reverse("account_login") in page


def test_before_a_school_is_opened_the_page_says_how(client: Client, db: None) -> None:
    assert "open_school" in client.get("/").content.decode()


def test_a_user_whom_the_school_does_not_know_reads_what_to_do(client: Client, school: object) -> None:
    user = UserFactory()
    client.force_login(user)
    page = client.get("/").content.decode()
    assert "The school does not know you yet" in page
    assert user.email in page


@pytest.mark.parametrize("who", PARTS)
def test_each_role_sees_its_part(signed_in, request, who: str) -> None:
    page = signed_in(request.getfixturevalue(who)).get("/").content.decode()
    assert PARTS[who] in page


@pytest.mark.parametrize("who", ["participant", "tutor", "organiser"])
def test_nobody_sees_the_part_of_another_role(signed_in, request, who: str) -> None:
    page = signed_in(request.getfixturevalue(who)).get("/").content.decode()
    assert not [words for role, words in PARTS.items() if role != who and words in page and role != "assessor"]


def test_somebody_with_several_roles_sees_all_their_parts(signed_in, school: object) -> None:
    page = signed_in(make_person("Many Hats", *PARTS)).get("/").content.decode()
    assert all(words in page for words in PARTS.values())


def test_a_person_without_any_role_sees_the_part_of_a_participant(signed_in, participant: Person) -> None:
    participant.roles.all().delete()
    assert PARTS["participant"] in signed_in(participant).get("/").content.decode()


def test_the_first_page_is_for_looking(signed_in, tutor: Person, course: Course) -> None:
    assert signed_in(tutor).post("/").status_code == 405
