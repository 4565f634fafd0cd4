"""The bench of the standings still runs, and measures what it says; how long it takes is nobody's test."""

import numpy as np

from assessments.rules.columns import Said

from . import standings as bench


def test_the_made_up_school_is_counted_in_full():
    school = bench.made_up_school(people=6, answers=400)
    result = bench.rebuilt(school)
    decided = result.counts.clean + result.counts.misses
    assert decided.shape == (6, bench.LEDGERS, 3)
    assert 0 < decided[:, :, 0].sum() <= np.count_nonzero(school.answers.said > Said.NEUTRAL)
    assert (result.stages.misses.sum(axis=3) == result.counts.misses).all()


def test_later_windows_hold_less():
    result = bench.rebuilt(bench.made_up_school(people=6, answers=400))
    held = (result.counts.clean + result.counts.misses + result.counts.neutral).sum(axis=(0, 1))
    assert held[0] > held[1] > held[2] > 0


def test_the_floor_counts_every_row_once():
    assert bench.floor(bench.made_up_school(people=5, answers=300).answers).sum() == 300


def test_rebuilding_and_floor_are_both_measured():
    above, below, ratio = bench.rebuilding_against_floor(people=4, answers=200, rounds=2)
    assert min(above, below, ratio) > 0


def test_one_answer_more_is_measured_after_every_history():
    costs = bench.appending((5, 50), rounds=2, appended=4)
    assert list(costs) == [5, 50]
    assert min(costs.values()) > 0
