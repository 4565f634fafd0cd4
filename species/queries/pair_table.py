"""What the state table, the calendar and the pair's own list say about the two plants of a pair."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from functools import cached_property

from species.models import Pair, PairCharacter
from species.queries.state_table import calendars_of, scores_of, table_characters
from species.rules.confusion import Confusion, MonthOfPair, confusions_of, year_of_pair
from species.rules.ranking import ranked_characters
from species.rules.season import Calendar
from species.rules.separation import Combination, Relation, Scores, TableCharacter, comparison
from species.rules.stages import ListedCharacter
from species.rules.vocabulary import Stage, Trust


@dataclass(frozen=True)
class PairTable:
    """The facts of one pair, as the rules read them. `rows`: the pair's own list, in its own order."""

    characters: dict[str, TableCharacter]
    combinations: tuple[Combination, ...]
    gathered: Scores
    mistaken: Scores
    gathered_calendar: Calendar
    mistaken_calendar: Calendar
    rows: tuple[PairCharacter, ...]

    @cached_property
    def confusions(self) -> tuple[Confusion, ...]:
        """Every combination of stages in which the two are mistaken, with what is taught to separate it."""
        compared = [
            comparison(self.characters.values(), self.gathered, self.mistaken, each) for each in self.combinations
        ]
        return confusions_of(compared, self.characters, [_listed(row) for row in self.rows if row.character])

    @cached_property
    def year(self) -> tuple[MonthOfPair, ...]:
        """The twelve months, January first."""
        return year_of_pair(self.confusions, self.gathered_calendar, self.mistaken_calendar)

    def ranks(self, combination: Combination) -> dict[str, Relation]:
        """What each character says at this combination, the most telling first."""
        ranked = ranked_characters(self.characters.values(), self.gathered, self.mistaken, combination)
        return {each.character: each.relation for each in ranked}

    def months_of(self, stages: frozenset[Stage]) -> frozenset[int]:
        """The months in which both plants show one of these stages and are mistaken in it."""
        return frozenset(
            each.month
            for each in self.year
            if any(confusion.combination.stages <= stages for confusion in each.confusions)
        )


def _listed(row: PairCharacter) -> ListedCharacter:
    key = row.character.key if row.character else row.label
    return ListedCharacter(key, frozenset(map(Stage, row.stages)), Trust(row.trust), row.needs_digging)


def pair_tables(pairs: Collection[Pair]) -> dict[int, PairTable]:
    """The tables of some pairs, by the id of the pair; four queries, however many."""
    ids = {pair.gathered_id for pair in pairs} | {pair.mistaken_id for pair in pairs}
    calendars, scores, characters = calendars_of(ids), scores_of(ids), table_characters()
    listed: dict[int, list[PairCharacter]] = defaultdict(list)
    for row in PairCharacter.objects.filter(pair__in=pairs).select_related("character").order_by("order", "id"):
        listed[row.pair_id].append(row)
    return {
        pair.pk: PairTable(
            characters=characters,
            combinations=tuple(Combination(Stage(one), Stage(other)) for one, other in pair.stage_combinations),
            gathered=scores[pair.gathered_id],
            mistaken=scores[pair.mistaken_id],
            gathered_calendar=calendars[pair.gathered_id],
            mistaken_calendar=calendars[pair.mistaken_id],
            rows=tuple(listed[pair.pk]),
        )
        for pair in pairs
    }


def pair_table(pair: Pair) -> PairTable:
    """The table of one pair; four queries."""
    return pair_tables([pair])[pair.pk]
