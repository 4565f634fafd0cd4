"""General libraries as a second opinion on random input: scipy, statsmodels, scikit-learn and Python itself.

None of them knows this job; each knows one piece of the mathematics.
"""

from fractions import Fraction
from math import exp, log
from statistics import NormalDist

import numpy as np
import pytest
from scipy import stats
from sklearn.metrics import brier_score_loss  # type: ignore[import-untyped]
from statsmodels.stats.proportion import proportion_confint  # type: ignore[import-untyped]

from assessments.rules.confidence import ODDS, calibration
from assessments.rules.detection import PairDetection
from assessments.rules.evalue import anytime_upper_limit, clean_needed, log_e
from assessments.rules.evidence import Confidence
from assessments.rules.intervals import exact_interval, exact_upper_limit, fixed_number
from assessments.rules.items import (
    discrimination_interval,
    discriminations,
    reliability,
    responses_from,
    rest_scores,
)
from assessments.rules.planning import time_to_pass
from assessments.rules.retakes import best_of_attempts
from assessments.rules.standard import SideBar
from species.rules.errors import best_cut

CHANCE = np.random.default_rng(20310401)
COUNTS = [(int(CHANCE.integers(0, n + 1)), n) for n in (1, 2, 5, 9, 12, 15, 40, 61, 200)]
BARS = [SideBar.of(p, c, a) for p in ("0.05", "0.2", "0.5") for c in (3, 10) for a in ("0.01", "0.1")]


@pytest.mark.parametrize(("misses", "n"), COUNTS)
@pytest.mark.parametrize("level", [0.8, 0.95, 0.999])
def test_exact_intervals_as_in_statsmodels_and_scipy(misses, n, level):
    found = exact_interval(misses, n, level)
    lower, upper = proportion_confint(misses, n, 1 - level, method="beta")
    assert (found.lower, found.upper) == (pytest.approx(np.nan_to_num(lower)), pytest.approx(upper))
    one_sided = stats.binomtest(misses, n, alternative="less").proportion_ci(level, "exact").high
    assert exact_upper_limit(misses, n, level) == pytest.approx(one_sided)


@pytest.mark.parametrize("misses", [0, 1, 3, 8])
@pytest.mark.parametrize("share", ["0.03", "0.2", "0.41"])
def test_fixed_numbers_as_by_the_binomial_distribution(misses, share):
    n = fixed_number(share, "0.9", misses)
    assert stats.binom.cdf(misses, n, float(share)) <= 0.1 < stats.binom.cdf(misses, n - 1, float(share))


@pytest.mark.parametrize("bar", BARS)
@pytest.mark.parametrize(("clean", "misses"), [(0, 0), (7, 0), (12, 3), (90, 7)])
def test_the_e_value_is_a_ratio_of_binomial_likelihoods(bar, clean, misses):
    chances = [stats.binom.logpmf(misses, clean + misses, float(p)) for p in (bar.expected, bar.limit)]
    assert log_e(clean, misses, bar) == pytest.approx(chances[0] - chances[1], abs=1e-9)


@pytest.mark.parametrize("bar", BARS)
@pytest.mark.parametrize("misses", [0, 1, 4])
def test_the_needed_number_is_where_the_likelihoods_cross_the_threshold(bar, misses):
    def ratio(clean):
        found = [stats.binom.logpmf(misses, clean + misses, float(p)) for p in (bar.expected, bar.limit)]
        return found[0] - found[1]

    needed = clean_needed(misses, bar)
    assert ratio(needed) >= log(1 / bar.alpha) - 1e-9 > ratio(needed - 1) - 1e-9


@pytest.mark.parametrize(("clean", "misses"), [(3, 0), (13, 0), (24, 1), (60, 5)])
def test_the_upper_limit_is_the_share_at_which_e_reaches_the_threshold(clean, misses):
    """The e-value with p1 = p/ratio at the limit itself is 1/alpha: the equation that defines it."""
    ratio, alpha = 10, Fraction(1, 10)
    limit = anytime_upper_limit(clean, misses, alpha, Fraction(ratio))
    chances = [stats.binom.logpmf(misses, clean + misses, p) for p in (limit / ratio, limit)]
    assert exp(chances[0] - chances[1]) == pytest.approx(10)


