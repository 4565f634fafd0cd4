"""Asking that somebody who is not told its name looks at a specimen again."""

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from species.models import SecondLook, Specimen


class NotInTheBank(Exception):
    """The specimen is in the tray or was taken out, so nobody is asked to name it."""


class NothingToLookAt(Exception):
    """The specimen has no picture, so nobody can name it from one."""


def ask_second_look(specimen: Specimen, *, by: User, why: str, now: datetime) -> tuple[SecondLook, bool]:
    """Put a specimen into the queue of those to be named, and say whether it was not there for this already.

    Its name, its standing and what was answered to it stay as they are. Raises NotInTheBank or NothingToLookAt.
    """
    with transaction.atomic():
        locked = Specimen.objects.in_the_bank().select_for_update().filter(pk=specimen.pk).first()
        if locked is None:
            raise NotInTheBank
        if not locked.photos.exists():
            raise NothingToLookAt
        return SecondLook.objects.get_or_create(
            specimen=locked, answer=None, defaults={"asked_by": by, "asked_at": now, "why": why.strip()}
        )
