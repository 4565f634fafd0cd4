"""Which stages of a pair a standard asks for by default, and the reasons.

*Mistaken side.* To refuse a dangerous plant is always right, so every stage of it is asked for in which, in
some combination of stages of the pair, the table names a character that separates without digging. Where
nothing separates, nobody can be asked to name the plant, only to leave it.

*Gathered side.* Leaving a plant counts as not recognising it. That is fair only in a stage in which a part
is gathered and in which the pair's own list, which is what is taught, holds a character that separates
without digging. Because one combination that cannot be told apart is enough to make leaving right, *every*
combination of the stage has to be separable, but for two kinds that put nobody in doubt: the gathered plant
shows its flower or fruit and the mistaken one, at its stage, does not (then its own flower answers, and
flower against flower is another combination); or the gathered plant is in leaf and the mistaken one is a
bare root.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from species.rules.season import Calendar, Months
from species.rules.separation import Combination, Comparison, TableCharacter
from species.rules.vocabulary import Stage, Trust


@dataclass(frozen=True)
class ListedCharacter:
    """A character in the pair's own list, with the stages at which the list trusts it."""

    character: str
    stages: frozenset[Stage]
    trust: Trust
    needs_digging: bool = False

    def holds_for(self, combination: Combination) -> bool:
        """Whether the entry speaks about this combination: both stages have to be listed."""
        return combination.stages <= self.stages


@dataclass(frozen=True)
class GatheredPart:
    """A part that is gathered, in which months and from which stages."""

    part: str
    months: Months
    stages: frozenset[Stage]


def above_ground(separates: Iterable[str], characters: Mapping[str, TableCharacter]) -> tuple[str, ...]:
    """Those of the characters that need no digging."""
    return tuple(key for key in separates if not characters[key].needs_digging)


def taught_separators(
    comparison: Comparison, characters: Mapping[str, TableCharacter], listed: Iterable[ListedCharacter]
) -> tuple[str, ...]:
    """What separates without digging by the table and stands in the pair's own list for these stages too."""
    taught = {
        each.character
        for each in listed
        if each.holds_for(comparison.combination) and not each.needs_digging and each.trust != Trust.NOT_TO_BE_RELIED_ON
    }
    return tuple(key for key in above_ground(comparison.separates, characters) if key in taught)


def required_mistaken_stages(
    comparisons: Iterable[Comparison], characters: Mapping[str, TableCharacter]
) -> tuple[Stage, ...]:
    """The stages of the mistaken species that a standard asks for by default, in the order of a life."""
    found = {each.combination.mistaken for each in comparisons if above_ground(each.separates, characters)}
    return tuple(stage for stage in Stage if stage in found)


def stages_gathered(parts: Iterable[GatheredPart], calendar: Calendar) -> frozenset[Stage]:
    """The stages in which some part is gathered and which show in a month of its gathering."""
    return frozenset(stage for part in parts for stage in part.stages if part.months & calendar.get(stage, frozenset()))


def fair_gathered_stages(
    comparisons: Sequence[Comparison],
    characters: Mapping[str, TableCharacter],
    listed: Collection[ListedCharacter],
    gathered_in: frozenset[Stage],
) -> tuple[Stage, ...]:
    """The stages of the gathered species in which a specimen may enter its ledger, in the order of a life.

    An empty answer means that the gathered species can only be asked for by name under this pair.
    """
    return tuple(stage for stage in Stage if stage in gathered_in and _is_fair(stage, comparisons, characters, listed))


def fair_for_every_pair(
    fair: Mapping[str, Collection[Stage]], met: Mapping[str, Collection[Stage]]
) -> dict[str, tuple[Stage, ...]]:
    """The fair stages of one gathered species by pair, so that what all pairs have in common is what may be asked.

    `fair`: per pair the stages in which it can fairly be asked for; `met`: per pair the stages in which the two
    are ever confused. A pair says nothing of a stage in which it is not met, so it takes over what the others list.
    """
    anywhere = {stage for stages in fair.values() for stage in stages}
    return {
        pair: tuple(each for each in Stage if each in stages or (each in anywhere and each not in met[pair]))
        for pair, stages in fair.items()
    }


def _is_fair(
    stage: Stage,
    comparisons: Sequence[Comparison],
    characters: Mapping[str, TableCharacter],
    listed: Collection[ListedCharacter],
) -> bool:
    of_stage = [each for each in comparisons if each.combination.gathered == stage]
    told_apart = [bool(taught_separators(each, characters, listed)) for each in of_stage]
    in_doubt = [_puts_in_doubt(each.combination) for each in of_stage]
    return any(told_apart) and all(told or not doubt for told, doubt in zip(told_apart, in_doubt, strict=True))


def _puts_in_doubt(combination: Combination) -> bool:
    if combination.gathered == combination.mistaken:
        return True
    if combination.gathered in (Stage.FLOWER, Stage.FRUIT):
        return False
    return combination.mistaken != Stage.DORMANT
