"""Which pairs people may lead among: what their current leader certificates cover, in the stages they were shown."""

from collections.abc import Collection
from datetime import datetime

from django.utils import timezone

from courses.models import Certificate, Person
from courses.rules.certification import State

from .carried import carried
from .certificates import state_on

Stages = dict[str, frozenset[str]]


def pairs_covered(people: Collection[Person], now: datetime) -> dict[int, Stages]:
    """By person and pair the stages that they were shown to tell; a constant number of queries.

    The stages are those of today's evidence: what was never shown to somebody they do not lead among.
    """
    today = timezone.localdate(now)
    rows = Certificate.objects.filter(person__in=people, standard__leads_walks=True)
    rows = rows.select_related("person", "standard").prefetch_related("events")
    current = [row for row in rows if state_on(row, today) is State.CURRENT]
    carry = carried(current, now)
    found: dict[int, Stages] = {}
    for row in current:
        mine = found.setdefault(row.person_id, {})
        for pair, shown in carry[row.pk].stages.items():
            mine[pair] = mine.get(pair, frozenset()) | shown
    return found
