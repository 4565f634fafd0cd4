"""The page of a pair: both plants side by side in one stage, and what tells them apart in one month."""

from collections import defaultdict
from dataclasses import dataclass

from django.utils.text import capfirst
from django.utils.translation import gettext as _

from species.models import Character, Pair, PairCharacter, Showing, StateRecord
from species.models.flora import STAGE_WORDS
from species.queries.pictures import Picture, teaching_pictures
from species.rules.ranking import ranked_characters
from species.rules.season import stages_in_month
from species.rules.separation import Combination, Relation, Score, TableCharacter
from species.rules.tables.comparing import NOT_RELIED_ON
from species.rules.vocabulary import Frequency, Stage, Trust

WORDS = dict(STAGE_WORDS)
RELATIONS = {Relation.SEPARATES: "separates", Relation.LEANS: "leans"}
Calendar = dict[Stage, frozenset[int]]


@dataclass(frozen=True)
class Choice:
    """A combination of stages that can be looked at, and whether it can be met in the month."""

    number: int
    gathered: str
    mistaken: str
    shows_now: bool


@dataclass(frozen=True)
class Sign:
    """One character of the pair's own list: what either plant shows, how far to trust it, what the table says."""

    name: str
    gathered: str
    mistaken: str
    trust: str
    relation: str
    note: str
    one_way: str
    needs_digging: bool
    is_visible: bool


@dataclass(frozen=True)
class PairPage:
    """Everything on the page of a pair, for one month and one combination of stages."""

    pair: Pair
    month: int
    choices: list[Choice]
    chosen: Choice | None
    gathered_pictures: list[Picture]
    mistaken_pictures: list[Picture]
    decisive: list[Sign]
    supporting: list[Sign]
    unseen: list[Sign]
    never: list[Sign]
    can_be_met: bool


def pair_page(pair: Pair, month: int, number: int | None) -> PairPage:
    """The pair in a month, at combination `number` (the first that shows in the month by default)."""
    combinations = [Combination(Stage(one), Stage(other)) for one, other in pair.stage_combinations]
    calendars = _calendars(pair)
    choices = [_choice(n, each, pair, calendars, month) for n, each in enumerate(combinations)]
    chosen = next((c for c in choices if c.number == number), None) or next(
        (c for c in choices if c.shows_now), choices[0] if choices else None
    )
    ranks = _ranks(pair, combinations[chosen.number]) if chosen else {}
    signs = [_sign(row, ranks, combinations[chosen.number] if chosen else None) for row in _rows(pair)]
    order = {key: place for place, key in enumerate(ranks)}
    trusted = [s for s in signs if s[1].trust != Trust.NOT_TO_BE_RELIED_ON]
    trusted.sort(key=lambda each: order.get(each[0], len(order)))
    pictures = teaching_pictures([pair.gathered_id, pair.mistaken_id])
    return PairPage(
        pair=pair,
        month=month,
        choices=choices,
        chosen=chosen,
        gathered_pictures=_at(pictures[pair.gathered_id], combinations, chosen, gathered=True),
        mistaken_pictures=_at(pictures[pair.mistaken_id], combinations, chosen, gathered=False),
        decisive=[s for _k, s in trusted if s.is_visible and s.trust == Trust.DECISIVE],
        supporting=[s for _k, s in trusted if s.is_visible and s.trust == Trust.SUPPORTING],
        unseen=[s for _k, s in trusted if not s.is_visible],
        never=[s for _k, s in signs if s.trust == Trust.NOT_TO_BE_RELIED_ON],
        can_be_met=any(choice.shows_now for choice in choices),
    )


def _calendars(pair: Pair) -> dict[int, Calendar]:
    found: dict[int, Calendar] = defaultdict(dict)
    for row in Showing.objects.filter(species__in=[pair.gathered_id, pair.mistaken_id]):
        found[row.species_id][Stage(row.stage)] = frozenset(row.months)
    return found


def _choice(number: int, each: Combination, pair: Pair, calendars: dict[int, Calendar], month: int) -> Choice:
    shows = each.gathered in stages_in_month(calendars[pair.gathered_id], month) and each.mistaken in stages_in_month(
        calendars[pair.mistaken_id], month
    )
    return Choice(number, str(WORDS[each.gathered.value]), str(WORDS[each.mistaken.value]), shows)


def _rows(pair: Pair) -> list[PairCharacter]:
    return list(pair.characters.select_related("character").order_by("order"))


def _ranks(pair: Pair, combination: Combination) -> dict[str, Relation]:
    """The characters of the table at this combination, the most telling first."""
    scores: dict[int, dict[str, list[Score]]] = defaultdict(lambda: defaultdict(list))
    rows = StateRecord.objects.filter(species__in=[pair.gathered_id, pair.mistaken_id])
    for row in rows.select_related("state__character"):
        score = Score(row.state.key, Frequency(row.frequency), frozenset(Stage(s) for s in row.stages))
        scores[row.species_id][row.state.character.key].append(score)
    ranked = ranked_characters(_characters(), scores[pair.gathered_id], scores[pair.mistaken_id], combination)
    return {each.character: each.relation for each in ranked}


def _characters() -> list[TableCharacter]:
    return [
        TableCharacter(
            row.key,
            frozenset(Stage(stage) for stage in row.stages),
            row.needs_digging,
            row.reliability.startswith(NOT_RELIED_ON),
        )
        for row in Character.objects.all()
    ]


def _sign(row: PairCharacter, ranks: dict[str, Relation], combination: Combination | None) -> tuple[str, Sign]:
    key = row.character.key if row.character else ""
    listed = {Stage(stage) for stage in row.stages}
    visible = combination is not None and (not listed or combination.stages <= listed)
    return key, Sign(
        name=str(capfirst(row.name)),
        gathered=row.gathered_text,
        mistaken=row.mistaken_text,
        trust=row.trust,
        relation=RELATIONS.get(ranks[key], "") if key in ranks else "",
        note=row.note,
        one_way=row.one_way,
        needs_digging=row.needs_digging,
        is_visible=visible,
    )


def _at(
    pictures: dict[str, list[Picture]], combinations: list[Combination], chosen: Choice | None, *, gathered: bool
) -> list[Picture]:
    if chosen is None:
        return []
    combination = combinations[chosen.number]
    stage = combination.gathered if gathered else combination.mistaken
    return pictures.get(stage.value, [])[:3]


def danger_order(danger: str) -> int:
    """Dangerous pairs first in lists."""
    return ["dangerous", "unpleasant", "harmless"].index(danger)


def month_names() -> list[tuple[int, str]]:
    """The months for choosing one."""
    names = [
        _("January"),
        _("February"),
        _("March"),
        _("April"),
        _("May"),
        _("June"),
        _("July"),
        _("August"),
        _("September"),
        _("October"),
        _("November"),
        _("December"),
    ]
    return list(enumerate(names, start=1))
