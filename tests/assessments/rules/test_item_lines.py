"""Specimens as a class answered them: honest with eight to fifteen people, silent with fewer."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import pearsonr

from assessments.rules.evidence import Decision
from assessments.rules.flags import Flag
from assessments.rules.intervals import exact_interval
from assessments.rules.item_lines import ItemLine, item_lines
from tests.assessments.rules.cohort_answers import BAD, BOOK, GOOD, answer_to

GATHER, REFUSE, LEAVE = Decision.GATHER, Decision.REFUSE, Decision.LEAVE


def class_of(table, wrong="badleaf", decision=GATHER):
    """Answers by person from rows of 0 and 1, a column a specimen; None: never shown it."""
    return {
        person: [
            answer_to(GOOD, GATHER if right else decision, said="goodleaf" if right else wrong, specimen=f"s{column}")
            for column, right in enumerate(row)
            if right is not None
        ]
        for person, row in enumerate(table)
    }


def line_of(lines, specimen="s0") -> ItemLine:
    return next(line for line in lines if line.specimen == specimen)


def swapped(people: int):
    """The first specimen is called another plant by everybody who is good at the rest."""
    return class_of([[0, 1, 1, 1]] * (people - 3) + [[1, 0, 0, 1]] * 3)


@pytest.mark.parametrize("people", range(8, 16))
def test_a_name_on_which_the_best_agree_otherwise_is_flagged_from_eight_people_on(people) -> None:
    line = line_of(item_lines(swapped(people), BOOK))
    assert Flag.STRONG_AGREE_ON_ANOTHER in line.flags
    assert Flag.ANOTHER_IS_COMMON_AND_STRONG in line.flags
    assert (line.right, line.answered) == (3, people)


@pytest.mark.parametrize("people", range(4, 8))
def test_fewer_are_too_few_to_say(people) -> None:
    line = line_of(item_lines(swapped(people), BOOK))
    assert (line.flags, line.telling, line.enough) == ((), None, False)
    assert line.interval == exact_interval(3, people)


def test_a_tutor_who_differs_is_enough_with_one_answer() -> None:
    lines = item_lines(class_of([[1, 1]]), BOOK, tutor_differs={"s1"})
    assert [line.specimen for line in lines] == ["s1", "s0"]
    assert line_of(lines, "s1").flags == (Flag.TUTOR_DIFFERS,)


def test_half_who_leave_it_raise_a_flag_on_a_dangerous_plant_too() -> None:
    answers = {n: [answer_to(BAD, LEAVE if n % 2 else REFUSE, said="badleaf")] for n in range(8)}
    assert line_of(item_lines(answers, BOOK), "s").flags == (Flag.HALF_LEAVE_IT,)


def test_refusing_without_a_name_is_no_agreement_on_another_plant() -> None:
    answers = {n: [answer_to(BAD, REFUSE, said="")] for n in range(10)}
    assert line_of(item_lines(answers, BOOK), "s").flags == ()


def test_different_wrong_words_are_no_agreement() -> None:
    answers = class_of([[0, 1, 1]] * 6 + [[1, 0, 0]] * 3)
    for person in range(6):
        answers[person][0] = answer_to(GOOD, GATHER, said=f"dragonwort {person}", specimen="s0")
    assert line_of(item_lines(answers, BOOK)).flags == ()


def test_the_first_answer_of_a_person_to_a_specimen_counts() -> None:
    twice = [answer_to(GOOD, LEAVE, specimen="s0"), answer_to(GOOD, GATHER, said="goodleaf", specimen="s0")]
    line = line_of(item_lines({1: twice}, BOOK))
    assert (line.right, line.answered) == (0, 1)


ROWS = st.lists(st.lists(st.sampled_from([0, 1, None]), min_size=5, max_size=5), min_size=8, max_size=15)


@given(table=ROWS)
def test_the_connection_is_that_of_another_library_and_never_stands_without_its_interval(table) -> None:
    for line in item_lines(class_of(table), BOOK):
        column = int(line.specimen[1:])
        rows = [row for row in table if row[column] is not None]
        others = [[x for n, x in enumerate(row) if n != column and x is not None] for row in rows]
        rest = [sum(each) / len(each) if each else 0.0 for each in others]
        right = [row[column] for row in rows]
        if line.telling is None:
            alike = np.ptp(right) == 0 or np.ptp(rest) == 0
            assert not line.enough or alike or abs(pearsonr(right, rest).statistic) > 1 - 1e-6
        else:
            assert line.telling.value == pytest.approx(pearsonr(right, rest).statistic, abs=1e-9)
            assert line.telling.interval.lower <= line.telling.value <= line.telling.interval.upper


@given(table=ROWS)
def test_everybody_who_was_shown_it_stands_in_the_counts(table) -> None:
    for line in item_lines(class_of(table), BOOK):
        shown = [row[int(line.specimen[1:])] for row in table if row[int(line.specimen[1:])] is not None]
        assert (line.answered, line.right) == (len(shown), sum(shown))
        assert sum(each.total for each in line.said) == len(shown)
