"""The order of the questions in a paper: by chance alone."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from .blueprint import Candidate


def mixed(questions: Sequence[Candidate], seed: int) -> tuple[Candidate, ...]:
    """The questions in random order, the same for the same seed.

    Every order is as likely as every other, except that all plants of one side never stand before all others:
    any finer rule ("never three of a kind in a row") could be used to guess.
    """
    by_key = sorted(questions, key=lambda question: question.key)
    chance = np.random.default_rng(seed)
    while True:
        order = tuple(by_key[place] for place in chance.permutation(len(by_key)))
        if not _is_grouped(order) or _must_group(order):
            return order


def _changes(order: Sequence[Candidate]) -> int:
    """How often the side changes from one question to the next."""
    return sum(1 for one, other in pairwise(order) if one.side is not other.side)


def _is_grouped(order: Sequence[Candidate]) -> bool:
    return _changes(order) == len({question.side for question in order}) - 1


def _must_group(order: Sequence[Candidate]) -> bool:
    """Whether no order of these questions could mix the sides: one side only, or each plant another side."""
    sides = [question.side for question in order]
    return len(set(sides)) in (1, len(sides))
