"""Other roads to the figures of planning, items, retakes and practice: simulation, quadrature, root finding, chains.

scipy, numpy and Python's own statistics as the second opinion; inputs at random from a seed.
"""

from math import log, sqrt
from statistics import NormalDist

import numpy as np
import pytest
from scipy import integrate, optimize, stats

from assessments.rules.detection import PairDetection
from assessments.rules.evalue import clean_needed
from assessments.rules.items import reliability_limits, shrunken_share
from assessments.rules.mixture import mixture_log_e
from assessments.rules.planning import all_within, bank_size, time_to_pass
from assessments.rules.practice import Outcome, days_until_due, next_half_life, recall
from assessments.rules.retakes import clean_run_somewhere, two_boundary_test
from assessments.rules.standard import PARTICIPANT, WALK_LEADER

CHANCE = np.random.default_rng(20310402)
PEOPLE = 20_000
FIRST = PARTICIPANT.window_weights[0]


def passing_times(rate, bar, specimens):
    """For each simulated person the specimen with which they passed; beyond the last where they did not."""
    missed = CHANCE.random((PEOPLE, specimens)) < rate
    misses = np.cumsum(missed, axis=1)
    needed = np.array([clean_needed(k, bar, FIRST) for k in range(specimens + 1)])
    passed = np.arange(1, specimens + 1) - misses >= needed[misses]
    return np.where(passed.any(axis=1), passed.argmax(axis=1) + 1, specimens + 1)


@pytest.mark.parametrize(("bars", "rate"), [(PARTICIPANT, 0.02), (PARTICIPANT, 0.2), (WALK_LEADER, 0.01)])
def test_chance_mean_and_quantiles_to_pass_as_simulated(bars, rate):
    times, exact = passing_times(rate, bars.dangerous, 150), time_to_pass(rate, bars.dangerous, FIRST, 150)
    for specimens in (25, 60, 150):
        error = sqrt(exact.within(specimens) * (1 - exact.within(specimens)) / PEOPLE)
        assert (times <= specimens).mean() == pytest.approx(exact.within(specimens), abs=4.5 * error + 1e-9)
    those = times[times <= 150]
    assert those.mean() == pytest.approx(exact.mean, abs=4.5 * those.std() / sqrt(len(those)))
    for share in (0.5, 0.9):
        reached, error = exact.quantile(share), 4.5 * sqrt(share * (1 - share) / PEOPLE)
        if reached is not None:
            assert (times <= reached).mean() > share - error
            assert (times <= reached - 1).mean() < share + error


def test_the_bank_is_large_enough_for_so_many_simulated_people_and_one_less_is_not():
    size = bank_size(0.01, PARTICIPANT.dangerous, FIRST, species=6, target=0.9, horizon=150)
    assert size is not None
    slowest = np.max([passing_times(0.01, PARTICIPANT.dangerous, 150) for _ in range(6)], axis=0)
    assert (slowest <= size).mean() >= 0.9 > (slowest <= size - 1).mean()
    one = time_to_pass(0.01, PARTICIPANT.dangerous, FIRST, 150).within(size)
    assert (slowest <= size).mean() == pytest.approx(all_within([one] * 6), abs=0.01)


@pytest.mark.parametrize(("rate", "run", "items"), [(0.2, 11, 50), (0.05, 4, 9), (0.7, 2, 30)])
def test_a_clean_run_as_a_markov_chain(rate, run, items):
    """States are the length of the run so far, the last one absorbing: numpy's power of the matrix."""
    step = np.zeros((run + 1, run + 1))
    step[:run, 0] = rate
    step[np.arange(run), np.arange(1, run + 1)] = 1 - rate
    step[run, run] = 1
    found = clean_run_somewhere(rate, run, items)
    assert found.probability == pytest.approx(np.linalg.matrix_power(step, items)[0, run])
    waits = np.linalg.solve(np.eye(run) - step[:run, :run], np.ones(run))
    assert found.mean_wait == pytest.approx(waits[0])


