"""The nearest paper that can be drawn for everybody who is to sit it, where the one asked for cannot.

What gives way, and in which order, is that of the way out of a shortfall: the dangerous plants last. Two things
never give way here: what a single specimen may be used for, and the share of dangerous plants, since a paper
outside it could be guessed from its proportions.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from .assembly import Assembly, found_paper
from .blueprint import Blueprint, Candidate, Cell, Importance, Quota
from .programme import Row, caps, counting, quota_rows, solve
from .shortfall import LENGTH, least_questions, share_of_any_length

MOST_ROUNDS = 8
"""So often everybody is gone through; each round only lowers what is asked for, so few are ever needed."""


@dataclass(frozen=True, slots=True)
class Choice:
    """What one person may be shown, and what they have answered before by species, place and day."""

    candidates: Sequence[Candidate]
    answered: Mapping[Cell, int]


def nearest_paper(people: Sequence[Choice], blueprint: Blueprint) -> Blueprint | None:
    """The blueprint with as little lowered as lets a paper be drawn for each of these people; None if nothing does."""
    current = blueprint
    for _round in range(MOST_ROUNDS):
        before = current
        for person in people:
            nearer = _nearest_for(person, current)
            if nearer is None:
                return None
            current = nearer
        if current == before and all(_can_be_drawn(person, current) for person in people):
            return current
    return None


def longer_paper(people: Sequence[Choice], blueprint: Blueprint, most: int) -> Blueprint | None:
    """The same quotas in a paper of at most so many questions; None where length alone does not help."""
    needed = [least_questions(each.candidates, blueprint, each.answered) for each in people]
    known = [each for each in needed if each is not None]
    if not known or len(known) < len(needed):
        return None
    for length in range(max(*known, blueprint.length + 1), most + 1):
        longer = replace(blueprint, length=length)
        if all(_can_be_drawn(person, longer) for person in people):
            return longer
        if length >= max(known) + len(blueprint.quotas):
            return None
    return None


def _can_be_drawn(person: Choice, blueprint: Blueprint) -> bool:
    return isinstance(found_paper(person.candidates, blueprint, 0, person.answered), Assembly)


def _nearest_for(person: Choice, blueprint: Blueprint) -> Blueprint | None:
    """What remains for one person; None if not a single question does."""
    size, quotas = len(person.candidates), blueprint.quotas
    rows = caps(person.candidates, blueprint, person.answered)
    wanted = [
        *quota_rows(person.candidates, blueprint),
        counting(LENGTH, range(size), blueprint.length, blueprint.length),
    ]
    rows += [_with_slack(row, size + number) for number, row in enumerate(wanted)]
    rows += share_of_any_length(person.candidates, blueprint)
    weights = [*(float(quota.importance) for quota in quotas), float(Importance.REST)]
    most = [*(float(quota.at_least) for quota in quotas), float(blueprint.length - 1)]
    taken = solve(np.array([0.0] * size + weights), rows, np.array([1.0] * size + most))
    if taken is None:
        return None
    short = [int(each) for each in taken[size:]]
    lowered = tuple(_lowered(quota, less) for quota, less in zip(quotas, short, strict=False))
    return replace(blueprint, quotas=lowered, length=blueprint.length - short[-1])


def _with_slack(row: Row, column: int) -> Row:
    return replace(row, columns=(*row.columns, column), factors=(*row.factors, 1.0))


def _lowered(quota: Quota, less: int) -> Quota:
    return replace(quota, at_least=quota.at_least - less) if less else quota
