"""Every paper meets the quotas of its blueprint, whatever chance drew it (CP-11), and its order says nothing (CP-8)."""

from random import Random

import pytest

from assessments.rules.assembly import Assembly, assemble
from assessments.rules.blueprint import Blueprint, Candidate, pair_quotas, stage_quotas
from assessments.rules.standard import Side

from .specimens import CICELY_PAIR, HEMLOCK_PAIR, LILY_PAIR
from .test_assembly import bank

SEEDS = range(150)
PAIRS = (HEMLOCK_PAIR, CICELY_PAIR, LILY_PAIR)
BLUEPRINTS = {
    "short": Blueprint(8, pair_quotas(PAIRS, 1, 1)),
    "middling": Blueprint(20, pair_quotas(PAIRS, 3, 2), per_species=7),
    "long, with stages": Blueprint(
        30, (*pair_quotas(PAIRS, 4, 3), *stage_quotas({("hemlock", "rosette"): 2, ("hemlock", "flower"): 2}))
    ),
}


def papers(blueprint: Blueprint) -> list[tuple[Candidate, ...]]:
    """A paper for each seed, each from a bank that was used and was seen differently."""
    found = []
    for seed in SEEDS:
        left = Random(seed).sample(bank(14), 76)
        paper = assemble(left, blueprint, seed)
        assert isinstance(paper, Assembly), (seed, paper)
        found.append(paper.questions)
    return found


@pytest.mark.parametrize("name", BLUEPRINTS)
def test_cp_11_every_paper_meets_every_quota_over_many_seeds(name):
    blueprint = BLUEPRINTS[name]
    least, most = blueprint.dangerous_bounds
    for questions in papers(blueprint):
        assert len(questions) == len({each.individual for each in questions}) == blueprint.length
        for quota in blueprint.quotas:
            assert sum(map(quota.takes, questions)) >= quota.at_least, quota.name
        assert least <= sum(each.side is Side.DANGEROUS for each in questions) <= most
        assert max(sum(each.cell == cell for each in questions) for cell in {each.cell for each in questions}) <= 2


def test_cp_08_the_place_in_the_order_does_not_tell_the_side():
    """Each place holds a dangerous plant in about half of the papers: five standard deviations of a fair coin apart."""
    found = papers(BLUEPRINTS["middling"])
    for place in range(20):
        share = sum(questions[place].side is Side.DANGEROUS for questions in found) / len(found)
        assert abs(share - 0.5) < 5 * (0.25 / len(found)) ** 0.5, place


def test_cp_08_no_paper_is_ordered_by_the_keys_of_its_plants():
    for questions in papers(BLUEPRINTS["middling"]):
        keys = [each.key for each in questions]
        assert keys != sorted(keys)
        assert keys != sorted(keys, reverse=True)
