"""The wanted list against the programme that draws papers: nothing listed means that the papers can be drawn."""

from collections import Counter
from dataclasses import replace
from datetime import date
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assessments.rules.assembly import Assembly, assemble
from assessments.rules.blueprint import Blueprint, Candidate, Quota, pair_quotas, stage_quotas
from assessments.rules.programme import caps, counting, quota_rows, solve
from assessments.rules.rounds import Round, dealt, even_round
from assessments.rules.standard import PairFacts, Side
from assessments.rules.wanted import NO_MONTH, CannotHold, Kind, Named, Naming, Want, months_until, wanted

D, E = Side.DANGEROUS, Side.EDIBLE
STAGES = ("rosette", "flower")
PAIRS = (
    PairFacts("parsley", "cow-parsley", "hemlock", required_stages=STAGES),
    PairFacts("ramsons", "ramsons", "lily", required_stages=("flower",)),
)
SIDES = {"hemlock": D, "lily": D, "cow-parsley": E, "ramsons": E}
KINDS = [
    Kind("hemlock", "rosette", D, 0),
    Kind("hemlock", "flower", D, 3),
    Kind("lily", "flower", D, 2),
    Kind("cow-parsley", "rosette", E, 0),
    Kind("ramsons", "flower", E, 1),
]
PAPER = Blueprint(5, (*pair_quotas(PAIRS, 1, 1), *stage_quotas({("hemlock", "rosette"): 1})), per_species=3)


def specimen(key, species="hemlock", stage="rosette", naming=Naming.CONFIRMED, **more):
    facts = {"individual": key, "locality": key, "day": date(2031, 4, 1), **more}
    return Named(Candidate(key=key, species=species, stage=stage, side=SIDES[species], **facts), naming)


def full_bank(of_each=8):
    return [specimen(f"{k.species}{k.stage}{n}", k.species, k.stage) for k in KINDS for n in range(of_each)]


def candidates_of(supply):
    return [each.specimen for each in supply if each.naming is Naming.CONFIRMED]


def can_be_drawn_at_once(pool, papers, paper):
    """Every paper written out for itself, a column for each specimen in each paper: the slow, plain programme."""
    size, rows = len(pool), []
    for number in range(papers):
        here = [*quota_rows(pool, paper), *caps(pool, replace(paper, per_place_and_day=None), {})]
        here.append(counting("length", range(size), paper.length, paper.length))
        here.append(counting("side", (n for n, c in enumerate(pool) if c.side is D), *paper.dangerous_bounds))
        rows += [replace(row, columns=tuple(c + number * size for c in row.columns)) for row in here]
    for mine in (lambda c: c.individual, lambda c: c.cell):
        for group in {mine(c) for c in pool}:
            columns = [n + p * size for n, c in enumerate(pool) if mine(c) == group for p in range(papers)]
            rows.append(counting("together", columns, high=2 if isinstance(group, tuple) else 1))
    return solve(np.zeros(size * papers), rows) is not None


def with_all_that_is_listed(supply, found):
    """The bank after the walk and the naming: exactly what the list says, each new plant from its own place."""
    settled = {(each.key, each.species) for want in found.wants for each in (*want.to_name, *want.to_settle)}
    named = [
        replace(each, naming=Naming.CONFIRMED) if (each.specimen.key, each.specimen.species) in settled else each
        for each in supply
    ]
    new = [
        specimen(f"walk {want.kind.species} {want.kind.stage} {n}", want.kind.species, want.kind.stage)
        for want in found.wants
        for n in range(want.to_photograph)
    ]
    return [*named, *new]


@st.composite
def banks(draw):
    """A small bank: several plants to a place and day, several visits to a plant, names in every state."""
    size = draw(st.integers(0, 16))
    found = []
    for number in range(size):
        kind, naming = draw(st.sampled_from(KINDS)), draw(st.sampled_from([Naming.CONFIRMED, *Naming]))
        place, plant = draw(st.integers(0, 3)), draw(st.integers(0, 9))
        facts = {"individual": f"{kind.species} {place} {plant}", "locality": f"place {place}"}
        found.append(specimen(f"s{number}", kind.species, kind.stage, naming, **facts))
    return found


@given(banks(), st.integers(1, 3))
@settings(max_examples=60, deadline=None)
def test_the_list_is_empty_exactly_when_the_papers_can_be_drawn(supply, papers):
    found = wanted(supply, KINDS, Round(papers, PAPER, tuple(replace(q, at_least=papers) for q in PAPER.quotas)))
    assert found.is_enough == can_be_drawn_at_once(candidates_of(supply), papers, PAPER)


@given(banks(), st.integers(1, 3))
@settings(max_examples=60, deadline=None)
def test_what_is_listed_makes_the_papers_possible(supply, papers):
    asked = even_round(papers, PAPER, PAIRS)
    after = with_all_that_is_listed(supply, wanted(supply, KINDS, asked))
    assert wanted(after, KINDS, asked).is_enough
    assert can_be_drawn_at_once(candidates_of(after), papers, PAPER)


@given(banks(), st.integers(1, 3))
@settings(max_examples=30, deadline=None)
def test_a_walk_with_one_plant_less_would_not_do(supply, papers):
    asked = even_round(papers, PAPER, PAIRS)
    found = wanted(supply, KINDS, asked)
    short = [want for want in found.wants if want.to_photograph]
    for want in short:
        less = replace(want, to_photograph=want.to_photograph - 1)
        wants = tuple(less if each is want else each for each in found.wants)
        after = with_all_that_is_listed(supply, replace(found, wants=wants))
        assert not wanted(after, KINDS, asked).is_enough


@given(banks(), st.integers(1, 3))
@settings(max_examples=40, deadline=None)
def test_the_round_is_dealt_into_papers_that_each_keep_to_the_blueprint(supply, papers):
    found = wanted(supply, KINDS, even_round(papers, PAPER, PAIRS))
    hands = dealt(found.drawn, papers)
    assert all(isinstance(assemble(hand, PAPER, seed=1), Assembly) for hand in hands)
    plants = [each.individual for hand in hands for each in hand]
    assert len(plants) == len(set(plants)) == papers * PAPER.length
    assert max(Counter(each.cell for hand in hands for each in hand).values()) <= 2


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
