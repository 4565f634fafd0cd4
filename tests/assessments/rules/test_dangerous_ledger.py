"""The ledger of a dangerous species: every row of the rule of what counts, and every case around it."""

from datetime import date, timedelta
from typing import Any

import pytest

from assessments.rules.standard import Side
from assessments.rules.treatment import Asked, Effect, Reason, asked_of

from .specimens import (
    CICELY_PAIR,
    GATHER,
    HEMLOCK_PAIR,
    LEAVE,
    REFUSE,
    START,
    caught,
    counts,
    hemlock_ledger,
    live,
    shown,
    stand,
    standard,
    treated,
)

CLEAN, MISS, NEUTRAL, NONE = Effect.CLEAN, Effect.MISS, Effect.NEUTRAL, Effect.NONE


@pytest.mark.parametrize("named", ["hemlock", "cow-parsley", "ramsons", None])
def test_a_gather_is_a_miss_under_whatever_name(named):
    ledger = hemlock_ledger([shown("hemlock", GATHER, named)])
    assert treated(ledger) == [(MISS, Reason.GATHERED_DANGEROUS)]
    assert counts(ledger) == (0, 1, 0)


@pytest.mark.parametrize(
    ("name", "reason"),
    [
        ({"named": "hemlock"}, Reason.REFUSED_AND_NAMED),
        ({"said": "Conium maculatum"}, Reason.REFUSED_AND_NAMED),
        ({"named": "ramsons"}, Reason.REFUSED),
        ({"said": "something with spots"}, Reason.REFUSED),
        ({"named_genus": "Conium"}, Reason.REFUSED),
        ({}, Reason.REFUSED),
    ],
)
def test_a_refusal_is_clean_under_its_name_another_or_none(name, reason):
    ledger = hemlock_ledger([shown("hemlock", REFUSE, **name)])
    assert treated(ledger) == [(CLEAN, reason)]
    assert counts(ledger) == (1, 0, 0)


@pytest.mark.parametrize("name", [{"named": "cow-parsley"}, {"said": "cow parsley"}, {"named_genus": "Anthriscus"}])
def test_a_refusal_under_the_name_of_the_edible_lookalike_is_neutral(name):
    ledger = hemlock_ledger([shown("hemlock", REFUSE, **name)])
    assert treated(ledger) == [(NEUTRAL, Reason.REFUSED_AS_EDIBLE)]
    assert counts(ledger) == (0, 0, 1)


def test_the_edible_species_of_any_pair_of_the_plant_makes_it_neutral():
    answer = shown("hemlock", REFUSE, "cicely")
    assert counts(hemlock_ledger([answer])) == (1, 0, 0)
    assert counts(hemlock_ledger([answer], standard(HEMLOCK_PAIR, CICELY_PAIR))) == (0, 0, 1)
    elsewhere = standard(taken_for={"hemlock": frozenset({"cicely"})})
    assert counts(hemlock_ledger([answer], elsewhere)) == (0, 0, 1)


@pytest.mark.parametrize("named", ["hemlock", "cow-parsley", None])
def test_leaving_it_is_neutral_under_whatever_name(named):
    ledger = hemlock_ledger([shown("hemlock", LEAVE, named)])
    assert treated(ledger) == [(NEUTRAL, Reason.LEFT)]
    assert counts(ledger) == (0, 0, 1)


def test_shown_but_never_answered_is_neutral():
    ledger = hemlock_ledger([shown("hemlock", None)])
    assert treated(ledger) == [(NEUTRAL, Reason.UNANSWERED)]


def test_a_miss_counts_for_every_pair_of_the_species():
    answers = [*caught(13), shown("hemlock", GATHER)]
    verdicts = stand(answers, standard(HEMLOCK_PAIR, CICELY_PAIR)).pairs
    assert [verdict.dangerous.windows[0].counts.misses for verdict in verdicts] == [1, 1]
    assert not any(verdict.dangerous.passed for verdict in verdicts)


def test_later_right_answers_to_one_specimen_never_add():
    ledger = hemlock_ledger([shown("hemlock", REFUSE, key="a") for _ in range(3)])
    assert counts(ledger) == (1, 0, 0)
    assert treated(ledger)[1:] == [(NONE, Reason.ANSWERED_BEFORE)] * 2


