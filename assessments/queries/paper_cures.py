"""What would cure a paper that the bank is too small for: a second name, the end of a dispute, a photograph."""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from assessments.rules.standard import PairFacts, StandardFacts
from assessments.rules.wanted import Named, Naming

from .bank import sides_of
from .drawing import Missing
from .flora import Flora, PlantName, the_flora
from .wanted_bank import calendars_by_key, supply_for


@dataclass(frozen=True)
class Cure:
    """What would bring so many more of a plant: in a stage, or in any where `stage` is empty.

    `to_name`, `to_settle`: specimens in the bank that one more name, or the end of a dispute, would bring.
    `to_photograph`: what these leave wanting. `months`: when it shows.
    """

    plant: PlantName
    stage: str
    missing: int
    to_name: int
    to_settle: int
    to_photograph: int
    months: tuple[int, ...]


def cures_of(
    missing: Iterable[Missing], facts: StandardFacts, pairs: tuple[PairFacts, ...], people: Collection[int]
) -> tuple[Cure, ...]:
    """What would cure the quotas that the bank cannot meet by themselves, for whoever lacks most; constant queries."""
    wanted = Counter[str]()
    for each in missing:
        for shortage in each.shortfall.short if each.shortfall else ():
            wanted[shortage.name] = max(wanted[shortage.name], shortage.short)
    if not wanted:
        return ()
    sides = sides_of(pairs)
    supply, _not_named = supply_for(people, facts, sides)
    flora, calendars = the_flora(), calendars_by_key(sides)
    known = {key: {stage.value: months for stage, months in each.items()} for key, each in calendars.items()}
    return tuple(_cure(name, number, supply, known, flora) for name, number in wanted.items())


def _cure(
    name: str,
    missing: int,
    supply: Sequence[Named],
    calendars: Mapping[str, Mapping[str, Collection[int]]],
    flora: Flora,
) -> Cure:
    species, _comma, stage = name.partition(", ")
    held = Counter(
        each.naming for each in supply if each.specimen.species == species and stage in ("", each.specimen.stage)
    )
    to_name = min(missing, held[Naming.SINGLE])
    to_settle = min(missing - to_name, held[Naming.DISPUTED])
    shown = calendars.get(species, {})
    months = {month for each, shows in shown.items() if stage in ("", each) for month in shows}
    return Cure(
        plant=flora.plant(species),
        stage=stage,
        missing=missing,
        to_name=to_name,
        to_settle=to_settle,
        to_photograph=missing - to_name - to_settle,
        months=tuple(sorted(months)),
    )
