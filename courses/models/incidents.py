"""Incidents and near misses, noted without blame."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from species.models import Pair, Species
from species.models.flora import STAGE_WORDS
from species.rules.keys import new_key

from .people import Person
from .sites import Site
from .teaching import Meeting


class Incident(models.Model):
    """What nearly went wrong or did, so that the next planner knows. Nobody is named who was only learning."""

    class Kind(models.TextChoices):
        """How far it went."""

        NEAR_MISS = "near_miss", _("near miss: caught in time")
        INCIDENT = "incident", _("incident: somebody was hurt or ate it")

    class Noticed(models.TextChoices):
        """By whom it was caught, as a part played and never a name."""

        PICKER = "picker", _("whoever picked it")
        PARTICIPANT = "participant", _("another participant")
        TUTOR = "tutor", _("the tutor or an assistant")
        LATER = "later", _("only afterwards")

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    kind = models.CharField(_("what it was"), max_length=10, choices=Kind.choices)
    happened_at = models.DateTimeField(_("happened at"))
    noted_at = models.DateTimeField(_("noted at"))
    noted_by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("noted by"))
    meeting = models.ForeignKey(
        Meeting, models.SET_NULL, null=True, blank=True, related_name="incidents", verbose_name=_("meeting")
    )
    site = models.ForeignKey(
        Site, models.PROTECT, null=True, blank=True, related_name="incidents", verbose_name=_("site")
    )
    pair = models.ForeignKey(Pair, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("pair"))
    picked = models.ForeignKey(
        Species, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("what was picked")
    )
    stage = models.CharField(_("stage"), max_length=12, choices=STAGE_WORDS, blank=True)
    account = models.TextField(_("what happened"))
    noticed_by = models.CharField(_("noticed by"), max_length=12, choices=Noticed.choices, blank=True)
    sign = models.CharField(_("the sign at which it was caught"), max_length=200, blank=True)
    lesson = models.TextField(_("what is done differently now"), blank=True)
    lesson_by = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("written by")
    )

    class Meta:
        verbose_name = _("incident or near miss")
        verbose_name_plural = _("incidents and near misses")
        ordering = ["-happened_at", "-id"]

    def __str__(self) -> str:
        return f"{self.kind}: {self.happened_at:%Y-%m-%d}"
