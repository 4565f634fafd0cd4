"""Erasing what has reached its term besides health notes and enquiries."""

from datetime import datetime, timedelta

from allauth.account.models import EmailConfirmation
from django.contrib.sessions.models import Session
from django.db.models import Q

from assessments.models import Notice
from courses.models import CalendarAddress, Complaint, HealthReading, Invitation, Letter, Reminder

LETTERS_KEPT = timedelta(days=365)
LOG_KEPT = timedelta(days=365)
REMINDERS_KEPT = timedelta(days=730)
INVITATIONS_KEPT = timedelta(days=365)
NOTICES_KEPT = timedelta(days=365)
COMPLAINTS_KEPT = timedelta(days=3 * 365)
CONFIRMATIONS_KEPT = timedelta(days=30)


def erase_old_records(now: datetime) -> int:
    """Erase what is over, each by the term that the inventory says of it; the number of rows. Safe to run twice."""
    old_letters = Q(sent_at__lt=now - LETTERS_KEPT) | Q(given_up_at__lt=now - LETTERS_KEPT)
    gone = (
        Letter.objects.filter(old_letters),
        HealthReading.objects.filter(read_at__lt=now - LOG_KEPT),
        Reminder.objects.filter(written_at__lt=now - REMINDERS_KEPT),
        CalendarAddress.objects.filter(ended_at__lt=now - LOG_KEPT),
        Invitation.objects.filter(closes_at__lt=now - INVITATIONS_KEPT),
        Notice.objects.filter(sent_at__lt=now - NOTICES_KEPT),
        Complaint.objects.filter(answered_at__lt=now - COMPLAINTS_KEPT),
        Session.objects.filter(expire_date__lt=now),
        EmailConfirmation.objects.filter(created__lt=now - CONFIRMATIONS_KEPT),
    )
    return sum(rows.delete()[0] for rows in gone)
