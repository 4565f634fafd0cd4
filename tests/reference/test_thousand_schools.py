"""The people of the invented school, whose true rates are known, in a thousand seeded schools.

Promised: somebody whose true share of misses is at the limit or above is passed with a chance of alpha at most,
however often it is looked at; here after every specimen, and a pass that was later lost counts as a pass. Those
below the limit pass as often as the planning page says. No outside source: the promise is the decision rule's own.
"""

from collections.abc import Iterator
from datetime import timedelta
from functools import cache
from itertools import product
from random import Random

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import stats

from assessments.rules.evalue import clean_needed, is_passed
from assessments.rules.evidence import AnswerFacts, Decision, SpecimenFacts
from assessments.rules.ledger import Counts, open_ledger
from assessments.rules.names import NameBook
from assessments.rules.planning import time_to_pass
from assessments.rules.standard import PARTICIPANT, WALK_LEADER, Bars, Side, SideBar, WindowFacts
from courses.actions.demo.answering import Shown, answer
from courses.actions.demo.cast import ARUM, DROPWORT, FOXGLOVE, HEMLOCK, LEARNERS, LILY, MERCURY, Part
from tests.assessments.rules.specimens import HEMLOCK_PAIR, PERIOD_END, START, standard

SCHOOLS, SPECIMENS = 1_000, 120
DANGEROUS = (HEMLOCK, DROPWORT, ARUM, LILY, FOXGLOVE, MERCURY)
STANDARDS = [PARTICIPANT, WALK_LEADER]
FIRST = PARTICIPANT.window_weights[0]
LEFT, MISSED, CLEAN = range(3)
FARTHEST = 4.5
"""Standard errors of a share that a seeded simulation may lie from the exact chance; of some hundred shares."""


def outcomes(miss_rate: float, leaves: float, *seed: int) -> NDArray[np.int64]:
    """What a person did with each specimen (column) in each school (row)."""
    chance = np.random.default_rng([20310401, *seed])
    decided = np.where(chance.random((SCHOOLS, SPECIMENS)) < miss_rate, MISSED, CLEAN)
    return np.where(chance.random((SCHOOLS, SPECIMENS)) < leaves, LEFT, decided)


def ever_passed(found: NDArray[np.int64], bar: SideBar) -> NDArray[np.bool_]:
    """For each school and specimen: whether the ledger had been passed by then, at whatever moment."""
    misses, clean = np.cumsum(found == MISSED, axis=1), np.cumsum(found == CLEAN, axis=1)
    needed = np.array([clean_needed(k, bar, FIRST) for k in range(SPECIMENS + 1)])
    return np.logical_or.accumulate(clean >= needed[misses], axis=1)


@cache
def dangerous_passes(name: str, species: str, bars: Bars) -> NDArray[np.bool_]:
    """Whether somebody passed a dangerous species, by school and specimen."""
    number, part = next((n, p) for n, p in enumerate(LEARNERS) if p.name == name)
    rates = part.rates
    found = outcomes(rates.miss_rate(species), rates.leaves, 1, number, DANGEROUS.index(species))
    return ever_passed(found, bars.dangerous)


def edible_passes(number: int, part: Part, bars: Bars) -> NDArray[np.bool_]:
    """Whether somebody passed an edible species. Leaving it is not recognising it, and is among `overlooks`."""
    return ever_passed(outcomes(part.rates.overlooks, 0, 2, number), bars.edible)


def at_or_above(bars: Bars) -> Iterator[tuple[Part, str]]:
    """The people with each dangerous species on which they must not be passed."""
    limit = float(bars.dangerous.limit)
    return ((p, s) for p, s in product(LEARNERS, DANGEROUS) if p.rates.miss_rate(s) >= limit)


