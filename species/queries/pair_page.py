"""The page of a pair: both plants side by side in one stage, and what tells them apart in one month."""

from dataclasses import dataclass
from itertools import zip_longest

from django.utils.text import capfirst

from species.models import Pair
from species.models.flora import STAGE_WORDS
from species.queries.crops import Crop, teaching_crops
from species.queries.months import month_name, months_in_words, short_month_name
from species.queries.pair_sentences import telling_sentence
from species.queries.pair_signs import Sign, signs_of
from species.queries.pair_table import PairTable, pair_table
from species.queries.pictures import Picture, teaching_pictures
from species.rules.confusion import Confusion, stretches
from species.rules.separation import Combination
from species.rules.vocabulary import Trust

WORDS = dict(STAGE_WORDS)
SHOWN_ROWS = 3


@dataclass(frozen=True)
class MonthCell:
    """One month of the year of a pair, and whether something taught and above ground tells the two apart then."""

    number: int
    name: str
    short: str
    is_chosen: bool
    telling: str
    """The name of a MonthClass in small letters: in_all, in_some, in_none, not_together."""
    query: str
    """The address of the page in this month, which keeps the stage where it shows then."""

    @property
    def sentence(self) -> str:
        """Whether the two can be told apart in this month."""
        return telling_sentence(self)


@dataclass(frozen=True)
class Choice:
    """A combination of stages that can be looked at, and whether it can be met in the month."""

    number: int
    gathered_stage: str
    mistaken_stage: str
    gathered: str
    mistaken: str
    shows_now: bool
    decides: bool
    """Whether something that is taught separates the two in it, without digging."""

    @property
    def is_one_stage(self) -> bool:
        return self.gathered_stage == self.mistaken_stage


@dataclass(frozen=True)
class Meeting:
    """In one stretch of the year: one combination of stages in words, and what separates then; nothing: leave it."""

    stages: str
    separates: str


@dataclass(frozen=True)
class YearRow:
    """One stretch of the year of a pair; without meetings the two are not mistaken then."""

    months: str
    meetings: tuple[Meeting, ...]


@dataclass(frozen=True)
class PairPage:
    """Everything on the page of a pair, for one month and one combination of stages. Signs: most telling first."""

    pair: Pair
    month: MonthCell
    months: list[MonthCell]
    year: list[YearRow]
    choices: list[Choice]
    chosen: Choice | None
    pictures: list[tuple[Picture | None, Picture | None]]
    decisive: list[Sign]
    supporting: list[Sign]
    underground: list[Sign]
    unseen: list[Sign]
    never: list[Sign]
    others: list[Pair]
    """Other plants that are mistaken for the gathered one, dangerous first."""

    @property
    def can_be_met(self) -> bool:
        return any(choice.shows_now for choice in self.choices)

    @property
    def query(self) -> str:
        """What in an address opens the page as it stands."""
        return f"month={self.month.number}" + (f"&stages={self.chosen.number}" if self.chosen else "")


def pair_page(pair: Pair, month: int, number: int | None) -> PairPage:
    """The pair in a month, at combination `number` (by default the first that shows in the month).

    A constant number of queries. `pair` comes with both species and their common names.
    """
    table = pair_table(pair)
    choices = _choices(table, month)
    chosen = _chosen(choices, number)
    months = [_month(table, each, month, chosen) for each in range(1, 13)]
    combination = table.combinations[chosen.number] if chosen else None
    signs = signs_of(table, combination, _crops(pair, combination))
    visible = [each for each in signs if each.is_visible and each.trust != Trust.NOT_TO_BE_RELIED_ON]
    above = [each for each in visible if not each.needs_digging]
    return PairPage(
        pair=pair,
        month=months[month - 1],
        months=months,
        year=_year(table),
        choices=choices,
        chosen=chosen,
        pictures=_pictures(pair, combination),
        decisive=[each for each in above if each.trust == Trust.DECISIVE],
        supporting=[each for each in above if each.trust == Trust.SUPPORTING],
        underground=[each for each in visible if each.needs_digging],
        unseen=[each for each in signs if not each.is_visible and each.trust != Trust.NOT_TO_BE_RELIED_ON],
        never=[each for each in signs if each.trust == Trust.NOT_TO_BE_RELIED_ON],
        others=_others(pair),
    )


def _choices(table: PairTable, month: int) -> list[Choice]:
    now = [each.combination for each in table.year[month - 1].confusions]
    return [_choice(n, each, each.combination in now) for n, each in enumerate(table.confusions)]


def _choice(number: int, each: Confusion, shows_now: bool) -> Choice:
    gathered, mistaken = each.combination.gathered.value, each.combination.mistaken.value
    words = (str(WORDS[gathered]), str(WORDS[mistaken]))
    return Choice(number, gathered, mistaken, *words, shows_now, bool(each.separates))


def _chosen(choices: list[Choice], number: int | None) -> Choice | None:
    wanted = [each for each in choices if each.number == number]
    showing = [each for each in choices if each.shows_now]
    return next(iter([*wanted, *showing, *choices]), None)


def _month(table: PairTable, number: int, chosen_month: int, chosen: Choice | None) -> MonthCell:
    found = table.year[number - 1]
    stays = chosen is not None and any(
        each.combination == table.combinations[chosen.number] for each in found.confusions
    )
    query = f"month={number}" + (f"&stages={chosen.number}" if chosen and stays else "")
    telling = found.told_apart.name.lower()
    return MonthCell(number, month_name(number), short_month_name(number), number == chosen_month, telling, query)


def _year(table: PairTable) -> list[YearRow]:
    names = {row.character.key: row.name for row in table.rows if row.character}
    return [
        YearRow(
            str(capfirst(months_in_words(stretch.months))),
            tuple(
                Meeting(stages_in_words(each.combination), ", ".join(names[key] for key in each.separates))
                for each in stretch.confusions
            ),
        )
        for stretch in stretches(table.year)
    ]


def stages_in_words(combination: Combination) -> str:
    """Both stages in words, or one where they are the same."""
    gathered, mistaken = str(WORDS[combination.gathered.value]), str(WORDS[combination.mistaken.value])
    return gathered if gathered == mistaken else f"{gathered} / {mistaken}"


def _pictures(pair: Pair, combination: Combination | None) -> list[tuple[Picture | None, Picture | None]]:
    """Teaching pictures beside each other, the gathered plant first."""
    if combination is None:
        return []
    found = teaching_pictures([pair.gathered_id, pair.mistaken_id])
    gathered = found[pair.gathered_id].get(combination.gathered.value, [])
    mistaken = found[pair.mistaken_id].get(combination.mistaken.value, [])
    return list(zip_longest(gathered[:SHOWN_ROWS], mistaken[:SHOWN_ROWS]))


def _crops(pair: Pair, combination: Combination | None) -> tuple[dict[str, Crop], dict[str, Crop]]:
    """The marked parts of the pictures of either plant in its stage."""
    if combination is None:
        return {}, {}
    found = teaching_crops([pair.gathered_id, pair.mistaken_id])
    return (
        found.get((pair.gathered_id, combination.gathered.value), {}),
        found.get((pair.mistaken_id, combination.mistaken.value), {}),
    )


def _others(pair: Pair) -> list[Pair]:
    rows = Pair.objects.filter(gathered=pair.gathered_id).with_both_species()
    found = rows.prefetch_related("gathered__common_names", "mistaken__common_names")
    return sorted((each for each in found if each != pair), key=lambda each: (danger_order(each.danger), each.order))


def danger_order(danger: str) -> int:
    """Dangerous pairs first in lists."""
    return ["dangerous", "unpleasant", "harmless"].index(danger)
