"""Which pictures a round of practice shows, and in which order."""

from collections import Counter
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from assessments.rules.practice_plan import CYCLES, LOOKS, Stock, least_met_first, plan_round

PAIRS = [Stock("a", (1, 2), (3, 4)), Stock("b", (5,), (6,)), Stock("c", (7, 8, 9), (10,))]


def test_looks_at_one_pair_stand_side_by_side_and_three_pairs_are_mixed() -> None:
    looks = plan_round(PAIRS, Random(1))
    assert [look.pair for look in looks] == ["a", "a", "b", "b", "c", "c"] * CYCLES


@given(seed=st.integers(0, 10_000))
def test_either_plant_is_shown_as_often_in_a_round(seed) -> None:
    shown = Counter((look.pair, look.is_dangerous) for look in plan_round(PAIRS, Random(seed)))
    assert set(shown.values()) == {CYCLES * LOOKS // 2}


def test_the_second_look_does_not_follow_from_the_first() -> None:
    firsts = [plan_round(PAIRS, Random(seed))[:2] for seed in range(60)]
    same = sum(first.is_dangerous == second.is_dangerous for first, second in firsts)
    assert 5 < same < 55


@given(seed=st.integers(0, 10_000))
def test_a_picture_comes_again_only_when_its_side_has_no_other(seed) -> None:
    looks = plan_round(PAIRS, Random(seed))
    assert Counter(look.picture for look in looks if look.picture in (1, 2, 3, 4)) == {1: 1, 2: 1, 3: 1, 4: 1}
    assert sum(look.picture == 5 for look in looks) == 2


def test_a_pair_without_pictures_of_both_plants_is_passed_over() -> None:
    assert {look.pair for look in plan_round([*PAIRS, Stock("d", (1,), ())], Random(1))} == {"a", "b", "c"}
    assert plan_round([Stock("d", (), (1,))], Random(1)) == ()


def test_the_same_chance_gives_the_same_round() -> None:
    assert plan_round(PAIRS, Random(5)) == plan_round(PAIRS, Random(5))


@given(met=st.dictionaries(st.integers(0, 9), st.integers(0, 5)), seed=st.integers(0, 99))
def test_what_was_met_least_comes_first(met, seed) -> None:
    order = least_met_first(range(10), met, Random(seed))
    times = [met.get(each, 0) for each in order]
    assert times == sorted(times)
    assert sorted(order) == list(range(10))
