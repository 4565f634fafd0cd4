"""What of a standard somebody should see next, and what of it the coming days will show. Pure."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from .progress import Far, Progress

DEADLY_WEIGHT, DANGEROUS_WEIGHT = 3, 2
"""As practice weighs pairs."""


@dataclass(frozen=True)
class Need:
    """A pair that somebody has not passed: how far they are, and how often they gathered its dangerous plant lately.

    `dangerous` and `edible`: specimens of each side that are missing if every further answer is right.
    """

    pair: str
    progress: Progress
    dangerous: int
    edible: int
    missed_lately: int
    deadly: bool

    @property
    def rank(self) -> tuple[bool, int, bool, int, str]:
        """What was gathered lately comes first, then what is deadly, what was begun, and what is nearly done."""
        weight = DEADLY_WEIGHT if self.deadly else DANGEROUS_WEIGHT
        not_begun = self.progress.far is Far.NOT_BEGUN
        return (not self.missed_lately, -weight, not_begun, self.progress.missing, self.pair)


def in_order_of_need(needs: Iterable[Need]) -> tuple[Need, ...]:
    """The needs of one person, the most pressing first; pairs that are passed and not missed since are left out."""
    return tuple(sorted((n for n in needs if not n.progress.passed or n.missed_lately), key=lambda need: need.rank))


class Shows(StrEnum):
    """What of a pair shows above ground at a meeting."""

    BOTH = "both"
    GATHERED = "gathered"
    MISTAKEN = "mistaken"
    NEITHER = "neither"


def what_shows(gathered: bool, mistaken: bool) -> Shows:
    """The word for what shows of the two plants."""
    if gathered and mistaken:
        return Shows.BOTH
    if gathered or mistaken:
        return Shows.GATHERED if gathered else Shows.MISTAKEN
    return Shows.NEITHER


@dataclass(frozen=True)
class PairInNeed:
    """A pair with everybody who needs it: how many gathered its dangerous plant lately, and what all lack of it."""

    pair: str
    people: tuple[int, ...]
    missed: int
    dangerous: int
    edible: int


def pairs_in_need(needs: Sequence[tuple[int, Need]]) -> tuple[PairInNeed, ...]:
    """By pair, those first that were gathered lately by most, then those that most people need.

    `needs`: with the person whose they are. Missing specimens are the most that any one of them lacks, since one
    plant serves everybody who is shown it.
    """
    by_pair: dict[str, list[tuple[int, Need]]] = {}
    for person, need in needs:
        by_pair.setdefault(need.pair, []).append((person, need))
    found = [
        PairInNeed(
            pair,
            tuple(person for person, _need in mine),
            sum(need.missed_lately > 0 for _person, need in mine),
            max(need.dangerous for _person, need in mine),
            max(need.edible for _person, need in mine),
        )
        for pair, mine in by_pair.items()
    ]
    return tuple(sorted(found, key=lambda each: (-each.missed, -len(each.people), each.pair)))
