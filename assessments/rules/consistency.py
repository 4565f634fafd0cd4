"""How sure the decision is near the cut: by the rule's own operating characteristic, and by made-up people.

A wrong pass is a pass of somebody at or above the limit, a wrong delay is no pass of somebody below it. Consistency is
the chance that two independent runs of the same length decide alike, p^2 + (1-p)^2 for a chance p to pass.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from .evalue import WHOLE, clean_needed
from .planning import time_to_pass
from .standard import SideBar

MULTIPLES = (Fraction(0), Fraction(1, 10), Fraction(1, 4), Fraction(1, 2), Fraction(1), Fraction(3, 2), Fraction(2))
"""True shares are looked at as so many times the limit; a choice."""


@dataclass(frozen=True, slots=True)
class CutLine:
    """One true share: whether it is at or above the limit, and the chance to pass within so many specimens."""

    rate: float
    is_over: bool
    passes: float

    @property
    def wrong(self) -> float:
        """The chance of the wrong decision: a pass at or above the limit, none below it."""
        return self.passes if self.is_over else 1 - self.passes

    @property
    def consistency(self) -> float:
        return self.passes**2 + (1 - self.passes) ** 2


def cut_lines(bar: SideBar, weight: Fraction = WHOLE, *, specimens: int) -> tuple[CutLine, ...]:
    """The decision at multiples of the limit, for a ledger of so many specimens."""
    rates = [bar.limit * multiple for multiple in MULTIPLES if bar.limit * multiple < 1]
    return tuple(
        CutLine(float(rate), rate >= bar.limit, time_to_pass(float(rate), bar, weight, specimens).probability)
        for rate in rates
    )


@dataclass(frozen=True, slots=True)
class Simulated:
    """Of so many made-up people exactly at the limit, how many passed within so many specimens."""

    people: int
    specimens: int
    passed: int


def simulated_passes(bar: SideBar, weights: Sequence[Fraction], *, people: int, specimens: int, seed: int) -> Simulated:
    """People exactly at the limit who go on to the end, and are looked at after every specimen.

    Specimen by specimen, with seeded chance: a second opinion on the recursion. The first window alone counts.
    """
    if people < 1 or specimens < 1:
        raise ValueError("At least one person and one specimen.")
    missed = np.random.default_rng(seed).random((people, specimens)) < float(bar.limit)
    misses = np.cumsum(missed, axis=1)
    needed = np.array([clean_needed(count, bar, weights[0]) for count in range(int(misses.max()) + 1)])
    clean = np.arange(1, specimens + 1) - misses
    return Simulated(people, specimens, int((clean >= needed[misses]).any(axis=1).sum()))
