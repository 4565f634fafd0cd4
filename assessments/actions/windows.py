"""Opening periods and windows of evidence. The first opens by itself; every other is a recorded act."""

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from assessments.models import Period, Window
from assessments.queries.evidence import current_period
from assessments.queries.sentences.windows import window_refusal
from assessments.rules.standard import WindowFacts
from assessments.rules.windows import Refusal, next_opening, period_end

from .notices import note_for
from .refusals import Refused
from .standings import refresh_standings


class WindowRefused(Refused):
    """The window was not opened."""


def ensure_window(person: User, by: User, months: int, moment: datetime, now: datetime) -> bool:
    """Open the first window of a new period, unless a period runs already. Returns whether it opened one.

    `moment` is when the first specimen is, or was, shown: a spot test may be typed in after it was held.
    """
    User.objects.select_for_update().get(pk=person.pk)
    if current_period(person.pk, now) is not None:
        return False
    last = Period.objects.filter(person=person).order_by("-number").first()
    begins = max(moment, last.ends_at) if last else moment
    period = Period.objects.create(
        person=person,
        number=last.number + 1 if last else 1,
        started_at=begins,
        ends_at=period_end(begins, months),
    )
    Window.objects.create(period=period, number=1, opened_at=begins, opened_by=by)
    return True


def open_renewal(person: User, by: User, months: int, now: datetime) -> Window:
    """End the period that runs, if one does, and open the one that a renewal rests on. Inside a transaction."""
    User.objects.select_for_update().get(pk=person.pk)
    running = current_period(person.pk, now)
    if running is not None:
        running.ends_at = now
        running.save(update_fields=["ends_at"])
    last = Period.objects.filter(person=person).order_by("-number").first()
    period = Period.objects.create(
        person=person,
        number=last.number + 1 if last else 1,
        started_at=now,
        ends_at=period_end(now, months),
        is_renewal=True,
    )
    window = Window.objects.create(period=period, number=1, opened_at=now, opened_by=by)
    refresh_standings([person.pk], now)
    return window


def open_window(person: User, retraining: str, by: User, now: datetime) -> Window:
    """Open another window after retraining. Raises WindowRefused with the reason; nothing is changed then."""
    with transaction.atomic():
        User.objects.select_for_update().get(pk=person.pk)
        period = current_period(person.pk, now)
        if period is None:
            raise WindowRefused(window_refusal(Refusal.PERIOD_OVER))
        opened = [WindowFacts(w.number, w.opened_at, period.ends_at) for w in period.windows.all()]
        opening = next_opening(opened, now, retraining)
        if opening.refusal is not None:
            raise WindowRefused(window_refusal(opening.refusal))
        window = Window.objects.create(
            period=period,
            number=len(opened) + 1,
            opened_at=now,
            opened_by=by,
            retraining=retraining.strip(),
        )
        note_for([person.pk], "window_opened", now, number=window.number, retraining=window.retraining)
        refresh_standings([person.pk], now)
    return window
