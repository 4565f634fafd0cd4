"""Questions that left the school: who took them, when, how many, and whether those of tests were among them."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from .standards import Standard


class PackageRun(models.Model):
    """One file of questions that was taken. Never changed, never deleted with the account that took it."""

    class Part(models.TextChoices):
        PACKAGE = "package", _("the questions")
        TABLE = "table", _("the table beside them")
        BOTH = "both", _("the questions and the table beside them")

    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", null=True, verbose_name=_("by"))
    part = models.CharField(_("what"), max_length=8, choices=Part.choices)
    standard = models.ForeignKey(Standard, models.PROTECT, related_name="+", null=True, verbose_name=_("standard"))
    with_assessment = models.BooleanField(_("with what serves for tests"), default=False)
    counts = models.JSONField(_("how many of what"), default=dict, blank=True)

    class Meta:
        verbose_name = _("package of questions")
        verbose_name_plural = _("packages of questions")
        ordering = ["-at", "-id"]

    def __str__(self) -> str:
        return f"{self.get_part_display()} {self.at:%Y-%m-%d}"
