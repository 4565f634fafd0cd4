"""Practice: teaching pictures only, an answer at once, a state that is no score, and never evidence."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.actions.practice import NothingToPractise, answer_look, begin_round
from assessments.models import Evidence, PracticeRound, PracticeState, PracticeTurn, Seen
from assessments.queries.practice import looks_for, outcome_of, pairs_in_practice
from assessments.rules.practice import Outcome
from tests.factories.species import SpecimenFactory, give_picture

START = reverse("assessments:practice")


@pytest.fixture
def teaching(pair) -> None:
    for species in (pair.gathered, pair.mistaken):
        for _each in range(3):
            give_picture(SpecimenFactory(species=species, use="teaching"))


@pytest.fixture
def practice(participant, pair, standard, teaching) -> PracticeRound:
    return begin_round(participant.user, [pair], timezone.now(), seed=3)


def turn_of(practice: PracticeRound, dangerous: bool) -> PracticeTurn:
    turns = practice.turns.select_related("photo__specimen__species", "pair", "round__person")
    return next(t for t in turns if (t.photo.specimen.species_id == t.pair.mistaken_id) is dangerous)


def look(practice: PracticeRound, position: int = 1) -> str:
    return reverse("assessments:practice_look", args=[practice.key, position])


def test_a_round_shows_teaching_pictures_and_never_one_of_a_test(practice, bank) -> None:
    uses = set(practice.turns.values_list("photo__specimen__use", flat=True))
    assert uses == {"teaching"}


def test_pictures_of_tests_alone_are_nothing_to_practise_with(participant, pair, bank) -> None:
    with pytest.raises(NothingToPractise):
        begin_round(participant.user, [pair], timezone.now(), seed=3)


def test_a_picture_with_one_name_only_is_not_practised(participant, pair, teaching) -> None:
    pair.mistaken.specimens.filter(use="teaching").update(settlement="single")
    with pytest.raises(NothingToPractise):
        begin_round(participant.user, [pair], timezone.now(), seed=3)


@pytest.mark.parametrize(
    ("said", "dangerous", "outcome"),
    [
        ("gathered", False, Outcome.RIGHT),
        ("mistaken", True, Outcome.RIGHT),
        ("gathered", True, Outcome.MISS),
        ("mistaken", False, Outcome.LEFT),
        ("leave", True, Outcome.LEFT),
        ("leave", False, Outcome.LEFT),
    ],
)
def test_only_a_dangerous_plant_called_good_is_a_miss(pair, said, dangerous, outcome) -> None:
    assert outcome_of(said, pair.mistaken if dangerous else pair.gathered, pair) is outcome


def test_an_answer_is_remembered_once(practice) -> None:
    turn, now = turn_of(practice, dangerous=True), timezone.now()
    assert answer_look(turn, "gathered", now) is Outcome.MISS
    assert answer_look(turn, "mistaken", now) is Outcome.MISS
    state = PracticeState.objects.get()
    assert state.half_life == 0.5  # a quarter of one day, held at the floor


def test_practice_leaves_no_evidence_and_makes_nothing_seen(practice) -> None:
    for turn in practice.turns.select_related("photo__specimen__species", "pair", "round__person"):
        answer_look(turn, "gathered", timezone.now())
    assert not Evidence.objects.exists()
    assert not Seen.objects.exists()


def test_pictures_that_were_not_met_come_first(participant, pair, practice) -> None:
    met = {turn.photo_id for turn in practice.turns.all()[:2]}
    for turn in practice.turns.all()[:2]:
        answer_look(turn, "leave", timezone.now())
    from random import Random

    looks = looks_for(participant.user, [pair], timezone.now(), Random(1))
    fresh = [each.picture for each in looks[:2]]
    assert not met & set(fresh)


def test_a_pair_is_new_then_fresh_then_fading(participant, pair, standard, practice) -> None:
    now = timezone.now()

    def state(days: float) -> str:
        return pairs_in_practice(participant.user, [pair], now + timedelta(days=days))[0].state

    assert state(0) == "new"
    answer_look(turn_of(practice, dangerous=True), "mistaken", now)
    assert state(0.1) == "fresh"
    assert state(0.6) == "fading"


def test_the_whole_way_by_pages(signed_in, participant, pair, standard, teaching) -> None:
    client = signed_in(participant)
    page = client.get(START)
    assert "Not met yet" in page.content.decode()
    begun = client.post(reverse("assessments:practice_begin"), {"standard": standard.key})
    text = client.get(begun["Location"]).content.decode()
    assert "Which of the two is it?" in text
    practice = PracticeRound.objects.get()
    assert client.post(look(practice), {"said": "leave"})["Location"] == look(practice)
    answer = client.get(look(practice)).content.decode()
    assert "You left it, which is safe" in answer
    end = client.get(reverse("assessments:practice_end", args=[practice.key])).content.decode()
    assert "Enough for now" in end
    assert "%" not in end.split("<main", 1)[1].split("</main>")[0]  # no score anywhere


def test_before_the_answer_the_picture_names_no_plant(signed_in, participant, practice) -> None:
    main = signed_in(participant).get(look(practice)).content.decode().split("<main", 1)[1]
    shown = practice.turns.get(position=1).photo
    assert shown.alt_full not in main or not shown.alt_full
    assert shown.specimen.key not in main


def test_no_choice_is_asked_for_again_in_a_sentence(signed_in, participant, practice) -> None:
    answer = signed_in(participant).post(look(practice), {})
    assert answer.status_code == 422
    assert "Leaving it is always an answer" in answer.content.decode()


def test_somebody_elses_round_is_not_found(signed_in, stranger, organiser, practice) -> None:
    for person in (stranger, organiser):
        assert signed_in(person).get(look(practice)).status_code == 404


def test_it_asks_for_sign_in(client) -> None:
    assert client.get(START).status_code == 302


def test_without_pictures_the_page_says_what_is_lacking(signed_in, participant, standard) -> None:
    text = signed_in(participant).get(START).content.decode()
    assert "There is nothing to look at yet" in text
    assert "No pictures yet" in text


def test_pairs_can_be_named_in_the_address(signed_in, participant, pair, teaching) -> None:
    page = signed_in(participant).get(f"{START}?pair={pair.key}&pair=unheard-of").content.decode()
    assert "badleaf" in page.lower()
    begun = signed_in(participant).post(reverse("assessments:practice_begin"), {"pair": [pair.key]})
    assert begun["Location"].endswith("/1/")


def test_it_goes_with_the_person(participant, practice) -> None:
    answer_look(turn_of(practice, dangerous=False), "gathered", timezone.now())
    participant.enrolments.all().delete()
    user = participant.user
    participant.delete()
    user.delete()
    assert not PracticeRound.objects.exists()
    assert not PracticeState.objects.exists()


def test_the_start_asks_as_often_for_many_pictures_as_for_few(
    signed_in, participant, pair, standard, teaching, django_assert_num_queries
) -> None:
    client = signed_in(participant)
    client.get(START)
    for _each in range(20):
        give_picture(SpecimenFactory(species=pair.gathered, use="teaching"))
    with django_assert_num_queries(11):
        client.get(START)
