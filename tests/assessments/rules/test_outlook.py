"""What a standard takes before anybody sits, against the figures of the account of the decision rule."""

from datetime import date
from fractions import Fraction

import pytest

from assessments.rules.holdings import Held, countable
from assessments.rules.outlook import OtherNumbers, TooManySpecimens, outlook, stages_asked
from assessments.rules.standard import PARTICIPANT, WALK_LEADER, Bars, PairFacts, StandardFacts

DAY, NEXT = date(2026, 5, 1), date(2026, 5, 2)


def facts(
    bars: Bars = PARTICIPANT, dangerous: int = 6, edible: int = 10, stages: tuple[str, ...] = ()
) -> StandardFacts:
    pairs = tuple(
        PairFacts(f"pair{n}", f"e{n % edible}", f"d{n % dangerous}", required_stages=stages)
        for n in range(max(dangerous, edible))
    )
    return StandardFacts("s", "S", 1, bars.dangerous, bars.edible, bars.window_weights, 3, 2, 24, pairs=pairs)


@pytest.mark.parametrize(
    ("bars", "questions", "banks"),
    [
        (PARTICIPANT, 130, [(13, 13), (13, 25), (25, 38), (25, 50), (38, 75)]),
        (WALK_LEADER, 340, [(34, 34), (59, 85), (59, 110), (135, 261), (311, 839)]),
    ],
)
def test_load_and_bank_for_six_dangerous_and_ten_edible_plants(bars, questions, banks):
    """Bank sizes and loads of the account of the rule, computed there by exact recursion."""
    ahead = outlook(facts(bars))
    clean = ahead.loads[0].load
    assert clean is not None
    assert clean.questions == max(clean.dangerous + clean.edible, questions)
    assert [(line.half, line.nine_in_ten) for line in ahead.bank] == banks


def test_all_together_is_the_product_of_each():
    line = outlook(facts(dangerous=8, edible=8)).together[1]
    assert line.rate == 0.01
    assert [round(chance, 2) for chance in line.within[:2]] == [0.35, 0.85]


def test_at_the_limit_the_chance_stays_below_what_the_window_may_spend():
    for bars in (PARTICIPANT, WALK_LEADER):
        side = outlook(facts(bars)).dangerous
        at_limit = next(line for line in side.rates if line.rate == float(side.bar.limit))
        assert at_limit.ever <= float(side.bar.alpha * side.weight)


def test_required_stages_may_ask_for_more_than_the_count():
    stages = ("seedling", "rosette", "flower", "fruit")
    assert set(outlook(facts(stages=stages)).least.values()) == {16}
    assert stages_asked(facts(stages=stages), "d0") == stages


def test_a_bank_with_one_plant_too_few_lets_nobody_pass():
    ahead = outlook(facts(dangerous=2, edible=2))
    assert ahead.from_bank(0.0, {"d0": 13, "d1": 13}) == 1.0
    assert ahead.from_bank(0.0, {"d0": 13, "d1": 12}) == 0.0
    assert ahead.from_bank(0.0, {"d0": 13}) == 0.0


def test_numbers_beyond_every_bank_are_refused_with_what_they_ask():
    tight = OtherNumbers(miss_limit=Fraction(1, 1000)).of(facts())
    with pytest.raises(TooManySpecimens) as refused:
        outlook(tight)
    assert refused.value.needed > 1500


def test_other_numbers_replace_only_what_they_name():
    drafted = OtherNumbers(refusal_ratio=Fraction(4)).of(facts())
    assert drafted.dangerous == facts().dangerous
    assert (drafted.edible.limit, drafted.edible.ratio) == (Fraction(1, 2), 4)


def test_a_standard_without_a_dangerous_pair_has_no_outlook():
    empty = StandardFacts("s", "S", 1, PARTICIPANT.dangerous, PARTICIPANT.edible, PARTICIPANT.window_weights, 3, 2, 24)
    with pytest.raises(ValueError, match="without a dangerous pair"):
        outlook(empty)


def test_a_plant_counts_once_and_two_from_one_place_and_day():
    three_there = [Held(plant, "wood", DAY, "rosette") for plant in "abc"]
    assert countable(three_there) == 2
    assert countable([*three_there, Held("c", "wood", NEXT, "flower")]) == 3
    assert countable([Held("a", "wood", day, "rosette") for day in (DAY, NEXT)]) == 1
    assert countable([]) == 0
