"""What comparing all pairs costs: the whole flora in every month, against bare numpy on the same arrays.

    .venv/bin/python -m tests.bench.separation

The floor is the smallest thing that can find what separates: the states of either side fetched, and one bitwise
and. The rule takes both stages of either side, what can be seen, what is frequent and what must not be relied on.
Tables are read beforehand. CPU time; every round measures all sides one after the other; nothing is asserted.
"""

import os
import platform
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from statistics import median

import numpy as np
from numpy.typing import NDArray

from species.rules.bulk_separation import RELATIONS, STAGES, Asked, TableArrays, asked, bulk_relations, table_arrays
from species.rules.separation import Combination, Relation, Scores, TableCharacter, comparison
from species.rules.tables.comparing import calendars, combinations_by_pair, scores_by_species, table_characters
from species.rules.tables.records import Flora
from tests.species.flora import flora

ROUNDS = 15


@dataclass(frozen=True)
class Question:
    """Every pair in every month: the gathered and the mistaken species, and a combination of stages that shows."""

    characters: dict[str, TableCharacter]
    scores: dict[str, Scores]
    rows: list[tuple[str, str, Combination]]
    months: list[tuple[str, int]]


def question(tables: Flora) -> Question:
    """All pairs and months of these tables; a combination that shows in six months is asked six times."""
    shown, combinations = calendars(tables.plants), combinations_by_pair(tables.lookalikes)
    rows, months = [], []
    for pair in tables.lookalikes.pairs:
        for month in range(1, 13):
            for each in combinations[pair.key]:
                together = shown[pair.gathered].get(each.gathered, frozenset())
                if month in together & shown[pair.mistaken].get(each.mistaken, frozenset()):
                    rows.append((pair.gathered, pair.mistaken, each))
                    months.append((pair.key, month))
    scores: dict[str, Scores] = dict(scores_by_species(tables.lookalikes))
    return Question(table_characters(tables.lookalikes), scores, rows, months)


def one_by_one(asking: Question) -> list[tuple[tuple[str, ...], tuple[str, ...]]]:
    """What separates and what leans, by the rule that defines it."""
    found = []
    for gathered, mistaken, combination in asking.rows:
        said = comparison(asking.characters.values(), asking.scores[gathered], asking.scores[mistaken], combination)
        found.append((said.separates, said.leans))
    return found


def at_once(table: TableArrays, rows: Asked) -> NDArray[np.int8]:
    """The same from arrays."""
    return bulk_relations(table, rows)


def floor(table: TableArrays, rows: Asked) -> NDArray[np.bool_]:
    """No state in common at the two stages: what any comparison of these arrays has to do."""
    shown, _frequent = table.flat
    first = shown.take(rows.gathered * len(STAGES) + rows.gathered_stage, 0)
    second = shown.take(rows.mistaken * len(STAGES) + rows.mistaken_stage, 0)
    return (first & second) == 0


def named(table: TableArrays, said: NDArray[np.int8], relation: Relation) -> list[tuple[str, ...]]:
    """The keys of the characters that have this relation, row by row."""
    number = RELATIONS.index(relation)
    return [tuple(key for key, each in zip(table.characters, row, strict=True) if each == number) for row in said]


def seconds(call: Callable[[], object], times: int = 1) -> float:
    """CPU seconds of one call, the mean of so many."""
    started = time.process_time()
    for _ in range(times):
        call()
    return (time.process_time() - started) / times


def measured(asking: Question, rounds: int, times: int = 20) -> dict[str, float]:
    """Median CPU seconds of each side, and the median of the ratios of the rule to the floor, round by round."""
    table = table_arrays(asking.characters, asking.scores)
    rows = asked(table, asking.rows)
    sides: dict[str, tuple[Callable[[], object], int]] = {
        "one by one": (lambda: one_by_one(asking), 1),
        "at once": (lambda: at_once(table, rows), times),
        "floor": (lambda: floor(table, rows), times),
        "arrays": (lambda: table_arrays(asking.characters, asking.scores), 1),
    }
    costs: dict[str, list[float]] = {name: [] for name in sides}
    for turn in range(rounds + 1):
        for name in sorted(sides, reverse=bool(turn % 2)):
            costs[name].append(seconds(*sides[name]))
    ratios = [above / below for above, below in zip(costs["at once"][1:], costs["floor"][1:], strict=True)]
    return {name: median(each[1:]) for name, each in costs.items()} | {"ratio": median(ratios)}


def measure() -> None:
    python, machine = platform.python_version(), platform.processor() or platform.machine()
    print(f"{machine}, {os.cpu_count()} cores, Python {python}, numpy {np.__version__}: {' '.join(sys.orig_argv)}")
    asking = question(flora())
    pairs, many = len({pair for pair, _ in asking.months}), len(asking.rows)
    print(
        f"{pairs} pairs, 12 months, {many} combinations of stages, {len(asking.characters)} characters; {ROUNDS} rounds"
    )
    found = measured(asking, ROUNDS)
    print(f"one by one, by the rule that defines it: {found['one by one'] * 1000:.1f} ms CPU")
    print(f"at once: {found['at once'] * 1000:.2f} ms CPU; making the arrays, once: {found['arrays'] * 1000:.1f} ms")
    floor_ms, ratio = found["floor"] * 1000, found["ratio"]
    print(f"bare numpy, one bitwise and: {floor_ms:.2f} ms CPU; the rule takes {ratio:.2f} times that")


if __name__ == "__main__":
    measure()
