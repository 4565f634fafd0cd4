"""How often the best rule on one character errs, against published examples and listing all rules."""

from itertools import chain, combinations

import pytest

from species.rules.errors import best_cut, least_error

EDIBLE = {"a": 0.5, "b": 0.3, "c": 0.2}
DOUBLE = {"a": 0.1, "b": 0.3, "c": 0.6}


def every_set(states):
    return chain.from_iterable(combinations(states, size) for size in range(len(states) + 1))


@pytest.mark.parametrize("share", [0.0, 0.3, 0.5, 0.9, 1.0])
def test_no_rule_errs_less_when_all_are_listed(share):
    errors = [
        sum((1 - share) * EDIBLE[s] for s in "abc" if s not in taken) + sum(share * DOUBLE[s] for s in taken)
        for taken in every_set("abc")
    ]
    assert least_error(EDIBLE, DOUBLE, share) == pytest.approx(min(errors))


def test_amounts_are_made_shares_first():
    assert least_error({"a": 5, "b": 3, "c": 2}, DOUBLE, 0.3) == pytest.approx(0.26)


def test_a_share_that_is_none_and_a_side_without_states_are_refused():
    for share in (-0.1, 1.1):
        with pytest.raises(ValueError, match="share"):
            least_error(EDIBLE, DOUBLE, share)
    with pytest.raises(ValueError, match="state"):
        least_error({}, DOUBLE, 0.5)


def test_the_best_cut_whichever_side_is_higher():
    assert best_cut([1, 1, 2], [3, 3]) == best_cut([3, 3], [1, 1, 2])
    assert (best_cut([1, 1, 2], [3, 3]).youden, best_cut([1, 1, 2], [3, 3]).least_errors) == (1, 0)
    assert best_cut([5], [5]).least_errors == 1


def test_the_cut_that_errs_least_may_refuse_everything():
    """Nine of one side, one of the other in the middle: no cut does better than to call all by the nine."""
    found = best_cut([1, 2, 3, 4, 5, 6, 7, 8, 9], [5.5])
    assert (found.least_errors, found.youden) == (1, pytest.approx(5 / 9))


def test_both_sides_must_be_measured():
    with pytest.raises(ValueError, match="measured"):
        best_cut([], [1])
    with pytest.raises(ValueError, match="measured"):
        best_cut([1], [])
