"""How well a character separates a pair, in figures, and the order in which to look.

The table says always, usually, sometimes. To rank, these words become shares by the weights 1, 0.75 and
0.25, made to sum to one. The weights are a choice without a source: pages show the words, never these
numbers.

For somebody who gathers, the sides are not equal. The *proof share* is the share of the mistaken species
that shows a state which the gathered one never shows (it gives itself away); the *safe share* is the share
of the gathered species that shows a state which the mistaken one never shows (it clears itself). Characters
are ranked by proof share, then by the total variation distance, which is the best Youden index of any rule
on this character alone (Youden 1950). Figures of several characters are never multiplied: they are not
independent.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from species.rules.separation import (
    Combination,
    Relation,
    Score,
    Scores,
    TableCharacter,
    is_readable,
    relation,
    states_at,
)
from species.rules.vocabulary import Frequency, Stage

WEIGHTS: Mapping[Frequency, float] = {
    Frequency.ALWAYS: 1.0,
    Frequency.USUALLY: 0.75,
    Frequency.SOMETIMES: 0.25,
}
TELLING_SHARE = 0.95


class Proof(StrEnum):
    """What seeing some state of a character proves; seeing another one may prove nothing."""

    EITHER = "either"
    MISTAKEN = "mistaken"
    """One way: some states give the mistaken species away, none clears the gathered one."""
    GATHERED = "gathered"
    """One way: some states clear the gathered species, none gives the mistaken one away."""
    NEITHER = "neither"


@dataclass(frozen=True)
class Separation:
    """How two distributions over states differ; every figure is a share from 0 to 1."""

    safe_share: float
    proof_share: float
    total_variation: float

    @property
    def is_telling(self) -> bool:
        """Whether the character may be called decisive at this stage by its figures."""
        return max(self.safe_share, self.proof_share) >= TELLING_SHARE

    @property
    def youden(self) -> float:
        """The best Youden index of any rule on this character alone."""
        return self.total_variation

    @property
    def proof(self) -> Proof:
        """Which species the character can prove. A character that proves one only works one way."""
        if self.proof_share > 0:
            return Proof.EITHER if self.safe_share > 0 else Proof.MISTAKEN
        return Proof.GATHERED if self.safe_share > 0 else Proof.NEITHER

    @property
    def least_error(self) -> float:
        """The smallest share of wrong calls by this character alone when both species are equally common."""
        return (1 - self.total_variation) / 2


@dataclass(frozen=True)
class RankedCharacter:
    """A character with what it says at one combination of stages."""

    character: str
    relation: Relation
    separation: Separation


def separation_of(gathered: Mapping[str, float], mistaken: Mapping[str, float], tolerance: float = 0.0) -> Separation:
    """Compare two distributions over states, each given as non-negative amounts with a positive sum.

    A state counts as never shown by a species when its share there is at most `tolerance`.
    Raises ValueError when a side sums to nothing.
    """
    first, second = shares_of(gathered), shares_of(mistaken)
    states = first.keys() | second.keys()
    return Separation(
        safe_share=sum(first.get(each, 0.0) for each in states if second.get(each, 0.0) <= tolerance),
        proof_share=sum(second.get(each, 0.0) for each in states if first.get(each, 0.0) <= tolerance),
        total_variation=sum(abs(first.get(each, 0.0) - second.get(each, 0.0)) for each in states) / 2,
    )


def shares_of(amounts: Mapping[str, float]) -> dict[str, float]:
    """Non-negative amounts made to sum to one. ValueError when they sum to nothing, or one is below 0."""
    total = sum(amounts.values())
    if not total > 0 or min(amounts.values()) < 0:
        raise ValueError("a distribution needs at least one state that is shown, and none less often than never")
    return {state: amount / total for state, amount in amounts.items()}


def weights_at(scores: Iterable[Score], stages: frozenset[Stage]) -> dict[str, float]:
    """The weight of each state that a species shows at these stages, the larger of two frequencies."""
    return {
        state: max(WEIGHTS[each] for each in frequencies) for state, frequencies in states_at(scores, stages).items()
    }


def ranked_characters(
    characters: Iterable[TableCharacter], gathered: Scores, mistaken: Scores, combination: Combination
) -> tuple[RankedCharacter, ...]:
    """The characters that can be read on both species at a combination of stages, most telling first.

    What must not be relied on comes last, whatever its figures.
    """
    found: list[tuple[tuple[bool, float, float], RankedCharacter]] = []
    for each in characters:
        wanted, double = gathered.get(each.key, ()), mistaken.get(each.key, ())
        if _is_readable_on_both(each, wanted, double, combination):
            figures = separation_of(weights_at(wanted, combination.stages), weights_at(double, combination.stages))
            what = relation(each, gathered, mistaken, combination)
            rank = (each.not_relied_on, -figures.proof_share, -figures.total_variation)
            found.append((rank, RankedCharacter(each.key, what, figures)))
    found.sort(key=lambda ranked: ranked[0])
    return tuple(character for _, character in found)


def _is_readable_on_both(
    character: TableCharacter, gathered: Sequence[Score], mistaken: Sequence[Score], combination: Combination
) -> bool:
    return is_readable(character, gathered, combination.gathered) and is_readable(
        character, mistaken, combination.mistaken
    )
