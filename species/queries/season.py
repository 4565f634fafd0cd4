"""The season: what shows on a day and through the year, for some plants in the region or at one place."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from django.db.models import QuerySet
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from species.models import Locality, Pair, Species, Specimen
from species.models.flora import STAGE_WORDS
from species.queries.months import month_name, short_month_name
from species.queries.pair_page import danger_order, stages_in_words
from species.queries.pair_table import PairTable, pair_tables
from species.queries.state_table import calendars_of
from species.rules.season import season_month, stages_showing, year_at
from species.rules.vocabulary import Edibility, Stage

WORDS = dict(STAGE_WORDS)
DANGER_FIRST = [Edibility.DEADLY.value, Edibility.POISONOUS.value]


@dataclass(frozen=True)
class StageNow:
    """A stage by its key, in words, and the letter that stands for it in a calendar."""

    key: str
    name: str
    letter: str


@dataclass(frozen=True)
class MonthShown:
    """One month of one plant: the letters of its stages, and the stages in words."""

    letters: str
    words: str


@dataclass(frozen=True)
class SeasonRow:
    """One plant: what shows of it on the day, and in each month, January first."""

    species: Species
    now: tuple[StageNow, ...]
    months: tuple[MonthShown, ...]

    @property
    def is_danger(self) -> bool:
        return self.species.edibility in DANGER_FIRST


@dataclass(frozen=True)
class ConfusionNow:
    """In stages in which two plants are mistaken and that show now: what is taught to separate them then."""

    stages: str
    separates: str


@dataclass(frozen=True)
class PairNow:
    """A pair that can be mistaken now."""

    pair: Pair
    month: int
    """The month of the region's calendar that the place has reached."""
    telling: str
    confusions: tuple[ConfusionNow, ...]

    @property
    def query(self) -> str:
        """What opens the page of the pair in this month."""
        return f"?month={self.month}"


@dataclass(frozen=True)
class SeasonPage:
    """What shows of some plants: dangerous plants and dangerous pairs come first."""

    title: str
    day: date
    days_late: int
    rows: list[SeasonRow]
    pairs: list[PairNow]
    months: list[tuple[str, str]]
    letters: list[StageNow]

    @property
    def showing(self) -> list[SeasonRow]:
        """The plants of which something shows on the day."""
        return [row for row in self.rows if row.now]

    @property
    def hidden(self) -> list[SeasonRow]:
        return [row for row in self.rows if not row.now]


def season_page(plants: QuerySet[Species], title: str, day: date, days_late: int = 0) -> SeasonPage:
    """These plants on a day; a constant number of queries."""
    rows = list(plants.prefetch_related("common_names"))
    calendars = calendars_of([each.pk for each in rows])
    found = [
        SeasonRow(
            each,
            tuple(_stage(stage) for stage in stages_showing(calendars[each.pk], day, days_late)),
            tuple(_month(stages) for stages in year_at(calendars[each.pk], days_late)),
        )
        for each in rows
    ]
    return SeasonPage(
        title=title,
        day=day,
        days_late=days_late,
        rows=sorted(found, key=lambda row: (_danger(row.species), row.species.common_name.casefold())),
        pairs=_pairs_now([each.pk for each in rows], season_month(day, days_late)),
        months=[(short_month_name(number), month_name(number)) for number in range(1, 13)],
        letters=[_stage(stage) for stage in Stage],
    )


def plants_seen_at(place: Locality) -> QuerySet[Species]:
    """The plants of which the bank holds a named specimen from this place."""
    return Species.objects.filter(specimens__individual__locality=place).distinct()


def plants_by_place(places: Collection[int]) -> dict[int, set[str]]:
    """The same for many places at once: by place the keys of the plants; one query."""
    rows = Specimen.objects.filter(individual__locality__in=places, species__isnull=False)
    found: dict[int, set[str]] = {}
    for place, key in rows.values_list("individual__locality", "species__key").distinct():
        found.setdefault(place, set()).add(key)
    return found


def _danger(species: Species) -> int:
    return DANGER_FIRST.index(species.edibility) if species.edibility in DANGER_FIRST else len(DANGER_FIRST)


def letter_of(stage: Stage) -> str:
    """The letter that stands for a stage where there is no room for words."""
    return {
        Stage.SEEDLING: _("s"),
        Stage.ROSETTE: _("r"),
        Stage.LEAFY: _("l"),
        Stage.FLOWER: _("f"),
        Stage.FRUIT: _("o"),
        Stage.DORMANT: _("d"),
    }[stage]


def _stage(stage: Stage) -> StageNow:
    return StageNow(stage.value, str(WORDS[stage.value]), letter_of(stage))


def _month(stages: Sequence[Stage]) -> MonthShown:
    return MonthShown(
        " ".join(letter_of(stage) for stage in stages), ", ".join(str(WORDS[stage.value]) for stage in stages)
    )


def _pairs_now(species: Sequence[int], month: int) -> list[PairNow]:
    """The pairs among these plants that show in stages in which they are mistaken, dangerous first."""
    pairs = Pair.objects.filter(gathered__in=species, mistaken__in=species).with_both_species()
    rows = list(pairs.prefetch_related("gathered__common_names", "mistaken__common_names"))
    tables = pair_tables(rows)
    found = [_pair_now(pair, tables[pair.pk], month) for pair in rows]
    met = [each for each in found if each.confusions]
    return sorted(met, key=lambda each: (danger_order(each.pair.danger), each.pair.order))


def _pair_now(pair: Pair, table: PairTable, month: int) -> PairNow:
    names = {row.character.key: row.name for row in table.rows if row.character}
    found = table.year[month - 1]
    confusions = tuple(
        ConfusionNow(str(capfirst(stages_in_words(each.combination))), ", ".join(names[key] for key in each.separates))
        for each in found.confusions
    )
    return PairNow(pair, month, found.told_apart.name.lower(), confusions)
