"""Papers from the integer programme against every paper there is, in banks small enough to go through them all.

The solver is HiGHS (through scipy); the second opinion is enumeration in plain Python, which shares no code with it
but the quotas' own `takes`. Source of the model: van der Linden, Linear Models for Optimal Test Design, 2005.
"""

from collections import Counter
from datetime import date
from fractions import Fraction
from itertools import combinations
from random import Random

import numpy as np
import pytest

from assessments.rules.assembly import costs_of, found_paper, in_order
from assessments.rules.blueprint import Blueprint, Candidate, Importance, Quota
from assessments.rules.nearest import Choice, nearest_paper
from assessments.rules.shortfall import least_questions
from assessments.rules.standard import Side

PLANTS = [("hemlock", Side.DANGEROUS), ("lily", Side.DANGEROUS), ("ramsons", Side.EDIBLE), ("cicely", Side.EDIBLE)]
WORTH = {quota: float(quota) for quota in Importance}


def tiny_bank(chance):
    """Seven to nine photos of four plants, some of one individual, some from one place and day."""
    found = []
    for number in range(chance.randint(7, 9)):
        species, side = chance.choice(PLANTS)
        individual, place = f"{species}{chance.randint(0, 3)}", f"place{chance.randint(0, 1)}"
        stage = chance.choice(["rosette", "flower"])
        found.append(
            Candidate(f"c{number}", individual, species, stage, place, date(2031, 4, 1), side, chance.randint(0, 3))
        )
    return found


def tiny_blueprint(chance):
    species = chance.sample([name for name, _side in PLANTS], 2)
    quotas = [
        Quota(name, chance.randint(1, 2), frozenset({name}), importance=chance.choice(list(Importance)))
        for name in species
    ]
    stage = frozenset({"rosette"})
    quotas.append(Quota("rosettes", chance.randint(1, 2), stages=stage, importance=Importance.STAGE))
    return Blueprint(chance.randint(2, 6), tuple(quotas), per_species=chance.choice([None, 3]))


def respects_caps(paper, blueprint):
    individuals = Counter((each.species, each.individual) for each in paper)
    species, cells = Counter(each.species for each in paper), Counter(each.cell for each in paper)
    most = blueprint.per_species or len(paper)
    return all(n <= 1 for n in individuals.values()) and all(n <= most for n in species.values()) and all(
        n <= 2 for n in cells.values()
    )  # fmt: skip


def got(quota, paper):
    return sum(quota.takes(each) for each in paper)


def dangerous(paper):
    return sum(each.side is Side.DANGEROUS for each in paper)


def papers(bank, blueprint, lengths):
    for length in lengths:
        for paper in combinations(bank, length):
            if respects_caps(paper, blueprint):
                yield paper


def good(bank, blueprint):
    """All papers of the length that meet every quota and the share."""
    least, most = blueprint.dangerous_bounds
    return [
        paper
        for paper in papers(bank, blueprint, [blueprint.length])
        if least <= dangerous(paper) <= most and all(got(q, paper) >= q.at_least for q in blueprint.quotas)
    ]


@pytest.mark.parametrize("number", range(120))
def test_a_paper_is_found_where_there_is_one_and_it_is_the_cheapest_of_its_share(number):
    chance = Random(number)
    bank, blueprint = in_order(tiny_bank(chance)), tiny_blueprint(chance)
    there_are = good(bank, blueprint)
    drawn = found_paper(bank, blueprint, number, {})
    assert (drawn is not None) == bool(there_are)
    if drawn is None:
        return
    generator = np.random.default_rng(number)
    least, most = blueprint.dangerous_bounds
    wanted = int(generator.integers(least, most + 1))
    cost = {each.key: price for each, price in zip(bank, costs_of(bank, generator), strict=True)}
    of_the_share = [paper for paper in there_are if dangerous(paper) == wanted] or there_are
    cheapest = min(sum(cost[each.key] for each in paper) for paper in of_the_share)
    assert sum(cost[each.key] for each in drawn.questions) == pytest.approx(cheapest)


@pytest.mark.parametrize("number", range(60))
def test_the_least_number_of_questions_is_the_least_there_is(number):
    chance = Random(1000 + number)
    bank, blueprint = tiny_bank(chance), tiny_blueprint(chance)
    fewest = min(
        (
            len(paper)
            for paper in papers(bank, blueprint, range(len(bank) + 1))
            if Fraction(2, 5) * len(paper) <= dangerous(paper) <= Fraction(3, 5) * len(paper)
            and all(got(quota, paper) >= quota.at_least for quota in blueprint.quotas)
        ),
        default=None,
    )
    assert least_questions(bank, blueprint, {}) == fewest


def given_up(paper, blueprint):
    """What a paper costs in what it does not give."""
    short = sum(WORTH[q.importance] * max(0, q.at_least - got(q, paper)) for q in blueprint.quotas)
    return short + WORTH[Importance.REST] * (blueprint.length - len(paper))


@pytest.mark.parametrize("number", range(60))
def test_the_nearest_paper_gives_up_the_least_there_is_to_give_up(number):
    chance = Random(2000 + number)
    bank, blueprint = tiny_bank(chance), tiny_blueprint(chance)
    possible = [
        paper
        for paper in papers(bank, blueprint, range(1, blueprint.length + 1))
        if Fraction(2, 5) * len(paper) <= dangerous(paper) <= Fraction(3, 5) * len(paper)
    ]
    nearer = nearest_paper([Choice(bank, {})], blueprint)
    assert (nearer is not None) == bool(possible)
    if nearer is not None:
        lowered = sum(
            WORTH[asked.importance] * (asked.at_least - less.at_least)
            for asked, less in zip(blueprint.quotas, nearer.quotas, strict=True)
        )
        lost = lowered + WORTH[Importance.REST] * (blueprint.length - nearer.length)
        assert lost == min(given_up(paper, blueprint) for paper in possible)
        assert good(bank, nearer)
