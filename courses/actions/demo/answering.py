"""How somebody with stated true rates answers. Pure: facts and a seeded generator in, one answer out."""

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from assessments.rules.evidence import Confidence, Decision
from courses.actions.demo.cast import Rates

NAMES_A_DANGEROUS_PLANT_RIGHTLY = 0.9


@dataclass(frozen=True)
class Shown:
    """A specimen as it truly is: its species, and the species it is taken for (dangerous side only).

    `known_by_name_alone` marks a plant that the school teaches without eating it.
    """

    species: str
    taken_for: tuple[str, ...] = ()
    known_by_name_alone: bool = False

    @property
    def is_dangerous(self) -> bool:
        return bool(self.taken_for)


@dataclass(frozen=True)
class Given:
    """What was answered: the decision, the species named (None: "I don't know"), and how sure."""

    decision: Decision
    named: str | None
    confidence: Confidence


def answer(rates: Rates, shown: Shown, others: Sequence[str], random: Random) -> Given:
    """One answer. `others`: species that a wrong name is taken from."""
    if shown.is_dangerous:
        return _on_a_dangerous_plant(rates, shown, random)
    return _on_an_edible_plant(rates, shown, others, random)


def _on_a_dangerous_plant(rates: Rates, shown: Shown, random: Random) -> Given:
    if random.random() < rates.leaves:
        return Given(Decision.LEAVE, None, Confidence.UNSURE)
    if random.random() < rates.miss_rate(shown.species):
        return Given(Decision.GATHER, random.choice(shown.taken_for), _how_sure(random, 0.4))
    rightly = random.random() < NAMES_A_DANGEROUS_PLANT_RIGHTLY
    return Given(Decision.REFUSE, shown.species if rightly else None, _how_sure(random, 0.7))


def _on_an_edible_plant(rates: Rates, shown: Shown, others: Sequence[str], random: Random) -> Given:
    recognised = random.random() >= rates.overlooks
    if recognised:
        decision = Decision.REFUSE if shown.known_by_name_alone else Decision.GATHER
        return Given(decision, shown.species, _how_sure(random, 0.75))
    if shown.known_by_name_alone or random.random() < 0.2:
        return Given(Decision.GATHER, random.choice(list(others)), Confidence.FAIRLY)
    return Given(random.choice((Decision.REFUSE, Decision.LEAVE)), None, Confidence.UNSURE)


def _how_sure(random: Random, share_sure: float) -> Confidence:
    return Confidence.SURE if random.random() < share_sure else Confidence.FAIRLY
