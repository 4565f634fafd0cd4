"""The wanted list and the round it is for, on banks small enough to say beforehand what is missing."""

from itertools import combinations

import pytest

from assessments.rules.blueprint import Blueprint, Quota
from assessments.rules.rounds import Round, dealt, even_round
from assessments.rules.wanted import NO_MONTH, CannotHold, Naming, Want, months_until, wanted

from .wanted_bank import KINDS, PAIRS, PAPER, D, full_bank, specimen


def test_a_full_bank_lacks_nothing():
    found = wanted(full_bank(), KINDS, even_round(3, PAPER, PAIRS))
    assert found.is_enough
    assert len(found.drawn) == 15


def test_an_empty_bank_lacks_every_question_of_every_paper():
    found = wanted([], KINDS, even_round(4, PAPER, PAIRS))
    assert sum(want.to_photograph for want in found.wants) == 4 * PAPER.length
    assert {(w.kind.species, w.kind.stage) for w in found.wants} == {(k.species, k.stage) for k in KINDS}


def test_dangerous_plants_come_first_and_of_those_what_shows_soonest():
    found = wanted([], KINDS, even_round(4, PAPER, PAIRS))
    assert [(want.kind.species, want.kind.stage) for want in found.wants] == [
        ("hemlock", "rosette"),
        ("lily", "flower"),
        ("hemlock", "flower"),
        ("cow-parsley", "rosette"),
        ("ramsons", "flower"),
    ]


def only_want(supply, kinds=KINDS):
    (want,) = wanted(supply, kinds, even_round(1, PAPER, PAIRS)).wants
    return want


def without_lilies():
    return [each for each in full_bank() if each.specimen.species != "lily"]


def test_a_second_name_is_asked_for_before_a_walk():
    waiting = [specimen("w", "lily", "flower", Naming.SINGLE), specimen("x", "lily", "flower", Naming.DISPUTED)]
    want = only_want([*without_lilies(), *waiting])
    assert ([each.key for each in want.to_name], want.to_settle, want.to_photograph) == (["w"], (), 0)


def test_a_dispute_is_settled_before_a_walk():
    want = only_want([*without_lilies(), specimen("x", "lily", "flower", Naming.DISPUTED)])
    assert ([each.key for each in want.to_settle], want.to_photograph, want.short) == (["x"], 0, 1)


def test_a_disputed_plant_serves_one_of_its_names_only():
    bank = [each for each in full_bank() if each.specimen.species in ("cow-parsley", "ramsons")]
    both = [specimen("x", name, "flower", Naming.DISPUTED) for name in ("hemlock", "lily")]
    found = wanted([*bank, *both], KINDS, even_round(1, PAPER, PAIRS))
    assert sum(len(want.to_settle) for want in found.wants) == 1
    assert sum(want.to_photograph for want in found.wants) == PAPER.dangerous_bounds[0] - 1


def test_more_than_two_of_a_place_and_day_help_no_paper():
    crowd = [specimen(f"c{n}", "lily", "flower", locality="one place") for n in range(6)]
    asked = even_round(3, PAPER, PAIRS)
    assert wanted([*without_lilies(), *crowd], KINDS, asked).wants == (Want(KINDS[2], (), (), 1),)


def test_what_a_sitter_answered_before_takes_up_a_place():
    pair = [specimen(f"c{n}", "lily", "flower", locality="one place") for n in range(2)]
    cell = pair[0].specimen.cell
    bank, asked = [*without_lilies(), *pair], even_round(1, PAPER, PAIRS)
    assert wanted(bank, KINDS, asked, {cell: 1}).is_enough
    assert wanted(bank, KINDS, asked, {cell: 2}).wants == (Want(KINDS[2], (), (), 1),)


def test_the_list_does_not_depend_on_the_order_of_the_bank():
    bank, asked = full_bank(1), even_round(4, PAPER, PAIRS)
    assert wanted(bank, KINDS, asked) == wanted(bank[::-1], KINDS, asked)


def test_a_species_that_no_stage_counts_of_is_named_and_the_rest_is_listed():
    kinds = [kind for kind in KINDS if kind.species != "ramsons"]
    found = wanted(without_lilies(), kinds, even_round(1, PAPER, PAIRS))
    assert found.never == ("ramsons",)
    assert not found.is_enough
    assert found.wants == (Want(KINDS[2], (), (), 1),)


def test_where_no_stage_of_a_whole_side_counts_nothing_is_drawn():
    kinds = [kind for kind in KINDS if kind.side is D]
    found = wanted([], kinds, even_round(1, PAPER, PAIRS))
    assert (found.never, found.wants, found.drawn) == (("cow-parsley", "ramsons"), (), ())


def test_quotas_that_contradict_each_other_are_refused():
    greedy = Round(1, Blueprint(2), (Quota("hemlock", 3, frozenset({"hemlock"})),))
    with pytest.raises(CannotHold):
        wanted([], KINDS, greedy)


def test_a_round_of_short_papers_asks_for_every_plant_and_stage_evenly():
    asked = {quota.name: quota.at_least for quota in even_round(5, Blueprint(4), PAIRS).quotas}
    assert asked == {
        "hemlock": 4,
        "lily": 4,
        "cow-parsley": 4,
        "ramsons": 4,
        "hemlock, rosette": 2,
        "hemlock, flower": 2,
        "lily, flower": 4,
    }


def test_a_round_asks_no_less_than_its_papers_do():
    strict = Blueprint(4, (Quota("lily", 2, frozenset({"lily"})), Quota("dangerous", 2, side=D)))
    asked = {quota.name: quota.at_least for quota in even_round(5, strict, PAIRS).quotas}
    assert (asked["lily"], asked["dangerous"]) == (10, 10)


@pytest.mark.parametrize("papers", [0, -1])
def test_a_round_has_a_paper(papers):
    with pytest.raises(ValueError, match="at least one paper"):
        even_round(papers, PAPER, PAIRS)
    with pytest.raises(ValueError, match="at least one paper"):
        Round(papers, PAPER, ())


def test_no_two_papers_of_a_deal_differ_by_more_than_one_of_a_kind():
    hands = dealt([each.specimen for each in full_bank(3)], 4)
    for one, other in combinations(hands, 2):
        for kind in KINDS:
            counts = [sum((c.species, c.stage) == (kind.species, kind.stage) for c in hand) for hand in (one, other)]
            assert abs(counts[0] - counts[1]) <= 1


@pytest.mark.parametrize(
    ("months", "month", "wait"), [({4, 5}, 4, 0), ({4, 5}, 6, 10), ({1}, 12, 1), (set(), 3, NO_MONTH)]
)
def test_months_to_wait(months, month, wait):
    assert months_until(months, month) == wait
