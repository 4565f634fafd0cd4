"""What can be met at a site on a day: what is on record there, what was photographed there, what is planned."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from courses.models import Site, SiteRecord
from species.models import Species
from species.models.flora import STAGE_WORDS
from species.queries.season import plants_seen_at
from species.rules.season import stages_showing
from species.rules.vocabulary import Edibility, Stage

WORDS = dict(STAGE_WORDS)
DANGEROUS = (Edibility.POISONOUS.value, Edibility.DEADLY.value)


@dataclass(frozen=True)
class Met:
    """A species that can be met: the stages that show on the day, and when it was last seen there, if ever."""

    species: Species
    stages: tuple[str, ...]
    last_seen: date | None
    stage_seen: str

    @property
    def is_deadly(self) -> bool:
        return self.species.edibility == Edibility.DEADLY

    @property
    def is_dangerous(self) -> bool:
        return self.species.edibility in DANGEROUS

    @property
    def stage_words(self) -> list[str]:
        return [str(WORDS[stage]) for stage in self.stages]


def dangers_at(site: Site | None, day: date, planned: Iterable[int] = ()) -> list[Met]:
    """Dangerous species that can be met, deadly ones first: those known at the site, and those planned (ids).

    A species that shows nothing on that day is left out, unless it was seen there within six weeks. Constant queries.
    """
    met = plants_at(site, day, planned)
    dangers = [each for each in met if each.is_dangerous and (each.stages or _lately(each, day))]
    return sorted(dangers, key=lambda each: (not each.is_deadly, each.species.common_name))


def plants_at(site: Site | None, day: date, planned: Iterable[int] = ()) -> list[Met]:
    """Everything known at a site, with what shows on a day; four queries at most."""
    days_late = site.locality.days_late if site else 0
    records: dict[int, SiteRecord] = {}
    known = set(planned)
    if site is not None:
        for record in SiteRecord.objects.filter(site=site, seen_on__lte=day).order_by("seen_on", "pk"):
            records[record.species_id] = record
        known |= set(records) | set(plants_seen_at(site.locality).values_list("pk", flat=True))
    species = Species.objects.filter(pk__in=known).prefetch_related("showings")
    return [_met(each, records.get(each.pk), day, days_late) for each in species.order_by("name")]


def _met(species: Species, record: SiteRecord | None, day: date, days_late: int) -> Met:
    calendar = {Stage(row.stage): frozenset(row.months) for row in species.showings.all()}
    stages = tuple(s.value for s in stages_showing(calendar, day, days_late) if s is not Stage.DORMANT)
    return Met(species, stages, record.seen_on if record else None, record.stage if record else "")


def _lately(met: Met, day: date) -> bool:
    return met.last_seen is not None and (day - met.last_seen).days <= 42
