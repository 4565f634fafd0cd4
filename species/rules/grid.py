"""One species at one character as a grid: what it shows at each stage, and how often.

The state table keeps lines (a state, how often, at which stages); whoever edits or exchanges it sees a grid. A
stage at which nothing is scored is *not known*: it is left out, and is never the same as "shows none of them".
Two sets of lines with the same grid say the same.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from hashlib import sha256

from species.rules.separation import Score
from species.rules.vocabulary import Frequency, Stage

Grid = Mapping[Stage, Mapping[str, Frequency]]
"""By stage the states shown there; a stage that is not known is missing, a state that is missing never shows."""

MOST = (Frequency.ALWAYS, Frequency.USUALLY, Frequency.SOMETIMES)


@dataclass(frozen=True)
class Overfull:
    """A stage at which a state is always shown, and others as well."""

    stage: Stage
    states: tuple[str, ...]


def grid_of(scores: Iterable[Score], stages: Iterable[Stage]) -> dict[Stage, dict[str, Frequency]]:
    """The grid of these lines, for a character that can be seen at these stages.

    A state that is scored twice at one stage keeps the larger frequency.
    """
    visible = in_order(stages)
    grid: dict[Stage, dict[str, Frequency]] = {stage: {} for stage in visible}
    for score in scores:
        for stage in visible:
            if not score.stages or stage in score.stages:
                said = grid[stage].get(score.state)
                grid[stage][score.state] = (
                    score.frequency if said is None else min(said, score.frequency, key=MOST.index)
                )
    return {stage: states for stage, states in grid.items() if states}


def scores_in(grid: Grid, stages: Iterable[Stage], states: Iterable[str]) -> tuple[Score, ...]:
    """The fewest lines with this grid, in the order of `states`, the frequent before the rare.

    A line that holds at every stage at which the character can be seen names no stages.
    """
    visible = in_order(stages)
    lines = []
    for state in states:
        for frequency in MOST:
            where = frozenset(stage for stage in visible if grid.get(stage, {}).get(state) == frequency)
            if where:
                lines.append(Score(state, frequency, frozenset() if where == frozenset(visible) else where))
    return tuple(lines)


def overfull(grid: Grid) -> tuple[Overfull, ...]:
    """The stages at which something is always shown, beside something else: one of them cannot be true."""
    return tuple(
        Overfull(stage, tuple(states))
        for stage, states in grid.items()
        if len(states) > 1 and Frequency.ALWAYS in states.values()
    )


def is_same(first: Grid, second: Grid) -> bool:
    """Whether two grids say the same."""
    return _known(first) == _known(second)


def fingerprint(grid: Grid) -> str:
    """A short word that is the same for grids that say the same, and in practice for no others."""
    text = repr(
        sorted((stage.value, sorted((s, f.value) for s, f in states.items())) for stage, states in _known(grid))
    )
    return sha256(text.encode()).hexdigest()[:16]


def _known(grid: Grid) -> list[tuple[Stage, dict[str, Frequency]]]:
    return [(stage, dict(grid[stage])) for stage in Stage if grid.get(stage)]


def in_order(stages: Iterable[Stage]) -> tuple[Stage, ...]:
    """Stages in the order of a life."""
    found = frozenset(stages)
    return tuple(stage for stage in Stage if stage in found)
