"""What the bank lacks to set so many different papers under a standard, with when and where to find it."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from assessments.models import Paper, Standard
from assessments.rules.blueprint import Blueprint
from assessments.rules.rounds import Round, even_round
from assessments.rules.standard import PairFacts, Side
from assessments.rules.wanted import Named, Naming, Want, WantedList, months_until, wanted
from species.rules.season import Calendar

from .bank import blueprint_of, quotas_for, sides_of
from .flora import Flora, PlantName, the_flora
from .standards import standard_facts
from .wanted_bank import calendars_by_key, kinds_wanted, most_answered, supply_for
from .wanted_places import Place, places_of, records_of

PAPERS, QUESTIONS = 12, 20
"""What is asked for unless somebody says otherwise: a paper of the usual length for each of a dozen people."""
MOST_PAPERS, MOST_QUESTIONS = 60, 60


@dataclass(frozen=True)
class Wish:
    """So many different papers of so many questions, on plants that none of these users has met."""

    standard: Standard
    papers: int = PAPERS
    questions: int = QUESTIONS
    people: tuple[int, ...] = ()


@dataclass(frozen=True)
class WantedLine:
    """One species in one stage: what is wanted of it, and where and when to find it.

    `others`: the plants it has to be told from under this standard. `in_bank`: specimens that could be set now.
    """

    plant: PlantName
    others: tuple[PlantName, ...]
    stage: str
    is_dangerous: bool
    in_bank: int
    to_name: int
    to_settle: int
    to_photograph: int
    months: tuple[int, ...]
    wait: int
    places: tuple[Place, ...]

    @property
    def shows_now(self) -> bool:
        return self.wait == 0

    @property
    def short(self) -> int:
        return self.to_name + self.to_settle + self.to_photograph


@dataclass(frozen=True)
class WantedPage:
    """The list with what it is for. `never`: plants that no stage counts of. `not_named`: specimens without a name.

    `asks_all`: whether so many papers of this length reach every plant and every required stage.
    """

    wish: Wish
    today: date
    lines: tuple[WantedLine, ...]
    never: tuple[PlantName, ...]
    not_named: int
    asks_all: bool
    has_pairs: bool

    @property
    def is_enough(self) -> bool:
        return self.has_pairs and not self.lines and not self.never

    @property
    def for_the_walk(self) -> tuple[WantedLine, ...]:
        """What can be photographed now."""
        return tuple(line for line in self.lines if line.to_photograph and line.shows_now)

    @property
    def for_later(self) -> tuple[WantedLine, ...]:
        """What can only be photographed in another month."""
        return tuple(line for line in self.lines if line.to_photograph and not line.shows_now)

    @property
    def without_a_walk(self) -> tuple[WantedLine, ...]:
        """What a second name, or the end of a dispute, would bring."""
        return tuple(line for line in self.lines if line.to_name or line.to_settle)

    @property
    def short(self) -> int:
        return sum(line.short for line in self.lines)


def wanted_page(wish: Wish, today: date) -> WantedPage:
    """The wanted list for a wish, in a number of queries that depends neither on the bank nor on the people."""
    facts = standard_facts(wish.standard)
    pairs = facts.dangerous_pairs
    flora = the_flora()
    if not pairs:
        return WantedPage(wish, today, (), (), 0, asks_all=True, has_pairs=False)
    sides = sides_of(pairs)
    calendars = calendars_by_key(sides)
    asked = even_round(wish.papers, paper_over(pairs, wish.questions), pairs)
    supply, not_named = supply_for(wish.people, facts, sides)
    found = wanted(supply, kinds_wanted(facts, sides, calendars, today), asked, most_answered(wish.people, pairs))
    return WantedPage(
        wish=wish,
        today=today,
        lines=_lines(found, supply, pairs, flora, calendars, today),
        never=tuple(flora.plant(key) for key in found.never),
        not_named=not_named,
        asks_all=_reaches_all(asked, pairs),
        has_pairs=True,
    )


def paper_over(pairs: Sequence[PairFacts], questions: int) -> Blueprint:
    """The blueprint of a paper over these pairs, as it would be set."""
    mistaken, gathered = {pair.mistaken for pair in pairs}, {pair.gathered for pair in pairs}
    quotas = quotas_for(questions, len(mistaken), len(gathered - mistaken) or 1)
    return blueprint_of(Paper(questions=questions, blueprint={**quotas, "each_stage": True}), pairs)


def _reaches_all(asked: Round, pairs: Iterable[PairFacts]) -> bool:
    reached = {quota.name for quota in asked.quotas}
    stages = {f"{pair.mistaken}, {stage}" for pair in pairs for stage in pair.required_stages}
    return (stages | {pair.mistaken for pair in pairs} | {pair.gathered for pair in pairs}) <= reached


def _lines(
    found: WantedList,
    supply: Iterable[Named],
    pairs: Sequence[PairFacts],
    flora: Flora,
    calendars: Mapping[str, Calendar],
    today: date,
) -> tuple[WantedLine, ...]:
    in_bank = Counter(
        (each.specimen.species, each.specimen.stage) for each in supply if each.naming is Naming.CONFIRMED
    )
    records = records_of({want.kind.species for want in found.wants})
    others: dict[str, dict[str, PlantName]] = defaultdict(dict)
    for pair in pairs:
        others[pair.mistaken][pair.gathered] = flora.plant(pair.gathered)
        others[pair.gathered][pair.mistaken] = flora.plant(pair.mistaken)
    return tuple(
        WantedLine(
            plant=flora.plant(want.kind.species),
            others=tuple(others[want.kind.species].values()),
            stage=want.kind.stage,
            is_dangerous=want.kind.side is Side.DANGEROUS,
            in_bank=in_bank[want.kind.species, want.kind.stage],
            to_name=len(want.to_name),
            to_settle=len(want.to_settle),
            to_photograph=want.to_photograph,
            months=months,
            wait=months_until(months, today.month),
            places=places_of(records, want.kind.species, want.kind.stage, months, today),
        )
        for want in found.wants
        for months in [_months(calendars, want)]
    )


def _months(calendars: Mapping[str, Calendar], want: Want) -> tuple[int, ...]:
    """The months in which the stage shows; none for a specimen that lies in the bank without a stage."""
    known = {stage.value: months for stage, months in calendars.get(want.kind.species, {}).items()}
    return tuple(sorted(known.get(want.kind.stage, ())))
