"""Practice: half-lives, when a pair is due, and which comes next."""

import pytest

from assessments.rules.practice import (
    CAP,
    FLOOR,
    PAIRS_MIXED,
    START,
    Outcome,
    Practised,
    Said,
    days_until_due,
    next_half_life,
    outcome_of,
    practice_queue,
    practice_round,
    recall,
)
from species.rules.vocabulary import Danger

RIGHT, LEFT, MISS = Outcome.RIGHT, Outcome.LEFT, Outcome.MISS


def test_with_everything_right_and_on_time_the_gaps_grow():
    half_life, gaps = START, []
    for _ in range(7):
        gap = days_until_due(half_life)
        gaps.append(round(gap, 1) if gap < 10 else round(gap))
        half_life = next_half_life(half_life, gap, RIGHT)
    assert gaps == [0.5, 0.9, 1.6, 2.8, 4.9, 8.7, 15]


def test_a_pair_is_due_when_recall_has_fallen_to_seven_tenths():
    assert days_until_due(10) == pytest.approx(5.146, abs=0.001)
    assert recall(10, days_until_due(10)) == pytest.approx(0.7)


@pytest.mark.parametrize(
    ("outcome", "days", "half_life"),
    [(RIGHT, 8, 24), (RIGHT, 80, 24), (RIGHT, 0, 8), (RIGHT, 4, 8 * 3**0.5), (LEFT, 4, 4), (MISS, 4, 2)],
)
def test_what_an_answer_does_to_a_half_life_of_eight(outcome, days, half_life):
    assert next_half_life(8, days, outcome) == pytest.approx(half_life)


def test_half_lives_stay_between_floor_and_cap():
    assert (START, FLOOR, CAP) == (1, 0.5, 180)
    assert next_half_life(1, 1, MISS) == FLOOR
    assert next_half_life(0.6, 1, LEFT) == FLOOR
    assert next_half_life(100, 100, RIGHT) == CAP


def practised(pair, danger=Danger.DANGEROUS, **more):
    return Practised(pair, danger, **{"half_life": 10.0, "days": 10.0, **more})


def test_recall_halves_with_every_half_life():
    assert practised("a").recall == 0.5
    assert practised("a", days=0.0).recall == 1
    assert Practised("a", Danger.DANGEROUS).recall == 0
    assert Practised("a", Danger.DANGEROUS, half_life=3.0).recall == 0
    assert recall(0.5, 0.5) == 0.5


def test_a_pair_is_due_below_seven_tenths_only():
    assert practised("a").is_due
    assert not practised("a", days=5.0).is_due
    assert Practised("a", Danger.HARMLESS).is_due


def test_the_most_dangerous_of_the_most_forgotten_comes_first():
    queue = practice_queue(
        [
            practised("harmless", Danger.HARMLESS),
            practised("unpleasant", Danger.UNPLEASANT, days=20.0),
            practised("dangerous"),
            practised("deadly", deadly=True),
            practised("fresh", deadly=True, days=0.0),
            Practised("never met", Danger.DANGEROUS),
        ]
    )
    assert [p.pair for p in queue] == ["never met", "deadly", "dangerous", "unpleasant", "harmless", "fresh"]
    assert [p.need for p in queue] == [2, 1.5, 1, 0.75, 0.5, 0]


def test_equal_need_goes_by_key():
    assert [p.pair for p in practice_queue([practised("b"), practised("a")])] == ["a", "b"]


def test_a_round_mixes_three_pairs():
    pairs = [practised(name) for name in "edcba"]
    assert PAIRS_MIXED == 3
    assert [p.pair for p in practice_round(pairs)] == ["a", "b", "c"]
    assert len(practice_round(pairs[:1])) == 1


@pytest.mark.parametrize(("half_life", "days"), [(0, 1), (1, -1)])
def test_no_half_life_and_no_time_travel(half_life, days):
    with pytest.raises(ValueError, match="half-life"):
        recall(half_life, days)
    with pytest.raises(ValueError, match="half-life"):
        next_half_life(half_life, days, RIGHT)


def test_others_are_mixed_in_by_need_until_three_are_together():
    asked = [Practised("z", Danger.HARMLESS)]
    others = [
        Practised("a", Danger.DANGEROUS, half_life=9, days=0.1),
        Practised("b", Danger.UNPLEASANT),
        Practised("c", Danger.DANGEROUS, deadly=True),
        Practised("z", Danger.HARMLESS),
    ]
    assert [p.pair for p in practice_round(asked, others)] == ["z", "c", "b"]


def test_no_more_than_three_are_together_whatever_is_offered():
    asked = [Practised(key, Danger.DANGEROUS) for key in "abcd"]
    assert [p.pair for p in practice_round(asked, [Practised("e", Danger.DANGEROUS, deadly=True)])] == ["a", "b", "c"]


@pytest.mark.parametrize(
    ("said", "shows_mistaken", "outcome"),
    [
        (Said.GATHERED, False, RIGHT),
        (Said.MISTAKEN, True, RIGHT),
        (Said.GATHERED, True, MISS),
        (Said.MISTAKEN, False, LEFT),
        (Said.LEAVE, True, LEFT),
        (Said.LEAVE, False, LEFT),
    ],
)
def test_only_a_dangerous_plant_called_good_is_a_miss(said, shows_mistaken, outcome):
    assert outcome_of(said, shows_mistaken=shows_mistaken) is outcome
