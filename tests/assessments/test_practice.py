"""Practice: teaching pictures only, a queue by need, a state that is no score, and never evidence."""

import re
from datetime import datetime, timedelta
from pathlib import Path
from random import Random

import pytest
from django.conf import settings
from django.utils import timezone

from assessments.actions.practice import LookGone, NothingToPractise, answer_look, begin_round
from assessments.models import Evidence, KeptStanding, PracticeRound, PracticeState, PracticeTurn, Seen
from assessments.queries.practice import every_pair, looks_for, pairs_in_practice, round_to_go_on_with
from assessments.queries.standings import standing_of
from assessments.rules.practice import PAIRS_MIXED, Outcome, Said
from species.models import Photo
from species.rules.vocabulary import Settlement, Use
from tests.assessments.practising import another_pair, hang_teaching_pictures, turn_of
from tests.factories.species import PairFactory, make_species

NOW = datetime(2026, 5, 4, 18, 0, tzinfo=timezone.get_fixed_timezone(0))


@pytest.fixture
def practice(participant, pair, standard) -> PracticeRound:
    hang_teaching_pictures(pair)
    return begin_round(participant.user, [pair], NOW, seed=3)


def test_a_round_shows_teaching_pictures_and_never_one_of_a_test(practice, bank) -> None:
    for seed in range(20):
        practice = begin_round(practice.person, every_pair(), NOW, seed)
        assert set(practice.turns.values_list("photo__specimen__use", flat=True)) == {Use.TEACHING.value}


def test_pictures_of_tests_alone_are_nothing_to_practise_with(participant, pair, bank) -> None:
    with pytest.raises(NothingToPractise, match="no teaching pictures of both plants"):
        begin_round(participant.user, [pair], NOW, seed=3)
    assert not PracticeRound.objects.exists()


@pytest.mark.parametrize(
    "change", [{"settlement": Settlement.SINGLE.value}, {"use": Use.ASSESSMENT.value}, {"retired_on": NOW.date()}]
)
def test_without_sound_pictures_of_the_second_plant_a_pair_is_passed_over(participant, pair, change) -> None:
    hang_teaching_pictures(pair)
    pair.mistaken.specimens.update(**change)
    other = another_pair("other")
    shown = {look.pair for look in looks_for(participant.user, [pair, other], NOW, Random(1))}
    assert shown == {other.key}


def test_a_picture_without_a_size_to_serve_is_passed_over(participant, pair) -> None:
    hang_teaching_pictures(pair, 2)
    bare = Photo.objects.order_by("pk")[0]
    bare.renditions.all().delete()
    assert bare.pk not in {look.picture for look in looks_for(participant.user, [pair], NOW, Random(1))}


def test_one_pair_that_is_asked_for_is_mixed_with_the_two_most_needed(participant, pair) -> None:
    hang_teaching_pictures(pair)
    needed, known, rest = (another_pair(name) for name in ("one", "two", "three"))
    PracticeState.objects.create(person=participant.user, pair=known, half_life=50, last_at=NOW)
    looks = looks_for(participant.user, [pair], NOW, Random(1), every_pair())
    assert {look.pair for look in looks} == {pair.key, needed.key, rest.key}
    assert len({look.pair for look in looks}) == PAIRS_MIXED


def test_looks_are_at_stages_in_which_the_two_are_confused_where_there_are_pictures(participant, pair) -> None:
    hang_teaching_pictures(pair, stage="fruit")
    stages = Photo.objects.in_bulk([look.picture for look in looks_for(participant.user, [pair], NOW, Random(1))])
    assert {photo.specimen.stage for photo in stages.values()} == {"fruit"}  # no other is there
    hang_teaching_pictures(pair, 1, stage="flower")
    stages = Photo.objects.in_bulk([look.picture for look in looks_for(participant.user, [pair], NOW, Random(1))])
    assert {photo.specimen.stage for photo in stages.values()} == {"flower"}


def test_nothing_is_mixed_in_where_the_pair_itself_has_no_pictures(participant, pair) -> None:
    another_pair("other")
    assert looks_for(participant.user, [pair], NOW, Random(1), every_pair()) == ()


def test_the_most_needed_pair_comes_first(participant, pair) -> None:
    hang_teaching_pictures(pair)
    fading, fresh = another_pair("fading"), another_pair("fresh")
    for each, days in ((fading, 5), (fresh, 0.1)):
        PracticeState.objects.create(
            person=participant.user, pair=each, half_life=2, last_at=NOW - timedelta(days=days)
        )
    lines = pairs_in_practice(participant.user, [fresh, fading, pair], NOW)
    assert [(line.pair, line.state) for line in lines] == [(pair, "new"), (fading, "fading"), (fresh, "fresh")]


def test_pictures_that_were_not_met_come_first(participant, pair, practice) -> None:
    first = turn_of(practice, pair, dangerous=True)
    answer_look(first, Said.LEAVE, NOW)
    for seed in range(10):
        looks = [look for look in looks_for(participant.user, [pair], NOW, Random(seed)) if look.is_dangerous]
        assert first.photo_id not in {look.picture for look in looks}


def test_the_same_seed_gives_the_same_round(participant, pair, practice) -> None:
    again = begin_round(participant.user, [pair], NOW, seed=3)
    assert [turn.photo_id for turn in again.turns.all()] == [turn.photo_id for turn in practice.turns.all()]
    others = {
        tuple(begin_round(participant.user, [pair], NOW, n).turns.values_list("photo", flat=True)) for n in range(8)
    }
    assert len(others) > 1


