"""What a pair asks beyond its counts: the live run, and the stages shown."""

from datetime import date, timedelta
from typing import Any

import pytest

from assessments.rules.live import live_run
from assessments.rules.stages import stage_cover, stage_covers, stages_shown
from assessments.rules.standard import PARTICIPANT, WALK_LEADER, WindowFacts

from .specimens import (
    GATHER,
    LEAVE,
    PERIOD_END,
    REFUSE,
    START,
    WINDOW,
    caught,
    counts,
    gathered,
    hemlock_ledger,
    live,
    shown,
)

APRIL, MAY = date(2031, 4, 5), date(2031, 5, 3)
MILL: dict[str, Any] = {"locality": "the mill", "day": APRIL}
WEIR: dict[str, Any] = {"locality": "the weir", "day": MAY}


def run_of(answers, clean_needed=3, occasions_needed=2, **more):
    return live_run(hemlock_ledger(answers).windows[0], clean_needed, occasions_needed, **more)


def met(times, decision=REFUSE, **more):
    return [live("hemlock", decision, "hemlock", **more) for _ in range(times)]


def test_the_default_standards_ask_for_three_on_two_occasions_and_eight_on_three():
    assert (PARTICIPANT.live_run, PARTICIPANT.live_occasions) == (3, 2)
    assert (WALK_LEADER.live_run, WALK_LEADER.live_occasions) == (8, 3)


def test_three_clean_from_two_occasions_meet_it():
    run = run_of([*met(2, **MILL), *met(1, **WEIR)])
    assert (run.clean, run.occasions, run.met) == (3, 2, True)


def test_two_clean_are_one_short():
    run = run_of([*met(1, **MILL), *met(1, **WEIR)])
    assert (run.met, run.still_needed, run.occasions_still_needed) == (False, 1, 0)


def test_one_occasion_is_not_enough_and_asks_for_one_more_specimen():
    run = run_of(met(5, **MILL))
    assert (run.clean, run.occasions, run.met) == (5, 1, False)
    assert (run.still_needed, run.occasions_still_needed) == (1, 1)


def test_another_day_at_the_same_place_and_another_place_on_the_same_day_are_occasions():
    assert run_of([*met(2, **MILL), *met(1, locality="the mill", day=MAY)]).met
    assert run_of([*met(2, **MILL), *met(1, locality="the weir", day=APRIL)]).met


def test_two_spot_tests_at_one_place_on_one_day_are_one_occasion():
    assert run_of([*met(2, **MILL, occasion="a"), *met(1, **MILL, occasion="b")]).occasions == 1


def test_a_live_miss_starts_the_run_again():
    run = run_of([*met(2, **MILL), *met(1, GATHER, **WEIR), *met(2, **WEIR)])
    assert (run.clean, run.misses, run.occasions, run.met) == (2, 1, 1, False)


def test_neutral_ones_are_passed_over():
    run = run_of([*met(2, **MILL), *met(1, LEAVE, **WEIR), *met(1, **WEIR)])
    assert (run.clean, run.met) == (3, True)


def test_those_beyond_the_two_of_a_place_and_day_are_included():
    answers = [*met(4, **MILL), *met(4, **WEIR)]
    assert counts(hemlock_ledger(answers)) == (4, 0, 0)
    assert run_of(answers, 8, 2).met


def test_a_gather_beyond_the_two_breaks_the_run():
    assert run_of([*met(3, **MILL), *met(1, GATHER, **MILL)]).clean == 0


def test_photos_are_no_part_of_the_run():
    assert run_of([*met(2, **MILL), *caught(5), *gathered(1)]).clean == 2


def test_a_live_plant_gathered_later_on_a_photo_is_a_miss_in_the_run():
    answers = [*met(1, **MILL, individual="a"), *met(2, **WEIR), shown("hemlock", GATHER, individual="a")]
    run = run_of(answers)
    assert (run.clean, run.misses) == (0, 1)


def test_a_plant_already_known_from_a_photo_adds_nothing_live():
    assert run_of([shown("hemlock", REFUSE, individual="a"), *met(1, **MILL, individual="a")]).clean == 0


def test_other_kinds_of_question_are_no_part_of_the_run():
    assert run_of(met(3, **MILL, kind="side_by_side")).clean == 0


