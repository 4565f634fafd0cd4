"""How one answer is read beside many others: its cell in the map, its word for the flags, and what was claimed."""

from dataclasses import replace

import pytest

from assessments.rules.cohort_reading import answers_to_look_at, as_answer_to_item, as_said, claim_was_right
from assessments.rules.confusion_map import ANOTHER, NOTHING
from assessments.rules.evidence import Decision
from assessments.rules.flags import KEY, LEFT, UNNAMED
from assessments.rules.names import NameBook, SpeciesNames
from tests.assessments.rules.cohort_answers import BAD, BOOK, GOOD, STANDARD, answer_to

GATHER, REFUSE, LEAVE = Decision.GATHER, Decision.REFUSE, Decision.LEAVE


def test_a_synonym_stands_with_the_right_name_and_words_that_mean_nothing_with_another() -> None:
    assert as_said(answer_to(GOOD, GATHER, said="old goodleaf"), BOOK).named == GOOD
    assert as_said(answer_to(GOOD, GATHER, said="dragonwort"), BOOK).named == ANOTHER
    assert as_said(answer_to(GOOD, LEAVE, said=" "), BOOK).named == NOTHING
    assert as_said(answer_to(BAD, GATHER, named=GOOD), BOOK).gathered


@pytest.mark.parametrize(
    ("said", "decision", "word"),
    [
        ("goodleaf", GATHER, KEY),
        ("goodleaf", LEAVE, LEFT),
        ("badleaf", REFUSE, BAD),
        ("", REFUSE, UNNAMED),
        ("Bonus", REFUSE, UNNAMED),
        ("Dragon-Wort", REFUSE, "words dragonwort"),
    ],
)
def test_two_other_names_are_one_only_if_they_are_the_same_plant_or_words(said, decision, word) -> None:
    assert as_answer_to_item(answer_to(GOOD, decision, said=said), BOOK) == word


@pytest.mark.parametrize(
    ("shown", "said", "decision", "right"),
    [
        (BAD, "badleaf", REFUSE, True),
        (BAD, "badleaf", GATHER, False),
        (BAD, "badleaf", LEAVE, None),
        (BAD, "goodleaf", REFUSE, None),
        (GOOD, "goodleaf", GATHER, True),
        (GOOD, "goodleaf", REFUSE, False),
        (GOOD, "badleaf", GATHER, False),
        (GOOD, "goodleaf", LEAVE, None),
        ("otherleaf", "goodleaf", GATHER, False),
    ],
)
def test_a_claim_is_right_as_the_rule_judges_the_answer(shown, said, decision, right) -> None:
    assert claim_was_right(answer_to(shown, decision, said=said), STANDARD, BOOK) is right


def test_what_is_no_evidence_and_what_was_never_answered_is_not_looked_at() -> None:
    good = answer_to(GOOD, GATHER, said="goodleaf")
    void = replace(good, specimen=replace(good.specimen, void=True))
    drawn = replace(good, specimen=replace(good.specimen, drawn=True))
    unsettled = replace(good, specimen=replace(good.specimen, species=None))
    silent, other_kind = replace(good, decision=None), replace(good, kind="which_character")
    several = [good, void, drawn, unsettled, silent, other_kind, replace(good, annulled=True)]
    assert answers_to_look_at(several, STANDARD) == (good,)


def test_a_name_that_means_two_plants_is_another_name() -> None:
    book = NameBook([SpeciesNames("a", "A", common=("leaf",)), SpeciesNames("b", "B", common=("leaf",))])
    assert as_said(answer_to("c", REFUSE, said="leaf"), book).named == ANOTHER
