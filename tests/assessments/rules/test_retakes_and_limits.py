"""Why sitting again does not help: the figures of that page, and exact limits of a fixed number."""

from fractions import Fraction
from itertools import product
from math import log

import pytest

from assessments.rules.intervals import exact_interval, exact_upper_limit, fixed_number, rule_of_three
from assessments.rules.mixture import mixture_log_e
from assessments.rules.planning import time_to_pass
from assessments.rules.retakes import best_of_attempts, clean_run_somewhere, two_boundary_test
from assessments.rules.standard import SideBar


@pytest.mark.parametrize(
    ("rate", "items", "percent"),
    [
        (0.20, 11, {1: 8.6, 2: 16, 3: 24, 5: 36, 10: 59, 20: 83, 50: 99}),
        (0.10, 29, {1: 4.7, 2: 9, 3: 13, 5: 21, 10: 38, 20: 62, 50: 91}),
    ],
)
def test_the_best_of_many_attempts_passes_somebody_at_the_limit(rate, items, percent):
    for attempts, expected in percent.items():
        found = 100 * best_of_attempts(rate, items, attempts)
        assert found == pytest.approx(expected, abs=0.05 if attempts == 1 else 0.5)


def test_the_same_person_under_the_running_rule_stays_below_alpha_for_ever():
    assert time_to_pass(0.20, SideBar.of("0.20", 10, "0.10"), horizon=1500).probability == pytest.approx(
        0.088, abs=5e-4
    )
    assert time_to_pass(0.10, SideBar.of("0.10", 10, "0.05"), horizon=1500).probability == pytest.approx(
        0.048, abs=5e-4
    )


@pytest.mark.parametrize(("items", "percent"), [(50, 61), (200, 99)])
def test_a_clean_run_of_eleven_turns_up_sooner_or_later(items, percent):
    run = clean_run_somewhere(0.20, 11, items)
    assert 100 * run.probability == pytest.approx(percent, abs=0.5)
    assert run.mean_wait == pytest.approx(53, abs=0.5)


def test_short_sequences_agree_with_listing_all_of_them():
    share, run, items = 0.3, 3, 7
    chance = 0.0
    for sequence in product((True, False), repeat=items):
        if any(all(sequence[start : start + run]) for start in range(items - run + 1)):
            clean = sum(sequence)
            chance += (1 - share) ** clean * share ** (items - clean)
    assert clean_run_somewhere(share, run, items).probability == pytest.approx(chance)


def test_runs_at_the_ends_of_the_range():
    assert clean_run_somewhere(0.0, 4, 4) == clean_run_somewhere(0.0, 4, 9)
    assert (clean_run_somewhere(0.0, 4, 3).probability, clean_run_somewhere(0.0, 4, 3).mean_wait) == (0, 4)
    assert (clean_run_somewhere(1.0, 4, 50).probability, clean_run_somewhere(1.0, 4, 50).mean_wait) == (
        0,
        float("inf"),
    )
    assert clean_run_somewhere(0.5, 1, 1).probability == 0.5
    assert clean_run_somewhere(0.5, 1, 0).probability == 0


def test_attempts_at_the_ends_of_the_range():
    assert best_of_attempts(0.2, 11, 0) == 0
    assert best_of_attempts(0.0, 11, 1) == 1
    assert best_of_attempts(1.0, 1, 99) == 0


@pytest.mark.parametrize(
    ("p_max", "confidence", "numbers"),
    [
        ("0.20", "0.90", [11, 18, 25, 32]),
        ("0.10", "0.95", [29, 46, 61, 76]),
        ("0.10", "0.90", [22]),
        ("0.05", "0.95", [59, 93, 124, 153, 181, 208]),
    ],
)
def test_so_many_items_fixed_beforehand_with_so_many_misses(p_max, confidence, numbers):
    assert [fixed_number(p_max, confidence, misses) for misses in range(len(numbers))] == numbers


def test_the_fixed_number_is_exact_at_the_edge():
    """(1/2)^3 is 1/8 exactly, so three are enough at 7/8 and not a hair beyond."""
    assert fixed_number(Fraction(1, 2), Fraction(7, 8)) == 3
    assert fixed_number(Fraction(1, 2), Fraction(7, 8) + Fraction(1, 10**15)) == 4
    assert fixed_number(Fraction(1, 2), Fraction(1, 2), 0) == 1
    assert fixed_number(Fraction(9, 10), Fraction(1, 100), 2) == 3