@pytest.mark.parametrize("bars", STANDARDS)
def test_nobody_at_or_above_the_limit_is_passed_beyond_the_promised_share(bars):
    shares = {(p.name, s): dangerous_passes(p.name, s, bars)[:, -1].mean() for p, s in at_or_above(bars)}
    assert len(shares) > 2 * len(DANGEROUS)
    assert max(shares.values()) <= float(bars.dangerous.alpha)


@pytest.mark.parametrize("bars", STANDARDS)
def test_nobody_who_overlooks_too_much_is_passed_beyond_the_promised_share(bars):
    for number, part in enumerate(LEARNERS):
        if part.rates.overlooks >= float(bars.edible.limit):
            assert edible_passes(number, part, bars)[:, -1].mean() <= float(bars.edible.alpha)


@pytest.mark.parametrize("bars", STANDARDS)
def test_one_bad_species_is_enough_to_hold_back_the_certificate(bars):
    bad = dict.fromkeys(part.name for part, _ in at_or_above(bars))
    for name in bad:
        passed = [dangerous_passes(name, species, bars)[:, -1] for species in DANGEROUS]
        assert np.all(passed, axis=0).mean() <= float(bars.dangerous.alpha)


@pytest.mark.parametrize("bars", STANDARDS)
@pytest.mark.parametrize("shown", [38, 60, SPECIMENS])
def test_people_pass_as_often_as_the_planning_page_says(bars, shown):
    """Those who leave some decide on fewer: the exact chance is mixed over how many they decide on."""
    for part, species in product(LEARNERS, DANGEROUS):
        time = time_to_pass(part.rates.miss_rate(species), bars.dangerous, FIRST, shown)
        decided = stats.binom.pmf(np.arange(shown + 1), shown, 1 - part.rates.leaves)
        exact = float(decided @ [time.within(n) for n in range(shown + 1)])
        share = dangerous_passes(part.name, species, bars)[:, shown - 1].mean()
        error = np.sqrt(exact * (1 - exact) / SCHOOLS)
        assert abs(share - exact) <= FARTHEST * error + 1e-9, (part.name, species, share, exact)


def test_the_good_do_pass():
    careful, good = "Edda Pennycress", "Petra Windlestone"
    assert dangerous_passes(careful, HEMLOCK, PARTICIPANT)[:, 12].all()
    assert not dangerous_passes(careful, HEMLOCK, PARTICIPANT)[:, 11].any()
    assert dangerous_passes(good, HEMLOCK, PARTICIPANT)[:, -1].mean() > 0.99


WINDOW = WindowFacts(1, START, PERIOD_END)


def answered(part: Part, random: Random, count: int) -> list[AnswerFacts]:
    """The answers that the invented school itself gives for a person, each to a hemlock of its own."""
    facts = []
    for number in range(count):
        given = answer(part.rates, Shown("hemlock", ("cow-parsley",)), [], random)
        moment = START + timedelta(hours=number)
        specimen = SpecimenFacts(f"s{number}", f"s{number}", "hemlock", "flower", f"s{number}", moment.date())
        facts.append(AnswerFacts(specimen, given.decision, moment, 1, moment, named_species=given.named))
    return facts


@pytest.mark.parametrize("part", [LEARNERS[0], *(p for p, s in at_or_above(PARTICIPANT) if s == LILY)])
def test_the_real_ledger_counts_what_the_simulation_counts(part):
    """Twenty schools through the school's own answers and the whole rule: same counts, same verdict."""
    for seed in range(20):
        facts = answered(part, Random(seed), 40)
        decided = [fact.decision for fact in facts]
        found = open_ledger("hemlock", Side.DANGEROUS, standard(HEMLOCK_PAIR), facts, [WINDOW], NameBook()).windows[0]
        clean, misses = decided.count(Decision.REFUSE), decided.count(Decision.GATHER)
        assert found.counts == Counts(clean, misses, decided.count(Decision.LEAVE))
        assert found.passed == is_passed(clean, misses, PARTICIPANT.dangerous, FIRST)
