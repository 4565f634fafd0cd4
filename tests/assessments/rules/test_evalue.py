"""The e-value and the whole numbers that decide, against the tables of the decision rule."""

from fractions import Fraction
from math import exp, inf, log

import pytest

from assessments.rules.evalue import (
    anytime_upper_limit,
    clean_needed,
    clean_needed_for,
    drift,
    e_value,
    exponential,
    is_passed,
    log_e,
    log_likelihood_ratio,
    miss_cost,
    still_needed,
    threshold,
)
from assessments.rules.standard import PARTICIPANT, WALK_LEADER, SideBar

FIRST, LATER, WHOLE = Fraction(8, 10), Fraction(1, 10), Fraction(1)


@pytest.mark.parametrize(
    ("bar", "weight", "needed"),
    [
        (PARTICIPANT.dangerous, FIRST, [13, 24, 36, 47]),
        (WALK_LEADER.dangerous, FIRST, [34, 58, 83, 107]),
        (PARTICIPANT.dangerous, WHOLE, [12, 23, 35, 46]),
        (WALK_LEADER.dangerous, WHOLE, [32, 56, 80, 104]),
        (PARTICIPANT.edible, FIRST, [5, 8, 10]),
        (WALK_LEADER.edible, FIRST, [11, 17, 22]),
        (PARTICIPANT.dangerous, LATER, [23]),
        (WALK_LEADER.dangerous, LATER, [56]),
    ],
)
def test_so_many_clean_specimens_are_needed_with_so_many_misses(bar, weight, needed):
    assert [clean_needed(misses, bar, weight) for misses in range(len(needed))] == needed


@pytest.mark.parametrize(
    ("alpha", "row"),
    [
        ("0.10", [(8, 15), (9, 18), (12, 23), (16, 32), (25, 49), (50, 100)]),
        ("0.05", [(10, 17), (12, 21), (15, 27), (21, 36), (32, 56), (65, 115)]),
        ("0.01", [(15, 22), (18, 27), (23, 35), (32, 47), (49, 73), (100, 150)]),
    ],
)
def test_other_limits_and_alphas_need_what_the_table_says(alpha, row):
    limits = ["0.30", "0.25", "0.20", "0.15", "0.10", "0.05"]
    bars = [SideBar.of(limit, 10, alpha) for limit in limits]
    assert [(clean_needed(0, bar), clean_needed(1, bar)) for bar in bars] == row


@pytest.mark.parametrize(
    ("weights", "participant", "leader"),
    [
        (("0.8", "0.1", "0.1"), [13, 23, 23], [34, 56, 56]),
        (("1/2", "1/4", "1/4"), [15, 19, 19], [39, 46, 46]),
        (("1/3", "1/3", "1/3"), [17, 17, 17], [43, 43, 43]),
        (("1",), [12], [32]),
    ],
)
def test_each_window_needs_what_its_weight_leaves_of_alpha(weights, participant, leader):
    shares = [Fraction(weight) for weight in weights]
    assert [clean_needed(0, PARTICIPANT.dangerous, w) for w in shares] == participant
    assert [clean_needed(0, WALK_LEADER.dangerous, w) for w in shares] == leader


@pytest.mark.parametrize(
    ("bar", "cost"),
    [
        (PARTICIPANT.dangerous, 11.35),
        (WALK_LEADER.dangerous, 24.16),
        (PARTICIPANT.edible, 2.74),
        (WALK_LEADER.edible, 5.46),
    ],
)
def test_a_miss_costs_so_many_clean_specimens(bar, cost):
    assert miss_cost(bar) == pytest.approx(cost, abs=0.005)


