"""Appeals against questions, with every step that was taken. How far one is follows from its steps."""

from typing import Any

from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import models
from django.utils.translation import gettext_lazy as _

from assessments.querysets import AppealQuerySet
from assessments.rules.appeals import ENDS, Ground, Step
from species.models import Species
from species.rules.keys import new_key

from .evidence import Evidence, Voiding

GROUND_WORDS = [
    (Ground.WRONG_PLANT.value, _("It is another plant")),
    (Ground.POOR_PHOTO.value, _("The photograph does not show enough")),
    (Ground.TWO_RIGHT.value, _("More than one answer is right")),
    (Ground.OTHER.value, _("Something else")),
]
STEP_WORDS = [
    (Step.RECEIVED.value, _("received")),
    (Step.TAKEN_UP.value, _("being looked at")),
    (Step.NAMES_ASKED.value, _("two new names asked for")),
    (Step.VOIDED.value, _("upheld: the plant counts for nobody")),
    (Step.NAMED_ANEW.value, _("upheld: the plant has another name")),
    (Step.DISMISSED.value, _("dismissed")),
    (Step.WITHDRAWN.value, _("withdrawn")),
]


class Appeal(models.Model):
    """One person's appeal against the question behind one answer of theirs."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    evidence = models.OneToOneField(Evidence, models.PROTECT, related_name="appeal", verbose_name=_("answer"))
    ground = models.CharField(_("what is wrong"), max_length=12, choices=GROUND_WORDS)
    words = models.TextField(_("in the person's own words"))
    held_for = models.ForeignKey(
        Species, models.PROTECT, null=True, related_name="+", verbose_name=_("plant that the answer was held against")
    )
    received_at = models.DateTimeField(_("received at"))
    decide_by = models.DateField(_("is decided by"))
    voiding = models.OneToOneField(
        Voiding, models.PROTECT, null=True, related_name="appeal", verbose_name=_("voiding that it led to")
    )

    objects = AppealQuerySet.as_manager()

    class Meta:
        verbose_name = _("appeal")
        verbose_name_plural = _("appeals")
        ordering = ["decide_by", "id"]
        permissions = [("decide_appeal", _("Can decide appeals"))]

    def __str__(self) -> str:
        return self.key


class AppealStep(models.Model):
    """What somebody did about an appeal: written once, never changed."""

    appeal = models.ForeignKey(Appeal, models.PROTECT, related_name="steps", verbose_name=_("appeal"))
    kind = models.CharField(_("step"), max_length=12, choices=STEP_WORDS)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", verbose_name=_("by"))
    words = models.TextField(_("reasons"), blank=True)
    exception = models.TextField(_("why somebody involved decided"), blank=True)

    class Meta:
        verbose_name = _("step of an appeal")
        verbose_name_plural = _("steps of appeals")
        ordering = ["appeal", "at", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["appeal"],
                condition=models.Q(kind__in=sorted(end.value for end in ENDS)),
                name="an_appeal_ends_once",
            )
        ]

    def __str__(self) -> str:
        return f"{self.appeal}: {self.kind}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Write once; what happened is never changed afterwards."""
        if self.pk:
            raise ValidationError(_("What was done about an appeal is never changed; take a further step."))
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> tuple[int, dict[str, int]]:
        raise ValidationError(_("What was done about an appeal is never deleted."))
