"""What the questions of a package are made of: plants of the bank as plants of a pair, and what is said beside them."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from hashlib import sha256

from django.utils.translation import gettext as _

from assessments.documents.package.shape import Item, Picture
from assessments.queries.flora import PlantName
from assessments.rules.kinds.shape import Clue, PictureFacts, PlantShown, Subject
from assessments.rules.standard import PairFacts, Side

IDENTIFIER_DIGITS = 24


@dataclass(frozen=True)
class BankPicture:
    """One picture of a plant: how the package shows it, what is marked on it, and whose it is."""

    shown: Picture
    facts: PictureFacts
    credit: str


@dataclass(frozen=True)
class BankPlant:
    """One plant of the bank with what is known of it. `named_by`: by how many people, the last on `named_on`."""

    key: str
    individual: int
    species: str
    stage: str
    is_for_tests: bool
    named_by: int
    named_on: date | None
    pictures: tuple[BankPicture, ...]


@dataclass(frozen=True)
class BankPair:
    """A pair: its plants by name, what may be said of the gathered one, and what the other does to people.

    `is_named_only`: the gathered plant is recognised by its name, and never gathered.
    """

    facts: PairFacts
    gathered: PlantName
    mistaken: PlantName
    is_named_only: bool
    harm: str

    def side_of(self, plant: BankPlant) -> Side:
        """Which of the two a plant is."""
        return Side.DANGEROUS if plant.species == self.facts.mistaken else Side.EDIBLE

    def subject(self, plant: BankPlant, clues: tuple[Clue, ...], partners: tuple[BankPlant, ...] = ()) -> Subject:
        """A plant as the kinds of question ask about it."""
        return Subject(
            plant=PlantShown(plant.key, self.side_of(plant)),
            pair=self.facts,
            clues=clues,
            pictures=tuple(each.facts for each in plant.pictures),
            partners=tuple(PlantShown(each.key, self.side_of(each)) for each in partners),
        )

    @property
    def title(self) -> str:
        """What a question about it is called: both plants, so that nothing is given away."""
        names = {"gathered": self.gathered.common_name, "mistaken": self.mistaken.common_name}
        return _("%(gathered)s or %(mistaken)s?") % names


@dataclass(frozen=True)
class Asked:
    """One question of a package, and what the format cannot say of it.

    `harm`: what a wrong answer would do, empty where it does nothing. `asks_how_sure`: whether the school asks that.
    """

    item: Item
    kind: str
    pair: str
    plants: tuple[BankPlant, ...]
    credits: tuple[str, ...]
    harm: str = ""
    asks_how_sure: bool = False


@dataclass(frozen=True)
class Chance:
    """What the builders of one kind are given: a pair, its plants in one stage, and the clues of that stage."""

    pair: BankPair
    plants: tuple[BankPlant, ...]
    clues: tuple[Clue, ...]
    language: str


@dataclass(frozen=True)
class Made:
    """The questions of one kind, and how many could not be put with one right answer."""

    questions: tuple[Asked, ...] = ()
    left_out: int = 0


Builder = Callable[[Chance], Made]
"""One kind of question: all that can be asked so about these plants."""


def identifier_of(*parts: str) -> str:
    """A name that says nothing of what it names, and is the same every time."""
    return f"q-{sha256('|'.join(parts).encode()).hexdigest()[:IDENTIFIER_DIGITS]}"
