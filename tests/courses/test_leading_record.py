"""The way to leading on the page of a person: evidence of each step, who confirmed it, and leave that is taken back."""

import re
from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from courses.models import LeadingGrant, WalkPart
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.certificates import show_proof
from tests.factories.courses import make_meeting


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


def page_of(person) -> str:
    return reverse("courses:person", args=[person.uuid])


@pytest.fixture
def steps(participant, tutor, organiser):
    """Pat assisted once by the list of a walk, and once by a step that has to be done again; leave is given."""
    today = timezone.localdate()
    walk = make_meeting(None, days_ahead=-20, is_walk=True, title="Hedges in rain")
    walk.assistants.add(participant)
    WalkPart.objects.create(
        person=participant,
        step="observed",
        walked_on=today - timedelta(days=5),
        went_well=False,
        confirmed_by=tutor,
        confirmed_on=today,
        note="Counted nobody at the gate",
    )
    return LeadingGrant.objects.create(
        person=participant, region="North", valid_from=today, granted_by=organiser, reason="Knows it"
    )


def test_every_step_stands_there_with_its_evidence(signed_in, organiser, participant, steps) -> None:
    answer = signed_in(organiser).get(page_of(participant))
    page = text(answer)
    assert "Leading: not yet" in page
    assert "Assisted: 1 time" in page
    assert "Hedges in rain" in page
    assert "Led under observation: 0 times" in page
    assert "confirmed by Tilda Tutor" in page
    assert "to be done again" in page
    assert "Counted nobody at the gate" in page
    assert "given by Olga Organiser" in page
    assert "The shortest way" in page
    assert faults(answer.content.decode()) == []


def test_an_organiser_takes_leave_back_with_the_button_beside_it(organiser, participant, steps) -> None:
    client = Client(enforce_csrf_checks=True)
    client.force_login(organiser.user)
    page = client.get(page_of(participant)).content.decode()
    action = reverse("courses:grant_end", args=[steps.pk])
    form = re.search(rf'action="{action}">(.*?)</form>', page, re.DOTALL)
    token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', form[1])
    assert client.post(action, {"csrfmiddlewaretoken": token[1]}).status_code == 302
    steps.refresh_from_db()
    assert steps.ended_on == timezone.localdate()
    assert "given by" not in text(client.get(page_of(participant))).split("Lead alone:")[1][:200]


def test_others_see_no_button_and_cannot_take_it_back(signed_in, tutor, participant, steps) -> None:
    action = reverse("courses:grant_end", args=[steps.pk])
    for person in (tutor, participant):
        inside = signed_in(person)
        assert action not in text(inside.get(reverse("courses:my_leading")))
        assert inside.post(action).status_code == 403


def test_somebody_sees_the_same_of_themselves(signed_in, participant, steps) -> None:
    for address in (page_of(participant), reverse("courses:my_leading")):
        page = text(signed_in(participant).get(address))
        assert "Hedges in rain" in page
        assert "confirmed by Tilda Tutor" in page


def test_of_somebody_who_never_began_there_is_nothing(signed_in, organiser, stranger) -> None:
    assert "Leading:" not in text(signed_in(organiser).get(page_of(stranger)))


def test_the_page_asks_as_often_for_many_steps(signed_in, organiser, participant, tutor, steps) -> None:
    def grow() -> None:
        today = timezone.localdate()
        for days in range(30, 36):
            walk = make_meeting(None, days_ahead=-days, is_walk=True)
            walk.assistants.add(participant)
            day = today - timedelta(days=days + 100)
            kept = {"confirmed_by": tutor, "confirmed_on": today, "meeting": walk}
            WalkPart.objects.create(person=participant, step="watched", walked_on=day, **kept)
            show_proof(participant, "insurance", organiser)
            make_meeting(None, days_ahead=days, is_walk=True)

    show_proof(participant, "insurance", organiser)
    make_meeting(None, days_ahead=3, is_walk=True)
    WalkPart.objects.create(
        person=participant,
        step="watched",
        walked_on=timezone.localdate(),
        confirmed_by=tutor,
        confirmed_on=timezone.localdate(),
        meeting=make_meeting(None, days_ahead=-1, is_walk=True),
    )
    assert same_queries(signed_in(organiser), page_of(participant), grow)
