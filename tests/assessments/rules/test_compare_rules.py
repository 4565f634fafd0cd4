"""Luck under three rules, side by side; figures from the account of the decision rule, computed independently."""

from fractions import Fraction

import pytest

from assessments.rules.planning import pass_probability_within
from assessments.rules.retakes import best_of_attempts, clean_run_somewhere, compare_rules
from assessments.rules.standard import PARTICIPANT, WALK_LEADER


def after(found, attempts):
    return next(each for each in found.tries if each.attempts == attempts)


@pytest.mark.parametrize(
    ("bars", "items", "needed", "by_window", "best_of_ten"),
    [
        (PARTICIPANT, 11, (13, 24, 36, 47), (13, 23, 23), 0.59),
        (WALK_LEADER, 29, (34, 58, 83, 107), (34, 56, 56), 0.38),
    ],
)
def test_the_default_standards_give_the_published_numbers(bars, items, needed, by_window, best_of_ten):
    found = compare_rules(bars.dangerous, bars.window_weights)
    assert (found.items, found.needed, found.by_window) == (items, needed, by_window)
    assert found.miss_cost == needed[1] - needed[0]
    assert round(after(found, 10).best, 2) == best_of_ten


@pytest.mark.parametrize("bars", [PARTICIPANT, WALK_LEADER])
def test_ours_stays_at_or_below_its_share_of_alpha_while_the_others_climb(bars):
    found = compare_rules(bars.dangerous, bars.window_weights, 30)
    most = float(bars.dangerous.alpha * bars.window_weights[0])
    assert all(each.here <= most for each in found.tries)
    assert all(each.best > most for each in found.tries if each.attempts > 1)
    assert all(each.run >= each.best - 1e-12 for each in found.tries)


def test_each_column_is_the_rule_it_names():
    bar = PARTICIPANT.dangerous
    found = compare_rules(bar, PARTICIPANT.window_weights, 6)
    for each in found.tries:
        assert each.specimens == each.attempts * found.items
        assert each.best == best_of_attempts(0.2, 11, each.attempts)
        assert each.run == pytest.approx(clean_run_somewhere(0.2, 11, each.specimens).probability)
        here = pass_probability_within(0.2, bar, Fraction(8, 10), specimens=each.specimens)
        assert each.here == pytest.approx(here)


def test_without_windows_the_whole_chance_is_one_window():
    assert compare_rules(PARTICIPANT.dangerous).by_window == (12,)


def test_no_attempt_at_all_is_refused():
    with pytest.raises(ValueError, match="At least one attempt"):
        compare_rules(PARTICIPANT.dangerous, most_attempts=0)
