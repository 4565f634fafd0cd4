"""Published tables and worked examples, each with its source. "From memory" means that the page was not opened.

More of them stand in ``scoring_vectors.json`` with their sources: iris (Fisher 1936), mushrooms (Duch et al. 1996),
the LSAT-6 answers (Bock & Lieberman 1970), Bonett's standard error, the NIST example of Wald's test.
"""

from fractions import Fraction

import pytest

from assessments.rules.detection import PairDetection, detection_from_rates
from assessments.rules.intervals import exact_interval, exact_upper_limit, fixed_number, rule_of_three
from assessments.rules.items import discrimination_interval, reliability_limits
from assessments.rules.planning import time_to_pass
from assessments.rules.retakes import best_of_attempts, clean_run_somewhere, two_boundary_test
from assessments.rules.standard import SideBar


@pytest.mark.parametrize(("misses", "n"), [(0, 59), (1, 93), (2, 124), (3, 153), (4, 181), (5, 208)])
def test_sample_sizes_for_95_of_95_percent(misses, n):
    """Wilks 1941, one-sided 95/95 by order statistics, as reprinted in reactor safety; quoted in public test suites."""
    assert fixed_number("0.05", "0.95", misses) == n


@pytest.mark.parametrize(
    ("misses", "n", "lower", "upper"),
    [(81, 263, 0.2527, 0.3676), (15, 148, 0.0578, 0.1617), (0, 20, 0, 0.1684), (1, 29, 0.0009, 0.1776)],
)
def test_exact_limits_to_four_decimals(misses, n, lower, upper):
    """Newcombe 1998, Stat. Med. 17:857, table I, method 5 (exact); as quoted in public test suites."""
    found = exact_interval(misses, n)
    assert (round(found.lower, 4), round(found.upper, 4)) == (lower, upper)


@pytest.mark.parametrize(
    ("reliability", "confidence", "n"),
    [("0.9", "0.9", 22), ("0.95", "0.95", 59), ("0.9", "0.95", 29), ("0.99", "0.95", 299), ("0.99", "0.9", 230)],
)
def test_the_success_run(reliability, confidence, n):
    """Success-run theorem n = ln(1-C)/ln(R), as in common tables of reliability testing (from memory)."""
    assert fixed_number(1 - Fraction(reliability), confidence) == n


def test_none_of_fifteen_hundred_is_less_than_one_in_five_hundred():
    """Worked example of the rule of three (Hanley & Lippman-Hand 1983; from memory)."""
    assert rule_of_three(1500) == 1 / 500
    assert exact_upper_limit(0, 1500) < 1 / 500


def test_walds_plan_for_one_in_a_hundred_against_one_in_ten():
    """NIST/SEMATECH e-Handbook 6.2.6, p0 0.01, p1 0.10, alpha 0.05, beta 0.10 (from memory)."""
    test = two_boundary_test(0.01, 0.10, 0.05, 0.10)
    figures = test.accept_intercept, test.reject_intercept, test.slope
    assert tuple(round(figure, 3) for figure in figures) == (0.939, 1.205, 0.040)


def test_waits_for_runs_of_heads():
    """Feller 1968, vol. 1, ch. XIII: a fair coin waits 2(2^r - 1) throws for r heads in a row (from memory)."""
    assert [clean_run_somewhere(0.5, run, 1).mean_wait for run in (1, 2, 3, 10)] == [2, 6, 14, 2046]


@pytest.mark.parametrize(
    ("hit_rate", "false_alarm_rate", "d_prime"), [(0.84, 0.16, 1.99), (0.69, 0.31, 0.99), (0.5, 0.5, 0.0)]
)
def test_d_prime_of_round_rates(hit_rate, false_alarm_rate, d_prime):
    """Values of z as in the tables of Macmillan & Creelman 2005 (from memory)."""
    assert detection_from_rates(hit_rate, false_alarm_rate).d_prime == pytest.approx(d_prime, abs=0.005)


@pytest.mark.parametrize(("clean", "share"), [(3, 54), (4, 44), (5, 37), (8, 25), (13, 16)])
def test_what_a_few_clean_specimens_exclude_at_ninety_percent(clean, share):
    """The project's account of the decision rule, section on what is counted: 1 - 0.1^(1/m)."""
    assert round(100 * exact_upper_limit(0, clean, 0.9)) == share


