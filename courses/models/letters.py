"""Letters that wait to be sent or were, reminders that went out, and addresses of calendars."""

import uuid

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from courses.querysets import LetterQuerySet
from species.rules.keys import new_key

from .people import Person


class Letter(models.Model):
    """One mail to one address, written in the transaction that causes it and sent by the worker."""

    uuid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    to = models.EmailField(_("to"))
    person = models.ForeignKey(
        Person, models.SET_NULL, null=True, blank=True, related_name="letters", verbose_name=_("person")
    )
    kind = models.CharField(_("kind"), max_length=40)
    subject = models.CharField(_("subject"), max_length=300)
    text = models.TextField(_("text"))
    html = models.TextField(_("text as HTML"), blank=True)
    queued_at = models.DateTimeField(_("queued at"), default=timezone.now)
    due_at = models.DateTimeField(_("to be tried from"), default=timezone.now)
    attempts = models.PositiveSmallIntegerField(_("attempts"), default=0)
    claimed_at = models.DateTimeField(_("claimed by a worker at"), null=True, blank=True)
    sent_at = models.DateTimeField(_("sent at"), null=True, blank=True)
    given_up_at = models.DateTimeField(_("given up at"), null=True, blank=True)
    trouble = models.TextField(_("what the server said last"), blank=True)

    objects = LetterQuerySet.as_manager()

    class Meta:
        verbose_name = _("letter")
        verbose_name_plural = _("letters")
        ordering = ["queued_at", "id"]
        indexes = [
            models.Index(
                fields=["due_at"],
                condition=models.Q(sent_at__isnull=True, given_up_at__isnull=True),
                name="letters_that_wait",
            )
        ]

    def __str__(self) -> str:
        return self.subject


class Reminder(models.Model):
    """That somebody was reminded of something: so that nobody is reminded twice, however often a day is run."""

    person = models.ForeignKey(Person, models.CASCADE, related_name="reminders", verbose_name=_("person"))
    kind = models.CharField(_("kind"), max_length=40)
    about = models.CharField(_("about what"), max_length=80)
    days_before = models.PositiveSmallIntegerField(_("days before"))
    written_at = models.DateTimeField(_("written at"))

    class Meta:
        verbose_name = _("reminder")
        verbose_name_plural = _("reminders")
        ordering = ["-written_at", "-id"]
        constraints = [
            models.UniqueConstraint(
                fields=["person", "kind", "about", "days_before"], name="reminded_once_of_each_date"
            )
        ]

    def __str__(self) -> str:
        return f"{self.person}: {self.kind}"


class CalendarAddress(models.Model):
    """The address under which somebody's calendar reads the school's dates. A new one ends the old."""

    person = models.ForeignKey(Person, models.CASCADE, related_name="calendar_addresses", verbose_name=_("person"))
    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    made_at = models.DateTimeField(_("made at"))
    ended_at = models.DateTimeField(_("ended at"), null=True, blank=True)

    class Meta:
        verbose_name = _("address of a calendar")
        verbose_name_plural = _("addresses of calendars")
        ordering = ["-made_at", "-id"]
        constraints = [
            models.UniqueConstraint(
                fields=["person"], condition=models.Q(ended_at__isnull=True), name="one_calendar_address_each"
            )
        ]

    def __str__(self) -> str:
        return str(self.person)
