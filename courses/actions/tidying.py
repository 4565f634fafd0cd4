"""Erasing what has reached its term besides health notes and enquiries."""

from datetime import datetime, timedelta

from django.db.models import Q

from courses.models import CalendarAddress, HealthReading, Letter, Reminder

LETTERS_KEPT = timedelta(days=365)
LOG_KEPT = timedelta(days=365)
REMINDERS_KEPT = timedelta(days=730)


def erase_old_records(now: datetime) -> int:
    """Letters and the log of readings after a year, reminders after two, ended calendar addresses after a year."""
    old_letters = Q(sent_at__lt=now - LETTERS_KEPT) | Q(given_up_at__lt=now - LETTERS_KEPT)
    gone = (
        Letter.objects.filter(old_letters),
        HealthReading.objects.filter(read_at__lt=now - LOG_KEPT),
        Reminder.objects.filter(written_at__lt=now - REMINDERS_KEPT),
        CalendarAddress.objects.filter(ended_at__lt=now - LOG_KEPT),
    )
    return sum(rows.delete()[0] for rows in gone)
