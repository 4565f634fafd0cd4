"""The answers behind a figure are exactly as many as the figure says."""

from datetime import date

import pytest
from hypothesis import given, settings

from assessments.rules.behind import Part, PartKind, answers_behind, decided_by, reason_counts
from assessments.rules.evidence import Medium
from assessments.rules.ledger import open_ledger
from assessments.rules.live import live_run
from assessments.rules.stages import stage_cover
from assessments.rules.standard import Side
from assessments.rules.treatment import Effect, Reason

from .histories import STAGES, STANDARD, WINDOWS, a_history
from .specimens import GATHER, LEAVE, NAMES, REFUSE, WINDOW, caught, hemlock_ledger, live, parsley_ledger, shown


def behind(ledger, kind, window=0, of=""):
    return answers_behind(ledger, ledger.windows[window], Part(kind, of))


@given(a_history())
@settings(max_examples=60, deadline=None)
def test_every_figure_has_as_many_answers_behind_it_as_it_says(history):
    species, side, answers = history
    ledger = open_ledger(species, side, STANDARD, answers, WINDOWS, NAMES)
    run = live_run(ledger.windows[0], 3, 2)
    for place, window in enumerate(ledger.windows):
        counts = window.counts
        parts = {kind: len(behind(ledger, kind, place)) for kind in PartKind if kind not in ("stage", "reason")}
        assert (parts["clean"], parts["misses"], parts["neutral"]) == (counts.clean, counts.misses, counts.neutral)
        assert parts["counted"] == counts.decided == parts["photographs"] + parts["live"]
        assert parts["live"] == window.live
        assert parts["live-run"] == run.clean
        assert counts.decided + counts.neutral + parts["aside"] == parts["all"] == len(answers)
        for stage in STAGES:
            assert len(behind(ledger, PartKind.STAGE, place, stage)) == stage_cover(window, stage, 4).clean


@given(a_history())
@settings(max_examples=60, deadline=None)
def test_the_reasons_share_all_answers_out_among_them(history):
    species, side, answers = history
    ledger = open_ledger(species, side, STANDARD, answers, WINDOWS, NAMES)
    for window in ledger.windows:
        lines = reason_counts(ledger, window)
        assert sum(line.count for line in lines) == len(answers)
        for line in lines:
            assert len(answers_behind(ledger, window, line.part)) == line.count


def test_what_counts_comes_before_what_does_not():
    ledger = hemlock_ledger([shown("hemlock", LEAVE), shown("hemlock", GATHER), *caught(2), shown("hemlock", None)])
    assert [line.effect for line in reason_counts(ledger, ledger.windows[0])] == [
        Effect.CLEAN,
        Effect.MISS,
        Effect.NEUTRAL,
        Effect.NEUTRAL,
    ]


@pytest.mark.parametrize("text", ["clean", "live-run", "stage-rosette", "reason-left", "all", "elsewhere"])
def test_a_part_is_read_as_it_is_written(text):
    assert str(Part.read(text)) == text


@pytest.mark.parametrize("text", ["", "stage", "stage-", "reason", "reason-luck", "Clean", "clean-x", "best"])
def test_what_is_no_part_is_not_read_as_one(text):
    assert Part.read(text) is None


def test_a_second_answer_to_a_plant_points_at_the_first():
    first, second = shown("hemlock", LEAVE, individual="a"), shown("hemlock", REFUSE, individual="a")
    ledger = hemlock_ledger([first, second, *caught(1)])
    assert decided_by(ledger, ledger.treatments[1]) is ledger.treatments[0]
    assert decided_by(ledger, ledger.treatments[0]) is None


def test_a_clean_answer_taken_back_by_a_gather_points_at_the_gather():
    first, gather = shown("hemlock", REFUSE, individual="a"), shown("hemlock", GATHER, individual="a")
    ledger = hemlock_ledger([first, gather])
    assert ledger.treatments[0].reason is Reason.GATHERED_LATER
    assert decided_by(ledger, ledger.treatments[0]) is ledger.treatments[1]


def test_a_plant_beyond_the_two_of_its_place_still_decides_over_a_later_answer():
    same = {"locality": "ditch", "day": date(2031, 4, 5)}
    two, third = caught(2, **same), shown("hemlock", REFUSE, individual="c", **same)
    again = shown("hemlock", REFUSE, individual="c", **same)
    ledger = hemlock_ledger([*two, third, again])
    assert decided_by(ledger, ledger.treatments[3]) is ledger.treatments[2]


def test_an_answer_before_a_later_window_is_counted_elsewhere_and_not_explained_away():
    answers = caught(2)
    later = type(WINDOW)(2, answers[1].shown_at, WINDOW.closes_at)
    ledger = hemlock_ledger(answers, windows=(WINDOW, later))
    (elsewhere,) = behind(ledger, PartKind.ELSEWHERE, 1)
    assert elsewhere.answer is answers[0]
    assert elsewhere.windows == (1,)


def test_the_answers_behind_live_and_photographs_are_told_apart():
    ledger = hemlock_ledger([*caught(3), live("hemlock", REFUSE), live("hemlock", LEAVE)])
    assert [each.answer.medium for each in behind(ledger, PartKind.LIVE)] == [Medium.LIVE]
    assert len(behind(ledger, PartKind.PHOTOGRAPHS)) == 3


def test_the_edible_side_opens_what_was_not_recognised():
    ledger = parsley_ledger([shown("cow-parsley", LEAVE), shown("cow-parsley", GATHER, "cow-parsley")])
    assert ledger.side is Side.EDIBLE
    assert [each.reason for each in behind(ledger, PartKind.MISSES)] == [Reason.LEFT]
