"""Giving somebody an address for their calendar, a new one, or none."""

from datetime import datetime

from django.db import transaction

from courses.models import CalendarAddress, Person


def renew_address(person: Person, now: datetime) -> CalendarAddress:
    """A new address; whoever knew the old one reads nothing under it any more."""
    with transaction.atomic():
        end_address(person, now)
        return CalendarAddress.objects.create(person=person, made_at=now)


def end_address(person: Person, now: datetime) -> None:
    """No address any more."""
    CalendarAddress.objects.filter(person=person, ended_at__isnull=True).update(ended_at=now)
