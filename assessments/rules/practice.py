"""Practice: when a pair is due again, and which comes next. Practice is never evidence.

One half-life h in days per person and pair. Recall now is 2^(-days since the last time / h). Right: h grows
by 3^min(1, days/h); left alone: h/2; a miss: h/4; always within floor and cap. Due when recall is below
0.7, after 0.515 h: with everything right the gaps grow as 0.5, 0.9, 1.6, 2.8, 4.9, 8.7, 15 days. The
numbers are choices. Growing gaps: Landauer & Bjork 1978; spacing: Cepeda et al. 2006.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from math import log2

from species.rules.vocabulary import Danger

START, FLOOR, CAP = 1.0, 0.5, 180.0
DUE_BELOW = 0.7
GROWTH = 3.0
DANGER_WEIGHTS = {Danger.DANGEROUS: 2.0, Danger.UNPLEASANT: 1.0, Danger.HARMLESS: 1.0}
DEADLY_WEIGHT = 3.0
PAIRS_MIXED = 3
"""A practice round mixes a pair with at least two more: side by side, and in turn (Kornell & Bjork 2008)."""


class Outcome(StrEnum):
    """How one practice answer went."""

    RIGHT = "right"
    LEFT = "left"
    MISS = "miss"


class Said(StrEnum):
    """What can be said of a picture: one plant of the pair, the other, or neither."""

    GATHERED = "gathered"
    MISTAKEN = "mistaken"
    LEAVE = "leave"


def outcome_of(said: Said, *, shows_mistaken: bool) -> Outcome:
    """How an answer went. Only the plant to keep from, called by the name of the one that is gathered, is a miss."""
    if said is (Said.MISTAKEN if shows_mistaken else Said.GATHERED):
        return Outcome.RIGHT
    return Outcome.MISS if said is Said.GATHERED else Outcome.LEFT


def recall(half_life: float, days: float) -> float:
    """The chance to know it still after so many days: 2^(-days / half-life)."""
    if half_life <= 0 or days < 0:
        raise ValueError("A half-life above 0 and no fewer than no days.")
    return float(2.0 ** (-days / half_life))


def next_half_life(half_life: float, days: float, outcome: Outcome, floor: float = FLOOR, cap: float = CAP) -> float:
    """The half-life after one more answer, so many days after the last."""
    if half_life <= 0 or days < 0:
        raise ValueError("A half-life above 0 and no fewer than no days.")
    factor = {
        Outcome.RIGHT: GROWTH ** min(1.0, days / half_life),
        Outcome.LEFT: 1 / 2,
        Outcome.MISS: 1 / 4,
    }[outcome]
    return float(min(cap, max(floor, half_life * factor)))


def days_until_due(half_life: float) -> float:
    """Days after which recall has fallen to where the pair is due: 0.515 half-lives."""
    return -half_life * log2(DUE_BELOW)


@dataclass(frozen=True, slots=True)
class Practised:
    """One pair as a person stands with it. Never met: ``half_life`` and ``days`` are None."""

    pair: str
    danger: Danger
    deadly: bool = False
    half_life: float | None = None
    days: float | None = None

    @property
    def recall(self) -> float:
        """Recall now; 0 for a pair never met."""
        if self.half_life is None or self.days is None:
            return 0.0
        return recall(self.half_life, self.days)

    @property
    def is_due(self) -> bool:
        return self.recall < DUE_BELOW

    @property
    def need(self) -> float:
        """Danger weight times what is forgotten: deadly 3, dangerous 2, otherwise 1."""
        weight = DEADLY_WEIGHT if self.deadly else DANGER_WEIGHTS[self.danger]
        return weight * (1 - self.recall)


def practice_queue(pairs: Iterable[Practised]) -> tuple[Practised, ...]:
    """The pairs with the greatest need first; by key where it is equal."""
    return tuple(sorted(pairs, key=lambda practised: (-practised.need, practised.pair)))


def practice_round(pairs: Iterable[Practised], others: Iterable[Practised] = ()) -> tuple[Practised, ...]:
    """The pairs of the next round: those most needed, mixed as many together as interleaving asks for.

    Where fewer were asked for, the most needed of the others are mixed in.
    """
    asked = practice_queue(pairs)[:PAIRS_MIXED]
    known = {each.pair for each in asked}
    mixed_in = [each for each in practice_queue(others) if each.pair not in known]
    return asked + tuple(mixed_in[: PAIRS_MIXED - len(asked)])
