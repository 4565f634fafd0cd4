"""What the bank holds for standards, species by species, as plans and reports count it."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from assessments.rules.holdings import Held, countable
from assessments.rules.standard import Side, StandardFacts
from assessments.rules.treatment import stages_that_count

from .bank import usable_specimens


@dataclass(frozen=True, slots=True)
class Holding:
    """Specimens of one species that may be set: how many there are, how many could count for one person, by stage."""

    specimens: int
    countable: int
    stages: Mapping[str, int]


NOTHING = Holding(0, 0, {})


def holdings_for(standards: Iterable[StandardFacts]) -> list[dict[str, Holding]]:
    """For each standard the holdings of its species, by key; one query, however many standards.

    Of an edible species only the stages that enter its ledger count, as papers are drawn from them alone.
    """
    facts = list(standards)
    specimens = _specimens({key for each in facts for side in Side for key in each.species(side)})
    return [_of_standard(each, specimens) for each in facts]


def _specimens(species: set[str]) -> dict[str, list[Held]]:
    found: dict[str, list[Held]] = defaultdict(list)
    rows = usable_specimens().filter(species__key__in=species).order_by("pk")
    columns = ("species__key", "individual_id", "individual__locality_id", "seen_on", "stage")
    for key, individual, locality, day, stage in rows.values_list(*columns):
        found[key].append(Held(str(individual), str(locality), day, stage))
    return found


def _of_standard(facts: StandardFacts, specimens: Mapping[str, list[Held]]) -> dict[str, Holding]:
    found = {}
    for side in Side:
        for species in facts.species(side):
            counting = stages_that_count(species, facts) if side is Side.EDIBLE else None
            mine = [each for each in specimens.get(species, []) if counting is None or each.stage in counting]
            found[species] = _holding(mine)
    return found


def _holding(mine: list[Held]) -> Holding:
    stages: dict[str, list[Held]] = defaultdict(list)
    for each in mine:
        stages[each.stage].append(each)
    return Holding(len(mine), countable(mine), {stage: countable(held) for stage, held in stages.items()})
