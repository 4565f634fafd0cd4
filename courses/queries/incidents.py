"""What nearly went wrong or did, for lists and for whoever plans the next meeting."""

from collections import defaultdict
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Q, QuerySet

from courses.models import Incident, Site
from species.models import Pair

A_YEAR = timedelta(days=365)


@dataclass(frozen=True)
class PairMisses:
    """What happened with one pair within a year, newest first."""

    pair: Pair
    incidents: tuple[Incident, ...]

    @property
    def signs(self) -> tuple[str, ...]:
        """The signs at which it was caught, each once."""
        return tuple(dict.fromkeys(each.sign for each in self.incidents if each.sign))


def incident_lines(most: int | None = 200) -> QuerySet[Incident]:
    """Notes with all that a list shows of them, newest first; all of them where `most` is None."""
    rows = Incident.objects.select_related("site__locality", "pair__gathered", "pair__mistaken", "picked")
    return rows if most is None else rows[:most]


def near_misses_for(site: Site | None, pairs: Collection[int], most: int = 5) -> list[Incident]:
    """What happened at this site or with one of these pairs (ids), newest first; one query."""
    wanted = Q(pair__in=pairs)
    if site is not None:
        wanted |= Q(site=site)
    return list(incident_lines(None).filter(wanted)[:most])


def misses_by_pair(pairs: Iterable[Pair], now: datetime) -> list[PairMisses]:
    """Which of these pairs nearly went wrong or did within the last twelve months, in their order; one query."""
    known = list(pairs)
    found: dict[int, list[Incident]] = defaultdict(list)
    rows = Incident.objects.filter(pair__in=known, happened_at__gt=now - A_YEAR, happened_at__lte=now)
    for row in rows.order_by("-happened_at", "-id"):
        assert row.pair_id is not None
        found[row.pair_id].append(row)
    return [PairMisses(pair, tuple(found[pair.pk])) for pair in known if pair.pk in found]
