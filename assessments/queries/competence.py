"""Which dangerous plants are beyond an assessor. The site names the question that knows certificates."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from django.conf import settings
from django.contrib.auth.models import User
from django.utils.module_loading import import_string

from assessments.models import SpotTest
from assessments.rules.competence import Competence, beyond
from species.models import Pair
from species.rules.vocabulary import Danger

from .flora import Flora


@dataclass(frozen=True, slots=True)
class StationsBeyond:
    """Numbers of stations that somebody cannot confirm. `known`: those that they named themselves, so may be told."""

    known: tuple[int, ...]
    untold: tuple[int, ...]

    def __bool__(self) -> bool:
        return bool(self.known or self.untold)


def competence_of(user: User, at: datetime) -> Competence:
    """What this assessor holds at a moment, as the question says that the site names in ASSESSOR_COMPETENCE."""
    found: Competence = import_string(settings.ASSESSOR_COMPETENCE)(user.pk, at)
    return found


def plants_beyond(user: User, at: datetime) -> frozenset[int]:
    """The dangerous plants (ids) whose answers they cannot confirm at a moment; a constant number of queries."""
    dangerous: dict[int, set[str]] = defaultdict(set)
    rows = Pair.objects.filter(danger=Danger.DANGEROUS.value).order_by().values_list("mistaken_id", "key")
    for plant, pair in rows:
        dangerous[plant].add(pair)
    return beyond(dangerous, competence_of(user, at))


def stations_beyond(test: SpotTest, user: User, numbers: Collection[int] | None = None) -> StationsBeyond:
    """The stations, of these numbers or of all, that they could not confirm on the day of the test.

    A plant counts by every name that anybody gave it: which of them is right may be settled after the answers.
    """
    out = plants_beyond(user, test.held_at)
    known: list[int] = []
    untold: list[int] = []
    for station in test.stations.select_related("specimen").prefetch_related("specimen__determinations"):
        given = station.specimen.determinations.all()
        plants = {station.specimen.species_id, *(each.species_id for each in given)}
        if not plants & out or (numbers is not None and station.number not in numbers):
            continue
        told = known if any(each.determiner_id == user.pk for each in given) else untold
        told.append(station.number)
    return StationsBeyond(tuple(sorted(known)), tuple(sorted(untold)))


def names_beyond(user: User, at: datetime, flora: Flora) -> list[str]:
    """The plants that they cannot confirm, by name and in order: it says nothing of any test."""
    out = plants_beyond(user, at)
    return sorted(plant.common_name or plant.name for plant in flora.plants.values() if plant.id in out)
