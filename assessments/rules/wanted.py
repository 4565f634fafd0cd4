"""What the bank lacks to set a round of papers: the least that has to be named again, settled or photographed.

One integer programme over the round. Its columns are the specimens of the bank, those that lack a settled name,
and plants that nobody has photographed yet; each kind is dearer than the one before, so what the programme takes
of the last three is the least that makes the round possible. A second pass picks, among all lists as short as
that, one that is spread over species and stages and leans to what shows soon.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import IntEnum

import numpy as np

from .assembly import NOTHING_ANSWERED
from .blueprint import Candidate, Cell
from .programme import Row, caps, counting, quota_rows, solve
from .rounds import Round
from .standard import Side

NO_MONTH = 12
"""Months to wait for a stage that no month is on record for: as long as for the longest."""


class Naming(IntEnum):
    """How far a specimen has got to a settled name, and what a question from it costs the list."""

    CONFIRMED = 0
    SINGLE = 1
    DISPUTED = 2


@dataclass(frozen=True, slots=True)
class Named:
    """A specimen with how well it is named. A disputed one stands once for each name it was given."""

    specimen: Candidate
    naming: Naming


@dataclass(frozen=True, slots=True)
class Kind:
    """A species in a stage that may be photographed, with the months until it shows (0: it shows now)."""

    species: str
    stage: str
    side: Side
    wait: int


@dataclass(frozen=True, slots=True)
class Want:
    """What is wanted of one kind: specimens to be named a second time or settled, and new ones."""

    kind: Kind
    to_name: tuple[Candidate, ...]
    to_settle: tuple[Candidate, ...]
    to_photograph: int

    @property
    def short(self) -> int:
        """How many specimens the bank is short of."""
        return len(self.to_name) + len(self.to_settle) + self.to_photograph


@dataclass(frozen=True, slots=True)
class WantedList:
    """What is wanted, what helps most first.

    ``never``: species that are asked for, but that no stage counts of, so that nothing can be photographed.
    ``drawn``: the questions of the round once all of it is there, new plants with stand-ins; empty where even
    that would not do, which happens only when something is in ``never``.
    """

    round: Round
    wants: tuple[Want, ...]
    never: tuple[str, ...]
    drawn: tuple[Candidate, ...]

    @property
    def is_enough(self) -> bool:
        """Whether the bank as it is can fill all papers."""
        return not self.wants and not self.never


class CannotHold(ValueError):
    """The quotas of a round contradict each other: no bank, however large, could fill it."""


def months_until(months: Iterable[int], month: int) -> int:
    """How many months from this one until one of these comes: 0 if it is one of them."""
    return min(((each - month) % 12 for each in months), default=NO_MONTH)


def wanted(
    supply: Sequence[Named],
    kinds: Sequence[Kind],
    asked: Round,
    answered: Mapping[Cell, int] = NOTHING_ANSWERED,
) -> WantedList:
    """The list for a round. ``answered`` as in ``assemble``, the most that any of the sitters has answered.

    New plants are taken to come from places and days that hold at most two of their species. Raises CannotHold.
    """
    can_be_had = {kind.species for kind in kinds}
    never = tuple(q.name for q in asked.quotas if q.species and not q.stages and not q.species & can_be_had)
    possible = replace(asked, quotas=tuple(q for q in asked.quotas if not q.species or q.species & can_be_had))
    columns = _columns(supply, kinds, possible)
    taken = _cheapest(columns, _rows(columns, possible, answered))
    if taken is None:
        if never:
            return WantedList(asked, (), never, ())
        raise CannotHold("The quotas of the round contradict each other.")
    return WantedList(asked, _wants(columns, taken, kinds), never, _drawn(columns, taken))


@dataclass(frozen=True, slots=True)
class _Column:
    """A specimen, or up to ``most`` new plants of a kind; ``price`` and, among equal prices, ``later`` decide."""

    candidate: Candidate
    price: int
    most: int = 1
    later: int = 0
    naming: Naming | None = None


def _columns(supply: Sequence[Named], kinds: Sequence[Kind], asked: Round) -> list[_Column]:
    found = sorted(supply, key=lambda each: (each.naming, each.specimen.key, each.specimen.species))
    columns = [_Column(each.specimen, int(each.naming), naming=each.naming) for each in found]
    length = asked.paper.length
    layers = length if asked.paper.per_species is None else min(length, asked.paper.per_species)
    dear = 2 * length * asked.papers + 1
    for kind in kinds:
        # The first plants of a kind come before the second ones of another: so the list is spread.
        columns += [
            _Column(_stand_in(kind, layer), dear, asked.papers, later=(NO_MONTH + 1) * layer + kind.wait)
            for layer in range(layers)
        ]
    return columns


def _stand_in(kind: Kind, number: int) -> Candidate:
    """A plant that is still to be photographed, at a place of its own."""
    name = f"new {kind.species} {kind.stage} {number}"
    return Candidate(name, name, kind.species, kind.stage, name, date.min, kind.side)


def _rows(columns: Sequence[_Column], asked: Round, answered: Mapping[Cell, int]) -> list[Row]:
    pool, whole = [column.candidate for column in columns], asked.whole
    plants, species = defaultdict(list), defaultdict(list)
    for number, each in enumerate(pool):
        species[each.species].append(number)
        if columns[number].naming is not None:
            plants[each.individual].append(number)
    # A disputed plant stands in several columns of different species: whatever it is, it is one plant.
    rows = [counting("plant", mine, high=1) for mine in plants.values() if len(mine) > 1]
    if whole.per_species is not None:  # counted here, since a column of new plants holds several
        rows += [counting("species", mine, high=whole.per_species) for mine in species.values()]
    dangerous = (number for number, each in enumerate(pool) if each.side is Side.DANGEROUS)
    return [
        *rows,
        *caps(pool, replace(whole, per_species=None), answered),
        *quota_rows(pool, whole),
        counting("length", range(len(pool)), whole.length, whole.length),
        counting("dangerous", dangerous, *asked.dangerous_bounds),
    ]


def _cheapest(columns: Sequence[_Column], rows: Sequence[Row]) -> list[int] | None:
    """How many of each column: the shortest list, then the best spread of those as short; None if there is none."""
    price = np.array([column.price for column in columns], dtype=np.float64)
    most = np.array([column.most for column in columns], dtype=np.float64)
    taken = solve(price, rows, most)
    if taken is None:
        return None
    least = float(price @ taken)
    if least:
        no_dearer = Row("price", tuple(range(len(columns))), tuple(price.tolist()), high=least)
        later = np.array([column.later for column in columns], dtype=np.float64)
        second = solve(later, [*rows, no_dearer], most)
        # The first answer fits the second pass too; should the solver say otherwise, it stands.
        taken = taken if second is None else second
    return [int(number) for number in taken]


def _wants(columns: Sequence[_Column], taken: Sequence[int], kinds: Sequence[Kind]) -> tuple[Want, ...]:
    known = {(kind.species, kind.stage): kind for kind in kinds}
    new: Counter[tuple[str, str]] = Counter()
    unsettled: dict[tuple[str, str], dict[Naming, list[Candidate]]] = defaultdict(lambda: defaultdict(list))
    for column, number in zip(columns, taken, strict=True):
        place = (column.candidate.species, column.candidate.stage)
        if column.naming is None:
            new[place] += number
        elif number and column.naming is not Naming.CONFIRMED:
            unsettled[place][column.naming].append(column.candidate)
            known.setdefault(place, Kind(*place, column.candidate.side or Side.EDIBLE, NO_MONTH))
    places = {*unsettled, *(place for place, number in new.items() if number)}
    wants = (
        Want(known[place], tuple(unsettled[place][Naming.SINGLE]), tuple(unsettled[place][Naming.DISPUTED]), new[place])
        for place in places
    )
    return tuple(sorted(wants, key=_what_helps_most))


def _what_helps_most(want: Want) -> tuple[bool, int, int, str, str]:
    """Dangerous plants first, then what shows now or soonest, then what most is wanted of."""
    kind = want.kind
    return kind.side is not Side.DANGEROUS, kind.wait, -want.short, kind.species, kind.stage


def _drawn(columns: Sequence[_Column], taken: Sequence[int]) -> tuple[Candidate, ...]:
    return tuple(
        column.candidate if column.naming is not None else _one_of(column.candidate, n)
        for column, number in zip(columns, taken, strict=True)
        for n in range(number)
    )


def _one_of(stand_in: Candidate, number: int) -> Candidate:
    name = f"{stand_in.key} {number}"
    return replace(stand_in, key=name, individual=name, locality=name)
