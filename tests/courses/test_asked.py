"""What the school asks of leaders: set, changed, dropped, and begun from what is usual."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.models import Requirement
from courses.queries.leader_facts import asked_of
from courses.queries.readiness import leader_readiness
from courses.queries.sentences.requirements import check_lines
from courses.rules.requirements import BY_DEFAULT, Asked
from courses.rules.requirements import Requirement as Kind
from tests.factories.courses import make_meeting

LIST, NEW, USUAL = (reverse(f"courses:{name}") for name in ("requirements", "requirement_set", "requirements_usual"))
TYPED = {"title": "First aid", "part": "leader", "kind": "proof", "proof": "first_aid", "number": 1, "order": 0}


def test_what_is_asked_is_set_by_organisers_who_need_to_think_of_no_key(signed_in, organiser, tutor) -> None:
    client = signed_in(organiser)
    assert "Say which proof" in client.post(NEW, {**TYPED, "proof": ""}).content.decode()
    for _twice in range(2):
        assert client.post(NEW, TYPED).status_code == 302
    assert sorted(Requirement.objects.values_list("key", flat=True)) == ["first-aid", "first-aid-2"]
    assert signed_in(tutor).get(NEW).status_code == 403


def test_a_title_without_a_letter_that_fits_an_address_gets_a_key_too(signed_in, organiser) -> None:
    signed_in(organiser).post(NEW, {**TYPED, "title": "救急"})
    assert Requirement.objects.get().key == "asked"


def test_what_is_usual_can_be_set_so_that_more_is_asked_beside_it(signed_in, organiser) -> None:
    client = signed_in(organiser)
    assert "so the usual is asked" in client.get(LIST).content.decode()
    for _twice in range(2):
        client.post(USUAL)
    assert [(each.requirement, each.number) for each in asked_of()] == [(e.requirement, e.number) for e in BY_DEFAULT]
    client.post(NEW, {**TYPED, "title": "Care", "proof": "safeguarding", "order": 9})
    assert asked_of()[-1] == Asked(Kind.SAFEGUARDING)
    page = client.get(LIST).content.decode()
    assert "so the usual is asked" not in page
    assert "within 24 months" in page


def test_what_is_asked_can_be_dropped_after_a_second_look(signed_in, organiser) -> None:
    client = signed_in(organiser)
    client.post(NEW, TYPED)
    address = reverse("courses:requirement_drop", args=[Requirement.objects.get().pk])
    assert address in client.get(LIST).content.decode()
    assert "Ask “First aid” no longer?" in client.get(address).content.decode()
    assert Requirement.objects.exists()
    for _twice in range(2):
        assert client.post(address, follow=True).status_code == 200
    assert asked_of() == BY_DEFAULT


@pytest.mark.parametrize("who", ["tutor", "participant"])
def test_others_neither_drop_nor_set_anything(signed_in, request, who, organiser) -> None:
    signed_in(organiser).post(NEW, TYPED)
    drop = reverse("courses:requirement_drop", args=[Requirement.objects.get().pk])
    client = signed_in(request.getfixturevalue(who))
    assert {client.post(each).status_code for each in (drop, USUAL, NEW)} == {403}
    assert Requirement.objects.count() == 1


@pytest.mark.parametrize(
    ("months", "said"),
    [
        (1, "1 of 2 in the last month"),
        (3, "1 of 2 in the last 3 months"),
        (12, "1 of 2 in the last year"),
        (18, "1 of 2 in the last 18 months"),
        (24, "1 of 2 in the last 2 years"),
        (None, "1 of 2"),
    ],
)
def test_it_is_said_truly_how_far_back_walks_count(tutor, months, said) -> None:
    Requirement.objects.create(key="w", part="leader", kind="walks", title="W", number=2, within_months=months)
    make_meeting(None, days_ahead=-9, is_walk=True).assistants.add(tutor)
    (line,) = check_lines(leader_readiness([tutor.pk], timezone.localdate())[tutor.pk])
    assert line.sentence == said


def test_more_walks_than_asked_are_no_four_of_three(tutor) -> None:
    Requirement.objects.create(key="w", part="leader", kind="walks", title="W", number=1, within_months=12)
    for days in (9, 19):
        make_meeting(None, days_ahead=-days, is_walk=True).assistants.add(tutor)
    today = timezone.localdate()
    (line,) = check_lines(leader_readiness([tutor.pk], today)[tutor.pk])
    assert line.sentence == "2 in the last year; one is asked"
    (line,) = check_lines(leader_readiness([tutor.pk], today - timedelta(days=12))[tutor.pk])
    assert line.sentence == "1 of 1 in the last year"
