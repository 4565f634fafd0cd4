"""What a change of the state table would do, in words: which pairs lose or gain, and what then contradicts what."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from species.models import Character, Pair
from species.models.flora import STAGE_WORDS
from species.queries.months import month_name
from species.queries.table_facts import pairs_with_lists, table_facts
from species.rules.season import ALL_MONTHS, spells
from species.rules.separation import Combination, Relation, Score
from species.rules.table_changes import Change, Disagreement, TableFacts, changes, disagreements

WORDS = dict(STAGE_WORDS)
RELATIONS = {
    Relation.SEPARATES: gettext_lazy("separates"),
    Relation.LEANS: gettext_lazy("only leans"),
    Relation.SAME: gettext_lazy("says nothing"),
    Relation.UNKNOWN: gettext_lazy("is not known on both sides"),
}


@dataclass(frozen=True)
class ChangeLine:
    """One character at one combination of stages, before and after."""

    character: str
    stages: str
    months: str
    before: str
    after: str
    leaves_nothing: bool


@dataclass(frozen=True)
class PairChanges:
    """What a pair loses and gains; `others` are changes in which nothing separates before or after."""

    pair: Pair
    lost: list[ChangeLine]
    gained: list[ChangeLine]
    others: list[ChangeLine]


@dataclass(frozen=True)
class DisagreementLine:
    """A decisive character of a pair's list of which the table says less."""

    pair: Pair
    character: str
    stages: str
    months: str
    said: str
    is_new: bool = False


@dataclass(frozen=True)
class Preview:
    """What follows from a change. `settled`: disagreements that it ends; `standing`: those that are left."""

    pairs: list[PairChanges]
    standing: list[DisagreementLine]
    settled: list[DisagreementLine]

    @property
    def says_anything(self) -> bool:
        return bool(self.pairs or self.standing or self.settled)


Lines = Mapping[tuple[str, str], Iterable[Score]]
"""New lines by the keys of species and character."""


def preview(lines: Lines, species_id: int | None = None) -> Preview:
    """What these lines would change, for the pairs of one species or for all; a constant number of queries."""
    pairs = pairs_with_lists(species_id)
    before = table_facts(pairs)
    after = _with(before, lines)
    words = _Words(pairs)
    was, becomes = disagreements(before), disagreements(after)
    return Preview(
        pairs=words.changes(changes(before, after)),
        standing=[words.disagreement(each, is_new=each not in was) for each in becomes],
        settled=[words.disagreement(each) for each in was if each not in becomes],
    )


def _with(facts: TableFacts, lines: Lines) -> TableFacts:
    for (species, character), scores in lines.items():
        facts = facts.with_scores(species, {**facts.scores.get(species, {}), character: list(scores)})
    return facts


def all_disagreements() -> list[DisagreementLine]:
    """Every disagreement of the whole flora; a constant number of queries."""
    pairs = pairs_with_lists()
    words = _Words(pairs)
    return [words.disagreement(each) for each in disagreements(table_facts(pairs))]


class _Words:
    def __init__(self, pairs: Iterable[Pair]) -> None:
        self.pairs = {each.key: each for each in pairs}
        self.characters = dict(Character.objects.values_list("key", "name"))

    def changes(self, found: Iterable[Change]) -> list[PairChanges]:
        of_pair: dict[str, PairChanges] = {}
        for each in found:
            lines = of_pair.setdefault(each.pair, PairChanges(self.pairs[each.pair], [], [], []))
            where = lines.lost if each.is_lost else lines.gained if each.is_gained else lines.others
            where.append(self._change(each))
        return list(of_pair.values())

    def _change(self, each: Change) -> ChangeLine:
        return ChangeLine(
            self.characters[each.character],
            combination_words(each.combination),
            months_in_words(each.months),
            str(RELATIONS[each.before]),
            str(RELATIONS[each.after]),
            each.leaves_nothing,
        )

    def disagreement(self, each: Disagreement, is_new: bool = False) -> DisagreementLine:
        return DisagreementLine(
            self.pairs[each.pair],
            self.characters[each.character],
            combination_words(each.combination),
            months_in_words(each.months),
            str(RELATIONS[each.said]),
            is_new,
        )


def combination_words(combination: Combination) -> str:
    """The stage of the gathered plant, and that of the mistaken one where it is another."""
    gathered, mistaken = str(WORDS[combination.gathered.value]), str(WORDS[combination.mistaken.value])
    if gathered == mistaken:
        return _("both: {stage}").format(stage=gathered)
    return _("{gathered} against {mistaken}").format(gathered=gathered, mistaken=mistaken)


def months_in_words(months: Iterable[int]) -> str:
    """Runs of months: "March to May, October"."""
    wanted = frozenset(months)
    if wanted >= ALL_MONTHS:
        return _("all year")
    runs = [
        month_name(each.first)
        if each.first == each.last
        else _("{first} to {last}").format(first=month_name(each.first), last=month_name(each.last))
        for each in spells(wanted)
    ]
    return ", ".join(runs)
