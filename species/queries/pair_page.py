"""The page of a pair: both plants side by side in one stage, and what tells them apart in one month."""

from dataclasses import dataclass
from itertools import zip_longest

from django.utils.text import capfirst

from species.models import Pair, PairCharacter
from species.models.flora import STAGE_WORDS
from species.queries.months import month_name, short_month_name
from species.queries.pictures import Picture, teaching_pictures
from species.queries.state_table import calendars_of, scores_of, table_characters
from species.rules.ranking import ranked_characters
from species.rules.season import Calendar
from species.rules.separation import (
    Combination,
    MonthClass,
    Relation,
    Scores,
    TableCharacter,
    combinations_in_month,
    comparison,
    month_class,
)
from species.rules.vocabulary import Stage, Trust

WORDS = dict(STAGE_WORDS)
SHOWN_ROWS = 3


@dataclass(frozen=True)
class MonthCell:
    """One month of the year of a pair, and whether something above ground tells the two apart then."""

    number: int
    name: str
    short: str
    is_chosen: bool
    telling: str
    """The name of a MonthClass in small letters: in_all, in_some, in_none, not_together."""


@dataclass(frozen=True)
class Choice:
    """A combination of stages that can be looked at, and whether it can be met in the month."""

    number: int
    gathered_stage: str
    mistaken_stage: str
    gathered: str
    mistaken: str
    shows_now: bool

    @property
    def is_one_stage(self) -> bool:
        return self.gathered_stage == self.mistaken_stage


@dataclass(frozen=True)
class Sign:
    """One character of the pair's own list: what either plant shows, how far to trust it, what the table says."""

    name: str
    gathered: str
    mistaken: str
    trust: str
    relation: str
    """separates, leans or nothing, by the state table at the chosen stages."""
    note: str
    one_way: str
    needs_digging: bool
    is_visible: bool


@dataclass(frozen=True)
class PairPage:
    """Everything on the page of a pair, for one month and one combination of stages. Signs: most telling first."""

    pair: Pair
    month: MonthCell
    months: list[MonthCell]
    choices: list[Choice]
    chosen: Choice | None
    pictures: list[tuple[Picture | None, Picture | None]]
    decisive: list[Sign]
    supporting: list[Sign]
    underground: list[Sign]
    unseen: list[Sign]
    never: list[Sign]

    @property
    def can_be_met(self) -> bool:
        return any(choice.shows_now for choice in self.choices)


class _Table:
    """What the state table and the calendar say about the two species of a pair."""

    def __init__(self, pair: Pair) -> None:
        ids = [pair.gathered_id, pair.mistaken_id]
        calendars, scores = calendars_of(ids), scores_of(ids)
        self.characters: dict[str, TableCharacter] = table_characters()
        self.combinations = [Combination(Stage(one), Stage(other)) for one, other in pair.stage_combinations]
        self.gathered: Scores = scores[pair.gathered_id]
        self.mistaken: Scores = scores[pair.mistaken_id]
        self.gathered_calendar: Calendar = calendars[pair.gathered_id]
        self.mistaken_calendar: Calendar = calendars[pair.mistaken_id]

    def in_month(self, month: int) -> tuple[Combination, ...]:
        return combinations_in_month(self.combinations, self.gathered_calendar, self.mistaken_calendar, month)

    def telling_in(self, month: int) -> MonthClass:
        compared = [
            comparison(self.characters.values(), self.gathered, self.mistaken, each) for each in self.in_month(month)
        ]
        return month_class(compared, self.characters)

    def ranks(self, combination: Combination) -> dict[str, Relation]:
        """What each character says at this combination, the most telling first."""
        ranked = ranked_characters(self.characters.values(), self.gathered, self.mistaken, combination)
        return {each.character: each.relation for each in ranked}


def pair_page(pair: Pair, month: int, number: int | None) -> PairPage:
    """The pair in a month, at combination `number` (by default the first that shows in the month)."""
    table = _Table(pair)
    months = [_month(table, each, month) for each in range(1, 13)]
    now = table.in_month(month)
    choices = [_choice(n, each, each in now) for n, each in enumerate(table.combinations)]
    chosen = _chosen(choices, number)
    combination = table.combinations[chosen.number] if chosen else None
    signs = _signs(pair, table, combination)
    visible = [each for each in signs if each.is_visible and each.trust != Trust.NOT_TO_BE_RELIED_ON]
    above = [each for each in visible if not each.needs_digging]
    return PairPage(
        pair=pair,
        month=months[month - 1],
        months=months,
        choices=choices,
        chosen=chosen,
        pictures=_pictures(pair, combination),
        decisive=[each for each in above if each.trust == Trust.DECISIVE],
        supporting=[each for each in above if each.trust == Trust.SUPPORTING],
        underground=[each for each in visible if each.needs_digging],
        unseen=[each for each in signs if not each.is_visible and each.trust != Trust.NOT_TO_BE_RELIED_ON],
        never=[each for each in signs if each.trust == Trust.NOT_TO_BE_RELIED_ON],
    )


def _month(table: _Table, number: int, chosen: int) -> MonthCell:
    telling = table.telling_in(number).name.lower()
    return MonthCell(number, month_name(number), short_month_name(number), number == chosen, telling)


def _choice(number: int, each: Combination, shows_now: bool) -> Choice:
    gathered, mistaken = each.gathered.value, each.mistaken.value
    return Choice(number, gathered, mistaken, str(WORDS[gathered]), str(WORDS[mistaken]), shows_now)


def _chosen(choices: list[Choice], number: int | None) -> Choice | None:
    wanted = [each for each in choices if each.number == number]
    showing = [each for each in choices if each.shows_now]
    return next(iter([*wanted, *showing, *choices]), None)


def _signs(pair: Pair, table: _Table, combination: Combination | None) -> list[Sign]:
    """The pair's own list, in the order in which the table ranks its characters; others after them."""
    ranks = table.ranks(combination) if combination else {}
    order = {key: place for place, key in enumerate(ranks)}
    rows = list(pair.characters.select_related("character").order_by("order"))
    rows.sort(key=lambda row: order.get(row.character.key if row.character else "", len(order)))
    return [_sign(row, ranks, combination) for row in rows]


def _sign(row: PairCharacter, ranks: dict[str, Relation], combination: Combination | None) -> Sign:
    relation = ranks.get(row.character.key) if row.character else None
    listed = {Stage(stage) for stage in row.stages}
    return Sign(
        name=str(capfirst(row.name)),
        gathered=row.gathered_text,
        mistaken=row.mistaken_text,
        trust=row.trust,
        relation=relation.value if relation in (Relation.SEPARATES, Relation.LEANS) else "",
        note=row.note,
        one_way=row.one_way,
        needs_digging=row.needs_digging,
        is_visible=combination is not None and (not listed or combination.stages <= listed),
    )


def _pictures(pair: Pair, combination: Combination | None) -> list[tuple[Picture | None, Picture | None]]:
    """Teaching pictures beside each other, the gathered plant first."""
    if combination is None:
        return []
    found = teaching_pictures([pair.gathered_id, pair.mistaken_id])
    gathered = found[pair.gathered_id].get(combination.gathered.value, [])
    mistaken = found[pair.mistaken_id].get(combination.mistaken.value, [])
    return list(zip_longest(gathered[:SHOWN_ROWS], mistaken[:SHOWN_ROWS]))


def danger_order(danger: str) -> int:
    """Dangerous pairs first in lists."""
    return ["dangerous", "unpleasant", "harmless"].index(danger)
