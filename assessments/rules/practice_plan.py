"""Which pictures a round of practice shows, in which order. Pure; chance comes in from outside.

Two looks at one pair come one after the other, then another pair, and so on: lookalikes side by side, mixed
with at least two more pairs (Kornell & Bjork 2008; Birnbaum et al. 2013). Which of the two plants a look
shows is drawn by chance, each as often over the round, so the second never follows from the first. Pictures
that somebody has met least often come first.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from random import Random

CYCLES = 2
LOOKS = 2
SECONDS_EACH = 25
"""A choice: with three pairs a round has twelve looks, about five minutes."""


@dataclass(frozen=True)
class Stock:
    """The teaching pictures of a pair: ids of either side, those met least often first."""

    pair: str
    gathered: tuple[int, ...]
    mistaken: tuple[int, ...]

    @property
    def can_be_shown(self) -> bool:
        """Whether there is something of both plants."""
        return bool(self.gathered and self.mistaken)


@dataclass(frozen=True)
class Look:
    """One picture to be shown."""

    pair: str
    picture: int
    is_dangerous: bool


def plan_round(stocks: Sequence[Stock], chance: Random) -> tuple[Look, ...]:
    """The looks of a round over these pairs, in the order of their need; pairs without pictures are passed over.

    A side with fewer pictures than looks shows some of them again.
    """
    shown = [stock for stock in stocks if stock.can_be_shown]
    sides = {stock.pair: _sides(chance) for stock in shown}
    used: dict[tuple[str, bool], int] = {}
    looks: list[Look] = []
    for cycle in range(CYCLES):
        for stock in shown:
            for dangerous in sides[stock.pair][cycle * LOOKS : (cycle + 1) * LOOKS]:
                pictures = stock.mistaken if dangerous else stock.gathered
                nth = used.get((stock.pair, dangerous), 0)
                used[stock.pair, dangerous] = nth + 1
                looks.append(Look(stock.pair, pictures[nth % len(pictures)], dangerous))
    return tuple(looks)


def _sides(chance: Random) -> list[bool]:
    sides = [True, False] * (CYCLES * LOOKS // 2)
    chance.shuffle(sides)
    return sides


def least_met_first(pictures: Sequence[int], met: Mapping[int, int], chance: Random) -> tuple[int, ...]:
    """Pictures by how often somebody has met them, in an order of chance where that is equal."""
    mixed = list(pictures)
    chance.shuffle(mixed)
    return tuple(sorted(mixed, key=lambda picture: met.get(picture, 0)))
