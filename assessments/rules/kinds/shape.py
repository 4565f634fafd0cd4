"""What every question kind states about itself, and what it is told of plants and answers."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from random import Random
from typing import Any

from assessments.rules.evidence import Decision
from assessments.rules.standard import PairFacts, Side
from species.rules.regions import Frame

Asks = Mapping[str, Any]
"""What one question asks beyond its pictures, as plain values that can be stored; fixed when it is drawn."""


@dataclass(frozen=True, slots=True)
class PlantShown:
    """One plant of a pair that a question may show: its key, and its side in the pair."""

    key: str
    side: Side


@dataclass(frozen=True, slots=True)
class Clue:
    """A character of a pair that can be looked at in a stage: what it shows on either plant."""

    character: str
    name: str
    gathered: str
    mistaken: str
    decides: bool


@dataclass(frozen=True, slots=True)
class Mark:
    """Where on a picture a character can be seen."""

    character: str
    frame: Frame


@dataclass(frozen=True, slots=True)
class PictureFacts:
    """One picture of a plant: its key, width divided by height, and what is marked on it."""

    key: int
    aspect: float
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class Subject:
    """One plant that a question may be put about, as one plant of a pair.

    ``clues`` for the plant's stage, the same for both plants of the pair.
    ``partners``: other plants of the pair that may be shown beside it, in the order in which they are to be used.
    """

    plant: PlantShown
    pair: PairFacts
    clues: tuple[Clue, ...] = ()
    pictures: tuple[PictureFacts, ...] = ()
    partners: tuple[PlantShown, ...] = ()

    @property
    def about(self) -> dict[str, Any]:
        """The pair that is asked about, as a question stores it: its key and the keys of both species."""
        return {"pair": self.pair.key, "both": [self.pair.gathered, self.pair.mistaken]}


@dataclass(frozen=True, slots=True)
class Put:
    """A question as drawn: what it asks, and the plant that it shows beside the first."""

    asks: Asks
    beside: PlantShown | None = None


@dataclass(frozen=True, slots=True)
class Truth:
    """What is known today of the plants of a question, in the order shown: the side of each in the pair that was
    asked about (None while in doubt), and what is marked on the picture that was asked about."""

    sides: tuple[Side | None, ...]
    picture: PictureFacts | None = None
    clues: tuple[Clue, ...] = ()


def ask_nothing_more(_subject: Subject, _chance: Random) -> Put | None:
    """A question that is the same for every plant."""
    return Put({})


def decide_nothing(_chosen: str) -> tuple[Decision | None, ...]:
    """An answer that says of no plant whether it would be gathered."""
    return (None,)


def judge_nothing(_asks: Asks, _chosen: str, _truth: Truth) -> bool | None:
    """A kind whose answers are judged in the ledgers alone."""
    return None


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of question.

    ``counts``: whether its answers enter the ledgers. A gather of a dangerous species is a miss in any kind
    that asks for a decision, whether it counts or not.
    ``shows_pictures``: whether its own template shows the pictures. ``ask`` puts the question about a plant, or
    returns None where this plant cannot be asked about so. ``decisions``: what an answer says of each plant shown.
    ``is_right``: whether an answer is right, None where that cannot be said.
    """

    key: str
    counts: bool
    asks_name: bool
    asks_decision: bool
    shows_pictures: bool = False
    ask: Callable[[Subject, Random], Put | None] = ask_nothing_more
    decisions: Callable[[str], tuple[Decision | None, ...]] = decide_nothing
    is_right: Callable[[Asks, str, Truth], bool | None] = judge_nothing
