"""Whether somebody may confirm answers to living plants. Pure: facts in, the plants that are beyond them out."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Competence:
    """What an assessor has to show for themselves on a day.

    pairs: keys of the pairs that their current certificates stand for; is_founder: they were trusted before anybody
    could hold one, with the reason on record.
    """

    pairs: frozenset[str]
    is_founder: bool = False


def beyond(dangerous: Mapping[int, Collection[str]], shown: Competence) -> frozenset[int]:
    """The dangerous plants whose answers this assessor cannot confirm.

    `dangerous`: by plant the keys of the pairs in which it is the dangerous one. A single current pair is enough,
    since the evidence on a dangerous plant is one ledger for all its pairs: who holds one was shown to tell the plant.
    """
    if shown.is_founder:
        return frozenset()
    return frozenset(plant for plant, pairs in dangerous.items() if not shown.pairs & set(pairs))
