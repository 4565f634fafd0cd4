"""Specimens whose name, settled or not, somebody asked to be given once more by somebody who is not told it."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from species.querysets import SecondLookQuerySet

from .bank import Determination, Specimen


class SecondLook(models.Model):
    """One such request. It changes nothing by itself; the next name that is given here answers it."""

    specimen = models.ForeignKey(Specimen, models.CASCADE, related_name="second_looks", verbose_name=_("specimen"))
    asked_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", verbose_name=_("asked by"))
    asked_at = models.DateTimeField(_("asked at"))
    why = models.TextField(_("why"))
    answer = models.ForeignKey(
        Determination, models.SET_NULL, null=True, blank=True, related_name="+", verbose_name=_("answered by")
    )

    objects = SecondLookQuerySet.as_manager()

    class Meta:
        verbose_name = _("second look")
        verbose_name_plural = _("second looks")
        ordering = ["-asked_at", "-id"]
        constraints = [
            models.UniqueConstraint(
                fields=["specimen"], condition=models.Q(answer__isnull=True), name="one_second_look_waits_per_specimen"
            )
        ]

    def __str__(self) -> str:
        return f"{self.specimen}: {self.why}"
