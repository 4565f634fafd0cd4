"""Whose turn which specimen is: pure choice of the specimens of a past paper, evenly over species and stages."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from random import Random

DANGEROUS_SHARE = 0.58


@dataclass(frozen=True)
class Held:
    """A specimen as it lies in the bank."""

    pk: int
    species: str
    stage: str
    dangerous: bool


@dataclass
class Turns:
    """What one person has not seen yet, and how often each species and stage came up for them."""

    random: Random
    unseen: dict[str, list[Held]] = field(default_factory=dict)
    came_up: Counter[str] = field(default_factory=Counter)
    stage_came_up: Counter[tuple[str, str]] = field(default_factory=Counter)

    @classmethod
    def over(cls, specimens: Iterable[Held], random: Random) -> "Turns":
        """Turns over these specimens, in an order of the person's own."""
        turns = cls(random)
        for specimen in specimens:
            turns.unseen.setdefault(specimen.species, []).append(specimen)
        for held in turns.unseen.values():
            random.shuffle(held)
        return turns

    def draw(self, length: int, dangerous: list[str], edible: list[str]) -> list[Held]:
        """The specimens of one paper, sides mixed; fewer where the bank has no more."""
        wanted = round(length * DANGEROUS_SHARE)
        chosen = self._of(dangerous, wanted) + self._of(edible, length - wanted)
        self.random.shuffle(chosen)
        return chosen

    def _of(self, species: list[str], count: int) -> list[Held]:
        chosen: list[Held] = []
        while len(chosen) < count:
            left = [key for key in species if self.unseen.get(key)]
            if not left:
                break
            key = min(left, key=lambda each: (self.came_up[each], self.random.random()))
            chosen.append(self._next(key))
        return chosen

    def _next(self, species: str) -> Held:
        held = self.unseen[species]
        specimen = min(held, key=lambda each: self.stage_came_up[species, each.stage])
        held.remove(specimen)
        self.came_up[species] += 1
        self.stage_came_up[species, specimen.stage] += 1
        return specimen
