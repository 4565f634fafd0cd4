"""Drawing a paper: quotas met, least used photos first, nothing that can be guessed from the proportions.

``assemble`` returns an Assembly, or a Shortfall that says exactly what is missing. No quota is ever dropped.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from .blueprint import Blueprint, Candidate, Cell
from .order import mixed
from .programme import Numbers, Row, caps, counting, quota_rows, solve
from .shortfall import DANGEROUS_SHARE, LENGTH, Shortfall, explain_shortfall
from .standard import Side

NOTHING_ANSWERED: Mapping[Cell, int] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Assembly:
    """A paper: its photos in the order of the questions."""

    questions: tuple[Candidate, ...]

    @property
    def dangerous(self) -> int:
        """How many of them are dangerous plants."""
        return sum(1 for question in self.questions if question.side is Side.DANGEROUS)


def assemble(
    candidates: Sequence[Candidate],
    blueprint: Blueprint,
    seed: int,
    answered: Mapping[Cell, int] = NOTHING_ANSWERED,
) -> Assembly | Shortfall:
    """Draw a paper for one person.

    ``answered``: how many individuals of a species, from one locality and day, the person has answered
    before. The same candidates, blueprint and seed give the same paper, whatever order they come in.
    """
    drawn = found_paper(candidates, blueprint, seed, answered)
    return drawn or explain_shortfall(in_order(candidates), blueprint, answered)


def in_order(candidates: Sequence[Candidate]) -> list[Candidate]:
    """The candidates by their keys: the order in which the programme sees them, whatever order they come in."""
    return sorted(candidates, key=lambda candidate: candidate.key)


def found_paper(
    candidates: Sequence[Candidate], blueprint: Blueprint, seed: int, answered: Mapping[Cell, int]
) -> Assembly | None:
    """The paper of `assemble`, or None without a word on what is missing."""
    pool = in_order(candidates)
    chance = np.random.default_rng(seed)
    least, most = blueprint.dangerous_bounds
    drawn = int(chance.integers(least, most + 1))
    cost = costs_of(pool, chance)
    rows = [
        *caps(pool, blueprint, answered),
        *quota_rows(pool, blueprint),
        counting(LENGTH, range(len(pool)), blueprint.length, blueprint.length),
    ]
    # The drawn number of dangerous plants first; where the quotas forbid it, any number within the bounds.
    for low, high in ((drawn, drawn), (least, most)):
        taken = solve(cost, [*rows, *_share(pool, blueprint, low, high)])
        if taken is not None:
            questions = [candidate for candidate, chosen in zip(pool, taken, strict=True) if chosen]
            return Assembly(mixed(questions, int(chance.integers(2**63))))
    return None


def costs_of(pool: Sequence[Candidate], chance: np.random.Generator) -> Numbers:
    """What it costs to take each photo: how often it was set, and less than one by chance. Nothing else enters."""
    return np.array([candidate.uses for candidate in pool], dtype=np.float64) + chance.random(len(pool))


def _share(pool: Sequence[Candidate], blueprint: Blueprint, low: int, high: int) -> list[Row]:
    if blueprint.dangerous_share is None:
        return []
    dangerous = (n for n, candidate in enumerate(pool) if candidate.side is Side.DANGEROUS)
    return [counting(DANGEROUS_SHARE, dangerous, low, high)]