@pytest.mark.parametrize(("p0", "p1", "alpha", "beta"), [(0.02, 0.2, 0.05, 0.1), (0.3, 0.6, 0.01, 0.2)])
def test_on_walds_lines_the_ratio_of_binomial_likelihoods_is_at_its_boundaries(p0, p1, alpha, beta):
    test = two_boundary_test(p0, p1, alpha, beta)
    for n in (7, 40, 111):
        for misses, boundary in (
            (test.reject_intercept + test.slope * n, test.upper),
            (-test.accept_intercept + test.slope * n, test.lower),
        ):
            ratio = misses * log(p1 / p0) + (n - misses) * log((1 - p1) / (1 - p0))
            assert ratio == pytest.approx(log(boundary))


@pytest.mark.parametrize(("clean", "misses"), [(0, 0), (13, 0), (24, 1), (3, 9)])
@pytest.mark.parametrize(("limit", "a", "b"), [(0.2, 1, 1), (0.1, 0.5, 0.5), (0.3, 2, 5)])
def test_the_mixture_as_an_integral_over_p1(clean, misses, limit, a, b):
    """The e-value of every p1 below the limit, weighed by the cut-off beta density: scipy's quadrature."""

    def weighed(p1):
        return (p1 / limit) ** misses * ((1 - p1) / (1 - limit)) ** clean * stats.beta.pdf(p1, a, b)

    whole = integrate.quad(weighed, 0, limit, limit=200)[0] / stats.beta.cdf(limit, a, b)
    assert mixture_log_e(clean, misses, limit, a, b) == pytest.approx(log(whole), abs=1e-6)


@pytest.mark.parametrize(("correct", "n", "mean", "strength"), [(9, 12, 0.7, 4), (0, 8, 0.5, 2.5), (15, 15, 0.9, 10)])
def test_the_shrunken_share_is_the_mean_of_a_beta_posterior(correct, n, mean, strength):
    a, b = mean * strength + correct, (1 - mean) * strength + n - correct
    assert shrunken_share(correct, n, mean, strength) == pytest.approx(stats.beta.mean(a, b))


@pytest.mark.parametrize(("persons", "questions"), [(12, 40), (40, 9)])
def test_the_reliability_interval_covers_as_often_as_it_says(persons, questions):
    """Normal persons by questions with a true alpha: Feldt's interval is exact there (Feldt 1965). Simulated."""
    true = 0.7
    spread = true / (1 - true) / questions
    covered = 0
    for _ in range(2_000):
        scores = CHANCE.normal(0, sqrt(spread), (persons, 1)) + CHANCE.normal(0, 1, (persons, questions))
        covariances = np.cov(scores.T)
        found = questions / (questions - 1) * (1 - np.trace(covariances) / covariances.sum())
        interval = reliability_limits(found, questions, persons, 0.9).interval
        covered += interval.lower <= true <= interval.upper
    assert covered / 2_000 == pytest.approx(0.9, abs=0.025)


@pytest.mark.parametrize("counts", [(13, 13, 0, 5), (12, 13, 2, 5), (30, 40, 7, 50)])
def test_the_error_of_d_prime_by_the_slope_of_the_quantile(counts):
    """Delta method with a slope taken numerically from Python's own normal distribution."""
    z, step, found = NormalDist().inv_cdf, 1e-6, PairDetection(*counts)
    rates = found.detection.hit_rate, found.detection.false_alarm_rate
    slopes = [(z(rate + step) - z(rate - step)) / (2 * step) for rate in rates]
    shown = found.dangerous_shown, found.edible_shown
    parts = [s**2 * r * (1 - r) / n for s, r, n in zip(slopes, rates, shown, strict=True)]
    assert found.standard_error == pytest.approx(sqrt(sum(parts)), rel=1e-6)


@pytest.mark.parametrize("half_life", [0.5, 1, 7.3, 180])
def test_due_when_recall_has_fallen_to_seven_tenths_by_root_finding(half_life):
    root = optimize.brentq(lambda days: recall(half_life, days) - 0.7, 0, 10 * half_life)
    assert days_until_due(half_life) == pytest.approx(root)


def test_answering_when_due_makes_the_gaps_grow_as_they_are_printed():
    """0.5, 0.9, 1.6, 2.8, 4.9, 8.7, 15 days: the project's account of the rule; choices, no source."""
    half_life, gaps = 1.0, []
    for _ in range(7):
        gaps.append(days_until_due(half_life))
        half_life = next_half_life(half_life, gaps[-1], Outcome.RIGHT)
    assert [round(gap, 1) for gap in gaps[:6]] == [0.5, 0.9, 1.6, 2.8, 4.9, 8.7]
    assert round(gaps[6]) == 15
