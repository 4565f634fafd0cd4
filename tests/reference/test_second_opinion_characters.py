"""Characters and papers by other roads: scipy, scikit-learn, and trying everything. Inputs at random from a seed."""

from datetime import date
from itertools import chain, combinations

import numpy as np
import pytest
from scipy.spatial.distance import cityblock
from sklearn.metrics import roc_auc_score, roc_curve  # type: ignore[import-untyped]

from assessments.rules.assembly import Assembly, assemble
from assessments.rules.blueprint import Blueprint, Candidate, Quota
from assessments.rules.shortfall import least_questions, quotas_short_of_supply
from assessments.rules.standard import Side
from species.rules.errors import best_cut, least_error
from species.rules.ranking import separation_of

CHANCE = np.random.default_rng(20310403)
DAY = date(2031, 4, 1)


def shares(states):
    return CHANCE.dirichlet(np.full(states, 0.4))


@pytest.mark.parametrize("states", [1, 2, 3, 5, 8])
def test_the_distance_of_two_distributions_as_in_scipy_and_the_best_rule_by_trying_all(states):
    gathered, mistaken = shares(states), shares(states)
    first, second = ({str(n): float(share) for n, share in enumerate(side)} for side in (gathered, mistaken))
    found = separation_of(first, second)
    assert found.total_variation == pytest.approx(cityblock(gathered, mistaken) / 2)
    rules = [list(rule) for size in range(states + 1) for rule in combinations(range(states), size)]
    youden = max(gathered[rule].sum() - mistaken[rule].sum() for rule in rules)
    assert found.total_variation == pytest.approx(youden)
    for share in (0.0, 0.1, 0.5, 0.9):
        errors = [(1 - share) * (1 - gathered[rule].sum()) + share * mistaken[rule].sum() for rule in rules]
        assert least_error(first, second, share) == pytest.approx(min(errors), abs=1e-12)
    assert found.least_error == pytest.approx(least_error(first, second, 0.5))


@pytest.mark.parametrize("sizes", [(8, 8), (30, 11), (1, 20), (50, 50)])
def test_the_best_cut_as_on_the_curve_of_scikit_learn(sizes):
    one, other = (np.round(CHANCE.normal(m, 1, n), 1) for m, n in zip((0, 0.8), sizes, strict=True))
    truth, values = np.repeat([0, 1], sizes), np.concatenate([one, other])
    wrong, right, _ = roc_curve(truth, values, drop_intermediate=False)
    found = best_cut(one.tolist(), other.tolist())
    assert found.youden == pytest.approx(np.abs(right - wrong).max())
    errors = wrong * sizes[0] + (1 - right) * sizes[1]
    assert found.least_errors == round(min(errors.min(), (sum(sizes) - errors).min()))
    assert found.youden >= abs(2 * roc_auc_score(truth, values) - 1) / 2


def tiny_bank(size):
    """A bank of a few photos: two dangerous and two edible species, two stages, some of one plant or one place."""
    species, stages = CHANCE.integers(0, 4, size), CHANCE.integers(0, 2, size)
    return [
        Candidate(
            f"k{n}",
            f"i{CHANCE.integers(0, size)}",
            f"sp{species[n]}",
            f"st{stages[n]}",
            f"l{CHANCE.integers(0, 3)}",
            DAY,
            Side.DANGEROUS if species[n] < 2 else Side.EDIBLE,
            uses=int(CHANCE.integers(0, 4)),
        )
        for n in range(size)
    ]


def allowed(taken, blueprint):
    """Whether these photos obey the caps: one of an individual, two of a species, place and day."""
    individuals = [(c.species, c.individual) for c in taken]
    cells = [c.cell for c in taken]
    return len(set(individuals)) == len(taken) and all(cells.count(c) <= blueprint.per_place_and_day for c in cells)


def meets(taken, quotas):
    return all(sum(map(quota.takes, taken)) >= quota.at_least for quota in quotas)


@pytest.mark.parametrize("number", range(25))
def test_a_paper_from_a_tiny_bank_as_by_trying_every_choice(number):
    bank = tiny_bank(9)
    quotas = (
        Quota("dangerous", int(CHANCE.integers(0, 4)), side=Side.DANGEROUS),
        Quota("first", int(CHANCE.integers(0, 3)), species=frozenset({"sp0"})),
        Quota("stage", int(CHANCE.integers(0, 4)), stages=frozenset({"st0"})),
    )
    blueprint = Blueprint(int(CHANCE.integers(1, 7)), quotas, dangerous_share=None)
    every = chain.from_iterable(combinations(bank, size) for size in range(len(bank) + 1))
    legal = [taken for taken in every if allowed(taken, blueprint)]
    good = [taken for taken in legal if meets(taken, quotas)]
    right_length = [taken for taken in good if len(taken) == blueprint.length]

    paper = assemble(bank, blueprint, seed=number)
    assert isinstance(paper, Assembly) == bool(right_length)
    if isinstance(paper, Assembly):
        cheapest = min(sum(c.uses for c in taken) for taken in right_length)
        assert sum(c.uses for c in paper.questions) <= cheapest + blueprint.length
        assert any(set(paper.questions) == set(taken) for taken in right_length)
    assert least_questions(bank, blueprint, {}) == min(map(len, good), default=None)
    most = {quota.name: max(sum(map(quota.takes, taken)) for taken in legal) for quota in quotas}
    short = {quota.name: quota.at_least - most[quota.name] for quota in quotas if quota.at_least > most[quota.name]}
    assert {shortage.name: shortage.short for shortage in quotas_short_of_supply(bank, blueprint, {})} == short