@pytest.mark.parametrize(
    ("limit", "alpha", "ratio", "rates"),
    [
        ("0.2", "0.1", 20, {0: (11, None), 0.01: (12.9, None), 0.02: (15.7, None), 0.2: (13, 9.6)}),
        ("0.2", "0.1", 10, {0.01: (13.7, None), 0.02: (15.9, None), 0.05: (31.2, None), 0.2: (16, 8.8)}),
        ("0.2", "0.1", 5, {0.01: (14.4, None), 0.02: (16.2, None), 0.05: (25.7, None), 0.2: (21, 9.2)}),
        ("0.2", "0.1", 4, {0.01: (15.4, None), 0.02: (17.1, None), 0.05: (25.5, None), 0.2: (26, 9.1)}),
        ("0.1", "0.05", 10, {0.01: (42.7, None), 0.02: (64.2, None), 0.1: (43, 4.8), 0.05: (134, 53)}),
        ("0.1", "0.05", 5, {0.01: (44.9, None), 0.02: (59.5, None), 0.1: (60, 4.7), 0.05: (241, 84)}),
    ],
)
def test_mean_specimens_and_chance_ever_to_pass_of_the_alternatives(limit, alpha, ratio, rates):
    """The project's account of the decision rule, comparison of ratios: exact recursion over 1500 specimens."""
    for rate, (mean, ever) in rates.items():
        found = time_to_pass(rate, SideBar.of(limit, ratio, alpha), horizon=1500)
        assert found.mean == pytest.approx(mean, abs=0.05 if mean != round(mean) else 0.5)
        if ever is None:
            assert found.probability > 0.998
        else:
            assert 100 * found.probability == pytest.approx(ever, abs=0.05 if ever < 10 else 0.5)


@pytest.mark.parametrize(("rate", "fixed", "percent"), [(0.2, 11, (8.6, 59)), (0.1, 29, (4.7, 38))])
def test_the_fixed_number_at_the_limit_once_and_ten_times(rate, fixed, percent):
    """The project's account of the decision rule, why not the fixed number."""
    once, ten = (100 * best_of_attempts(rate, fixed, attempts) for attempts in (1, 10))
    assert (round(once, 1), round(ten)) == percent


@pytest.mark.parametrize(
    ("persons", "lower", "upper"), [(8, -0.51, 0.83), (10, -0.41, 0.78), (12, -0.33, 0.75), (15, -0.25, 0.70)]
)
def test_a_correlation_of_three_tenths_in_small_classes(persons, lower, upper):
    """Fisher's z with error 1/sqrt(n-3), textbook formula (from memory); figures of the project's account."""
    found = discrimination_interval(0.30, persons)
    assert found is not None
    assert (round(found.lower, 2), round(found.upper, 2)) == (lower, upper)


def test_the_interval_of_a_reliability():
    """Feldt 1965 (formula as quoted in two places), 0.70 from 40 questions and 12 people; Bonett's error 2002."""
    found = reliability_limits(0.70, 40, 12)
    assert (round(found.interval.lower, 2), round(found.interval.upper, 2)) == (0.39, 0.90)
    error = reliability_limits(0.85, 7, 89).standard_error
    assert error == pytest.approx(0.02456518, abs=5e-9)  # documented example of the R package statpsych


@pytest.mark.parametrize(
    ("counts", "figures"),
    [
        ((13, 13, 0, 5), (3.19, -0.21, 1.04)),
        ((13, 13, 5, 5), (0.42, -1.59, 1.04)),
        ((12, 13, 2, 5), (1.45, -0.52, 0.73)),
    ],
)
def test_careful_and_able_to_tell(counts, figures):
    """Log-linear correction of Hautus 1995, error of Gourevitch & Galanter 1967; figures of the project's account."""
    found = PairDetection(*counts)
    assert found.standard_error is not None
    shown = found.detection.d_prime, found.detection.criterion, found.standard_error
    assert tuple(round(figure, 2) for figure in shown) == figures
