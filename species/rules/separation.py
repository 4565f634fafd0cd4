"""What tells the two species of a pair apart, from the table of characters and states.

A character can be read at a stage or it cannot; a species has states of it, each with how often they are
shown (always, usually, sometimes; a state that is not listed is never shown) and perhaps at some stages
only. A character that is not recorded for a species says nothing about it: not recorded is not absent.

For one combination of stages, the gathered species at its stage and the mistaken one at its own: no state
in common: the character *separates*; the frequent states (always, usually) have none in common: it *leans*;
otherwise both look the *same*; *unknown* where it cannot be read or is not recorded on either side. Where
the two stages differ, each species is taken with its states at both stages, since a leafy plant still has
its basal leaves: so a character that merely shows the stage of growth does not separate. A character that
must not be relied on never does more than lean.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from species.rules.season import Calendar
from species.rules.vocabulary import Frequency, Stage


class Relation(StrEnum):
    """What a character says about a pair at one combination of stages."""

    SEPARATES = "separates"
    LEANS = "leans"
    SAME = "same"
    UNKNOWN = "unknown"


@dataclass(frozen=True)
class TableCharacter:
    """A character as the table knows it."""

    key: str
    stages: frozenset[Stage]
    needs_digging: bool = False
    not_relied_on: bool = False


@dataclass(frozen=True)
class Score:
    """One state of a species, with how often it is shown; no stages means at every stage of the character."""

    state: str
    frequency: Frequency
    stages: frozenset[Stage] = frozenset()


Scores = Mapping[str, Sequence[Score]]
"""The states of one species by the key of the character."""


@dataclass(frozen=True)
class Combination:
    """The stage of the gathered species and the stage of the mistaken one."""

    gathered: Stage
    mistaken: Stage

    @property
    def stages(self) -> frozenset[Stage]:
        return frozenset({self.gathered, self.mistaken})


@dataclass(frozen=True)
class Comparison:
    """What separates and what leans at one combination of stages, in the order of the table."""

    combination: Combination
    separates: tuple[str, ...]
    leans: tuple[str, ...]


FREQUENT = frozenset({Frequency.ALWAYS, Frequency.USUALLY})


def states_at(scores: Iterable[Score], stages: frozenset[Stage]) -> dict[str, frozenset[Frequency]]:
    """The states that a species shows at any of these stages, each with its frequencies there."""
    found: dict[str, frozenset[Frequency]] = {}
    for score in scores:
        if not score.stages or score.stages & stages:
            found[score.state] = found.get(score.state, frozenset()) | {score.frequency}
    return found


def is_readable(character: TableCharacter, scores: Iterable[Score], stage: Stage) -> bool:
    """Whether the character can be seen at the stage and is recorded for the species there."""
    return stage in character.stages and bool(states_at(scores, frozenset({stage})))


def relation(character: TableCharacter, gathered: Scores, mistaken: Scores, combination: Combination) -> Relation:
    """What one character says about two species at one combination of stages."""
    wanted, double = gathered.get(character.key, ()), mistaken.get(character.key, ())
    if not (
        is_readable(character, wanted, combination.gathered) and is_readable(character, double, combination.mistaken)
    ):
        return Relation.UNKNOWN
    first, second = states_at(wanted, combination.stages), states_at(double, combination.stages)
    if not first.keys() & second.keys():
        return Relation.LEANS if character.not_relied_on else Relation.SEPARATES
    common_first, common_second = _frequent(first), _frequent(second)
    if common_first and common_second and not common_first & common_second:
        return Relation.LEANS
    return Relation.SAME


def _frequent(states: Mapping[str, frozenset[Frequency]]) -> frozenset[str]:
    return frozenset(state for state, frequencies in states.items() if frequencies & FREQUENT)


def comparison(
    characters: Iterable[TableCharacter], gathered: Scores, mistaken: Scores, combination: Combination
) -> Comparison:
    """What the whole table says about two species at one combination of stages."""
    said = {each.key: relation(each, gathered, mistaken, combination) for each in characters}
    return Comparison(
        combination,
        tuple(key for key, what in said.items() if what == Relation.SEPARATES),
        tuple(key for key, what in said.items() if what == Relation.LEANS),
    )


def combinations_in_month(
    combinations: Iterable[Combination], gathered: Calendar, mistaken: Calendar, month: int
) -> tuple[Combination, ...]:
    """The combinations of which both stages can be met in the month."""
    return tuple(
        each
        for each in combinations
        if month in gathered.get(each.gathered, frozenset()) and month in mistaken.get(each.mistaken, frozenset())
    )


class MonthClass(StrEnum):
    """Whether a pair can be told apart above ground in a month."""

    IN_ALL = "in all combinations of stages"
    IN_SOME = "in some combinations of stages"
    IN_NONE = "in no combination of stages"
    NOT_TOGETHER = "not together"


def month_class(comparisons: Sequence[Comparison], characters: Mapping[str, TableCharacter]) -> MonthClass:
    """Whether, in the combinations that show, something separates that needs no digging."""
    if not comparisons:
        return MonthClass.NOT_TOGETHER
    told_apart = [any(not characters[key].needs_digging for key in each.separates) for each in comparisons]
    if all(told_apart):
        return MonthClass.IN_ALL
    return MonthClass.IN_SOME if any(told_apart) else MonthClass.IN_NONE
