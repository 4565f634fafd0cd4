"""What drawing a paper costs, against the solver alone on the same programme.

    .venv/bin/python -m tests.bench.assembly

40 questions from 2,000 photos of 60 species in 14 pairs, with quotas by pair, side and stage. The floor is one call of
``scipy.optimize.milp`` on matrices that are there already. Seconds on the clock; nothing is asserted.
"""

import os
import platform
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, timedelta
from random import Random
from statistics import median
from typing import Any

import scipy

from assessments.rules import programme
from assessments.rules.assembly import NOTHING_ANSWERED, Assembly, assemble, found_paper
from assessments.rules.blueprint import Blueprint, Candidate, pair_quotas, stage_quotas
from assessments.rules.nearest import Choice, nearest_paper
from assessments.rules.standard import PairFacts, Side

ROUNDS, PHOTOS, QUESTIONS, PAIRS, SPECIES = 15, 2000, 40, 14, 60
STAGES = ("rosette", "leafy stem", "flower", "fruit")


@dataclass(frozen=True)
class Bank:
    """A bank with what is asked of it."""

    candidates: tuple[Candidate, ...]
    pairs: tuple[PairFacts, ...]
    blueprint: Blueprint


def invented_bank(photos: int = PHOTOS, questions: int = QUESTIONS) -> Bank:
    """60 species, of which 14 edible ones are each mistaken for one of 8 dangerous ones; the others stand beside."""
    chance = Random(1)
    pairs = tuple(PairFacts(f"pair{n}", f"edible{n}", f"deadly{n % 8}") for n in range(PAIRS))
    sides = {pair.gathered: Side.EDIBLE for pair in pairs} | {pair.mistaken: Side.DANGEROUS for pair in pairs}
    names = [*sides, *(f"other{n}" for n in range(SPECIES - len(sides)))]
    candidates = tuple(
        Candidate(
            key=f"{number:05}",
            individual=f"plant{number // 2}",
            species=(species := names[(number // 2) % len(names)]),
            stage=chance.choice(STAGES),
            locality=f"place{chance.randrange(40)}",
            day=date(2031, 4, 1) + timedelta(days=chance.randrange(100)),
            side=sides.get(species),
            uses=chance.randrange(6),
        )
        for number in range(photos)
    )
    stages = {(f"deadly{n}", stage): 1 for n in range(8) for stage in STAGES[:2]}
    quotas = (*pair_quotas(pairs, 2, 1), *stage_quotas(stages))
    return Bank(candidates, pairs, Blueprint(questions, quotas, per_species=6))


@contextmanager
def calls_kept() -> Iterator[list[tuple[tuple[Any, ...], dict[str, Any]]]]:
    """Everything that the solver was called with meanwhile."""
    calls: list[tuple[tuple[Any, ...], dict[str, Any]]] = []
    solver = programme.milp

    def noting(*args: Any, **kwargs: Any) -> Any:
        calls.append((args, kwargs))
        return solver(*args, **kwargs)

    programme.milp = noting
    try:
        yield calls
    finally:
        programme.milp = solver


def seconds(call: Callable[[], object]) -> float:
    started = time.perf_counter()
    call()
    return time.perf_counter() - started


def measured(bank: Bank, rounds: int = ROUNDS) -> dict[str, float]:
    """Medians of the whole and of the solver alone, the worst of the whole, and what a refusal costs; in seconds."""
    whole, alone = [], []
    for seed in range(rounds):
        with calls_kept() as calls:
            drawn = found_paper(bank.candidates, bank.blueprint, seed, NOTHING_ANSWERED)
        if not isinstance(drawn, Assembly):
            raise AssertionError("The invented bank holds a paper for every seed.")
        paper = lambda seed=seed: assemble(bank.candidates, bank.blueprint, seed)  # noqa: E731
        solving = lambda calls=calls: [programme.milp(*args, **kwargs) for args, kwargs in calls]  # noqa: E731
        pair = [paper, solving]
        times = [seconds(each) for each in (pair if seed % 2 else pair[::-1])]
        first, second = times if seed % 2 else times[::-1]
        whole.append(first)
        alone.append(second)
    small = bank.candidates[: len(bank.candidates) // 20]
    return {
        "whole": median(whole),
        "worst": max(whole),
        "solver": median(alone),
        "ratio": median(a / b for a, b in zip(whole, alone, strict=True)),
        "refused": seconds(lambda: assemble(small, bank.blueprint, 1)),
        "nearest": seconds(lambda: nearest_paper([Choice(small, NOTHING_ANSWERED)], bank.blueprint)),
    }


def measure() -> None:
    machine = platform.processor() or platform.machine()
    print(f"{machine}, {os.cpu_count()} cores, Python {platform.python_version()}, scipy {scipy.__version__}")
    print(f"{' '.join(sys.orig_argv)}; {ROUNDS} rounds, another seed in each")
    bank = invented_bank()
    species = len({each.species for each in bank.candidates})
    print(
        f"{QUESTIONS} questions from {len(bank.candidates)} photos, {species} species, {len(bank.pairs)} pairs, "
        f"{len(bank.blueprint.quotas)} quotas"
    )
    found = measured(bank)
    print(f"a paper: {found['whole']:.4f} s (median), {found['worst']:.4f} s (worst)")
    print(f"the solver alone: {found['solver']:.4f} s; a paper takes {found['ratio']:.2f} times that")
    print(f"from a twentieth of the bank: refused with every reason in {found['refused']:.3f} s,")
    print(f"the nearest paper that can be drawn in {found['nearest']:.3f} s")


if __name__ == "__main__":
    measure()
