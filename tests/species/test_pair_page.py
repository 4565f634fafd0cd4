"""The page of a pair: when the two can be told apart, by what, and what never to rely on."""

import pytest
from django.core.management import call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from species.models import Character, Pair, Region
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


def test_the_page_asks_the_database_as_often_for_the_fullest_pair_as_for_the_barest(client, flora):
    asked = {}
    for pair in Pair.objects.all():
        with CaptureQueriesContext(connection) as queries:
            client.get(reverse("species:pair", args=[pair.key]), {"month": 6, "stages": 0})
        asked.setdefault(len(queries), []).append(pair.key)
    assert len(asked) == 1, asked
    for stage in ("flower", "rosette", "leafy"):
        for _ in range(3):
            species = Pair.objects.get(key="cowparsley-hemlock").mistaken
            give_picture(SpecimenFactory(species=species, use=Use.TEACHING.value, stage=stage))
    with CaptureQueriesContext(connection) as queries:
        client.get(reverse("species:pair", args=["cowparsley-hemlock"]), {"month": 6, "stages": 0})
    assert len(queries) <= min(asked) + 1  # the sizes of pictures, which are asked for only where there are pictures


@pytest.mark.parametrize(
    ("query", "sentence"),
    [
        ("month=13", "There is no month “13”: months have the numbers 1 to 12."),
        ("month=April", "There is no month “April”"),
        ("month=6&stages=77", "This pair has no stages number “77”"),
    ],
)
def test_a_month_or_stage_that_does_not_exist_is_said(client, flora, query, sentence):
    response = client.get(reverse("species:pair", args=["ramsons-lily"]) + "?" + query)
    assert response.status_code == 200
    assert sentence in response.content.decode()


def test_the_stage_stays_while_the_month_changes_as_long_as_it_shows(flora):
    page = page_of("cowparsley-hemlock", 6, 3)
    queries = {each.number: each.query for each in page.months}
    assert queries[6] == "month=6&stages=3"
    assert queries[1] == "month=1"


def test_the_year_in_words_tells_what_separates_and_when_to_leave_it(flora):
    rows = page_of("ramsons-lily", 5).year
    assert [row.months for row in rows if not row.meetings] == ["July to March"]
    april = next(row for row in rows if row.months.startswith("April"))
    assert [meeting.separates for meeting in april.meetings] == [""]


def test_what_a_learner_is_told_separates_is_always_in_the_pairs_own_list(flora):
    for pair in Pair.objects.all():
        names = {row.name for row in pair.characters.select_related("character")}
        for row in page_of(pair.key, 6).year:
            for meeting in row.meetings:
                assert {each for each in names if each in meeting.separates} or not meeting.separates


def test_every_state_that_either_plant_shows_is_drawn_with_how_often(client, flora):
    page = page_of("cowparsley-hemlock", 4, 0)
    (hairs,) = [sign for sign in page.supporting if sign.name == "Hairs of leaf and leaf stalk"]
    assert [(each.often, each.text) for each in hairs.gathered_states] == [
        ("usually", "a few, on veins or stalk"),
        ("sometimes", "none at all"),
        ("sometimes", "soft down"),
    ]
    assert [(each.often, each.text) for each in hairs.mistaken_states] == [("", "none at all")]
    shown = client.get(reverse("species:pair", args=["cowparsley-hemlock"]), {"month": 4, "stages": 0})
    signs = page.decisive + page.supporting + page.unseen
    drawn = sum(len(s.gathered_states) + len(s.mistaken_states) for s in signs if s.is_drawn)
    assert shown.content.decode().count('viewBox="0 0 64 64"') == drawn


def test_what_cannot_be_seen_now_says_when_it_can(flora):
    unseen = {sign.name: sign.when for sign in page_of("cowparsley-hemlock", 4, 0).unseen}
    assert unseen["Fruit of the carrot family"] == "Only with fruit: July to August."
    assert unseen["Bracts at the base of the whole umbel"] == "Only with flower or fruit: June to August."


def test_other_plants_that_are_taken_for_the_same_are_named_with_their_danger(client, flora):
    assert [each.mistaken.key for each in page_of("ramsons-lily", 4).others] == [
        "colchicum-autumnale",
        "arum-maculatum",
        "mercurialis-perennis",
    ]
    shown = client.get(reverse("species:pair", args=["ramsons-lily"])).content.decode()
    assert reverse("species:pair", args=["ramsons-arum"]) in shown


def test_what_is_heard_comes_in_a_sensible_order(client, flora):
    shown = client.get(reverse("species:pair", args=["cowparsley-hemlock"]), {"month": 6, "stages": 3}).content.decode()
    order = ["Dangerous", "leave it. Beginners", 'id="when"', 'id="beside"', 'id="tells"', 'id="never"', "Third plants"]
    places = [shown.index(each) for each in order]
    assert places == sorted(places)


def test_a_marked_part_of_a_photograph_stands_beside_the_character_in_its_stage(client, flora):
    pair = Pair.objects.get(key="cowparsley-hemlock")
    photo = give_picture(SpecimenFactory(species=pair.mistaken, use=Use.TEACHING.value, stage="rosette"))
    hairs = Character.objects.get(key="leaf_hairs")
    where = {"x": "0.5", "y": "0.5", "width": "0.2", "height": "0.1"}
    Region.objects.create(photo=photo, character=hairs, drawn_at=timezone.now(), **where)
    shown = client.get(reverse("species:pair", args=[pair.key]), {"month": 4, "stages": 0}).content.decode()
    assert 'viewBox="192 260 96 96"' in shown
    assert "Part of the picture: none anywhere, under a lens too" in shown
    in_flower = client.get(reverse("species:pair", args=[pair.key]), {"month": 6, "stages": 3}).content.decode()
    assert "Part of the picture" not in in_flower


def test_no_part_of_an_assessment_photograph_is_ever_shown(client, flora):
    pair = Pair.objects.get(key="cowparsley-hemlock")
    photo = give_picture(SpecimenFactory(species=pair.mistaken, use=Use.ASSESSMENT.value, stage="rosette"))
    hairs = Character.objects.get(key="leaf_hairs")
    Region.objects.create(photo=photo, character=hairs, drawn_at=timezone.now(), x="0.5", y="0.5", radius="0.2")
    shown = client.get(reverse("species:pair", args=[pair.key]), {"month": 4, "stages": 0}).content.decode()
    assert photo.key not in shown
