"""Which certificates are under review: computed from the evidence as it stands today, stored nowhere."""

from collections.abc import Collection
from datetime import datetime

from courses.models import Certificate

from .carried import carried


def under_review(certificates: Collection[Certificate], now: datetime) -> set[int]:
    """Ids of the certificates whose own evidence no longer passes, or with a dangerous miss after their issue.

    `certificates` come with their events and people; a constant number of queries.
    """
    return {key for key, each in carried(certificates, now).items() if not each.holds}
