"""The wanted list against the programme that draws papers: nothing listed means that the papers can be drawn."""

from collections import Counter
from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from assessments.rules.assembly import Assembly, assemble
from assessments.rules.programme import caps, counting, quota_rows, solve
from assessments.rules.rounds import Round, dealt, even_round
from assessments.rules.wanted import Naming, wanted

from .wanted_bank import KINDS, PAIRS, PAPER, D, candidates_of, specimen


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
