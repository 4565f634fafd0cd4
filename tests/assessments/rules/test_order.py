"""The order of questions: chance alone, never one side after the other."""

from collections import Counter
from datetime import date

import pytest

from assessments.rules.blueprint import Candidate
from assessments.rules.order import mixed
from assessments.rules.standard import Side

D, E = Side.DANGEROUS, Side.EDIBLE


def questions(sides):
    day = date(2031, 4, 1)
    return [Candidate(f"q{n}", f"i{n}", "x", "flower", "here", day, side) for n, side in enumerate(sides)]


def orders(sides, seeds=400):
    return [tuple(q.side for q in mixed(questions(sides), seed)) for seed in range(seeds)]


def test_every_question_is_there_once_and_the_seed_decides_alone():
    asked = questions([D] * 6 + [E] * 6)
    assert sorted(q.key for q in mixed(asked, 3)) == sorted(q.key for q in asked)
    assert mixed(asked, 3) == mixed(asked[::-1], 3)
    assert mixed(asked, 3) != mixed(asked, 4)


def test_the_sides_are_never_grouped():
    assert set(orders([D, D, E, E])) == {(D, E, D, E), (E, D, E, D), (D, E, E, D), (E, D, D, E)}
    assert set(orders([D, E, E])) == {(E, D, E)}


def test_three_sides_are_never_grouped_either():
    assert all(len(set(order[:2])) == 2 or order[2] != order[3] for order in orders([D, E, None, None]))
    assert not {(D, E, None, None), (None, None, D, E)} & set(orders([D, E, None, None]))


@pytest.mark.parametrize("sides", [[D], [D, E], [D, D, D], [D, E, None]])
def test_what_cannot_be_mixed_is_left_to_chance(sides):
    assert len(orders(sides, 5)) == 5


def test_each_place_is_as_likely_for_each_side():
    first = Counter(order[0] for order in orders([D] * 5 + [E] * 5, 1000))
    assert 440 < first[D] < 560
