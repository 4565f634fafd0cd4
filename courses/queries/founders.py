"""Founding assessors, as the technical report of a standard prints them."""

from assessments.queries.report_founders import Founder
from courses.models import FoundingAssessor


def founders() -> list[Founder]:
    """Everybody on record, the earliest first; one query."""
    rows = FoundingAssessor.objects.select_related("person", "recorded_by").order_by("recorded_on", "pk")
    return [
        Founder(each.person.user_id, each.person.name, each.reason, each.recorded_by.name, each.recorded_on)
        for each in rows
    ]