@pytest.mark.parametrize(("bar", "rate"), [(PARTICIPANT.dangerous, 0.081), (WALK_LEADER.dangerous, 0.040)])
def test_below_the_zero_drift_rate_a_person_passes_sooner_or_later(bar, rate):
    found = drift(bar.limit, bar.expected).zero_rate
    assert found == pytest.approx(rate, abs=0.0005)
    assert (1 - found) * log_e(1, 0, bar) + found * log_e(0, 1, bar) == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize(
    ("clean", "misses", "limit"), [(5, 0, 0.39), (12, 0, 0.190), (23, 1, 0.198), (20, 0, 0.119), (3, 2, 0.91)]
)
def test_the_upper_limit_agrees_with_the_table(clean, misses, limit):
    assert anytime_upper_limit(clean, misses, Fraction(1, 10), Fraction(10)) == pytest.approx(limit, abs=0.005)


def test_the_upper_limit_is_one_without_a_clean_specimen_or_beyond_any_figure():
    assert anytime_upper_limit(0, 0, Fraction(1, 10), Fraction(10)) == 1.0
    assert anytime_upper_limit(1, 5000, Fraction(1, 10), Fraction(10)) == 1.0


def test_the_last_specimen_that_is_needed_decides():
    bar = PARTICIPANT.dangerous
    assert not is_passed(12, 0, bar, FIRST)
    assert is_passed(13, 0, bar, FIRST)
    assert not is_passed(23, 1, bar, FIRST)
    assert is_passed(24, 1, bar, FIRST)
    assert [still_needed(clean, 0, bar, FIRST) for clean in (0, 12, 13, 14)] == [13, 1, 0, 0]


def test_exactly_at_the_threshold_is_passed():
    """With limit 1/2, c = 2 and alpha 8/27 three clean specimens make e exactly 1/alpha = (3/2)^3."""
    bar = SideBar.of("1/2", 2, Fraction(8, 27))
    assert clean_needed(0, bar) == 3
    assert is_passed(3, 0, bar)
    assert clean_needed(0, SideBar.of("1/2", 2, Fraction(8000, 27001))) == 4


def test_a_miss_divides_e_by_the_ratio_and_a_clean_specimen_multiplies_it():
    bar = PARTICIPANT.dangerous
    assert e_value(0, 0, bar) == 1
    assert e_value(7, 1, bar) == pytest.approx(e_value(7, 0, bar) / 10)
    assert e_value(8, 0, bar) == pytest.approx(e_value(7, 0, bar) * 0.98 / 0.80)
    assert e_value(12, 0, bar) == pytest.approx(exp(log_e(12, 0, bar)))
    assert e_value(10_000, 0, bar) == inf


def test_the_threshold_is_one_over_alpha_times_weight():
    assert threshold(PARTICIPANT.dangerous, FIRST) == Fraction(25, 2)
    assert threshold(PARTICIPANT.dangerous) == 10


def test_hundreds_of_misses_are_still_compared_exactly():
    bar = PARTICIPANT.dangerous
    needed = clean_needed(400, bar, FIRST)
    assert needed == 4551
    assert log_e(needed, 400, bar) >= log(12.5) > log_e(needed - 1, 400, bar)


def test_needed_with_so_weak_a_bar_is_never_below_zero():
    assert clean_needed(0, SideBar.of("0.5", 2, "0.999999"), WHOLE) == 1
    assert still_needed(5, 0, SideBar.of("0.5", 2, "0.9")) == 0


@pytest.mark.parametrize(("clean", "misses"), [(-1, 0), (0, -1)])
def test_negative_counts_are_refused(clean, misses):
    with pytest.raises(ValueError, match="negative"):
        log_e(clean, misses, PARTICIPANT.dangerous)
    with pytest.raises(ValueError, match="negative"):
        still_needed(clean, misses, PARTICIPANT.dangerous)
    with pytest.raises(ValueError, match="negative"):
        anytime_upper_limit(clean, misses, Fraction(1, 10), Fraction(10))


