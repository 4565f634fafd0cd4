"""The ledger of an edible species: recognised or not."""

from dataclasses import replace
from typing import Any

import pytest

from assessments.rules.standard import PairFacts, StandardFacts
from assessments.rules.treatment import Effect, Reason, stages_that_count
from species.rules.vocabulary import Danger

from .specimens import (
    CICELY_PAIR,
    GATHER,
    LEAVE,
    REFUSE,
    counts,
    gathered,
    parsley_ledger,
    recognised,
    shown,
    standard,
    treated,
)

CLEAN, MISS, NONE = Effect.CLEAN, Effect.MISS, Effect.NONE


@pytest.mark.parametrize(
    "name",
    [
        {"named": "cow-parsley"},
        {"said": "Cow parsley"},
        {"named": "cow-parsley-agg"},
        {"said": "Chaerophyllum sylvestre"},
    ],
)
def test_gathered_under_its_right_name_it_is_recognised(name):
    assert treated(parsley_ledger([shown("cow-parsley", GATHER, **name)])) == [(CLEAN, Reason.RECOGNISED)]


@pytest.mark.parametrize(
    ("answer", "reason"),
    [
        (shown("cow-parsley", REFUSE, "cow-parsley"), Reason.REFUSED_EDIBLE),
        (shown("cow-parsley", REFUSE, "hemlock"), Reason.REFUSED_EDIBLE),
        (shown("cow-parsley", LEAVE, "cow-parsley"), Reason.LEFT),
        (shown("cow-parsley", None), Reason.UNANSWERED),
        (shown("cow-parsley", GATHER, "cicely"), Reason.NAMED_WRONGLY),
        (shown("cow-parsley", GATHER, said="parsley of sorts"), Reason.NAMED_WRONGLY),
        (shown("cow-parsley", GATHER, named_genus="Anthriscus"), Reason.NAMED_GENUS_ONLY),
        (shown("cow-parsley", GATHER), Reason.NOT_NAMED),
    ],
)
def test_anything_else_is_not_recognised(answer, reason):
    ledger = parsley_ledger([answer])
    assert treated(ledger) == [(MISS, reason)]
    assert counts(ledger) == (0, 1, 0)


def test_the_first_answer_decides_and_a_later_one_changes_nothing():
    answers = [shown("cow-parsley", LEAVE, key="a"), shown("cow-parsley", GATHER, "cow-parsley", key="a")]
    assert counts(parsley_ledger(answers)) == (0, 1, 0)
    assert treated(parsley_ledger(answers))[1] == (NONE, Reason.ANSWERED_BEFORE)
    turned = [shown("cow-parsley", GATHER, "cow-parsley", key="b"), shown("cow-parsley", REFUSE, key="b")]
    assert counts(parsley_ledger(turned)) == (1, 0, 0)


def test_a_void_specimen_counts_in_neither_direction():
    answers = [*recognised(2, void=True), shown("cow-parsley", REFUSE, void=True)]
    assert counts(parsley_ledger(answers)) == (0, 0, 0)


def test_no_more_than_two_from_one_place_and_day_count_either_way():
    here: dict[str, Any] = {"locality": "the mill", "day": shown("x", GATHER).specimen.day}
    answers = [*recognised(2, **here), shown("cow-parsley", REFUSE, **here), *recognised(1, **here)]
    ledger = parsley_ledger(answers)
    assert counts(ledger) == (2, 0, 0)
    assert treated(ledger)[2:] == [(NONE, Reason.TWO_FROM_THERE_ALREADY)] * 2


def test_gathering_it_side_by_side_proves_nothing():
    answer = shown("cow-parsley", GATHER, "cow-parsley", kind="side_by_side")
    assert treated(parsley_ledger([answer])) == [(NONE, Reason.KIND_DOES_NOT_COUNT)]


@pytest.mark.parametrize("decision", [GATHER, REFUSE, LEAVE])
def test_a_species_that_is_not_eaten_is_recognised_by_name_whatever_the_decision(decision):
    facts = standard(recognise_only=frozenset({"cow-parsley"}))
    right, wrong = shown("cow-parsley", decision, "cow-parsley"), shown("cow-parsley", decision, "hemlock")
    assert treated(parsley_ledger([right, wrong], facts)) == [
        (CLEAN, Reason.RECOGNISED_BY_NAME),
        (MISS, Reason.NAMED_WRONGLY),
    ]


