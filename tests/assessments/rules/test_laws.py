"""Laws that hold for any evidence and any bar, searched at random."""

from fractions import Fraction
from itertools import accumulate
from math import isclose, log

from hypothesis import given
from hypothesis import strategies as st

from assessments.rules.evalue import (
    anytime_upper_limit,
    clean_needed,
    e_value,
    is_passed,
    log_e,
    still_needed,
    threshold,
)
from assessments.rules.standard import PARTICIPANT, WALK_LEADER, SideBar

from .specimens import GATHER, LEAVE, REFUSE, counts, hemlock_ledger, shown, stand

BARS = st.builds(
    SideBar,
    st.integers(2, 60).map(lambda n: Fraction(n, 100)),
    st.integers(2, 20).map(Fraction),
    st.sampled_from([Fraction(1, 100), Fraction(1, 20), Fraction(1, 10), Fraction(1, 4)]),
)
WEIGHTS = st.integers(1, 10).map(lambda n: Fraction(n, 10))
COUNTS = st.integers(0, 120)
MISSES = st.integers(0, 6)
DECISIONS = st.sampled_from([GATHER, REFUSE, LEAVE])
SHOWN = st.lists(st.tuples(st.integers(0, 8), DECISIONS, st.booleans()), max_size=25)


def answers_from(drawn):
    """Answers to hemlocks number 0 to 8, the same ones again and again, some of them void."""
    void = {number for number, _, is_void in drawn if is_void}
    return [shown("hemlock", decision, key=f"h{n}", void=n in void) for n, decision, _ in drawn]


@given(BARS)
def test_the_mean_factor_at_the_limit_is_exactly_one(bar):
    p, p1 = bar.limit, bar.expected
    assert p * (p1 / p) + (1 - p) * ((1 - p1) / (1 - p)) == 1


@given(BARS, COUNTS, MISSES)
def test_a_clean_specimen_raises_e_and_a_miss_divides_it_by_c(bar, clean, misses):
    assert log_e(clean + 1, misses, bar) > log_e(clean, misses, bar)
    assert isclose(log_e(clean, misses, bar) - log_e(clean, misses + 1, bar), log(bar.ratio), rel_tol=1e-9)


@given(BARS, COUNTS, MISSES, WEIGHTS)
def test_passed_by_counts_by_upper_limit_and_by_e_are_one(bar, clean, misses, weight):
    passed = is_passed(clean, misses, bar, weight)
    assert passed == (clean >= clean_needed(misses, bar, weight)) == (still_needed(clean, misses, bar, weight) == 0)
    limit = anytime_upper_limit(clean, misses, bar.alpha * weight, bar.ratio)
    if not isclose(limit, bar.limit, rel_tol=1e-9):
        assert passed == (limit <= bar.limit)
    if not isclose(e_value(clean, misses, bar), threshold(bar, weight), rel_tol=1e-9):
        assert passed == (e_value(clean, misses, bar) >= threshold(bar, weight))


@given(BARS, WEIGHTS)
def test_every_miss_asks_for_more(bar, weight):
    needed = [clean_needed(misses, bar, weight) for misses in range(8)]
    assert needed == sorted(set(needed))


@given(BARS, MISSES, WEIGHTS)
def test_the_needed_number_is_the_smallest(bar, misses, weight):
    needed = clean_needed(misses, bar, weight)
    gain = (1 - bar.expected) / (1 - bar.limit)
    target = bar.ratio**misses / (bar.alpha * weight)
    assert gain**needed >= target > gain ** (needed - 1)


@given(st.sampled_from([PARTICIPANT, WALK_LEADER]))
def test_the_weights_add_up_to_one_at_most(bars):
    assert list(accumulate(bars.window_weights))[-1] <= 1


@given(SHOWN)
def test_void_evidence_leaves_e_at_one(drawn):
    ledger = hemlock_ledger([shown("hemlock", d, key=f"h{n}", void=True) for n, d, _ in drawn])
    assert counts(ledger) == (0, 0, 0)
    assert ledger.windows[0].log_e == 0


@given(SHOWN, st.randoms(use_true_random=False))
def test_the_order_in_which_answers_are_handed_in_does_not_matter(drawn, random):
    answers = answers_from(drawn)
    shuffled = list(answers)
    random.shuffle(shuffled)
    assert hemlock_ledger(shuffled) == hemlock_ledger(answers)


@given(SHOWN)
def test_an_individual_counts_once_and_a_gather_always(drawn):
    ledger = hemlock_ledger(answers_from(drawn))
    void = {number for number, _, is_void in drawn if is_void}
    met = {number for number, _, _ in drawn} - void
    gathered = {number for number, decision, _ in drawn if decision is GATHER} - void
    clean, misses, neutral = counts(ledger)
    assert (misses, clean + misses + neutral) == (len(gathered), len(met))


@given(SHOWN)
def test_a_gather_more_never_raises_e_and_a_new_clean_one_never_lowers_it(drawn):
    answers = answers_from(drawn)
    before = hemlock_ledger(answers).windows[0].log_e
    assert hemlock_ledger([*answers, shown("hemlock", GATHER)]).windows[0].log_e < before
    assert hemlock_ledger([*answers, shown("hemlock", REFUSE)]).windows[0].log_e > before
    assert hemlock_ledger([*answers, shown("hemlock", LEAVE)]).windows[0].log_e == before


@given(st.integers(0, 20), st.integers(0, 3), st.integers(0, 8), st.integers(0, 2))
def test_passed_means_that_there_is_no_gap_and_no_way_to_go(clean, misses, right, wrong):
    answers = [shown("hemlock", REFUSE) for _ in range(clean)]
    answers += [shown("hemlock", GATHER) for _ in range(misses)]
    answers += [shown("cow-parsley", GATHER, "cow-parsley") for _ in range(right)]
    answers += [shown("cow-parsley", REFUSE) for _ in range(wrong)]
    result = stand(answers)
    assert result.passed == (not result.gaps) == (not result.ways)
    assert result.specimens_still_needed == sum(gap.still_needed for gap in result.gaps)


@given(st.integers(0, 14), st.integers(0, 2), st.integers(0, 6))
def test_walking_the_whole_way_passes_and_one_step_less_does_not(clean, misses, right):
    answers = [shown("hemlock", REFUSE) for _ in range(clean)]
    answers += [shown("hemlock", GATHER) for _ in range(misses)]
    answers += [shown("cow-parsley", GATHER, "cow-parsley") for _ in range(right)]
    for way in stand(answers).ways:
        decision = REFUSE if way.species == "hemlock" else GATHER
        answers += [shown(way.species, decision, way.species) for _ in range(way.specimens - 1)]
        assert not stand(answers).passed
        answers.append(shown(way.species, decision, way.species))
    assert stand(answers).passed