def test_an_answer_is_remembered_once(pair, practice) -> None:
    turn = turn_of(practice, pair, dangerous=True)
    assert answer_look(turn, Said.GATHERED, NOW) is Outcome.MISS
    assert answer_look(turn, Said.MISTAKEN, NOW + timedelta(days=9)) is Outcome.MISS
    state = PracticeState.objects.get()
    assert (state.half_life, state.last_at) == (0.5, NOW)  # a quarter of one day, held at the floor


def test_right_after_a_while_keeps_three_times_as_long(participant, pair, practice) -> None:
    PracticeState.objects.create(person=participant.user, pair=pair, half_life=2, last_at=NOW - timedelta(days=2))
    answer_look(turn_of(practice, pair, dangerous=False), Said.GATHERED, NOW)
    assert PracticeState.objects.get().half_life == pytest.approx(6)
    answer_look(turn_of(practice, pair, dangerous=True), Said.MISTAKEN, NOW)
    assert PracticeState.objects.get().half_life == pytest.approx(6)  # twice in one sitting adds nothing


def test_a_clock_that_was_set_back_does_no_harm(participant, pair, practice) -> None:
    PracticeState.objects.create(person=participant.user, pair=pair, half_life=2, last_at=NOW + timedelta(hours=5))
    answer_look(turn_of(practice, pair, dangerous=False), Said.GATHERED, NOW)
    assert PracticeState.objects.get().half_life == pytest.approx(2)


@pytest.mark.parametrize("change", [{"use": Use.ASSESSMENT.value}, {"settlement": Settlement.DISPUTED.value}])
def test_a_picture_that_left_practice_is_not_answered(pair, practice, change) -> None:
    turn = turn_of(practice, pair, dangerous=True)
    pair.mistaken.specimens.update(**change)
    with pytest.raises(LookGone):
        answer_look(turn, Said.GATHERED, NOW)
    assert not PracticeTurn.objects.answered().exists()
    assert not PracticeState.objects.exists()


def test_a_plant_that_was_named_anew_as_a_third_one_is_not_answered(pair, practice) -> None:
    turn = turn_of(practice, pair, dangerous=True)
    pair.mistaken.specimens.update(species=make_species("third leaf"))
    with pytest.raises(LookGone):
        answer_look(turn, Said.GATHERED, NOW)


def test_practice_is_never_evidence(participant, pair, standard, record, practice) -> None:
    at = timezone.now()
    before = standing_of(participant.user, standard, at)
    kept, rows, seen = list(KeptStanding.objects.values()), Evidence.objects.count(), Seen.objects.count()
    for turn in practice.turns.all():
        answer_look(turn, Said.GATHERED, NOW)
    assert PracticeTurn.objects.filter(outcome=Outcome.MISS.value).exists()
    assert standing_of(participant.user, standard, at) == before
    assert (list(KeptStanding.objects.values()), Evidence.objects.count(), Seen.objects.count()) == (kept, rows, seen)


def test_a_pair_is_new_then_fresh_then_fading(participant, pair, practice) -> None:
    def state(days: float) -> str:
        return pairs_in_practice(participant.user, [pair], NOW + timedelta(days=days))[0].state

    assert state(0) == "new"
    answer_look(turn_of(practice, pair, dangerous=True), Said.MISTAKEN, NOW)
    assert (state(0.51), state(0.52)) == ("fresh", "fading")  # due after 0.515 days


def test_a_round_broken_off_can_be_gone_on_with_for_two_hours(participant, stranger, practice) -> None:
    answer_look(practice.turns.all()[0], Said.LEAVE, NOW)
    found = round_to_go_on_with(participant.user, NOW + timedelta(minutes=90))
    assert found is not None
    assert (found.round, found.position) == (practice, 2)
    assert round_to_go_on_with(participant.user, NOW + timedelta(hours=3)) is None
    assert round_to_go_on_with(stranger.user, NOW) is None


def test_it_goes_with_the_person(participant, pair, practice) -> None:
    answer_look(turn_of(practice, pair, dangerous=False), Said.GATHERED, NOW)
    user = participant.user
    participant.delete()
    user.delete()
    left = (PracticeRound.objects.count(), PracticeTurn.objects.count(), PracticeState.objects.count())
    assert left == (0, 0, 0)


def test_a_pair_nobody_has_pictures_of_is_said_to_lack_them(participant, pair) -> None:
    hang_teaching_pictures(pair)
    bare = PairFactory(gathered=make_species("bare leaf"), mistaken=make_species("bare root", deadly=True))
    lines = {line.pair: line.can_be_shown for line in pairs_in_practice(participant.user, [pair, bare], NOW)}
    assert lines == {pair: True, bare: False}


def test_nothing_but_practice_reads_what_was_practised() -> None:
    """So that it cannot come to weigh in a standing, a paper or a page of a tutor's."""
    rooms = [Path(settings.BASE_DIR) / room for room in ("species", "assessments", "courses")]
    reading = re.compile(r"Practice(State|Round|Turn)\b|\.practised\b")
    readers = {
        path.stem
        for room in rooms
        for path in room.rglob("*.py")
        if "migrations" not in path.parts and reading.search(path.read_text(encoding="utf-8"))
    }
    # A person's own record is theirs to take along: practice is in that file and in no other table. Erasure takes it
    # away, and the inventory of personal data ("evidence" there) names what it holds.
    kept = {"erasure", "evidence", "own_record"}
    assert readers == {"__init__", "practice", "practice_looks", "practising", *kept}
    assert not reading.search((rooms[1] / "queries" / "evidence.py").read_text(encoding="utf-8"))
