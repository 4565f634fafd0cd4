"""A tally that grows answer by answer says at every step what the ledger says of the whole history."""

from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assessments.rules.evidence import in_order
from assessments.rules.ledger import Ledger, open_ledger
from assessments.rules.live import live_run
from assessments.rules.stages import stage_covers
from assessments.rules.standard import Side, WindowFacts
from assessments.rules.tally import AnotherSpecies, OutOfOrder, Tally, tally_of
from assessments.rules.treatment import Reason

from .histories import STAGES, STANDARD, WINDOWS, a_history
from .specimens import GATHER, LEAVE, NAMES, PERIOD_END, REFUSE, START, WINDOW, caught, gathered, live, shown, standard

BANK: dict[str, Any] = {"locality": "bank", "day": START.date()}


def said_by_ledger(ledger: Ledger):
    """Every figure of a ledger that a tally keeps."""
    return [
        (w.number, w.counts, w.clean_needed, w.still_needed, w.passed, w.live)
        + (live_run(w, 3, 2), stage_covers(w, STAGES, 4))
        for w in ledger.windows
    ]


def said_by_tally(tally: Tally):
    return [
        (w.number, w.counts, w.clean_needed, w.still_needed, w.passed, w.live)
        + (w.live_run(3, 2), tuple(w.stage_cover(stage, 4) for stage in STAGES))
        for w in tally.windows
    ]


def agrees_all_the_way(answers, species="hemlock", side=Side.DANGEROUS, facts=STANDARD, windows=WINDOWS):
    """The tally at the end, after it was compared with the ledger at every step."""
    tally, ordered = Tally(species, side, facts, windows, NAMES), in_order(answers)
    for many, answer in enumerate(ordered, start=1):
        tally.take(answer)
        ledger = open_ledger(species, side, facts, ordered[:many], windows, NAMES)
        assert said_by_tally(tally) == said_by_ledger(ledger)
        assert tally.passed == ledger.passed
    return tally


@given(a_history())
def test_a_tally_equals_the_ledger_at_every_step(history):
    species, side, answers = history
    agrees_all_the_way(answers, species, side)


@given(a_history(), st.integers(0, 24))
def test_a_tally_made_from_a_part_and_continued_is_the_same(history, cut):
    species, side, answers = history
    ordered = in_order(answers)
    tally = tally_of(species, side, STANDARD, ordered[:cut], WINDOWS, NAMES)
    for answer in ordered[cut:]:
        tally.take(answer)
    assert said_by_tally(tally) == said_by_ledger(open_ledger(species, side, STANDARD, answers, WINDOWS, NAMES))


def hemlock_tally(answers):
    return agrees_all_the_way(answers, facts=standard(), windows=(WINDOW,)).windows[0]


def test_thirteen_clean_specimens_pass_and_twelve_do_not():
    twelve = caught(12)
    assert (hemlock_tally(twelve).passed, hemlock_tally(twelve).still_needed) == (False, 1)
    assert hemlock_tally([*twelve, *caught(1)]).passed


def test_a_gather_takes_an_earlier_clean_back_in_its_own_stage():
    answers = [*caught(3, stage="rosette"), shown("hemlock", REFUSE, individual="a", stage="rosette")]
    window = hemlock_tally([*answers, shown("hemlock", GATHER, individual="a", stage="flower")])
    assert (window.counts.clean, window.counts.misses) == (3, 1)
    assert window.stage_cover("rosette", 4).clean == 3
    assert window.stage_cover("flower", 4).misses == 1


def test_what_is_taken_back_from_before_a_miss_of_its_stage_leaves_the_cover_since():
    first = shown("hemlock", REFUSE, individual="a", stage="rosette")
    answers = [first, *gathered(1, stage="rosette"), *caught(2, stage="rosette")]
    window = hemlock_tally([*answers, shown("hemlock", GATHER, individual="a", stage="flower")])
    assert window.stage_cover("rosette", 4).clean == 2


