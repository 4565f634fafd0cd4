"""What answers say about questions, and which photos to look at again."""

import numpy as np
import pytest

from assessments.rules.flags import (
    KEY,
    LEFT,
    Distractor,
    Flag,
    another_is_common_and_strong,
    distractors,
    flags_of,
    half_leave_it,
    strong_agree_on_another,
)
from assessments.rules.items import (
    PRIOR_STRENGTH,
    discrimination_interval,
    discriminations,
    reliability,
    reliability_limits,
    responses_from,
    rest_scores,
    share_right,
    shrunken_share,
)


def test_shares_and_rest_scores_of_a_small_class():
    table = responses_from([[1, 0, 1], [1, 1, 0], [1, 0, 0]])
    assert share_right(table).tolist() == pytest.approx([1, 1 / 3, 1 / 3])
    assert rest_scores(table).tolist() == [[1, 2, 1], [1, 1, 2], [0, 1, 1]]


def test_patterns_with_counts_are_written_out():
    assert responses_from([[1, 0], [0, 1]], [2, 1]).tolist() == [[1, 0], [1, 0], [0, 1]]


@pytest.mark.parametrize("rows", [[], [[]], [1, 0], [[1, 2]], [[0.5]]])
def test_what_is_no_table_of_right_and_wrong_is_refused(rows):
    with pytest.raises(ValueError, match="persons by questions"):
        responses_from(rows)


def test_few_answers_lean_towards_the_mean_of_all():
    assert PRIOR_STRENGTH == 4
    assert shrunken_share(0, 4, 0.75) == 0.375
    assert shrunken_share(0, 0, 0.75) == 0.75
    assert (shrunken_share(1, 4, 0.0), shrunken_share(0, 4, 1.0)) == (0.125, 0.5)
    assert shrunken_share(1, 4, 0.5, 0) == 0.25
    assert shrunken_share(4, 4, 1.0) == 1
    for bad in [(5, 4, 0.5, 4), (1, 4, 1.5, 4), (0, 0, 0.5, 0), (-1, 4, 0.5, 4), (1, 4, 0.5, -1)]:
        with pytest.raises(ValueError, match="No more right"):
            shrunken_share(*bad)


def test_a_question_that_all_get_right_or_wrong_has_no_discrimination():
    assert discriminations(responses_from([[1, 0, 1], [1, 0, 0], [1, 0, 1]])) == (None, None, None)
    found = discriminations(responses_from([[1, 0, 1, 1], [1, 0, 0, 0], [1, 0, 1, 1]]))
    assert (found[0], found[1]) == (None, None)
    assert found[2] == pytest.approx(1)


@pytest.mark.parametrize(
    ("persons", "lower", "upper"), [(8, -0.51, 0.83), (10, -0.41, 0.78), (12, -0.33, 0.75), (15, -0.25, 0.70)]
)
def test_a_discrimination_of_three_tenths_means_little_in_a_small_class(persons, lower, upper):
    found = discrimination_interval(0.30, persons)
    assert found is not None
    assert (round(found.lower, 2), round(found.upper, 2)) == (lower, upper)


def test_three_people_are_too_few_for_an_interval():
    assert discrimination_interval(0.3, 3) is None
    assert discrimination_interval(0.3, 4) is not None
    perfect = discrimination_interval(1.0, 12)
    assert perfect is not None
    assert 0.99 < perfect.lower <= perfect.upper <= 1
    opposite = discrimination_interval(-1.0, 12)
    assert opposite is not None
    assert -1 <= opposite.lower <= opposite.upper < -0.99


def test_reliability_is_undefined_when_all_totals_are_equal_or_there_is_one_question():
    assert reliability(responses_from([[1, 0], [0, 1]])) is None
    assert reliability(responses_from([[1], [0]])) is None
    assert reliability(responses_from([[1, 1], [0, 0]])) == pytest.approx(1)


def test_the_limits_of_seven_tenths_from_forty_questions_and_twelve_people():
    found = reliability_limits(0.70, 40, 12)
    assert (round(found.interval.lower, 2), round(found.interval.upper, 2)) == (0.39, 0.90)
    assert reliability_limits(0.70, 40, 2).standard_error is None
    assert reliability_limits(0.70, 40, 3).standard_error == pytest.approx((2 * 40 * 0.09 / 39) ** 0.5)
    assert reliability_limits(0.70, 2, 12).standard_error == pytest.approx((4 * 0.09 / 10) ** 0.5)
    for items, persons in [(1, 12), (40, 1)]:
        with pytest.raises(ValueError, match="two"):
            reliability_limits(0.7, items, persons)


