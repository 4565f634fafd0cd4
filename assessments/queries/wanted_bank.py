"""What the bank holds for a round of papers, settled or not, and what could be photographed for it."""

from collections.abc import Collection, Mapping, Sequence
from datetime import date
from typing import Any

from django.db.models import Count, Q

from assessments.rules.blueprint import Cell
from assessments.rules.standard import PairFacts, Side, StandardFacts
from assessments.rules.wanted import Kind, Named, Naming, months_until
from species.models import Determination, Species
from species.queries.state_table import calendars_of
from species.rules.season import Calendar
from species.rules.vocabulary import Settlement, Stage

from .bank import (
    CANDIDATE_COLUMNS,
    candidate_of,
    individuals_answered,
    individuals_met,
    is_fair,
    specimens_for_tests,
    stages_counting,
)

NAMINGS = {Settlement.CONFIRMED: Naming.CONFIRMED, Settlement.SINGLE: Naming.SINGLE}


def calendars_by_key(keys: Collection[str]) -> dict[str, Calendar]:
    """When which stage of these species shows, by their keys; two queries."""
    known = dict(Species.objects.filter(key__in=keys).values_list("pk", "key"))
    return {known[pk]: calendar for pk, calendar in calendars_of(known).items()}


def kinds_wanted(
    facts: StandardFacts, sides: Mapping[str, Side], calendars: Mapping[str, Calendar], today: date
) -> list[Kind]:
    """What can be photographed: the stages that a standard requires or counts, else all that ever show."""
    counting = stages_counting(facts, sides)
    found = []
    for species, side in sides.items():
        calendar = calendars.get(species, {})
        stages: Collection[str] | None = counting.get(species)
        if stages is None:
            named = [p.required_stages if side is Side.DANGEROUS else p.edible_stages for p in facts.pairs_of(species)]
            stages = {stage for each in named for stage in each or ()} or set(calendar) or set(Stage)
        for stage in sorted(map(Stage, stages), key=list(Stage).index):
            wait = months_until(calendar.get(stage, ()), today.month)
            found.append(Kind(species, stage.value, side, wait))
    return found


def _rows(people: Collection[int], sides: Mapping[str, Side]) -> list[dict[str, Any]]:
    """Specimens for assessment that none of these people has met: of these species, disputed, or without a name."""
    of_these = Q(species__key__in=sides) | Q(species=None)
    specimens = specimens_for_tests().filter(of_these).annotate(uses=Count("questions"))
    met = set().union(*individuals_met(people).values()) if people else set()
    rows = specimens.values(*CANDIDATE_COLUMNS, "settlement")
    return [dict(row) for row in rows if row["individual_id"] not in met]


def supply_for(people: Collection[int], facts: StandardFacts, sides: Mapping[str, Side]) -> tuple[list[Named], int]:
    """What none of these people has met, by how well it is named; and how many specimens have no name at all."""
    counting = stages_counting(facts, sides)
    supply, not_named, disputed = list[Named](), 0, dict[int, dict[str, Any]]()
    for row in _rows(people, sides):
        naming = NAMINGS.get(row["settlement"])
        if row["settlement"] == Settlement.DISPUTED:
            disputed[row["pk"]] = row
        elif naming is None:
            not_named += 1
        elif row["species__key"] in sides and is_fair(row, counting):
            supply.append(Named(candidate_of(row, sides), naming))
    for pk, species in _names_given(disputed, sides):
        row = {**disputed[pk], "species__key": species}
        if is_fair(row, counting):
            supply.append(Named(candidate_of(row, sides), Naming.DISPUTED))
    return supply, not_named


def _names_given(disputed: Collection[int], sides: Mapping[str, Side]) -> list[tuple[int, str]]:
    """For each disputed specimen the species of this standard that somebody said it is."""
    said = Determination.objects.filter(specimen__in=list(disputed), species__key__in=sides)
    return list(said.order_by("specimen", "species").values_list("specimen_id", "species__key").distinct())


def most_answered(people: Collection[int], pairs: Sequence[PairFacts]) -> dict[Cell, int]:
    """The most that any of these people has answered of a species from one place and day."""
    most: dict[Cell, int] = {}
    for counts in individuals_answered(people, pairs).values() if people else ():
        for cell, number in counts.items():
            most[cell] = max(number, most.get(cell, 0))
    return most