def test_nine_of_twelve_is_a_wide_interval():
    found = exact_interval(9, 12)
    assert (round(found.lower, 2), round(found.upper, 2)) == (0.43, 0.95)


def test_the_ends_of_the_interval_are_set_by_hand():
    assert exact_interval(0, 12).lower == 0
    assert exact_interval(12, 12).upper == 1
    assert exact_upper_limit(12, 12) == 1


def test_the_strict_levels_that_others_got_wrong_are_right():
    """7 of 50 at 95 %, and 0 of 1000 at a level so strict that a bound from the wrong tail shows."""
    found = exact_interval(7, 50)
    assert (found.lower, found.upper) == (
        pytest.approx(0.0581917, abs=1e-7),
        pytest.approx(0.2673960, abs=1e-7),
    )
    assert exact_upper_limit(0, 1000, 1 - 1e-12) == pytest.approx(1 - 1e-12 ** (1 / 1000), rel=1e-4)


def test_three_in_a_thousand_is_the_rule_of_three():
    assert (rule_of_three(1000), rule_of_three(1)) == (0.003, 3)
    assert rule_of_three(30) == pytest.approx(exact_upper_limit(0, 30), abs=0.005)


@pytest.mark.parametrize(
    "figures",
    [
        (-1, 0, 0.2, 1, 1),
        (0, -1, 0.2, 1, 1),
        (0, 0, 0.0, 1, 1),
        (0, 0, 1.0, 1, 1),
        (0, 0, 0.2, 0, 1),
        (0, 0, 0.2, 1, 0),
    ],
)
def test_a_mixture_over_nothing_is_refused(figures):
    with pytest.raises(ValueError, match="Counts of 0 or more"):
        mixture_log_e(*figures)


@pytest.mark.parametrize(("limit", "a", "needed"), [(0.2, 1, (16, 26)), (0.2, 0.5, (14, 26)), (0.1, 1, (43, 65))])
def test_a_mixture_asks_for_a_little_more_without_a_miss(limit, a, needed):
    """Beside the rule's 12/23 and 32/56: uniform p1 below the limit, or Beta(1/2, 1/2)."""
    goal = log(10 if limit == 0.2 else 20)
    found = tuple(next(n for n in range(200) if mixture_log_e(n, misses, limit, a, a) >= goal) for misses in (0, 1))
    assert found == needed
    assert mixture_log_e(0, 0, limit, a, a) == pytest.approx(0)


def test_what_is_refused_says_what_it_should_have_been():
    with pytest.raises(ValueError, match="0 < p0 < p1 < 1"):
        two_boundary_test(0.0, 0.2, 0.1, 0.1)
    with pytest.raises(ValueError, match="0 < p0 < p1 < 1"):
        two_boundary_test(0.1, 1.0, 0.1, 0.1)


def test_two_boundaries_part_at_their_intercepts():
    test = two_boundary_test(0.02, 0.2, 0.05, 0.1)
    assert (test.upper, test.lower) == (18, pytest.approx(0.1 / 0.95))
    assert test.slope == pytest.approx(0.081, abs=5e-4)


@pytest.mark.parametrize(
    "call",
    [
        lambda: exact_interval(5, 4),
        lambda: exact_interval(-1, 4),
        lambda: exact_interval(0, 0),
        lambda: exact_upper_limit(1, 4, 1),
        lambda: exact_upper_limit(1, 4, 0),
        lambda: rule_of_three(0),
        lambda: fixed_number(0, "0.9"),
        lambda: fixed_number("0.1", 1),
        lambda: fixed_number("0.1", "0.9", -1),
        lambda: best_of_attempts(1.1, 11, 1),
        lambda: best_of_attempts(0.1, 0, 1),
        lambda: best_of_attempts(0.1, 1, -1),
        lambda: clean_run_somewhere(-0.1, 1, 1),
        lambda: clean_run_somewhere(0.1, 0, 1),
        lambda: two_boundary_test(0.2, 0.2, 0.1, 0.1),
        lambda: two_boundary_test(0.0, 0.2, 0.1, 0.1),
        lambda: two_boundary_test(0.1, 1.0, 0.1, 0.1),
        lambda: two_boundary_test(0.1, 0.2, 0.5, 0.5),
        lambda: two_boundary_test(0.1, 0.2, 0.0, 0.5),
        lambda: two_boundary_test(0.1, 0.2, 0.5, 0.0),
    ],
)
def test_what_makes_no_sense_is_refused(call):
    with pytest.raises(ValueError, match=r"."):
        call()
