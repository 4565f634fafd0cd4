"""The stages that a standard asks for of each pair unless somebody says otherwise, from the state table."""

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from species.models import Pair, PairCharacter, PartUsed
from species.queries.state_table import calendars_of, scores_of, table_characters
from species.rules.season import Calendar
from species.rules.separation import Combination, Score, TableCharacter, comparison
from species.rules.stages import (
    GatheredPart,
    ListedCharacter,
    fair_for_every_pair,
    fair_gathered_stages,
    required_mistaken_stages,
    stages_gathered,
)
from species.rules.vocabulary import Stage, Trust


@dataclass(frozen=True, slots=True)
class StagesAsked:
    """Of the mistaken species the stages to be shown; of the gathered one those that enter its ledger."""

    mistaken: tuple[str, ...]
    gathered: tuple[str, ...]


@dataclass(frozen=True)
class _Table:
    """What the rules need to know of the species of some pairs."""

    characters: dict[str, TableCharacter]
    scores: dict[int, dict[str, list[Score]]]
    listed: dict[int, list[ListedCharacter]]
    parts: dict[int, list[GatheredPart]]
    calendars: dict[int, Calendar]


def default_stages(pairs: Collection[Pair]) -> dict[str, StagesAsked]:
    """For each pair, by its key, the default stages; five queries, however many pairs.

    The dangerous pairs of one gathered species share a ledger, so their stages are made to fit together.
    """
    table = _table(pairs)
    alone = {pair.key: _stages_of(pair, table) for pair in pairs}
    return alone | {key: asked for mine in _sharing_a_ledger(pairs) for key, asked in _together(mine, alone).items()}


def _sharing_a_ledger(pairs: Collection[Pair]) -> list[list[Pair]]:
    found: dict[int, list[Pair]] = defaultdict(list)
    for pair in pairs:
        if pair.is_dangerous:
            found[pair.gathered_id].append(pair)
    return [mine for mine in found.values() if len(mine) > 1]


def _together(pairs: Collection[Pair], alone: Mapping[str, StagesAsked]) -> dict[str, StagesAsked]:
    met = {pair.key: {Stage(gathered) for gathered, _ in pair.stage_combinations} for pair in pairs}
    fair = {pair.key: [Stage(stage) for stage in alone[pair.key].gathered] for pair in pairs}
    return {
        key: StagesAsked(alone[key].mistaken, tuple(stage.value for stage in stages))
        for key, stages in fair_for_every_pair(fair, met).items()
    }


def _stages_of(pair: Pair, table: _Table) -> StagesAsked:
    combinations = [Combination(Stage(one), Stage(other)) for one, other in pair.stage_combinations]
    gathered, mistaken = table.scores[pair.gathered_id], table.scores[pair.mistaken_id]
    comparisons = [comparison(table.characters.values(), gathered, mistaken, each) for each in combinations]
    in_season = stages_gathered(table.parts[pair.gathered_id], table.calendars[pair.gathered_id])
    fair = fair_gathered_stages(comparisons, table.characters, table.listed[pair.pk], in_season)
    required = required_mistaken_stages(comparisons, table.characters)
    return StagesAsked(tuple(s.value for s in required), tuple(s.value for s in fair))


def _table(pairs: Collection[Pair]) -> _Table:
    species = {pair.gathered_id for pair in pairs} | {pair.mistaken_id for pair in pairs}
    parts: dict[int, list[GatheredPart]] = defaultdict(list)
    for part in PartUsed.objects.filter(species__in=species):
        stages = frozenset(map(Stage, part.stages))
        parts[part.species_id].append(GatheredPart(part.part, frozenset(part.months), stages))
    return _Table(table_characters(), scores_of(species), _listed(pairs), parts, calendars_of(species))


def _listed(pairs: Collection[Pair]) -> dict[int, list[ListedCharacter]]:
    found: dict[int, list[ListedCharacter]] = defaultdict(list)
    rows = PairCharacter.objects.filter(pair__in=pairs, character__isnull=False).select_related("character")
    for row in rows:
        if row.character is not None:
            stages = frozenset(map(Stage, row.stages))
            listed = ListedCharacter(row.character.key, stages, Trust(row.trust), row.needs_digging)
            found[row.pair_id].append(listed)
    return found