def test_numbers_that_make_no_test_are_refused():
    with pytest.raises(ValueError, match="weight"):
        threshold(PARTICIPANT.dangerous, Fraction(0))
    with pytest.raises(ValueError, match="weight"):
        threshold(PARTICIPANT.dangerous, Fraction(11, 10))
    with pytest.raises(ValueError, match="limit"):
        log_likelihood_ratio(1, 0, Fraction(1, 10), Fraction(1, 10))
    for alpha, ratio in [
        (Fraction(1), Fraction(10)),
        (Fraction(0), Fraction(10)),
        (Fraction(1, 10), Fraction(1)),
    ]:
        with pytest.raises(ValueError, match="Alpha"):
            anytime_upper_limit(1, 0, alpha, ratio)


def test_who_may_never_miss_is_lost_with_the_first_miss():
    """p1 = 0 is the success run: 0.8^n <= 0.1 at n = 11."""
    never = Fraction(0)
    assert clean_needed_for(0, Fraction(1, 5), never, Fraction(1, 10)) == 11
    assert clean_needed_for(1, Fraction(1, 5), never, Fraction(1, 10)) is None
    assert log_likelihood_ratio(11, 1, Fraction(1, 5), never) == -inf
    assert log_likelihood_ratio(11, 0, Fraction(1, 5), never) == pytest.approx(-11 * log(0.8))
    assert (drift(Fraction(1, 5), never).miss_cost, drift(Fraction(1, 5), never).zero_rate) == (inf, 0)


def test_an_expected_share_at_or_above_the_limit_is_refused():
    for limit, expected in [("0.1", "0.1"), ("0.1", "0.2"), ("1", "0.1"), ("0.1", "-0.1")]:
        with pytest.raises(ValueError, match="limit"):
            clean_needed_for(0, Fraction(limit), Fraction(expected), Fraction(1, 10))
        with pytest.raises(ValueError, match="limit"):
            drift(Fraction(limit), Fraction(expected))


def test_nothing_is_needed_to_reach_what_stands_without_evidence():
    assert clean_needed_for(0, Fraction(1, 5), Fraction(1, 50), Fraction(1)) == 0


@pytest.mark.parametrize("alpha", [Fraction(0), Fraction(11, 10), Fraction(-1, 10)])
def test_an_alpha_that_is_no_chance_is_refused(alpha):
    with pytest.raises(ValueError, match="Alpha"):
        clean_needed_for(0, Fraction(1, 5), Fraction(1, 50), alpha)


def test_a_threshold_that_is_met_to_the_last_digit_is_met():
    """Where floats cannot tell, whole numbers do: a gain of 9/8 reaches (9/8)^20 in 20 steps, and a hair more in 21."""
    limit, expected = Fraction(1, 5), Fraction(1, 10)
    edge = Fraction(9, 8) ** 20
    assert clean_needed_for(0, limit, expected, 1 / edge) == 20
    assert clean_needed_for(0, limit, expected, 1 / (edge + Fraction(1, 10**30))) == 21
    assert clean_needed_for(0, limit, expected, 1 / (edge - Fraction(1, 10**30))) == 20


def test_half_a_specimen_is_no_specimen():
    assert clean_needed_for(1.0, Fraction(1, 5), Fraction(1, 50), Fraction(1, 10)) == 23  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="whole numbers"):
        log_likelihood_ratio(1.5, 0, Fraction(1, 5), Fraction(1, 50))  # type: ignore[arg-type]


def test_figures_too_large_for_a_float_are_shown_as_far_as_floats_go():
    assert exponential(709) > 1e307
    assert exponential(710) == inf
    tiny = Fraction(1, 10**400)
    assert anytime_upper_limit(1, 0, tiny, Fraction(10)) == 1
    assert anytime_upper_limit(10**9, 0, Fraction(1, 10), Fraction(10)) == pytest.approx(2.558e-9, rel=1e-3)


def test_a_share_of_one_in_a_million_is_neither_rounded_nor_waited_for():
    """The gain per specimen is 9e-7; ln 20 / 9.000005e-7 specimens are needed."""
    assert clean_needed_for(0, Fraction(1, 10**6), Fraction(1, 10**7), Fraction(1, 20)) == 3_328_590
