"""Adjustments: what was agreed for one person at one paper, by whom and why. Append-only; the seat holds the latest."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from .papers import Seat


class Adjustment(models.Model):
    """One change to a seat: how many times the time, until when, and anything else that was agreed."""

    seat = models.ForeignKey(Seat, models.CASCADE, related_name="adjustments", verbose_name=_("seat"))
    what = models.CharField(_("what was agreed"), max_length=200)
    why = models.CharField(_("why"), max_length=200)
    time_factor = models.DecimalField(_("times the time allowed"), max_digits=4, decimal_places=2)
    closes_at = models.DateTimeField(_("closes"), null=True, blank=True)
    made_at = models.DateTimeField(_("made at"))
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", verbose_name=_("made by"))

    class Meta:
        verbose_name = _("adjustment")
        verbose_name_plural = _("adjustments")
        ordering = ["made_at", "id"]
        constraints = [models.CheckConstraint(condition=models.Q(time_factor__gte=1), name="an_adjustment_gives_time")]

    def __str__(self) -> str:
        return f"{self.seat}: {self.what}"