def test_a_species_that_is_not_eaten_needs_its_name_in_full():
    facts = standard(recognise_only=frozenset({"cow-parsley"}))
    answers = [
        shown("cow-parsley", REFUSE),
        shown("cow-parsley", REFUSE, named_genus="Anthriscus"),
        shown("cow-parsley", None, "cow-parsley"),
    ]
    reasons = [Reason.NOT_NAMED, Reason.NAMED_GENUS_ONLY, Reason.UNANSWERED]
    assert treated(parsley_ledger(answers, facts)) == [(MISS, reason) for reason in reasons]


PAIR = PairFacts("cowparsley-hemlock", "cow-parsley", "hemlock", edible_stages=("flower",))


def test_it_enters_the_ledger_only_in_a_stage_in_which_it_is_gathered():
    answers = [shown("cow-parsley", REFUSE, stage="dormant"), *recognised(1, stage="flower")]
    ledger = parsley_ledger(answers, standard(PAIR))
    assert treated(ledger) == [(NONE, Reason.STAGE_DOES_NOT_COUNT), (CLEAN, Reason.RECOGNISED)]
    assert len(ledger.windows[0].entries) == 1


FOOLS_PARSLEY = PairFacts("cowparsley-foolsparsley", "cow-parsley", "fools-parsley")


def with_stages(*stages: tuple[str, ...] | None) -> StandardFacts:
    """A standard in which cow parsley has one pair for each of these lists of stages."""
    return standard(*(replace(FOOLS_PARSLEY, key=f"pair {n}", edible_stages=s) for n, s in enumerate(stages)))


def test_a_stage_counts_only_where_every_pair_of_the_species_is_fair():
    """A leaf told from hemlock and not from fool's parsley: leaving it is right, and must cost nothing."""
    facts = with_stages(("flower", "rosette"), ("flower",))
    answers = [shown("cow-parsley", LEAVE, stage="rosette"), *recognised(1, stage="flower")]
    assert treated(parsley_ledger(answers, facts)) == [
        (NONE, Reason.STAGE_DOES_NOT_COUNT),
        (CLEAN, Reason.RECOGNISED),
    ]


@pytest.mark.parametrize(
    ("stages", "counting"),
    [
        ((("flower", "rosette"), ("fruit", "flower")), {"flower"}),
        ((("flower",), ("rosette",)), set()),
        ((("flower",), ()), set()),
        ((("flower",), None), {"flower"}),
        ((None, None), None),
    ],
)
def test_the_stages_that_count_are_those_that_all_pairs_share(stages, counting):
    assert stages_that_count("cow-parsley", with_stages(*stages)) == counting


def test_a_pair_that_is_not_dangerous_takes_no_stage_away():
    harmless = replace(FOOLS_PARSLEY, danger=Danger.UNPLEASANT, edible_stages=("rosette",))
    assert stages_that_count("cow-parsley", standard(PAIR, harmless)) == {"flower"}
    assert stages_that_count("cow-parsley", standard(PAIR, CICELY_PAIR)) == {"flower"}


def test_no_stage_named_means_every_stage_and_an_empty_list_means_none():
    everywhere = standard(PairFacts("p", "cow-parsley", "hemlock", edible_stages=None))
    nowhere = standard(PairFacts("p", "cow-parsley", "hemlock", edible_stages=()))
    assert counts(parsley_ledger(recognised(1), everywhere)) == (1, 0, 0)
    assert counts(parsley_ledger(recognised(1), nowhere)) == (0, 0, 0)


def test_a_species_that_is_not_eaten_counts_in_every_stage():
    facts = standard(PAIR, recognise_only=frozenset({"cow-parsley"}))
    assert counts(parsley_ledger(recognised(1, stage="dormant"), facts)) == (1, 0, 0)


def test_a_gather_of_the_dangerous_species_is_nothing_to_the_edible_ledger():
    assert counts(parsley_ledger(gathered(3))) == (0, 0, 0)


def test_five_recognised_pass_and_four_do_not():
    assert parsley_ledger(recognised(5)).passed
    assert not parsley_ledger(recognised(4)).passed
    assert not parsley_ledger([*recognised(7), shown("cow-parsley", REFUSE)]).passed
    assert parsley_ledger([*recognised(8), shown("cow-parsley", REFUSE)]).passed
