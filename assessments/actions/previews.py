"""Somebody who is not sitting a test sees its pictures: those specimens are never set to them afterwards."""

from collections.abc import Collection, Sequence
from datetime import datetime

from django.contrib.auth.models import User

from assessments.models import Seen
from assessments.queries.paper_plan import PaperPlan
from assessments.queries.setting import Setting, looked_at
from species.models import Specimen

from .papers import refuse_plan


def note_previews(viewer: User, specimens: Collection[str], now: datetime) -> None:
    """Keep that this viewer was shown these specimens (by key) with their names; twice is once."""
    if not specimens:
        return
    ids = Specimen.objects.filter(key__in=specimens).values_list("pk", flat=True)
    Seen.objects.bulk_create(
        [Seen(person=viewer, specimen_id=pk, seen_at=now, why=Seen.PREVIEW) for pk in ids], ignore_conflicts=True
    )


def look_at_paper(plan: PaperPlan, people: Sequence[User], viewer: User, seed: int, now: datetime) -> Setting:
    """What would come of a plan for these people, with an example drawn from `seed` that the viewer has then seen.

    Raises PaperRefused where the plan makes no sense; a bank that is too small is said in what comes back.
    """
    refuse_plan(plan, now)
    setting, shown = looked_at(plan, people, seed)
    note_previews(viewer, shown, now)
    return setting
