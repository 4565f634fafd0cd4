"""Declaring why somebody should not decide about a person."""

from datetime import date

from courses.models import Conflict, Person


def declare_conflict(decider: Person, about: Person, reason: str, today: date) -> Conflict:
    """From now on this person decides nothing about the other."""
    return Conflict.objects.create(decider=decider, about=about, reason=reason, declared_on=today)


def end_conflict(decider: Person, about: Person, today: date) -> int:
    """What was declared no longer holds; it stays on record. Returns how many ended."""
    return Conflict.objects.filter(decider=decider, about=about, ended_on__isnull=True).update(ended_on=today)
