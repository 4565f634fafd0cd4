"""Adjusting one person's paper: more time, a later closing, or anything else that was agreed; noted every time."""

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from assessments.models import Adjustment, Seat, Sitting

from .refusals import Refused
from .sittings import limit_of

MOST_TIMES = 10


class AdjustmentRefused(Refused):
    """The seat was left as it is."""


@dataclass(frozen=True)
class Agreed:
    """What was agreed for a seat: `what` and `why` in words; `closes_at` None leaves the closing as it is."""

    what: str
    why: str
    time_factor: Decimal = Decimal(1)
    closes_at: datetime | None = None


def adjust_seat(seat: Seat, agreed: Agreed, by: User, now: datetime) -> Adjustment:
    """Note an adjustment and apply it, before the person opens the paper or while they sit it; time only grows.

    Raises AdjustmentRefused.
    """
    with transaction.atomic():
        seat = Seat.objects.select_for_update(of=("self",)).select_related("paper").get(pk=seat.pk)
        sitting = Sitting.objects.select_for_update(of=("self",)).filter(seat=seat).first()
        _check(seat, sitting, agreed, by, now)
        seat.time_factor, seat.adjustment = agreed.time_factor, agreed.what.strip()
        seat.closes_at = agreed.closes_at or seat.closes_at
        seat.save(update_fields=["time_factor", "adjustment", "closes_at"])
        if sitting is not None:
            sitting.closes_at = limit_of(seat, sitting.opened_at)
            sitting.save(update_fields=["closes_at"])
        return Adjustment.objects.create(
            seat=seat,
            what=seat.adjustment,
            why=agreed.why.strip(),
            time_factor=seat.time_factor,
            closes_at=seat.closes_at,
            made_at=now,
            made_by=by,
        )


def _check(seat: Seat, sitting: Sitting | None, agreed: Agreed, by: User, now: datetime) -> None:
    if by.pk == seat.person_id:
        raise AdjustmentRefused(_("Nobody adjusts their own test: ask a colleague."))
    if not agreed.what.strip() or not agreed.why.strip():
        raise AdjustmentRefused(_("Write down what was agreed, and why."))
    if not 1 <= agreed.time_factor <= MOST_TIMES:
        raise AdjustmentRefused(_("The time can be made up to ten times as long, and never shorter."))
    if agreed.time_factor < seat.time_factor or (
        agreed.closes_at and seat.closes_at and agreed.closes_at < seat.closes_at
    ):
        raise AdjustmentRefused(_("What was given is never taken back: the time can only be made longer."))
    if sitting is not None and sitting.is_over(now):
        raise AdjustmentRefused(_("This person's test is over: its time can no longer be changed. Set another test."))
