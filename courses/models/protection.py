"""Requests to be erased, and the legal grounds that the school fills in."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from courses.querysets import ErasureRequestQuerySet
from species.rules.keys import new_key

from .people import Person


class ErasureRequest(models.Model):
    """Somebody asks that what the school holds of them goes. Kept afterwards, under the code that is left of them."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    person = models.ForeignKey(Person, models.PROTECT, related_name="erasure_requests", verbose_name=_("person"))
    asked_at = models.DateTimeField(_("asked at"))
    recorded_by = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("asked otherwise, recorded by")
    )
    decide_by = models.DateField(_("to be answered by"))
    taken_back_at = models.DateTimeField(_("taken back at"), null=True, blank=True)
    decided_at = models.DateTimeField(_("decided at"), null=True, blank=True)
    decided_by = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("decided by")
    )
    granted = models.BooleanField(_("granted"), null=True, blank=True)
    reason = models.TextField(_("reason for declining"), blank=True)
    names_until = models.DateField(_("last day of the name on certificates"), null=True, blank=True)
    completed_at = models.DateTimeField(_("completed at"), null=True, blank=True)

    objects = ErasureRequestQuerySet.as_manager()

    class Meta:
        verbose_name = _("request to be erased")
        verbose_name_plural = _("requests to be erased")
        ordering = ["decide_by", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["person"],
                condition=models.Q(decided_at__isnull=True, taken_back_at__isnull=True),
                name="one_open_request_to_be_erased",
            )
        ]

    def __str__(self) -> str:
        return f"{self.person}: {self.asked_at:%Y-%m-%d}"

    @property
    def is_open(self) -> bool:
        """Whether it waits for an answer."""
        return self.decided_at is None and self.taken_back_at is None


class LegalGround(models.Model):
    """On which ground the school holds what it holds for one purpose, in its own words: local law decides."""

    activity = models.CharField(_("purpose"), max_length=20, unique=True)
    words = models.TextField(_("legal ground"))

    class Meta:
        verbose_name = _("legal ground")
        verbose_name_plural = _("legal grounds")
        ordering = ["activity"]

    def __str__(self) -> str:
        return self.activity