@pytest.mark.parametrize("rate", [0.0, 0.03, 0.2, 0.6])
def test_the_recursion_agrees_with_following_every_path(rate):
    """Twelve items, listed path by path through the binomial counts between the moments of passing."""
    bar = SideBar.of("0.5", 5, "0.1")
    chance = {0: 1.0}
    passed = 0.0
    for n in range(1, 13):
        after: dict[int, float] = {}
        for misses, share in chance.items():
            for more, factor in ((0, 1 - rate), (1, rate)):
                after[misses + more] = after.get(misses + more, 0.0) + share * factor
        for misses in [k for k in after if n - k >= clean_needed(k, bar)]:
            passed += after.pop(misses)
        chance = after
    assert time_to_pass(rate, bar, horizon=12).probability == pytest.approx(passed)


@pytest.mark.parametrize(("rate", "items", "attempts"), [(0.2, 11, 10), (0.1, 29, 3), (0.5, 2, 7)])
def test_the_best_of_many_attempts_is_a_geometric_distribution(rate, items, attempts):
    expected = stats.geom.cdf(attempts, stats.binom.pmf(0, items, rate))
    assert best_of_attempts(rate, items, attempts) == pytest.approx(expected)


@pytest.mark.parametrize("persons", [6, 12, 40])
def test_discriminations_as_pearson_correlations(persons):
    table = responses_from((CHANCE.random((persons, 9)) < CHANCE.random(9)).astype(int))
    rest = rest_scores(table)
    for question, found in enumerate(discriminations(table)):
        if found is not None:
            expected = stats.pearsonr(table[:, question], rest[:, question])
            assert found == pytest.approx(expected.statistic)
            interval, limits = discrimination_interval(found, persons), expected.confidence_interval(0.95)
            assert interval is not None
            assert (interval.lower, interval.upper) == (pytest.approx(limits.low), pytest.approx(limits.high))


@pytest.mark.parametrize("persons", [6, 12, 40])
def test_reliability_as_alpha_from_the_covariances(persons):
    """Cronbach's alpha on right and wrong is KR-20; here from numpy's covariance matrix."""
    table = responses_from((CHANCE.random((persons, 9)) < 0.6).astype(int))
    covariances = np.cov(table.T)
    alpha = 9 / 8 * (1 - np.trace(covariances) / covariances.sum())
    assert reliability(table) == pytest.approx(alpha)


def test_the_brier_score_and_its_parts_as_in_scikit_learn():
    """The parts by recalibrated and constant forecasts (Siegert 2017)."""
    levels = list(Confidence)
    said = [levels[k] for k in CHANCE.integers(0, 3, 60)]
    right = [bool(CHANCE.random() < 0.7) for _ in said]
    stated = [ODDS[level] for level in said]
    shares = {v: np.mean([ok for level, ok in zip(said, right, strict=True) if level == v]) for v in set(said)}
    recalibrated = [shares[level] for level in said]
    constant = [np.mean(right)] * len(right)
    score, best, flat = (brier_score_loss(right, f) for f in (stated, recalibrated, constant))
    found = calibration(said, right)
    assert found is not None
    assert found.brier == pytest.approx(score)
    assert found.reliability == pytest.approx(score - best)
    assert found.resolution == pytest.approx(flat - best)
    assert found.uncertainty == pytest.approx(flat)


@pytest.mark.parametrize("counts", [(3, 9, 2, 7), (9, 9, 0, 7), (20, 31, 30, 44)])
def test_d_prime_as_by_the_standard_librarys_normal_distribution(counts):
    refused, shown, wrongly, edible = counts
    z = NormalDist().inv_cdf
    hits, alarms = z((refused + 0.5) / (shown + 1)), z((wrongly + 0.5) / (edible + 1))
    found = PairDetection(*counts).detection
    assert (found.d_prime, found.criterion) == (
        pytest.approx(hits - alarms),
        pytest.approx(-(hits + alarms) / 2),
    )


@pytest.mark.parametrize("sizes", [(8, 8), (30, 11), (1, 20)])
def test_the_best_cut_as_the_kolmogorov_smirnov_distance(sizes):
    one, other = (np.round(CHANCE.normal(m, 1, n), 1).tolist() for m, n in zip((0, 1), sizes, strict=True))
    assert best_cut(one, other).youden == pytest.approx(stats.ks_2samp(one, other).statistic)
