"""What somebody's courses have taught so far, for their practice."""

from datetime import datetime

from courses.models import Meeting, MeetingModule, Person
from species.models import Pair


def pairs_taught_to(person: Person, now: datetime) -> list[str]:
    """Keys of the pairs that the meetings of somebody's courses have taught so far; one query.

    Every pair of the modules counts, whether or not the standard asks for it: practice is not a test.
    """
    begun = Meeting.objects.standing().filter(
        course__enrolments__in=person.enrolments.with_a_place(), starts_at__lte=now
    )
    modules = MeetingModule.objects.filter(meeting__in=begun).values("module")
    found = Pair.objects.filter(modules__in=modules).distinct().order_by("order", "key")
    return list(found.values_list("key", flat=True))