def test_a_first_answer_that_left_it_is_not_mended_by_a_second():
    assert counts(hemlock_ledger([shown("hemlock", LEAVE, key="a"), shown("hemlock", REFUSE, key="a")])) == (
        0,
        0,
        1,
    )


def test_a_later_gather_of_the_same_specimen_takes_the_clean_back():
    ledger = hemlock_ledger([shown("hemlock", REFUSE, key="a"), shown("hemlock", GATHER, key="a")])
    assert counts(ledger) == (0, 1, 0)
    assert treated(ledger) == [(NONE, Reason.GATHERED_LATER), (MISS, Reason.GATHERED_DANGEROUS)]


def test_a_later_gather_takes_a_neutral_answer_back_too():
    assert counts(hemlock_ledger([shown("hemlock", LEAVE, key="a"), shown("hemlock", GATHER, key="a")])) == (
        0,
        1,
        0,
    )


def test_one_specimen_is_one_miss_however_often_it_is_gathered():
    ledger = hemlock_ledger([shown("hemlock", GATHER, key="a"), shown("hemlock", GATHER, key="a")])
    assert counts(ledger) == (0, 1, 0)
    assert treated(ledger)[1] == (NONE, Reason.GATHERED_BEFORE)


def test_a_right_answer_after_a_gather_leaves_the_miss():
    assert counts(hemlock_ledger([shown("hemlock", GATHER, key="a"), shown("hemlock", REFUSE, key="a")])) == (
        0,
        1,
        0,
    )


def test_a_second_specimen_of_one_individual_adds_nothing_but_a_gather():
    first = shown("hemlock", REFUSE, individual="root")
    assert counts(hemlock_ledger([first, shown("hemlock", REFUSE, individual="root")])) == (1, 0, 0)
    assert counts(hemlock_ledger([first, shown("hemlock", GATHER, individual="root")])) == (0, 1, 0)


def test_a_void_specimen_counts_in_neither_direction():
    ledger = hemlock_ledger([shown("hemlock", REFUSE, void=True), shown("hemlock", GATHER, void=True)])
    assert counts(ledger) == (0, 0, 0)
    assert treated(ledger) == [(NONE, Reason.SPECIMEN_VOID)] * 2


def test_the_first_answer_that_is_not_void_decides():
    void, good = shown("hemlock", LEAVE, individual="a", void=True), shown("hemlock", REFUSE, individual="a")
    assert counts(hemlock_ledger([void, good])) == (1, 0, 0)


def test_an_annulled_sitting_leaves_no_evidence():
    ledger = hemlock_ledger([shown("hemlock", GATHER, annulled=True)])
    assert treated(ledger) == [(NONE, Reason.SITTING_ANNULLED)]


def test_a_specimen_that_is_disputed_today_counts_nowhere():
    disputed = shown(None, GATHER, "hemlock")
    result = stand([disputed])
    assert counts(result.dangerous[0]) == (0, 0, 0)
    assert [t.reason for t in result.set_aside] == [Reason.SPECIMEN_NOT_SETTLED]


def test_a_specimen_determined_anew_is_simply_counted_under_its_new_name():
    answer: dict[str, Any] = {"decision": GATHER, "named": "cow-parsley", "key": "a"}
    as_parsley, as_hemlock = stand([shown("cow-parsley", **answer)]), stand([shown("hemlock", **answer)])
    assert (counts(as_parsley.dangerous[0]), counts(as_parsley.edible[0])) == ((0, 0, 0), (1, 0, 0))
    assert (counts(as_hemlock.dangerous[0]), counts(as_hemlock.edible[0])) == ((0, 1, 0), (0, 0, 0))


def test_a_drawing_is_no_evidence_unless_the_standard_says_so():
    answers = [shown("hemlock", REFUSE, drawn=True), shown("hemlock", GATHER, drawn=True)]
    assert treated(hemlock_ledger(answers)) == [(NONE, Reason.DRAWING)] * 2
    assert counts(hemlock_ledger(answers, standard(drawings_count=True))) == (1, 1, 0)


HERE, TODAY = "the mill", date(2031, 4, 1)


def test_two_individuals_of_a_species_from_one_place_and_day_count_and_no_third():
    ledger = hemlock_ledger(caught(3, locality=HERE, day=TODAY))
    assert counts(ledger) == (2, 0, 0)
    assert treated(ledger)[2] == (NONE, Reason.TWO_FROM_THERE_ALREADY)


