"""Which dangerous pairs can be met on walks: by what is known at their sites, and by what shows on their days."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from django.utils import timezone

from assessments.queries.flora import the_flora
from courses.models import Meeting, Site, SiteRecord
from courses.queries.course_plan import calendars
from courses.rules.walk_check import PairFacts, PairThere, pairs_there
from species.models import Pair
from species.queries.season import plants_by_place
from species.rules.season import Calendar

SEEN_LATELY = timedelta(days=42)

Known = tuple[set[str], dict[str, list[tuple[str, date]]]]
"""The species known at a site, and those seen there with stage and day."""


@dataclass(frozen=True)
class PairLine:
    """A pair that can be met, in words."""

    key: str
    gathered: str
    mistaken: str
    stages: tuple[str, ...]


def pairs_met(walks: Sequence[Meeting]) -> tuple[dict[str, PairLine], dict[int, tuple[PairThere, ...]]]:
    """The dangerous pairs by key in words, and by walk those that can be met; the same queries for all walks."""
    rows = list(Pair.objects.dangerous().with_both_species())
    flora = the_flora()
    facts = [PairFacts(row.key, row.gathered.key, row.mistaken.key) for row in rows]
    lines = {
        row.key: PairLine(row.key, flora.common(row.gathered.key), flora.common(row.mistaken.key), ()) for row in rows
    }
    shows: dict[str, Calendar] = calendars()
    known = _known_at({walk.site for walk in walks if walk.site})
    there = {}
    for walk in walks:
        day = timezone.localdate(walk.starts_at)
        late = walk.site.locality.days_late if walk.site else 0
        species, lately = known.get(walk.site_id or 0, (set(), {}))
        seen = {
            key: [stage for stage, seen_on in each if timedelta(0) <= day - seen_on <= SEEN_LATELY]
            for key, each in lately.items()
        }
        there[walk.pk] = pairs_there(facts, shows, species, day, late, seen)
    return lines, there


def _known_at(sites: Collection[Site]) -> dict[int, Known]:
    """By site what is known there; two queries for all."""
    found: dict[int, Known] = {site.pk: (set(), {}) for site in sites}
    records = SiteRecord.objects.filter(site__in=sites)
    for site, key, stage, seen_on in records.values_list("site", "species__key", "stage", "seen_on"):
        known, seen = found[site]
        known.add(key)
        seen.setdefault(key, []).append((stage, seen_on))
    photographed = plants_by_place({site.locality_id for site in sites})
    for each in sites:
        found[each.pk][0].update(photographed.get(each.locality_id, ()))
    return found
