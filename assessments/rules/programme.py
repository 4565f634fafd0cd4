"""The integer programme behind a paper: one column per photo, 1 if it is taken (van der Linden 2005).

Solved by HiGHS through ``scipy.optimize.milp``, with no gap left: equal input gives equal papers.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

from .blueprint import Blueprint, Candidate, Cell

Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Row:
    """One condition: low <= sum of factor * column <= high. Infinite bounds are open."""

    name: str
    columns: tuple[int, ...]
    factors: tuple[float, ...]
    low: float = -np.inf
    high: float = np.inf


def counting(name: str, columns: Iterable[int], low: float = -np.inf, high: float = np.inf) -> Row:
    """A condition on how many of these columns are taken."""
    chosen = tuple(columns)
    return Row(name, chosen, (1.0,) * len(chosen), low, high)


def caps(candidates: Sequence[Candidate], blueprint: Blueprint, answered: Mapping[Cell, int]) -> list[Row]:
    """What always holds: one photo of an individual, the cap of a species, two from one place and day.

    ``answered``: individuals that the person has answered already, per species, locality and day.
    """
    individuals, species, cells = defaultdict(list), defaultdict(list), defaultdict(list)
    for column, candidate in enumerate(candidates):
        individuals[candidate.species, candidate.individual].append(column)
        species[candidate.species].append(column)
        cells[candidate.cell].append(column)
    rows = [counting("individual", mine, high=1) for mine in individuals.values() if len(mine) > 1]
    if blueprint.per_species is not None:
        most = blueprint.per_species
        rows += [counting("species", mine, high=most) for mine in species.values() if len(mine) > most]
    if blueprint.per_place_and_day is not None:
        for cell, mine in cells.items():
            room = max(0, blueprint.per_place_and_day - answered.get(cell, 0))
            if len(mine) > room:
                rows.append(counting("place and day", mine, high=room))
    return rows


def quota_rows(candidates: Sequence[Candidate], blueprint: Blueprint) -> list[Row]:
    """The quotas, in their order and by their names."""
    return [
        counting(q.name, (n for n, c in enumerate(candidates) if q.takes(c)), low=q.at_least) for q in blueprint.quotas
    ]


def solve(cost: Numbers, rows: Sequence[Row], upper: Numbers | float = 1.0) -> NDArray[np.int64] | None:
    """The cheapest whole numbers between 0 and ``upper`` under the rows, or None if there are none."""
    size = len(cost)
    if size == 0:
        return None if any(row.low > 0 or row.high < 0 for row in rows) else np.zeros(0, dtype=np.int64)
    constraints = [_constraint(rows, size)] if rows else []
    answer = milp(
        cost,
        integrality=np.ones(size),
        bounds=Bounds(0, upper),
        constraints=constraints,
        options={"mip_rel_gap": 0.0},
    )
    if answer.x is None:
        return None
    whole: NDArray[np.int64] = np.rint(answer.x).astype(np.int64)
    return whole


def _constraint(rows: Sequence[Row], size: int) -> LinearConstraint:
    lengths = [len(row.columns) for row in rows]
    lines = np.repeat(np.arange(len(rows)), lengths)
    columns = np.fromiter((c for row in rows for c in row.columns), dtype=np.int64, count=sum(lengths))
    factors = np.fromiter((f for row in rows for f in row.factors), dtype=np.float64, count=sum(lengths))
    matrix = coo_array((factors, (lines, columns)), shape=(len(rows), size)).tocsr()
    return LinearConstraint(matrix, np.array([r.low for r in rows]), np.array([r.high for r in rows]))
