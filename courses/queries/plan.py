"""What is taught at a meeting, and what of it shows on that day at that place."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.db.models import QuerySet
from django.utils import timezone

from courses.models import Meeting, MeetingModule
from species.models import Module, Pair, Species
from species.models.flora import STAGE_WORDS
from species.rules.season import next_showing, stages_showing
from species.rules.vocabulary import Stage

WORDS = dict(STAGE_WORDS)


@dataclass(frozen=True)
class SpeciesOnDay:
    """A species and the stages of it that show; when something shows again if nothing does (None: never)."""

    species: Species
    stages: tuple[str, ...]
    next_on: date | None

    @property
    def stage_words(self) -> list[str]:
        return [str(WORDS[stage]) for stage in self.stages]


@dataclass(frozen=True)
class PairOnDay:
    """Both sides of a pair as they will be met."""

    pair: Pair
    gathered: SpeciesOnDay
    mistaken: SpeciesOnDay

    @property
    def both_show(self) -> bool:
        return bool(self.gathered.stages and self.mistaken.stages)


@dataclass(frozen=True)
class ModulePlan:
    """A module with its pairs and its further species, in the order of teaching."""

    module: Module
    pairs: tuple[PairOnDay, ...]
    species: tuple[SpeciesOnDay, ...]


def plan_of(meeting: Meeting) -> list[ModulePlan]:
    """The modules of a meeting in order, in a constant number of queries."""
    day = timezone.localdate(meeting.starts_at)
    days_late = meeting.site.locality.days_late if meeting.site else 0
    rows = modules_in_order(meeting.modules_in_order.all())
    return [_plan(row.module, day, days_late) for row in rows]


def modules_in_order(rows: QuerySet[MeetingModule]) -> QuerySet[MeetingModule]:
    """The rows with all that a plan reads."""
    names = ["common_names", "showings"]
    sides = [f"module__pairs_in_order__pair__{side}__{name}" for side in ("gathered", "mistaken") for name in names]
    species = [f"module__species_in_order__species__{name}" for name in names]
    return rows.select_related("module").prefetch_related(*sides, *species)


def _plan(module: Module, day: date, days_late: int) -> ModulePlan:
    pairs = [row.pair for row in module.pairs_in_order.all()]
    in_pairs = {pk for pair in pairs for pk in (pair.gathered_id, pair.mistaken_id)}
    others = [row.species for row in module.species_in_order.all() if row.species_id not in in_pairs]
    return ModulePlan(
        module,
        tuple(_pair_on(pair, day, days_late) for pair in pairs),
        tuple(_species_on(each, day, days_late) for each in others),
    )


def _pair_on(pair: Pair, day: date, days_late: int) -> PairOnDay:
    return PairOnDay(pair, _species_on(pair.gathered, day, days_late), _species_on(pair.mistaken, day, days_late))


def _species_on(species: Species, day: date, days_late: int) -> SpeciesOnDay:
    """Dormant plants are left out: there is nothing to see of them above ground."""
    calendar = {Stage(row.stage): frozenset(row.months) for row in species.showings.all() if row.stage != Stage.DORMANT}
    stages = tuple(stage.value for stage in stages_showing(calendar, day, days_late))
    return SpeciesOnDay(species, stages, None if stages else _first_of(calendar.values(), day, days_late))


def _first_of(months: Iterable[frozenset[int]], day: date, days_late: int) -> date | None:
    showings = [next_showing(each, day, days_late) for each in months]
    return min((each.first for each in showings if each is not None), default=None)
