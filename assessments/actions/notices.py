"""Writing down that a person must hear of something, in the transaction that causes it."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from assessments.models import Notice


def note_for(people: Iterable[int], kind: str, now: datetime, **facts: Any) -> None:
    """One notice for each of these users. The facts are those of this moment, as plain values."""
    Notice.objects.bulk_create(Notice(person_id=person, kind=kind, facts=facts, happened_at=now) for person in people)
