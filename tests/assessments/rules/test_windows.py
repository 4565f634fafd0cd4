"""Windows of evidence: what enters which, what each needs, and when another may be opened."""

from dataclasses import replace
from datetime import datetime, timedelta
from fractions import Fraction

import pytest

from assessments.rules.ledger import Counts
from assessments.rules.standard import WindowFacts
from assessments.rules.treatment import Effect, Reason
from assessments.rules.windows import (
    MOST_WINDOWS,
    Refusal,
    months_later,
    next_opening,
    period_end,
    weighted,
)

from .specimens import (
    GATHER,
    PERIOD_END,
    REFUSE,
    START,
    WINDOW,
    caught,
    counts,
    gathered,
    hemlock_ledger,
    shown,
    standard,
    treated,
)

DAY = timedelta(days=1)
SECOND = WindowFacts(2, START + 60 * DAY, PERIOD_END)
THIRD = WindowFacts(3, START + 90 * DAY, PERIOD_END)
EARLY, LATE = START + 30 * DAY, START + 70 * DAY
BOTH = (WINDOW, SECOND)


def number(window):
    return window.number


def test_evidence_enters_every_window_opened_before_the_specimen_was_shown():
    ledger = hemlock_ledger([*caught(2, at=EARLY), *caught(3, at=LATE)], windows=BOTH)
    assert (counts(ledger, 1), counts(ledger, 2)) == ((5, 0, 0), (3, 0, 0))
    assert [t.windows for t in ledger.treatments] == [(1,), (1,), (1, 2), (1, 2), (1, 2)]


def test_what_is_shown_at_the_very_opening_enters_and_at_the_close_does_not():
    moments = [START - timedelta(microseconds=1), START, PERIOD_END - timedelta(microseconds=1), PERIOD_END]
    ledger = hemlock_ledger([shown("hemlock", REFUSE, at=moment) for moment in moments])
    inside = (Effect.CLEAN, Reason.REFUSED)
    outside = (Effect.NONE, Reason.OUTSIDE_EVERY_WINDOW)
    assert treated(ledger) == [outside, inside, inside, outside]


def test_a_paper_opened_before_the_window_counts_by_the_moment_a_specimen_was_shown():
    answer = shown("hemlock", REFUSE, at=START + DAY, opened_at=START - DAY)
    assert counts(hemlock_ledger([answer])) == (1, 0, 0)


def test_a_later_gather_is_a_miss_in_every_window_open_then():
    first, again = shown("hemlock", REFUSE, key="a", at=EARLY), shown("hemlock", GATHER, key="a", at=LATE)
    ledger = hemlock_ledger([first, again], windows=BOTH)
    assert (counts(ledger, 1), counts(ledger, 2)) == ((0, 1, 0), (0, 1, 0))


def test_an_answer_taken_back_says_so_though_a_later_window_never_held_it():
    first, again = shown("hemlock", REFUSE, key="a", at=EARLY), shown("hemlock", GATHER, key="a", at=LATE)
    ledger = hemlock_ledger([first, again], windows=BOTH)
    assert treated(ledger)[0] == (Effect.NONE, Reason.GATHERED_LATER)


def test_a_specimen_answered_before_the_window_adds_nothing_clean_to_it():
    answers = [shown("hemlock", REFUSE, key="a", at=EARLY), shown("hemlock", REFUSE, key="a", at=LATE)]
    assert counts(hemlock_ledger(answers, windows=BOTH), 2) == (0, 0, 0)


def test_a_second_gather_is_a_miss_in_the_window_that_did_not_hold_the_first():
    answers = [shown("hemlock", GATHER, key="a", at=EARLY), shown("hemlock", GATHER, key="a", at=LATE)]
    ledger = hemlock_ledger(answers, windows=BOTH)
    assert (counts(ledger, 1), counts(ledger, 2)) == ((0, 1, 0), (0, 1, 0))
    assert [t.windows for t in ledger.treatments] == [(1,), (2,)]


def test_a_gather_after_the_period_leaves_its_windows_as_they_were():
    first = shown("hemlock", REFUSE, key="a", at=EARLY)
    again = shown("hemlock", GATHER, key="a", at=PERIOD_END + DAY)
    assert counts(hemlock_ledger([first, again])) == (1, 0, 0)


def test_a_specimen_answered_in_an_earlier_period_adds_nothing_to_the_next():
    renewal = WindowFacts(1, PERIOD_END, PERIOD_END + 365 * DAY)
    answers = [shown("hemlock", REFUSE, key="a", at=EARLY), shown("hemlock", REFUSE, key="a", at=PERIOD_END)]
    assert counts(hemlock_ledger(answers, windows=(renewal,))) == (0, 0, 0)


def test_a_renewal_starts_without_the_old_evidence():
    renewal = WindowFacts(1, PERIOD_END, PERIOD_END + 365 * DAY)
    answers = [*gathered(5, at=EARLY), *caught(13, at=PERIOD_END + DAY)]
    assert not hemlock_ledger(answers).passed
    assert hemlock_ledger(answers, windows=(renewal,)).passed


def test_any_window_that_reaches_its_own_threshold_passes():
    bad_start = gathered(4, at=EARLY)
    almost, enough = caught(22, at=LATE), caught(23, at=LATE)
    assert not hemlock_ledger([*bad_start, *almost], windows=BOTH).passed
    ledger = hemlock_ledger([*bad_start, *enough], windows=BOTH)
    assert [window.passed for window in ledger.windows] == [False, True]
    assert number(ledger.passing) == 2
    assert [window.clean_needed for window in ledger.windows] == [58, 23]