def test_flag_a_when_most_of_the_strongest_give_the_same_other_answer():
    rest = [9, 8, 7, 3, 2, 1]
    assert strong_agree_on_another(["carrot", "carrot", KEY, KEY, KEY, KEY], rest)
    assert not strong_agree_on_another(["carrot", KEY, KEY, KEY, KEY, KEY], rest)
    assert not strong_agree_on_another(["carrot", "yarrow", KEY, KEY, KEY, KEY], rest)
    assert not strong_agree_on_another([LEFT, LEFT, KEY, KEY, KEY, KEY], rest)


def test_flag_a_takes_everybody_in_who_ties_with_the_top_third():
    answers = ["carrot", "carrot", KEY, KEY, KEY, KEY]
    assert not strong_agree_on_another(answers, [9, 8, 8, 8, 2, 1])
    assert not strong_agree_on_another(["carrot"], [1])
    assert strong_agree_on_another(["carrot", "carrot"], [1, 1])


@pytest.mark.parametrize(("persons", "third"), [(4, 2), (7, 2), (8, 3), (10, 3), (11, 4), (12, 4), (15, 5)])
def test_flag_a_looks_at_the_nearest_to_a_third_of_the_class_and_two_at_least(persons, third):
    rest = list(range(persons, 0, -1))
    needed = third // 2 + 1
    others = [KEY] * (persons - needed)
    assert strong_agree_on_another(["carrot"] * needed + others, rest)
    assert not strong_agree_on_another(["carrot"] * (needed - 1) + [KEY] + others, rest)


def test_flag_b_when_another_answer_is_as_common_as_the_key_and_its_choosers_stronger():
    assert another_is_common_and_strong(["carrot", "carrot", KEY, KEY], [5, 5, 4, 4])
    assert not another_is_common_and_strong(["carrot", "carrot", KEY, KEY], [4, 4, 4, 4])
    assert not another_is_common_and_strong(["carrot", KEY, KEY, KEY], [9, 1, 1, 1])
    assert not another_is_common_and_strong([LEFT, LEFT, KEY], [9, 9, 1])
    assert another_is_common_and_strong(["carrot", "yarrow"], [1, 1])


def test_flag_c_when_half_leave_it():
    assert half_leave_it([LEFT, LEFT, KEY, "carrot"])
    assert not half_leave_it([LEFT, KEY, KEY])
    assert not half_leave_it([])


def test_all_flags_of_a_question_in_order():
    answers, rest = ["carrot", "carrot", LEFT, LEFT], [9, 8, 1, 1]
    assert flags_of(answers, rest, tutor_differs=True) == tuple(Flag)
    assert flags_of([KEY] * 6, [1, 2, 3, 4, 5, 6]) == ()


def test_distractors_are_split_between_the_stronger_and_the_weaker_half():
    answers, rest = ["carrot", KEY, KEY, "carrot", "carrot", LEFT], [9, 8, 7, 3, 2, 1]
    assert distractors(answers, rest) == (
        Distractor("carrot", 1, 2),
        Distractor(KEY, 2, 0),
        Distractor(LEFT, 0, 1),
    )
    assert distractors([], []) == ()


def test_every_answer_needs_its_rest_score():
    with pytest.raises(ValueError, match="rest score"):
        flags_of([KEY], [])


def simulated_class(persons, chance):
    """A Rasch class on 40 questions with three other answers each; two of the keys are swapped."""
    ability, difficulty = chance.normal(1.2, 1, persons), chance.normal(0, 1, 40)
    right = chance.random((persons, 40)) < 1 / (1 + np.exp(difficulty - ability[:, None]))
    given = np.where(right, KEY, chance.choice(["a", "a", "a", "b", "c"], (persons, 40)))
    keyed = given[:, :2].copy()
    given[:, :2] = np.where(keyed == KEY, "true", np.where(keyed == "a", KEY, keyed))
    return given


@pytest.mark.parametrize("persons", [8, 15])
def test_the_flags_find_most_swapped_keys_and_few_sound_photos(persons):
    """A or B found 92 to 96 % of swapped keys and 2 to 5 % of sound photos when the flags were chosen."""
    chance, found, wrong, classes = np.random.default_rng(20310401), 0, 0, 100
    for _ in range(classes):
        given = simulated_class(persons, chance)
        rest = rest_scores(responses_from((given == KEY).astype(int)))
        flagged = [bool(flags_of(list(given[:, q]), list(rest[:, q]))) for q in range(40)]
        found, wrong = found + sum(flagged[:2]), wrong + sum(flagged[2:])
    assert found / (2 * classes) > 0.88
    assert wrong / (38 * classes) < 0.07
