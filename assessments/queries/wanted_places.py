"""Where a species of the wanted list is on record."""

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date

from django.conf import settings

from species.models import Specimen
from species.rules.season import season_month

Records = Mapping[str, Mapping[tuple[str, int], Collection[str]]]
"""Per species the localities, each a name and how many days late it is, with the stages seen there."""


@dataclass(frozen=True)
class Place:
    """A locality where the species is on record; in this very stage, and whether that shows there now."""

    name: str
    in_this_stage: bool
    shows_now: bool


def records_of(species: Collection[str]) -> Records:
    """Where these species are on record; one query."""
    specimens = Specimen.objects.filter(species__key__in=species)
    if not settings.DRAWINGS_COUNT:
        specimens = specimens.photographed()
    found: dict[str, dict[tuple[str, int], set[str]]] = defaultdict(lambda: defaultdict(set))
    columns = ("species__key", "individual__locality__name", "individual__locality__days_late", "stage")
    for key, name, days_late, stage in specimens.order_by().values_list(*columns).distinct():
        found[key][name, days_late].add(stage)
    return found


def places_of(records: Records, species: str, stage: str, months: Collection[int], today: date) -> tuple[Place, ...]:
    """The places, those where this stage was seen first, then those where it shows now."""
    places = (
        Place(name, stage in stages, season_month(today, days_late) in months)
        for (name, days_late), stages in records.get(species, {}).items()
    )
    return tuple(sorted(places, key=lambda place: (not place.in_this_stage, not place.shows_now, place.name)))
