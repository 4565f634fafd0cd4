"""Changing what a whole specimen counts for: everybody concerned is computed again and told, in one transaction."""

from collections.abc import Callable, Collection
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from assessments.models import Voiding
from assessments.queries.appeal_changes import facts_for_each, people_concerned, snapshot
from species.models import Specimen

from .notices import note_for
from .refusals import Refused
from .standings import refresh_standings


class VoidingRefused(Refused):
    """Nothing was voided."""


def change_and_tell(specimen: int, kind: str, now: datetime, change: Callable[[], None]) -> None:
    """Change what a specimen counts for, compute everybody concerned again, and tell each what is different."""
    people: Collection[int] = people_concerned(specimen)
    before = snapshot(people, now)
    change()
    refresh_standings(people, now)
    for person, facts in facts_for_each(people, specimen, before, snapshot(people, now)).items():
        note_for([person], kind, now, **facts)


def void_specimen(specimen: Specimen, by: User, reason: str, now: datetime) -> Voiding:
    """Take all answers to a specimen out, for everybody and in both directions. Raises VoidingRefused."""
    if not reason.strip():
        raise VoidingRefused(_("Write down why the answers do not count: it stays on record."))
    with transaction.atomic():
        locked = Specimen.objects.select_for_update().get(pk=specimen.pk)
        if locked.voidings.standing().exists():
            raise VoidingRefused(_("The answers to this plant are void already."))
        if by.pk in people_concerned(locked.pk):
            raise VoidingRefused(_("You answered this plant yourself: somebody else decides whether it counts."))
        made = Voiding(specimen=locked, voided_at=now, voided_by=by, reason=reason.strip())
        change_and_tell(locked.pk, "plant_void", now, made.save)
    return made
