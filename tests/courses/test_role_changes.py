"""Giving a role and ending one."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.models import Person
from tests.factories.people import make_person


def grant_url(person: Person) -> str:
    return reverse("courses:role_grant", args=[person.uuid])


def end_url(person: Person, role: str) -> str:
    return reverse("courses:role_end", args=[person.roles.get(role=role).pk])


def holds(person: Person, role: str) -> bool:
    return person.roles.held_on(timezone.localdate()).filter(role=role).exists()


def test_a_role_given_opens_its_pages_at_once(signed_in, organiser, stranger: Person) -> None:
    signed_in(organiser).post(grant_url(stranger), {"role": "tutor", "reason": "knows the shore"})
    grant = stranger.roles.get(role="tutor")
    assert (grant.granted_by, grant.reason) == (organiser, "knows the shore")
    assert signed_in(stranger).get(reverse("courses:sites")).status_code == 200


def test_a_role_given_twice_is_held_once(signed_in, organiser, stranger: Person) -> None:
    client = signed_in(organiser)
    for _ in range(2):
        client.post(grant_url(stranger), {"role": "tutor"})
    assert stranger.roles.filter(role="tutor").count() == 1


def test_an_unknown_role_is_refused_and_what_was_typed_stays(signed_in, organiser, stranger: Person) -> None:
    page = signed_in(organiser).post(grant_url(stranger), {"role": "king", "reason": "typed reason"})
    assert page.status_code == 200
    assert "typed reason" in page.content.decode()
    assert stranger.roles.count() == 1


def test_a_role_ended_closes_its_pages_at_once(signed_in, organiser, tutor: Person) -> None:
    signed_in(organiser).post(end_url(tutor, "tutor"))
    assert not holds(tutor, "tutor")
    assert not tutor.user.groups.exists()
    assert tutor.roles.get(role="tutor").until == timezone.localdate() - timedelta(days=1)
    assert signed_in(tutor).get(reverse("courses:sites")).status_code == 403


def test_the_last_organiser_keeps_the_role(signed_in, organiser: Person) -> None:
    page = signed_in(organiser).post(end_url(organiser, "organiser"), follow=True)
    assert "Nobody else is an organiser" in page.content.decode()
    assert holds(organiser, "organiser")


def test_an_organiser_who_left_is_not_another_organiser(signed_in, organiser: Person) -> None:
    other = make_person("Other Organiser", "organiser")
    Person.objects.filter(pk=other.pk).update(left_on=timezone.localdate())
    signed_in(organiser).post(end_url(organiser, "organiser"))
    assert holds(organiser, "organiser")


def test_one_of_two_organisers_may_step_back(signed_in, organiser: Person) -> None:
    make_person("Other Organiser", "organiser")
    signed_in(organiser).post(end_url(organiser, "organiser"))
    assert not holds(organiser, "organiser")


def test_a_role_that_ended_before_is_not_found(signed_in, organiser, tutor: Person) -> None:
    url = end_url(tutor, "tutor")
    client = signed_in(organiser)
    client.post(url)
    assert client.post(url).status_code == 404


@pytest.mark.parametrize("who", ["tutor", "assessor", "participant"])
def test_nobody_but_organisers_gives_or_ends_roles(signed_in, request, organiser, stranger, who: str) -> None:
    client = signed_in(request.getfixturevalue(who))
    assert client.post(grant_url(stranger), {"role": "organiser"}).status_code == 403
    assert client.post(end_url(organiser, "organiser")).status_code == 403
    assert not holds(stranger, "organiser")
    assert holds(organiser, "organiser")


def test_roles_change_by_post_alone_and_ask_for_sign_in(client, signed_in, organiser, stranger) -> None:
    assert client.post(grant_url(stranger), {"role": "tutor"}).status_code == 302
    assert signed_in(organiser).get(grant_url(stranger)).status_code == 405
    assert signed_in(organiser).get(end_url(organiser, "organiser")).status_code == 405
    assert not holds(stranger, "tutor")
