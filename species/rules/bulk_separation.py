"""What every character says about every pair at every combination of stages, at once, from arrays.

The same answers as `separation.relation`, which is the definition; a test compares every one of them. For whoever
asks about many pairs at once, as a look at what follows from a change of the table does.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from species.rules.separation import FREQUENT, Combination, Relation, Scores, TableCharacter
from species.rules.vocabulary import Stage

STAGES = tuple(Stage)
RELATIONS = (Relation.UNKNOWN, Relation.SAME, Relation.LEANS, Relation.SEPARATES)
"""The relations by their numbers in the arrays."""
Bools = NDArray[np.bool_]
Words = NDArray[Any]
"""Whole numbers of 32 bits, or of 64 where a character has so many states."""


@dataclass(frozen=True)
class TableArrays:
    """The state table as whole numbers, one bit for each state of a character.

    `shown` and `frequent` by species, stage and character; `visible` by stage and character; `relied_on` by
    character. A character has at most 64 states.
    """

    species: tuple[str, ...]
    characters: tuple[str, ...]
    shown: Words
    frequent: Words
    visible: Bools
    relied_on: Bools

    @property
    def flat(self) -> tuple[Words, Words]:
        """`shown` and `frequent` with one row for each species and stage."""
        characters = len(self.characters)
        return self.shown.reshape(-1, characters), self.frequent.reshape(-1, characters)


@dataclass(frozen=True)
class Asked:
    """Combinations to be compared: places of species and stages in the arrays, one row for each combination."""

    gathered: NDArray[np.intp]
    mistaken: NDArray[np.intp]
    gathered_stage: NDArray[np.intp]
    mistaken_stage: NDArray[np.intp]


def table_arrays(characters: Mapping[str, TableCharacter], scores: Mapping[str, Scores]) -> TableArrays:
    """The table as arrays. ValueError for a character with more than 64 states."""
    shape = len(scores), len(STAGES), len(characters)
    places = [_bits(key, scores) for key in characters]
    word = np.uint32 if all(len(bits) <= 32 for bits in places) else np.uint64
    shown, frequent = np.zeros(shape, dtype=word), np.zeros(shape, dtype=word)
    for c, (key, bits) in enumerate(zip(characters, places, strict=True)):
        for s, of_species in enumerate(scores.values()):
            for score in of_species.get(key, ()):
                bit = word(1 << bits[score.state])
                for at, stage in enumerate(STAGES):
                    if not score.stages or stage in score.stages:
                        shown[s, at, c] |= bit
                        if score.frequency in FREQUENT:
                            frequent[s, at, c] |= bit
    return TableArrays(
        tuple(scores),
        tuple(characters),
        shown,
        frequent,
        visible=np.array([[stage in each.stages for each in characters.values()] for stage in STAGES], dtype=bool),
        relied_on=np.array([not each.not_relied_on for each in characters.values()], dtype=bool),
    )


def _bits(key: str, scores: Mapping[str, Scores]) -> dict[str, int]:
    """The place of each state of a character."""
    states = dict.fromkeys(score.state for each in scores.values() for score in each.get(key, ()))
    if len(states) > 64:
        raise ValueError(f"{key} has {len(states)} states; arrays hold 64")
    return {state: place for place, state in enumerate(states)}


def asked(table: TableArrays, rows: Sequence[tuple[str, str, Combination]]) -> Asked:
    """Gathered species, mistaken species and combination of stages, as places in the arrays."""
    species = {key: place for place, key in enumerate(table.species)}
    stages = {stage: place for place, stage in enumerate(STAGES)}
    places = np.array(
        [(species[g], species[m], stages[each.gathered], stages[each.mistaken]) for g, m, each in rows], dtype=np.intp
    ).reshape(-1, 4)
    return Asked(*places.T)


def bulk_relations(table: TableArrays, rows: Asked) -> NDArray[np.int8]:
    """By row and character the number of the relation in `RELATIONS`."""
    one, other = rows.gathered * len(STAGES), rows.mistaken * len(STAGES)
    at, beside = rows.gathered_stage, rows.mistaken_stage
    shown, frequent = table.flat
    first, second = shown.take(one + at, 0), shown.take(other + beside, 0)
    readable = first.astype(bool) & second.astype(bool) & table.visible.take(at, 0) & table.visible.take(beside, 0)
    first |= shown.take(one + beside, 0)
    second |= shown.take(other + at, 0)
    separates = ~(first & second).astype(bool)
    often, often_other = frequent.take(one + at, 0), frequent.take(other + beside, 0)
    often |= frequent.take(one + beside, 0)
    often_other |= frequent.take(other + at, 0)
    leans = often.astype(bool) & often_other.astype(bool) & ~(often & often_other).astype(bool)
    # what separates leans at least: 1 + leans + (separates and may be relied on), and nothing where it cannot be read
    said = (leans | separates).view(np.int8) + (separates & table.relied_on).view(np.int8)
    said += 1
    said *= readable.view(np.int8)
    return said
