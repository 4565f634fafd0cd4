"""Periods and windows of evidence: per person, for all standards. Opening one is a recorded act."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _


class Period(models.Model):
    """The time over which a person's evidence counts; its end closes every window in it."""

    person = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="periods", verbose_name=_("person")
    )
    number = models.PositiveSmallIntegerField(_("number"))
    started_at = models.DateTimeField(_("started at"))
    ends_at = models.DateTimeField(_("ends at"))
    is_renewal = models.BooleanField(_("opened by a renewal"), default=False)

    class Meta:
        verbose_name = _("period of evidence")
        verbose_name_plural = _("periods of evidence")
        ordering = ["person", "number"]
        constraints = [models.UniqueConstraint(fields=["person", "number"], name="one_period_per_number")]

    def __str__(self) -> str:
        return f"{self.person} {self.number}"


class Window(models.Model):
    """A window of evidence inside a period; the first opens with the first paper that counts."""

    period = models.ForeignKey(Period, models.PROTECT, related_name="windows", verbose_name=_("period"))
    number = models.PositiveSmallIntegerField(_("number"))
    opened_at = models.DateTimeField(_("opened at"))
    opened_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", verbose_name=_("opened by")
    )
    retraining = models.TextField(_("what was taught again"), blank=True)

    class Meta:
        verbose_name = _("window of evidence")
        verbose_name_plural = _("windows of evidence")
        ordering = ["period", "number"]
        constraints = [
            models.UniqueConstraint(fields=["period", "number"], name="one_window_per_number"),
            models.CheckConstraint(condition=models.Q(number__gte=1, number__lte=3), name="at_most_three_windows"),
        ]

    def __str__(self) -> str:
        return f"{self.period}.{self.number}"
