"""From home to practising what the courses of somebody have taught so far."""

import pytest
from django.urls import reverse

from species.models import Module, ModulePair, Pair
from tests.factories.courses import make_course, make_meeting
from tests.factories.species import PairFactory, make_species

GO = reverse("courses:course_practice")
PRACTICE = reverse("assessments:practice")


@pytest.fixture
def other(school) -> Pair:
    return PairFactory(gathered=make_species("hedgeleaf"), mistaken=make_species("ditchleaf", deadly=True))


def teach(course, pair: Pair, days_ahead: int, **meeting: object) -> None:
    """A meeting with a module of one pair."""
    module = Module.objects.create(key=f"of-{pair.key}", title="A module")
    ModulePair.objects.create(module=module, pair=pair)
    make_meeting(course, days_ahead, **meeting).modules.add(module)


def test_the_pairs_of_the_meetings_so_far_are_practised(signed_in, participant, standard, course, pair, other) -> None:
    teach(course, pair, -7)
    teach(course, other, 7)
    assert signed_in(participant).get(GO)["Location"] == f"{PRACTICE}?pair={pair.key}"


def test_a_pair_that_the_standard_does_not_ask_for_is_practised_too(
    signed_in, participant, standard, course, pair, other
) -> None:
    teach(course, pair, -14)
    teach(course, other, -7)
    assert signed_in(participant).get(GO)["Location"] == f"{PRACTICE}?pair={pair.key}&pair={other.key}"


def test_a_course_of_others_does_not_count(signed_in, stranger, standard, course, pair) -> None:
    teach(course, pair, -7)
    teach(make_course("Another course"), PairFactory(), -7)
    answer = signed_in(stranger).get(GO, follow=True)
    assert answer.redirect_chain[-1][0] == PRACTICE
    assert "No course has taught you a pair yet" in answer.content.decode()


def test_home_leads_there(signed_in, participant, standard, course) -> None:
    assert GO in signed_in(participant).get(reverse("courses:home")).content.decode()
    assert GO in signed_in(participant).get(PRACTICE).content.decode()


def test_it_asks_for_sign_in(client, school) -> None:
    assert client.get(GO).status_code == 302
