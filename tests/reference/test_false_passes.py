"""Somebody exactly at the limit who sits again and again: simulated with the rule, and with the usual ones.

The promise: the chance ever to be passed stays at or below alpha, however often they sit (Ville 1939). Beside
it the same people under a fixed number without a miss, best of many attempts, and under a sliding window.
"""

import numpy as np
import pytest

from assessments.rules.evalue import clean_needed
from assessments.rules.retakes import best_of_attempts
from assessments.rules.standard import PARTICIPANT, WALK_LEADER

PEOPLE, ITEMS = 20_000, 400
STANDARDS = [(PARTICIPANT, 11), (WALK_LEADER, 29)]


def misses_of(people, rate, seed):
    return np.random.default_rng(seed).random((people, ITEMS)) < rate


def ever_passed(missed, bar, weight):
    """For each person (row) whether the count of clean items ever reached what their misses asked for."""
    misses = np.cumsum(missed, axis=1)
    clean = np.arange(1, missed.shape[1] + 1) - misses
    needed = np.array([clean_needed(k, bar, weight) for k in range(int(misses.max()) + 1)])
    return (clean >= needed[misses]).any(axis=1)


@pytest.mark.parametrize(("bars", "fixed"), STANDARDS)
def test_unlimited_retakes_stay_at_or_below_alpha_and_the_fixed_number_does_not(bars, fixed):
    rate, alpha = float(bars.dangerous.limit), float(bars.dangerous.alpha)
    missed = misses_of(PEOPLE, rate, 1)
    share = ever_passed(missed, bars.dangerous, bars.window_weights[0]).mean()
    assert 0 < share <= alpha
    attempts = ITEMS // fixed
    clean = ~missed[:, : attempts * fixed].reshape(PEOPLE, attempts, fixed).any(axis=2)
    best = clean.any(axis=1).mean()
    assert best == pytest.approx(best_of_attempts(rate, fixed, attempts), abs=0.015)
    assert best > 5 * alpha


@pytest.mark.parametrize(("bars", "fixed"), STANDARDS)
def test_three_windows_opened_at_the_worst_moments_stay_at_or_below_alpha(bars, fixed):
    """A window opens right after a miss, when the evidence stands worst; any window may pass."""
    rate = float(bars.dangerous.limit)
    missed = misses_of(2_000, rate, 2)
    passed = np.zeros(len(missed), dtype=bool)
    for number, weight in enumerate(bars.window_weights):
        for row, person in enumerate(missed):
            starts = np.flatnonzero(np.cumsum(person) == 2 * number)
            if len(starts):
                passed[row] |= ever_passed(person[None, starts[0] :], bars.dangerous, weight)[0]
    assert passed.mean() <= float(bars.dangerous.alpha)


def test_several_bad_ledgers_are_passed_together_hardly_ever():
    """Every pair is needed, so no correction is: two bad species pass together 0.8 % of the time at most."""
    bar = PARTICIPANT.dangerous
    both = [ever_passed(misses_of(PEOPLE, 0.2, seed), bar, PARTICIPANT.window_weights[0]) for seed in (3, 4)]
    assert (both[0] & both[1]).mean() <= 0.012


def test_a_sliding_window_would_pass_far_too_many():
    """Why there is none: the last forty items, looked at after each, restart the test for ever."""
    missed = misses_of(4_000, 0.2, 5)
    bar = PARTICIPANT.dangerous
    misses = np.cumsum(np.pad(missed, ((0, 0), (1, 0))), axis=1)
    recent = misses[:, 40:] - misses[:, :-40]
    needed = np.array([clean_needed(k, bar) for k in range(int(recent.max()) + 1)])
    share = ((40 - recent) >= needed[recent]).any(axis=1).mean()
    assert share > 0.2
