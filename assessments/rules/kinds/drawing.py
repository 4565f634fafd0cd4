"""The questions of a paper beside those that are assembled to its blueprint: so many of each other kind.

They are drawn from plants that the person has not seen and that the blueprint left over, least used first and then
by chance, never by how easy they proved. Which side a question shows is tossed for, so that nothing can be guessed.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from random import Random

from assessments.rules.blueprint import Candidate
from assessments.rules.standard import PairFacts, Side

from .catalogue import kind_called
from .shape import Asks, Clue, Kind, PictureFacts, PlantShown, Subject


@dataclass(frozen=True, slots=True)
class Drawn:
    """One question of a paper: its kind, the plants that it shows in order, and what it asks."""

    kind: str
    plants: tuple[Candidate, ...]
    asks: Asks = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class KindShortage:
    """So many questions of a kind were asked for, and so many can be put."""

    kind: str
    asked: int
    available: int


@dataclass(frozen=True, slots=True)
class Botany:
    """What can be asked: the clues of each (pair, stage), and the pictures of each plant by its key."""

    pairs: tuple[PairFacts, ...]
    clues: Mapping[tuple[str, str], tuple[Clue, ...]]
    pictures: Mapping[str, tuple[PictureFacts, ...]]


def draw_kinds(
    wanted: Mapping[str, int], left: Sequence[Candidate], botany: Botany, seed: int
) -> tuple[Drawn, ...] | tuple[KindShortage, ...]:
    """So many questions of each kind from the plants that are left; or what is short, kind by kind."""
    chance = Random(seed)
    pool = _Pool(left, botany, chance)
    drawn: list[Drawn] = []
    short: list[KindShortage] = []
    for key in sorted(wanted):
        mine = [each for _n in range(wanted[key]) if (each := pool.draw(kind_called(key))) is not None]
        drawn += mine
        if len(mine) < wanted[key]:
            short.append(KindShortage(key, wanted[key], len(mine)))
    return tuple(short) or tuple(drawn)


def mixed_in(questions: Sequence[Drawn], more: Sequence[Drawn], seed: int) -> tuple[Drawn, ...]:
    """All questions in one order by chance; the first ones keep theirs among themselves."""
    chance, order = Random(seed), list(questions)
    for each in more:
        order.insert(chance.randint(0, len(order)), each)
    return tuple(order)


class _Pool:
    """The plants that are left, each individual drawn at most once."""

    def __init__(self, left: Sequence[Candidate], botany: Botany, chance: Random) -> None:
        self.botany, self.chance = botany, chance
        shuffled = sorted(left, key=lambda plant: plant.key)
        chance.shuffle(shuffled)
        self.plants = sorted(shuffled, key=lambda plant: plant.uses)
        self.taken: set[str] = set()
        self.shown: Counter[str] = Counter()

    def draw(self, kind: Kind) -> Drawn | None:
        """The next question of a kind; None when no plant is left that can be asked about so."""
        first = self.chance.choice((Side.DANGEROUS, Side.EDIBLE))
        plants = sorted(self._free(), key=lambda plant: (plant.side is not first, self.shown[plant.species]))
        for plant in plants:
            for subject in self._subjects(plant):
                put = kind.ask(subject, self.chance)
                if put is not None:
                    beside = [each for each in plants if put.beside and each.key == put.beside.key]
                    return self._take(kind, (plant, *beside), put.asks)
        return None

    def _take(self, kind: Kind, plants: tuple[Candidate, ...], asks: Asks) -> Drawn:
        self.taken |= {plant.individual for plant in plants}
        self.shown.update(plant.species for plant in plants)
        if len(plants) > 1 and self.chance.random() < 0.5:
            plants = plants[::-1]
        return Drawn(kind.key, plants, asks)

    def _free(self) -> list[Candidate]:
        return [plant for plant in self.plants if plant.individual not in self.taken]

    def _subjects(self, plant: Candidate) -> Iterator[Subject]:
        """The plant as one of each of its pairs, the pairs in an order by chance."""
        mine = [pair for pair in self.botany.pairs if plant.species in (pair.gathered, pair.mistaken)]
        for pair in self.chance.sample(mine, len(mine)):
            yield Subject(
                plant=PlantShown(plant.key, _side(plant, pair)),
                pair=pair,
                clues=self.botany.clues.get((pair.key, plant.stage), ()),
                pictures=self.botany.pictures.get(plant.key, ()),
                partners=tuple(PlantShown(each.key, _side(each, pair)) for each in self._partners(plant, pair)),
            )

    def _partners(self, plant: Candidate, pair: PairFacts) -> list[Candidate]:
        both = (pair.gathered, pair.mistaken)
        others = [each for each in self._free() if each.species in both and each.individual != plant.individual]
        return sorted(others, key=lambda each: each.stage != plant.stage)


def _side(plant: Candidate, pair: PairFacts) -> Side:
    return Side.DANGEROUS if plant.species == pair.mistaken else Side.EDIBLE
