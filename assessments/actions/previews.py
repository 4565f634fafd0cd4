"""Somebody who is not sitting a test sees its pictures: those specimens are never set to them afterwards."""

from collections.abc import Collection
from datetime import datetime

from django.contrib.auth.models import User

from assessments.models import Seen
from species.models import Specimen


def note_previews(viewer: User, specimens: Collection[str], now: datetime) -> None:
    """Keep that this viewer was shown these specimens (by key) with their names; twice is once."""
    if not specimens:
        return
    ids = Specimen.objects.filter(key__in=specimens).values_list("pk", flat=True)
    Seen.objects.bulk_create(
        [Seen(person=viewer, specimen_id=pk, seen_at=now, why=Seen.PREVIEW) for pk in ids], ignore_conflicts=True
    )