def test_a_third_from_one_place_and_day_adds_nothing_but_belongs_to_the_live_run():
    window = hemlock_tally([live("hemlock", REFUSE, **BANK) for _ in range(3)])
    assert (window.counts.clean, window.live, window.live_run(3, 2).clean) == (2, 2, 3)


def test_a_plant_gathered_on_a_photo_and_then_live_is_a_live_miss_where_it_stands():
    answers = [live("hemlock", REFUSE) for _ in range(2)]
    answers.append(shown("hemlock", GATHER, individual="a"))
    answers += [live("hemlock", REFUSE) for _ in range(3)]
    window = hemlock_tally([*answers, live("hemlock", GATHER, individual="a")])
    run = window.live_run(3, 2)
    assert (run.clean, run.occasions, run.misses) == (3, 3, 1)


def test_a_live_plant_gathered_later_on_a_photo_stays_one_that_was_met_live():
    answers = [live("hemlock", REFUSE, individual="a"), live("hemlock", REFUSE)]
    window = hemlock_tally([*answers, shown("hemlock", GATHER, individual="a")])
    assert (window.live, window.live_run(3, 2).clean, window.live_run(3, 2).misses) == (2, 0, 1)


def test_an_occasion_counts_from_when_it_was_last_met():
    answers = [live("hemlock", REFUSE, **BANK), live("hemlock", REFUSE), shown("hemlock", GATHER, individual="a")]
    answers += [live("hemlock", REFUSE, **BANK), live("hemlock", GATHER, individual="a")]
    run = hemlock_tally(answers).live_run(3, 2)
    assert (run.clean, run.occasions) == (1, 1)


def test_an_occasion_seen_again_after_a_miss_counts_for_the_new_run():
    answers = [live("hemlock", REFUSE, **BANK), live("hemlock", GATHER), live("hemlock", REFUSE, **BANK)]
    run = hemlock_tally(answers).live_run(3, 2)
    assert (run.clean, run.occasions) == (1, 1)


def test_an_answer_from_before_the_last_is_refused_and_changes_nothing():
    early, late = shown("hemlock", GATHER), shown("hemlock", REFUSE)
    tally = tally_of("hemlock", Side.DANGEROUS, standard(), [late], (WINDOW,), NAMES)
    with pytest.raises(OutOfOrder):
        tally.take(early)
    assert (tally.windows[0].counts.clean, tally.windows[0].counts.misses) == (1, 0)


def test_order_goes_by_opening_and_position_and_not_by_when_it_was_shown():
    moment = START + timedelta(days=2)
    tally = Tally("hemlock", Side.DANGEROUS, standard(), (WINDOW,), NAMES)
    tally.take(shown("hemlock", REFUSE, at=moment, position=2))
    with pytest.raises(OutOfOrder):
        tally.take(shown("hemlock", REFUSE, at=moment, position=1, shown_at=moment + timedelta(hours=1)))


def test_the_same_answer_twice_adds_nothing():
    answer = shown("hemlock", LEAVE)
    tally = tally_of("hemlock", Side.DANGEROUS, standard(), [answer], (WINDOW,), NAMES)
    assert tally.take(answer).reason is Reason.ANSWERED_BEFORE
    assert tally.windows[0].counts.neutral == 1


@pytest.mark.parametrize("species", ["lily", None])
def test_an_answer_of_another_species_is_refused(species):
    tally = Tally("hemlock", Side.DANGEROUS, standard(), (WINDOW,), NAMES)
    with pytest.raises(AnotherSpecies):
        tally.take(shown(species, REFUSE))


def test_without_a_window_the_first_stands_there_empty():
    tally = agrees_all_the_way(caught(2), windows=())
    assert (tally.windows[0].number, tally.windows[0].counts.clean) == (1, 0)


def test_a_window_counts_what_was_shown_after_it_opened():
    second = WindowFacts(2, START + timedelta(days=30), PERIOD_END)
    answers = [*caught(2, at=START), *caught(3, at=START + timedelta(days=40))]
    tally = agrees_all_the_way(answers, windows=(WINDOW, second))
    assert [window.counts.clean for window in tally.windows] == [5, 3]