def test_the_first_window_passes_with_thirteen_and_no_fewer():
    assert not hemlock_ledger(caught(12)).passed
    ledger = hemlock_ledger(caught(13))
    assert number(ledger.passing) == 1
    assert ledger.windows[0].threshold == Fraction(25, 2)


def test_of_several_windows_that_pass_the_earliest_is_named():
    assert number(hemlock_ledger(caught(30, at=LATE), windows=BOTH).passing) == 1


def test_the_nearest_window_is_the_one_that_asks_for_least():
    ledger = hemlock_ledger([*gathered(4, at=EARLY), *caught(5, at=LATE)], windows=BOTH)
    assert ledger.passing is None
    assert (ledger.nearest.number, ledger.nearest.still_needed) == (2, 18)
    assert hemlock_ledger(caught(5), windows=BOTH).nearest.number == 1


def test_without_a_window_nothing_counts_and_the_first_stands_empty():
    ledger = hemlock_ledger(caught(20), windows=())
    assert counts(ledger) == (0, 0, 0)
    assert ledger.nearest.still_needed == 13
    assert {t.reason for t in ledger.treatments} == {Reason.OUTSIDE_EVERY_WINDOW}


def test_a_standard_with_one_window_looks_at_the_first_only():
    facts = standard(window_weights=(Fraction(1),))
    ledger = hemlock_ledger(caught(12, at=LATE), facts, windows=BOTH)
    assert [(window.number, window.weight) for window in ledger.windows] == [(1, 1)]
    assert ledger.passed


def test_two_windows_with_one_number_are_refused():
    with pytest.raises(ValueError, match="same number"):
        weighted((WINDOW, replace(SECOND, number=1)), standard().window_weights)


def test_windows_are_taken_by_number_in_whatever_order_they_come():
    numbers = [w.number for w in weighted((THIRD, WINDOW, SECOND), standard().window_weights)]
    assert numbers == [1, 2, 3]


def test_the_first_window_opens_without_retraining():
    opening = next_opening((), START)
    assert (opening.allowed, opening.number) == (True, 1)


def test_a_later_window_needs_retraining_on_record():
    assert next_opening((WINDOW,), LATE).refusal is Refusal.RETRAINING_NOT_RECORDED
    assert next_opening((WINDOW,), LATE, "  ").refusal is Refusal.RETRAINING_NOT_RECORDED
    opening = next_opening((WINDOW,), LATE, "an afternoon with umbellifers")
    assert (opening.allowed, opening.number) == (True, 2)


def test_a_fourth_window_is_refused():
    assert MOST_WINDOWS == 3
    assert next_opening(BOTH, START + 100 * DAY, "again").number == 3
    opening = next_opening((*BOTH, THIRD), START + 100 * DAY, "again")
    assert (opening.allowed, opening.refusal) == (False, Refusal.NO_WINDOW_LEFT)


def test_no_window_opens_once_the_period_is_over():
    assert next_opening((WINDOW,), PERIOD_END, "again").refusal is Refusal.PERIOD_OVER
    assert next_opening((WINDOW,), PERIOD_END - timedelta(seconds=1), "again").allowed


def test_the_period_is_over_as_soon_as_one_of_its_windows_has_closed():
    shorter = replace(SECOND, closes_at=LATE)
    assert next_opening((WINDOW, shorter), LATE, "again").refusal is Refusal.PERIOD_OVER


def test_a_window_may_open_in_the_same_moment_as_the_one_before_it():
    assert next_opening((WINDOW,), START, "again").allowed


def test_no_window_opens_before_the_one_before_it():
    assert next_opening(BOTH, EARLY, "again").refusal is Refusal.BEFORE_THE_LAST


@pytest.mark.parametrize(
    ("start", "months", "end"),
    [
        ("2031-03-01", 24, "2033-03-01"),
        ("2031-12-15", 1, "2032-01-15"),
        ("2031-01-31", 1, "2031-02-28"),
        ("2032-02-29", 12, "2033-02-28"),
        ("2031-11-30", 3, "2032-02-29"),
    ],
)
def test_months_later_is_the_same_day_or_the_last_of_the_month(start, months, end):
    moment = datetime.fromisoformat(f"{start}T09:30+00:00")
    assert months_later(moment, months) == datetime.fromisoformat(f"{end}T09:30+00:00")


def test_a_period_ends_after_two_years():
    assert period_end(START) == PERIOD_END


def test_the_figures_of_a_window_agree_with_its_counts():
    window = hemlock_ledger([*caught(3), *gathered(1)]).windows[0]
    assert (window.clean_needed, window.still_needed) == (24, 21)
    assert window.log_e == pytest.approx(-1.6937625610039748)
    assert window.upper_limit == pytest.approx(4 / 4.9)  # R = (10 / 0.08)^(1/3) = 5, (R - 1) / (R - 1/10)
    assert window.counts.decided == 4


def test_the_upper_limit_of_a_window_spends_only_its_share_of_alpha():
    passed = hemlock_ledger(caught(13)).windows[0]
    assert passed.upper_limit <= 0.20
    assert hemlock_ledger(caught(12)).windows[0].upper_limit > 0.20


def test_counts_start_at_nothing():
    assert Counts() == Counts(clean=0, misses=0, neutral=0)


def test_the_span_runs_from_the_first_to_the_last_specimen_that_counted():
    window = hemlock_ledger([*caught(1, at=LATE), *caught(1, at=EARLY), *caught(1, at=PERIOD_END)]).windows[0]
    assert window.span == (EARLY, LATE)
    assert hemlock_ledger([]).windows[0].span is None
