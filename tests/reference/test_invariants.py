"""What holds for any bar, any evidence and any day: the decision rule's own list, each line a property by name.

No outside source: these are theorems of the rule (Wald 1945; Ville 1939; Murphy 1973 for the parts of the score).
Searched at random by hypothesis.
"""

from dataclasses import replace
from datetime import timedelta
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assessments.rules.confidence import ODDS, calibration
from assessments.rules.evalue import anytime_upper_limit, clean_needed, e_value, is_passed, log_e
from assessments.rules.evidence import AnswerFacts
from assessments.rules.planning import time_to_pass
from assessments.rules.standard import PARTICIPANT, WALK_LEADER, PairFacts, SideBar, StandardFacts, WindowFacts
from assessments.rules.standing import Standing, standing
from species.rules.ranking import separation_of
from tests.assessments.rules.specimens import (
    GATHER,
    HEMLOCK_PAIR,
    LEAVE,
    LILY_PAIR,
    NAMES,
    PERIOD_END,
    REFUSE,
    START,
    hemlock_ledger,
    shown,
    standard,
)

BARS = st.builds(
    SideBar,
    st.integers(2, 60).map(lambda n: Fraction(n, 100)),
    st.integers(2, 20).map(Fraction),
    st.sampled_from([Fraction(1, 100), Fraction(1, 20), Fraction(1, 10), Fraction(1, 4)]),
)
WEIGHTS = st.integers(1, 10).map(lambda n: Fraction(n, 10))
CLEAN, MISSES = st.integers(0, 150), st.integers(0, 6)
DECISIONS = st.sampled_from([GATHER, REFUSE, LEAVE, None])
SHOWN = st.lists(st.tuples(st.sampled_from(["hemlock", "cow-parsley", "lily", "ramsons"]), DECISIONS), max_size=40)
PAIRS: tuple[PairFacts, ...] = (HEMLOCK_PAIR, LILY_PAIR)
AMOUNTS = st.dictionaries(st.sampled_from("abcde"), st.floats(0.01, 10), min_size=1)


def answers_to(drawn: list[tuple[str, object]]) -> list[AnswerFacts]:
    """An answer to a plant of its own for each species and decision, rightly named."""
    return [shown(species, decision, species, key=f"k{n}") for n, (species, decision) in enumerate(drawn)]  # type: ignore[arg-type]


def stands(
    answers: list[AnswerFacts], facts: StandardFacts | None = None, window: WindowFacts | None = None
) -> Standing:
    window = window or WindowFacts(1, START, PERIOD_END)
    return standing(facts or standard(*PAIRS), answers, (window,), NAMES)


@given(BARS)
def test_the_mean_factor_of_somebody_at_the_limit_is_one(bar):
    p, p1 = bar.limit, bar.expected
    assert p * (p1 / p) + (1 - p) * (1 - p1) / (1 - p) == 1


@given(SHOWN, st.randoms(use_true_random=False))
def test_the_order_of_evidence_does_not_change_e(drawn, random):
    """Each plant once: whichever comes first, the counts and so e are the same."""
    answers = answers_to([("hemlock", decision) for _, decision in drawn])
    moments = [(a.opened_at, a.position, a.shown_at) for a in answers]
    random.shuffle(moments)
    other = [replace(a, opened_at=o, position=p, shown_at=s) for a, (o, p, s) in zip(answers, moments, strict=True)]
    assert hemlock_ledger(answers).windows[0].log_e == hemlock_ledger(other).windows[0].log_e


@given(BARS, CLEAN, MISSES)
def test_a_clean_one_raises_e_and_a_miss_lowers_it_by_exactly_c(bar, clean, misses):
    assert log_e(clean + 1, misses, bar) > log_e(clean, misses, bar)
    before = (bar.expected / bar.limit) ** misses * ((1 - bar.expected) / (1 - bar.limit)) ** clean
    after = (bar.expected / bar.limit) ** (misses + 1) * ((1 - bar.expected) / (1 - bar.limit)) ** clean
    assert before / after == bar.ratio
    assert e_value(clean, misses, bar) == pytest.approx(float(before))
    assert e_value(clean, misses + 1, bar) == pytest.approx(float(after))


@given(SHOWN)
def test_a_neutral_one_leaves_e_alone(drawn):
    answers = answers_to([("hemlock", decision) for _, decision in drawn])
    more = [*answers, shown("hemlock", LEAVE), shown("hemlock", None), shown("hemlock", REFUSE, "cow-parsley")]
    assert hemlock_ledger(more).windows[0].log_e == hemlock_ledger(answers).windows[0].log_e


