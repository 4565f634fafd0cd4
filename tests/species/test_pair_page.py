"""The page of a pair: when the two can be told apart, by what, and what never to rely on."""

import pytest
from django.core.management import call_command
from django.urls import reverse

from species.models import Pair
from species.queries.pair_page import PairPage, pair_page
from species.rules.vocabulary import Use
from tests.factories.species import SpecimenFactory, give_picture


@pytest.fixture
def flora(school) -> None:
    call_command("load_flora", verbosity=0)


def page_of(key: str, month: int, number: int | None = None) -> PairPage:
    return pair_page(Pair.objects.with_both_species().get(key=key), month, number)


def test_every_month_says_whether_the_two_can_be_told_apart(flora):
    telling = [each.telling for each in page_of("cowparsley-hemlock", 6).months]
    assert telling == ["in_none"] * 5 + ["in_some"] + ["in_all"] * 2 + ["in_none"] * 4


@pytest.mark.parametrize(
    ("month", "sentence"),
    [
        (1, "In January nothing above ground tells them apart: leave both."),
        (6, "In June they can be told apart in some stages and not in others"),
        (7, "In July something above ground tells them apart in every stage that shows."),
    ],
)
def test_the_chosen_month_is_said_in_a_sentence(client, flora, month, sentence):
    shown = client.get(reverse("species:pair", args=["cowparsley-hemlock"]), {"month": month})
    assert sentence in shown.content.decode()


def test_a_pair_that_is_not_together_in_a_month_says_so(client, flora):
    pair = next(each for each in Pair.objects.all() if page_of(each.key, 1).month.telling == "not_together")
    shown = client.get(reverse("species:pair", args=[pair.key]), {"month": 1}).content.decode()
    assert "In January the two do not show in stages that are confused." in shown


def test_the_stage_that_shows_in_the_month_is_chosen(flora):
    page = page_of("ramsons-lily", 5)
    assert page.chosen is not None
    assert page.chosen.shows_now
    assert page.chosen == next(each for each in page.choices if each.shows_now)


def test_what_needs_digging_never_decides(flora):
    for pair in Pair.objects.all():
        for number in range(len(pair.stage_combinations)):
            page = page_of(pair.key, 5, number)
            assert not [sign for sign in page.decisive + page.supporting if sign.needs_digging]
            assert all(sign.needs_digging for sign in page.underground)


def test_no_sign_is_lost_and_none_stands_twice(flora):
    for pair in Pair.objects.all():
        page = page_of(pair.key, 5)
        listed = page.decisive + page.supporting + page.underground + page.unseen + page.never
        assert len(listed) == pair.characters.count()


def test_the_most_telling_sign_comes_first(flora):
    order = ["separates", "leans", ""]
    for pair in Pair.objects.all():
        relations = [order.index(sign.relation) for sign in page_of(pair.key, 5).decisive]
        # a decisive sign that only leans stands behind those that separate
        assert relations == sorted(relations), pair.key


def test_pictures_of_one_stage_stand_beside_each_other(client, flora):
    pair = Pair.objects.get(key="ramsons-lily")
    for species in (pair.gathered, pair.gathered, pair.mistaken):
        give_picture(SpecimenFactory(species=species, use=Use.TEACHING.value, stage="rosette"))
    pictures = page_of("ramsons-lily", 4, 0).pictures
    assert [(one is not None, other is not None) for one, other in pictures] == [(True, True), (True, False)]
    shown = client.get(reverse("species:pair", args=["ramsons-lily"]) + "?month=4&stages=0").content.decode()
    assert shown.count("<figure") == 3
    assert "No teaching picture in this stage yet." not in shown
