"""What a change of the state table does to the pairs, and where the table and the pairs' own lists disagree.

A list may be more cautious than the table, never less: a character that somebody called *decisive* has to
separate in every combination of stages for which the list says so. Where it only leans, says nothing, or is not
known, that is a *disagreement*, for a person to settle.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from species.rules.bulk_separation import RELATIONS, asked, bulk_relations, table_arrays
from species.rules.season import Calendar, Months
from species.rules.separation import Combination, Relation, Scores, TableCharacter, relation
from species.rules.stages import ListedCharacter
from species.rules.vocabulary import Trust


@dataclass(frozen=True)
class PairInTable:
    """A pair by the keys of its species, with the stages in which it is confused and its own list."""

    key: str
    gathered: str
    mistaken: str
    combinations: tuple[Combination, ...]
    listed: tuple[ListedCharacter, ...] = ()


@dataclass(frozen=True)
class TableFacts:
    """The table, the calendar and the pairs. Scores and calendars by the key of the species."""

    characters: Mapping[str, TableCharacter]
    scores: Mapping[str, Scores]
    calendars: Mapping[str, Calendar]
    pairs: tuple[PairInTable, ...]

    def months(self, pair: PairInTable, combination: Combination) -> Months:
        """The months in which both stages show."""
        gathered = self.calendars.get(pair.gathered, {}).get(combination.gathered, frozenset())
        return gathered & self.calendars.get(pair.mistaken, {}).get(combination.mistaken, frozenset())

    def with_scores(self, species: str, scores: Scores) -> "TableFacts":
        """The same with another line of the table for one species."""
        return TableFacts(self.characters, {**self.scores, species: scores}, self.calendars, self.pairs)


@dataclass(frozen=True)
class Change:
    """What a character says otherwise than before, for one combination of stages of a pair."""

    pair: str
    combination: Combination
    months: Months
    character: str
    before: Relation
    after: Relation
    left: tuple[str, ...]
    """What separates now without digging, whatever the character."""

    @property
    def is_lost(self) -> bool:
        return self.before == Relation.SEPARATES

    @property
    def is_gained(self) -> bool:
        return self.after == Relation.SEPARATES

    @property
    def leaves_nothing(self) -> bool:
        """Whether, after the loss, nothing above ground tells the two apart at these stages any more."""
        return self.is_lost and not self.left


@dataclass(frozen=True)
class Disagreement:
    """A character that the pair's own list calls decisive, and of which the table says less."""

    pair: str
    character: str
    combination: Combination
    months: Months
    said: Relation


def changes(before: TableFacts, after: TableFacts) -> tuple[Change, ...]:
    """Everything that is said otherwise, pair by pair; both sides have the same pairs and characters."""
    was, becomes = _relations(before), _relations(after)
    keys = tuple(after.characters)
    above = np.array([not each.needs_digging for each in after.characters.values()], dtype=bool)
    telling = (becomes == RELATIONS.index(Relation.SEPARATES)) & above
    rows = [(pair, combination) for pair in after.pairs for combination in pair.combinations]
    return tuple(
        Change(
            pair=rows[row][0].key,
            combination=rows[row][1],
            months=after.months(*rows[row]),
            character=keys[place],
            before=RELATIONS[was[row, place]],
            after=RELATIONS[becomes[row, place]],
            left=tuple(keys[each] for each in np.flatnonzero(telling[row])),
        )
        for row, place in np.argwhere(was != becomes)
    )


def _relations(facts: TableFacts) -> NDArray[np.int8]:
    """By combination of a pair and by character the number of the relation."""
    species = dict.fromkeys(key for pair in facts.pairs for key in (pair.gathered, pair.mistaken))
    table = table_arrays(facts.characters, {key: facts.scores.get(key, {}) for key in species})
    rows = [(pair.gathered, pair.mistaken, each) for pair in facts.pairs for each in pair.combinations]
    return bulk_relations(table, asked(table, rows))


def disagreements(facts: TableFacts) -> tuple[Disagreement, ...]:
    """Every decisive character of every pair that does not separate in a combination of which its list speaks."""
    return tuple(
        Disagreement(pair.key, each.character, combination, facts.months(pair, combination), said)
        for pair in facts.pairs
        for each, combination, said in too_sure(
            pair.listed,
            pair.combinations,
            facts.characters,
            facts.scores.get(pair.gathered, {}),
            facts.scores.get(pair.mistaken, {}),
        )
    )


def too_sure(
    listed: Iterable[ListedCharacter],
    combinations: Iterable[Combination],
    characters: Mapping[str, TableCharacter],
    gathered: Scores,
    mistaken: Scores,
) -> Iterator[tuple[ListedCharacter, Combination, Relation]]:
    """The entries of one pair's list that are called decisive and do not separate, with what the table says."""
    spoken_of = tuple(combinations)
    for each in listed:
        if each.trust == Trust.DECISIVE and each.character in characters:
            for combination in spoken_of:
                said = relation(characters[each.character], gathered, mistaken, combination)
                if each.holds_for(combination) and said != Relation.SEPARATES:
                    yield each, combination, said
