"""What of a person goes from this room when they are erased. Their evidence stays, under what they are called then."""

from contextlib import suppress
from datetime import datetime

from django.contrib.auth.models import User

from assessments.models import Adjustment, Appeal, Notice, PracticeRound, PracticeState, Seat

from .appeals import AppealRefused, withdraw


def forget(person: User, now: datetime) -> None:
    """Erase practice and notices and what was agreed for them and why; take their open appeals back.

    How much time they had stays with the seat, since their answers stay. An appeal that has the plant named anew is
    decided all the same: it concerns everybody. Inside a transaction of the caller; safe to run twice.
    """
    for appeal in Appeal.objects.of(person.pk).undecided():
        with suppress(AppealRefused):
            withdraw(appeal, person, now)
    PracticeState.objects.filter(person=person).delete()
    PracticeRound.objects.filter(person=person).delete()
    Notice.objects.filter(person=person).delete()
    Adjustment.objects.filter(seat__person=person).update(what="", why="")
    Seat.objects.filter(person=person).update(adjustment="")