@given(BARS, CLEAN, MISSES, WEIGHTS)
def test_passed_means_an_upper_limit_at_most_the_limit_and_as_many_clean_as_needed(bar, clean, misses, weight):
    passed = is_passed(clean, misses, bar, weight)
    assert passed == (clean >= clean_needed(misses, bar, weight))
    upper = anytime_upper_limit(clean, misses, bar.alpha * weight, bar.ratio)
    if abs(upper - float(bar.limit)) > 1e-9:
        assert passed == (upper <= bar.limit)


@given(BARS, MISSES, WEIGHTS)
def test_one_miss_more_needs_more_clean_ones(bar, misses, weight):
    assert clean_needed(misses + 1, bar, weight) > clean_needed(misses, bar, weight)


@settings(max_examples=40, deadline=None)
@given(BARS, st.floats(0, 1), st.floats(0, 1), st.integers(1, 80), WEIGHTS)
def test_the_chance_to_pass_falls_with_the_true_share(bar, one, other, horizon, weight):
    low, high = sorted((one, other))
    better, worse = (time_to_pass(rate, bar, weight, horizon).probability for rate in (low, high))
    assert better >= worse - 1e-12


@settings(max_examples=40, deadline=None)
@given(BARS, st.floats(0, 1), st.integers(1, 250), WEIGHTS)
def test_the_chance_to_pass_at_or_above_the_limit_is_alpha_times_weight_at_most(bar, above, horizon, weight):
    rate = min(1.0, float(bar.limit) * (1 + 1e-12) + above * (1 - float(bar.limit)))
    assert time_to_pass(rate, bar, weight, horizon).probability <= float(bar.alpha * weight)


@given(SHOWN)
def test_voiding_all_evidence_gives_an_e_of_one(drawn):
    void = [replace(a, specimen=replace(a.specimen, void=True)) for a in answers_to(drawn)]
    found = stands(void)
    assert all(ledger.windows[0].log_e == 0 for ledger in (*found.dangerous, *found.edible))
    assert not found.passed


@given(st.lists(WEIGHTS, min_size=1, max_size=6))
def test_the_weights_of_the_windows_add_up_to_one_at_most(weights):
    assert all(sum(bars.window_weights) <= 1 for bars in (PARTICIPANT, WALK_LEADER))
    if sum(weights) > 1:
        with pytest.raises(ValueError, match="add up"):
            standard(window_weights=tuple(weights))
    else:
        assert standard(window_weights=tuple(weights)).window_weights == tuple(weights)


@settings(max_examples=30, deadline=None)
@given(st.sampled_from([GATHER, REFUSE, LEAVE, None]), st.integers(0, 60), st.integers(0, 60))
def test_one_decision_for_everything_never_passes(decision, dangerous, edible):
    """Refuse everything, leave everything, gather everything: under the right name, and however long."""
    answers = answers_to([("hemlock", decision)] * dangerous + [("cow-parsley", decision)] * edible)
    found = stands(answers, standard(HEMLOCK_PAIR))
    assert not found.passed
    assert found.gaps


@given(AMOUNTS, AMOUNTS)
def test_the_distance_of_two_species_is_symmetric_and_a_share(first, second):
    there, back = separation_of(first, second).total_variation, separation_of(second, first).total_variation
    assert there == pytest.approx(back)
    assert -1e-12 <= there <= 1 + 1e-12


@given(st.lists(st.tuples(st.sampled_from(list(ODDS)), st.booleans()), min_size=1, max_size=60))
def test_the_brier_score_is_the_sum_of_its_parts(given_answers):
    found = calibration([level for level, _ in given_answers], [right for _, right in given_answers])
    assert found is not None
    assert found.brier == pytest.approx(found.reliability - found.resolution + found.uncertainty)


@given(SHOWN, st.integers(0, 600))
def test_the_same_evidence_is_the_same_standing_on_any_day_inside_the_window(drawn, days):
    """Shifted with all its evidence inside the window, a standing keeps every count, verdict and gap."""
    answers = answers_to(drawn)
    first = min((a.shown_at for a in answers), default=START)
    late = timedelta(days=days) - (first - START)
    shifted = [replace(a, opened_at=a.opened_at + late, shown_at=a.shown_at + late) for a in answers]
    window = WindowFacts(1, START, START + timedelta(days=3_000))
    one, other = stands(answers, window=window), stands(shifted, window=window)
    assert (one.passed, one.gaps, one.ways) == (other.passed, other.gaps, other.ways)
    counts = [[ledger.windows[0].counts for ledger in (*each.dangerous, *each.edible)] for each in (one, other)]
    assert counts[0] == counts[1]
