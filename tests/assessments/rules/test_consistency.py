"""The decision near the cut: by the rule's own operating characteristic, and by made-up people beside it."""

import pytest

from assessments.rules.consistency import cut_lines, simulated_passes
from assessments.rules.planning import time_to_pass
from assessments.rules.standard import PARTICIPANT, WALK_LEADER

BARS = [PARTICIPANT, WALK_LEADER]


@pytest.mark.parametrize("bars", BARS)
def test_a_wrong_pass_stays_below_alpha_and_falls_with_the_rate(bars):
    lines = cut_lines(bars.dangerous, bars.window_weights[0], specimens=200)
    over = [line for line in lines if line.is_over]
    assert over[0].rate == float(bars.dangerous.limit)
    assert all(line.wrong <= float(bars.dangerous.alpha) for line in over)
    assert [line.passes for line in lines] == sorted((line.passes for line in lines), reverse=True)


def test_whoever_never_misses_is_decided_alike_every_time():
    perfect = cut_lines(PARTICIPANT.dangerous, PARTICIPANT.window_weights[0], specimens=13)[0]
    assert (perfect.rate, perfect.passes, perfect.wrong, perfect.consistency) == (0.0, 1.0, 0.0, 1.0)


def test_consistency_is_lowest_where_a_pass_is_as_likely_as_not():
    lines = cut_lines(PARTICIPANT.dangerous, PARTICIPANT.window_weights[0], specimens=13)
    assert all(0.5 <= line.consistency <= 1 for line in lines)
    nearest = min(lines, key=lambda line: abs(line.passes - 0.5))
    assert min(line.consistency for line in lines) == nearest.consistency


@pytest.mark.parametrize("bars", BARS)
def test_made_up_people_pass_as_often_as_the_recursion_says(bars):
    """Within four standard errors of the exact chance; the seed is fixed."""
    made = simulated_passes(bars.dangerous, bars.window_weights, people=4000, specimens=200, seed=7)
    chance = time_to_pass(float(bars.dangerous.limit), bars.dangerous, bars.window_weights[0], 200).probability
    error = (chance * (1 - chance) / made.people) ** 0.5
    assert abs(made.passed / made.people - chance) < 4 * error


def test_the_same_seed_gives_the_same_people():
    once, again = (
        simulated_passes(PARTICIPANT.dangerous, PARTICIPANT.window_weights, people=50, specimens=60, seed=3)
        for _turn in range(2)
    )
    assert once == again


@pytest.mark.parametrize(("people", "specimens"), [(0, 5), (5, 0)])
def test_nobody_and_nothing_cannot_be_simulated(people, specimens):
    with pytest.raises(ValueError, match="At least one"):
        simulated_passes(PARTICIPANT.dangerous, PARTICIPANT.window_weights, people=people, specimens=specimens, seed=1)