def test_one_clean_specimen_more_never_undoes_a_run():
    answers = [*met(1, **MILL), *met(2, **WEIR)]
    assert run_of(answers).met
    assert run_of([*answers, *met(3, **WEIR)]).met


def test_what_was_met_before_the_period_is_no_part_of_the_run():
    later = WindowFacts(1, START + timedelta(days=60), PERIOD_END)
    ledger = hemlock_ledger(met(3, **MILL, at=START), windows=(later,))
    assert live_run(ledger.windows[0], 3, 1).clean == 0


def test_where_it_cannot_be_met_live_the_reason_stands_in_for_the_run():
    run = run_of(caught(3), not_required="grows nowhere near")
    assert (run.met, run.still_needed, run.occasions_still_needed) == (True, 0, 0)
    assert run.photographs_only
    assert not run_of(met(1, **MILL), not_required="grows nowhere near").photographs_only
    assert not run_of(caught(3)).photographs_only


def test_the_ledger_says_how_many_of_its_specimens_were_live():
    window = hemlock_ledger([*caught(4), *met(2, **MILL), *met(1, **MILL), *met(1, LEAVE)]).windows[0]
    assert window.live == 2


def cover(answers, stage="rosette", windows=(WINDOW,), window=0):
    return stage_cover(hemlock_ledger(answers, windows=windows).windows[window], stage, 4)


def test_four_clean_in_a_stage_cover_it_and_three_do_not():
    assert cover(caught(4, stage="rosette")).covered
    three = cover(caught(3, stage="rosette"))
    assert (three.covered, three.still_needed) == (False, 1)
    assert cover(caught(5, stage="rosette")).still_needed == 0


def test_clean_specimens_of_other_stages_cover_nothing():
    assert cover(caught(9, stage="flower")).clean == 0


def test_a_miss_in_the_stage_starts_it_again():
    answers = [*caught(5, stage="rosette"), *gathered(1, stage="rosette"), *caught(3, stage="rosette")]
    covered = cover(answers)
    assert (covered.clean, covered.misses, covered.covered) == (3, 1, False)


def test_a_miss_in_another_stage_leaves_it():
    assert cover([*caught(4, stage="rosette"), *gathered(1, stage="flower")]).covered


def test_a_clean_specimen_gathered_later_is_a_miss_at_that_moment():
    answers = [
        *caught(3, stage="rosette"),
        shown("hemlock", REFUSE, individual="a", stage="rosette"),
        shown("hemlock", GATHER, individual="a", stage="rosette"),
    ]
    assert cover(answers).clean == 0


def test_neutral_answers_cover_nothing():
    answers = [*caught(3, stage="rosette"), shown("hemlock", LEAVE, stage="rosette")]
    assert cover(answers).still_needed == 1


def test_specimens_beyond_the_two_of_a_place_and_day_cover_nothing():
    assert cover(caught(4, stage="rosette", **MILL)).clean == 2


def test_a_stage_is_covered_within_a_window():
    second = WindowFacts(2, START + timedelta(days=60), PERIOD_END)
    answers = [
        *caught(3, stage="rosette", at=START),
        *caught(1, stage="rosette", at=START + timedelta(days=70)),
    ]
    assert cover(answers, windows=(WINDOW, second)).covered
    assert cover(answers, windows=(WINDOW, second), window=1).clean == 1


def test_stages_asked_for_twice_are_covered_once():
    ledger = hemlock_ledger(caught(4, stage="rosette")).windows[0]
    covers = stage_covers(ledger, ["rosette", "fruit", "rosette"], 4)
    assert [(c.stage, c.covered) for c in covers] == [("rosette", True), ("fruit", False)]


def test_the_stages_shown_are_listed_in_order_of_showing():
    answers = [*caught(1, stage="flower"), *caught(1, stage="rosette"), *caught(1, stage="flower", void=True)]
    assert stages_shown(hemlock_ledger(answers).windows[0]) == ("flower", "rosette")


@pytest.mark.parametrize("bars", [PARTICIPANT, WALK_LEADER])
def test_the_default_standards_ask_for_four_clean_in_a_stage_and_evidence_of_two_years(bars):
    assert (bars.stage_clean, bars.period_months) == (4, 24)