def test_another_place_or_another_day_has_two_places_of_its_own():
    there = caught(2, locality="the weir", day=TODAY)
    later = caught(2, locality=HERE, day=TODAY + timedelta(days=1))
    assert counts(hemlock_ledger([*caught(2, locality=HERE, day=TODAY), *there, *later])) == (6, 0, 0)


def test_a_miss_takes_one_of_the_two_places():
    answers = [shown("hemlock", GATHER, locality=HERE, day=TODAY), *caught(2, locality=HERE, day=TODAY)]
    assert counts(hemlock_ledger(answers)) == (1, 1, 0)


def test_a_neutral_answer_takes_no_place():
    answers = [shown("hemlock", LEAVE, locality=HERE, day=TODAY) for _ in range(2)]
    assert counts(hemlock_ledger([*answers, *caught(3, locality=HERE, day=TODAY)])) == (2, 0, 2)


def test_a_void_specimen_takes_no_place():
    answers = caught(2, locality=HERE, day=TODAY, void=True) + caught(2, locality=HERE, day=TODAY)
    assert counts(hemlock_ledger(answers)) == (2, 0, 0)


def test_a_gather_beyond_the_two_is_a_miss_all_the_same():
    answers = [*caught(2, locality=HERE, day=TODAY), shown("hemlock", GATHER, locality=HERE, day=TODAY)]
    assert counts(hemlock_ledger(answers)) == (2, 1, 0)


def test_a_neutral_answer_beyond_the_two_is_neutral():
    answers = [*caught(2, locality=HERE, day=TODAY), shown("hemlock", LEAVE, locality=HERE, day=TODAY)]
    assert counts(hemlock_ledger(answers)) == (2, 0, 1)


@pytest.mark.parametrize("kind", ["side_by_side", "which_character", "point_at_it", "a kind long gone"])
def test_other_kinds_of_question_do_not_count(kind):
    ledger = hemlock_ledger([shown("hemlock", REFUSE, "hemlock", kind=kind)])
    assert treated(ledger) == [(NONE, Reason.KIND_DOES_NOT_COUNT)]


def test_a_gather_side_by_side_is_a_miss():
    assert counts(hemlock_ledger([shown("hemlock", GATHER, kind="side_by_side")])) == (0, 1, 0)


def test_what_was_seen_in_another_kind_of_question_is_used_up():
    answers = [shown("hemlock", REFUSE, key="a", kind="side_by_side"), shown("hemlock", REFUSE, key="a")]
    assert treated(hemlock_ledger(answers))[1] == (NONE, Reason.ANSWERED_BEFORE)


def test_a_live_answer_goes_into_the_same_ledger():
    assert counts(hemlock_ledger([*caught(2), live("hemlock", REFUSE), live("hemlock", GATHER)])) == (3, 1, 0)


def test_the_paper_opened_first_is_first_whenever_it_was_delivered():
    early = shown("hemlock", LEAVE, key="a", at=START + timedelta(days=1))
    late = shown("hemlock", REFUSE, key="a", at=START + timedelta(days=2))
    assert counts(hemlock_ledger([late, early])) == (0, 0, 1)


def test_within_a_paper_the_position_decides():
    opened: dict[str, Any] = {"opened_at": START + timedelta(days=1), "at": START + timedelta(days=1)}
    second = shown("hemlock", REFUSE, individual="a", **opened, position=2)
    first = shown("hemlock", LEAVE, individual="a", **opened, position=1)
    assert counts(hemlock_ledger([second, first])) == (0, 0, 1)


def test_the_opening_of_the_paper_goes_before_the_moment_of_showing():
    shown_late = shown("hemlock", LEAVE, key="a", at=START + timedelta(days=9), opened_at=START)
    shown_early = shown("hemlock", REFUSE, key="a", at=START + timedelta(days=2))
    assert counts(hemlock_ledger([shown_early, shown_late])) == (0, 0, 1)


def test_of_a_dangerous_species_no_stage_is_left_out_and_its_name_alone_is_never_enough():
    asked = asked_of("hemlock", Side.DANGEROUS, standard(recognise_only=frozenset({"hemlock"})))
    assert asked == Asked(Side.DANGEROUS, frozenset({"cow-parsley"}), by_name_alone=False, stages=None)
