"""What nearly went wrong or did, for lists and for whoever plans the next meeting."""

from collections.abc import Collection

from django.db.models import Q, QuerySet

from courses.models import Incident, Site


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
