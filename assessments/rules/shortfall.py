"""When a paper cannot be drawn: what exactly is missing, in four steps.

1. each quota against its own supply (exact);
2. the least number of questions that would meet all quotas;
3. one way out: by how many each quota would have to give way, the dangerous side last;
4. a smallest set of conditions that cannot hold together (deletion filter; Chinneck 2008), looked for only
   where the first two steps do not say it already, since it takes a solve per condition.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

import numpy as np

from .blueprint import Blueprint, Candidate, Cell, Importance, Quota
from .programme import Row, caps, counting, quota_rows, solve
from .standard import Side

LENGTH, DANGEROUS_SHARE = "length", "dangerous share"
"""The names of the two conditions that are no quotas."""


@dataclass(frozen=True, slots=True)
class Shortage:
    """A condition, what it asks for, and what can be had."""

    name: str
    asked: int
    available: int

    @property
    def short(self) -> int:
        return self.asked - self.available


@dataclass(frozen=True, slots=True)
class Shortfall:
    """Why a paper cannot be drawn.

    ``short``: quotas that the bank cannot meet by themselves. ``least_questions``: the shortest paper that
    meets all quotas, None if none does; ``length`` is what was asked. ``one_way_out``: quotas (and perhaps
    the length or the dangerous share) with what they could still get, as one possibility of several.
    ``conflict``: names of conditions that cannot hold together, each of them needed for the conflict; empty
    where quotas are short or too many for the length.
    """

    length: int
    short: tuple[Shortage, ...]
    least_questions: int | None
    one_way_out: tuple[Shortage, ...]
    conflict: tuple[str, ...]


def explain_shortfall(candidates: Sequence[Candidate], blueprint: Blueprint, answered: Mapping[Cell, int]) -> Shortfall:
    """The four steps for a paper that cannot be drawn."""
    short = quotas_short_of_supply(candidates, blueprint, answered)
    least = least_questions(candidates, blueprint, answered)
    is_said = bool(short) or (least is not None and least > blueprint.length)
    return Shortfall(
        length=blueprint.length,
        short=short,
        least_questions=least,
        one_way_out=one_way_out(candidates, blueprint, answered),
        conflict=() if is_said else conflicting_conditions(candidates, blueprint, answered),
    )


def supply(quota: Quota, candidates: Sequence[Candidate], blueprint: Blueprint, answered: Mapping[Cell, int]) -> int:
    """How many questions the bank can give for one quota under the caps, all others apart."""
    fitting = [candidate for candidate in candidates if quota.takes(candidate)]
    taken = solve(-np.ones(len(fitting)), caps(fitting, blueprint, answered))
    return 0 if taken is None else int(taken.sum())


def quotas_short_of_supply(
    candidates: Sequence[Candidate], blueprint: Blueprint, answered: Mapping[Cell, int]
) -> tuple[Shortage, ...]:
    """The quotas that cannot be met even by themselves."""
    shortages = (
        Shortage(quota.name, quota.at_least, supply(quota, candidates, blueprint, answered))
        for quota in blueprint.quotas
    )
    return tuple(shortage for shortage in shortages if shortage.short > 0)


def least_questions(candidates: Sequence[Candidate], blueprint: Blueprint, answered: Mapping[Cell, int]) -> int | None:
    """The fewest questions that meet all quotas and the dangerous share; None if no number does."""
    rows = [
        *caps(candidates, blueprint, answered),
        *quota_rows(candidates, blueprint),
        *share_of_any_length(candidates, blueprint),
    ]
    taken = solve(np.ones(len(candidates)), rows)
    return None if taken is None else int(taken.sum())


def share_of_any_length(candidates: Sequence[Candidate], blueprint: Blueprint) -> list[Row]:
    """The dangerous share as a share of the questions taken, in whole numbers."""
    if blueprint.dangerous_share is None:
        return []

    def row(share: Fraction, low: float, high: float) -> Row:
        factors = (float(share.denominator * (c.side is Side.DANGEROUS) - share.numerator) for c in candidates)
        return Row(DANGEROUS_SHARE, tuple(range(len(candidates))), tuple(factors), low, high)

    least, most = blueprint.dangerous_share
    return [row(least, 0, np.inf), row(most, -np.inf, 0)]


@dataclass(frozen=True, slots=True)
class _Condition:
    """A condition of a paper of its length, that may give way."""

    row: Row
    weight: int


def _conditions(candidates: Sequence[Candidate], blueprint: Blueprint) -> list[_Condition]:
    rows = quota_rows(candidates, blueprint)
    conditions = [_Condition(row, q.importance) for row, q in zip(rows, blueprint.quotas, strict=True)]
    length = counting(LENGTH, range(len(candidates)), blueprint.length, blueprint.length)
    conditions.append(_Condition(length, Importance.REST))
    if blueprint.dangerous_share is not None:
        dangerous = [n for n, candidate in enumerate(candidates) if candidate.side is Side.DANGEROUS]
        share = counting(DANGEROUS_SHARE, dangerous, *blueprint.dangerous_bounds)
        conditions.append(_Condition(share, Importance.REST))
    return conditions


def one_way_out(
    candidates: Sequence[Candidate], blueprint: Blueprint, answered: Mapping[Cell, int]
) -> tuple[Shortage, ...]:
    """The cheapest way in which the conditions could give way, dangerous quotas last.

    Each quota may fall short; the paper may be shorter; the dangerous share may lie outside its bounds (with
    more available than asked where it lies above).
    """
    size = len(candidates)
    conditions = _conditions(candidates, blueprint)
    rows = caps(candidates, blueprint, answered)
    weights: list[int] = []
    for condition in conditions:
        slack = size + len(weights)
        below = replace(
            condition.row,
            columns=(*condition.row.columns, slack, slack + 1),
            factors=(*condition.row.factors, 1.0, -1.0),
        )
        rows.append(below)
        weights += [condition.weight, condition.weight]
    cost = np.concatenate([np.zeros(size), np.array(weights, dtype=np.float64)])
    upper = np.concatenate([np.ones(size), np.full(len(weights), float(blueprint.length + _most(blueprint)))])
    upper[size + 1 + 2 * len(blueprint.quotas)] = 0  # a longer paper is no way out
    taken = solve(cost, rows, upper)
    if taken is None:
        raise AssertionError("Conditions that may all give way cannot conflict.")
    gives_way = taken[size:].reshape(-1, 2)
    return tuple(
        _shortage(condition.row, int(below), int(above))
        for condition, (below, above) in zip(conditions, gives_way, strict=True)
        if below or above
    )


def _most(blueprint: Blueprint) -> int:
    return max((quota.at_least for quota in blueprint.quotas), default=0)


def _shortage(row: Row, below: int, above: int) -> Shortage:
    if above:
        return Shortage(row.name, int(row.high), int(row.high) + above)
    return Shortage(row.name, int(row.low), int(row.low) - below)


def conflicting_conditions(
    candidates: Sequence[Candidate], blueprint: Blueprint, answered: Mapping[Cell, int]
) -> tuple[str, ...]:
    """A smallest set of conditions that cannot hold together under the caps: drop one, and the rest can."""
    fixed = caps(candidates, blueprint, answered)
    kept = [condition.row for condition in _conditions(candidates, blueprint)]
    nothing = np.zeros(len(candidates))
    for row in list(kept):
        without = [other for other in kept if other is not row]
        if solve(nothing, [*fixed, *without]) is None:
            kept = without
    return tuple(row.name for row in kept)
