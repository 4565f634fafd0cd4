"""Evidence: the facts of one answer by one person to one specimen. Append-only; verdicts are computed."""

from typing import Any

from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import models
from django.utils.translation import gettext_lazy as _

from assessments.querysets import EvidenceQuerySet, VoidingQuerySet
from assessments.rules.evidence import Medium
from species.models import Species, Specimen

from .live import Station
from .papers import CONFIDENCE_WORDS, DECISION_WORDS, Sitting

MEDIUM_WORDS = [(Medium.PHOTO.value, _("photograph")), (Medium.LIVE.value, _("live"))]


class Evidence(models.Model):
    """One answer as it counts. It belongs to no pair and holds no verdict."""

    person = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="evidence", verbose_name=_("person")
    )
    specimen = models.ForeignKey(Specimen, models.PROTECT, related_name="evidence", verbose_name=_("specimen"))
    sitting = models.ForeignKey(Sitting, models.PROTECT, null=True, related_name="evidence", verbose_name=_("sitting"))
    station = models.ForeignKey(Station, models.PROTECT, null=True, related_name="evidence", verbose_name=_("station"))
    kind = models.CharField(_("question kind"), max_length=40, default="name_and_decide")
    medium = models.CharField(_("photograph or live"), max_length=6, choices=MEDIUM_WORDS)
    decision = models.CharField(_("decision"), max_length=8, choices=DECISION_WORDS, blank=True)
    said = models.CharField(_("name as typed"), max_length=160, blank=True)
    named = models.ForeignKey(Species, models.PROTECT, null=True, related_name="+", verbose_name=_("species named"))
    confidence = models.CharField(_("how sure"), max_length=8, choices=CONFIDENCE_WORDS, blank=True)
    opened_at = models.DateTimeField(_("paper opened or spot test held"))
    position = models.PositiveSmallIntegerField(_("position"))
    shown_at = models.DateTimeField(_("shown at"))
    recorded_at = models.DateTimeField(_("recorded at"))
    recorded_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", verbose_name=_("recorded by")
    )

    objects = EvidenceQuerySet.as_manager()

    class Meta:
        verbose_name = _("evidence")
        verbose_name_plural = _("evidence")
        ordering = ["person", "opened_at", "position", "id"]
        indexes = [models.Index(fields=["person", "opened_at", "position"])]
        constraints = [
            models.UniqueConstraint(fields=["sitting", "specimen"], name="an_answer_counts_once_per_sitting"),
            models.UniqueConstraint(fields=["station", "person"], name="an_answer_counts_once_per_station"),
            models.CheckConstraint(
                condition=models.Q(sitting__isnull=False) ^ models.Q(station__isnull=False),
                name="evidence_has_one_origin",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.person}: {self.specimen}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Write once; facts are never changed afterwards."""
        if self.pk:
            raise ValidationError(_("Evidence is never changed; void the specimen instead."))
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> tuple[int, dict[str, int]]:
        raise ValidationError(_("Evidence is never deleted; void the specimen instead."))


class Seen(models.Model):
    """A person has met a specimen, so it is never set to them again."""

    QUESTION, FEEDBACK, PREVIEW, STATION = "question", "feedback", "preview", "station"
    DETERMINATION = "determination"
    REASONS = [
        (QUESTION, _("as a question")),
        (FEEDBACK, _("in feedback")),
        (DETERMINATION, _("when determining it")),
        (PREVIEW, _("in a preview")),
        (STATION, _("at a station")),
    ]

    person = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.CASCADE, related_name="seen_specimens", verbose_name=_("person")
    )
    specimen = models.ForeignKey(Specimen, models.CASCADE, related_name="seen_by", verbose_name=_("specimen"))
    seen_at = models.DateTimeField(_("seen at"))
    why = models.CharField(_("why"), max_length=14, choices=REASONS)

    class Meta:
        verbose_name = _("specimen seen")
        verbose_name_plural = _("specimens seen")
        ordering = ["person", "seen_at"]
        constraints = [models.UniqueConstraint(fields=["person", "specimen"], name="seen_once_is_seen")]

    def __str__(self) -> str:
        return f"{self.person}: {self.specimen}"


class Voiding(models.Model):
    """A whole specimen does not count, for everybody and in both directions."""

    specimen = models.ForeignKey(Specimen, models.PROTECT, related_name="voidings", verbose_name=_("specimen"))
    voided_at = models.DateTimeField(_("voided at"))
    voided_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", verbose_name=_("voided by")
    )
    reason = models.TextField(_("reason"))
    lifted_at = models.DateTimeField(_("lifted at"), null=True, blank=True)
    lifted_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("lifted by"),
    )

    objects = VoidingQuerySet.as_manager()

    class Meta:
        verbose_name = _("voiding")
        verbose_name_plural = _("voidings")
        ordering = ["-voided_at"]

    def __str__(self) -> str:
        return f"{self.specimen}: {self.reason}"
