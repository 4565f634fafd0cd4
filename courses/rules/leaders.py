"""Who leads which walk: as many walks led as can be, fairly spread, by people who are ready and free. Pure.

An integer programme (scipy.optimize.milp). First as many walks as possible have a leader; then the walks are
spread: a person's second walk of the season costs more than their first, a third more than that. What is left
equal is settled by the order in which people and walks are given, so the same facts give the same proposal.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp


class Bar(StrEnum):
    """Why somebody cannot lead a walk."""

    NOT_READY = "not_ready"
    LACKS_PAIRS = "lacks_pairs"
    NOT_FREE = "not_free"
    BUSY = "busy"


@dataclass(frozen=True)
class WalkFacts:
    """A walk without a leader, from when until when."""

    key: str
    starts_at: datetime
    ends_at: datetime

    def overlaps(self, other: "WalkFacts") -> bool:
        """Whether nobody can lead both."""
        return self.starts_at < other.ends_at and other.starts_at < self.ends_at


@dataclass(frozen=True)
class Candidate:
    """Somebody who might lead: how many walks of the season they lead already, and by walk what bars them."""

    key: str
    led: int = 0
    bars: Mapping[str, Bar] = field(default_factory=dict)


@dataclass(frozen=True)
class Chosen:
    """One walk and who is proposed, out of so many who could; the walk's gap where nobody is."""

    walk: str
    person: str | None
    could: tuple[str, ...]
    barred: Mapping[str, Bar]


def propose_leaders(walks: Sequence[WalkFacts], people: Sequence[Candidate]) -> tuple[Chosen, ...]:
    """A proposal for all walks, in their order."""
    options = [(w, p) for w, walk in enumerate(walks) for p, person in enumerate(people) if walk.key not in person.bars]
    picked = _solve(walks, people, options) if options else {}
    return tuple(
        Chosen(
            walk.key,
            people[picked[w]].key if w in picked else None,
            tuple(person.key for person in people if walk.key not in person.bars),
            {person.key: person.bars[walk.key] for person in people if walk.key in person.bars},
        )
        for w, walk in enumerate(walks)
    )


def spread_cost(led: int, more: int) -> int:
    """What it costs to give somebody so many more walks who leads some already: 1 for a first, 3 for a second, …"""
    return sum(2 * (led + n) + 1 for n in range(more))


def _solve(
    walks: Sequence[WalkFacts], people: Sequence[Candidate], options: Sequence[tuple[int, int]]
) -> dict[int, int]:
    """Which person for which walk, by index. One variable an option, one for each further walk of a person."""
    steps = [(p, n) for p in range(len(people)) for n in range(sum(1 for _w, each in options if each == p))]
    size = len(options) + len(steps)
    # a led walk outweighs every cost of spreading; the order of people and walks outweighs nothing but a tie
    worst = 1 + spread_cost(max(person.led for person in people), len(walks)) * len(walks)
    tie = 1.0 / (4 * (len(options) + 1) * (len(people) + len(walks) + 1))
    cost = np.zeros(size)
    for n, (w, p) in enumerate(options):
        cost[n] = -worst + tie * (p + w / (len(walks) + 1))
    for n, (p, step) in enumerate(steps):
        cost[len(options) + n] = 2 * (people[p].led + step) + 1
    rows, low, high = _rules(walks, options, steps, size)
    found = milp(
        cost,
        constraints=LinearConstraint(np.array(rows), np.array(low), np.array(high)),
        bounds=Bounds(0, 1),
        integrality=np.ones(size),
        options={"mip_rel_gap": 0.0},
    )
    if found.x is None:  # nobody at all is always a solution
        raise RuntimeError(f"The assignment ended without a solution: {found.message}")
    return {w: p for n, (w, p) in enumerate(options) if found.x[n] > 0.5}


def _rules(
    walks: Sequence[WalkFacts], options: Sequence[tuple[int, int]], steps: Sequence[tuple[int, int]], size: int
) -> tuple[list[np.ndarray], list[float], list[float]]:
    rows: list[np.ndarray] = []
    low: list[float] = []
    high: list[float] = []

    def rule(weights: Mapping[int, float], least: float, most: float) -> None:
        row = np.zeros(size)
        for place, weight in weights.items():
            row[place] = weight
        rows.append(row)
        low.append(least)
        high.append(most)

    for walk in range(len(walks)):
        rule({n: 1.0 for n, (w, _p) in enumerate(options) if w == walk}, 0, 1)
    for person in {p for _w, p in options}:
        mine = {n: 1.0 for n, (_w, p) in enumerate(options) if p == person}
        mine |= {len(options) + n: -1.0 for n, (p, _step) in enumerate(steps) if p == person}
        rule(mine, 0, 0)
        own = [n for n, (_w, p) in enumerate(options) if p == person]
        for at, first in enumerate(own):
            for second in own[at + 1 :]:
                if walks[options[first][0]].overlaps(walks[options[second][0]]):
                    rule({first: 1.0, second: 1.0}, 0, 1)
    return rows, low, high
