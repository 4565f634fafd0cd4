"""Archives that left the school or came in: who, when, what, and what had no place here."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _


class ArchiveRun(models.Model):
    """One archive, written or read. Never changed, never deleted with the account that did it."""

    class Direction(models.TextChoices):
        OUT = "out", _("written")
        IN = "in", _("brought in")

    class Kind(models.TextChoices):
        SPECIES = "species", _("species")
        SPECIMENS = "specimens", _("specimens")

    direction = models.CharField(_("direction"), max_length=3, choices=Direction.choices)
    kind = models.CharField(_("what"), max_length=10, choices=Kind.choices)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", null=True, verbose_name=_("by"))
    is_own = models.BooleanField(_("for the school itself: exact places and names"), default=False)
    with_pictures = models.BooleanField(_("with the pictures"), default=False)
    with_assessment = models.BooleanField(_("with what serves for tests"), default=False)
    counts = models.JSONField(_("how many of what"), default=dict, blank=True)
    named = models.JSONField(_("who was named, having agreed"), default=list, blank=True)
    aside = models.JSONField(_("what had no place here, term by term"), default=list, blank=True)

    class Meta:
        verbose_name = _("archive")
        verbose_name_plural = _("archives")
        ordering = ["-at", "-id"]

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, {self.get_direction_display()} {self.at:%Y-%m-%d}"
