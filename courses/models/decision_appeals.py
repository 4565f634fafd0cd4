"""Appeals against decisions about certificates; those about single questions belong to the tests."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from courses.querysets import DecisionAppealQuerySet
from courses.rules.decision_appeals import Outcome
from species.rules.keys import new_key

from .certificates import Application, CertificateEvent
from .people import Person

OUTCOME_WORDS = [
    (Outcome.UPHELD.value, _("upheld")),
    (Outcome.DISMISSED.value, _("dismissed")),
    (Outcome.TAKEN_BACK.value, _("taken back")),
]


class DecisionAppeal(models.Model):
    """One person's appeal against one decision: an application declined, or a step that a certificate took."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    person = models.ForeignKey(Person, models.PROTECT, related_name="decision_appeals", verbose_name=_("person"))
    application = models.OneToOneField(
        Application,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="appeal",
        verbose_name=_("declined application"),
    )
    event = models.OneToOneField(
        CertificateEvent, models.PROTECT, null=True, blank=True, related_name="appeal", verbose_name=_("step")
    )
    words = models.TextField(_("in the person's own words"))
    received_at = models.DateTimeField(_("received at"))
    decide_by = models.DateField(_("is decided by"))
    outcome = models.CharField(_("outcome"), max_length=12, choices=OUTCOME_WORDS, blank=True)
    ended_at = models.DateTimeField(_("ended at"), null=True, blank=True)
    decided_by = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("decided by")
    )
    reasons = models.TextField(_("reasons"), blank=True)
    exception = models.CharField(_("what was set aside, as nobody else could decide"), max_length=60, blank=True)
    led_to = models.ForeignKey(
        Application, models.PROTECT, null=True, blank=True, related_name="appeals_before", verbose_name=_("led to")
    )

    objects = DecisionAppealQuerySet.as_manager()

    class Meta:
        verbose_name = _("appeal against a decision")
        verbose_name_plural = _("appeals against decisions")
        ordering = ["decide_by", "id"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(application__isnull=True) ^ models.Q(event__isnull=True),
                name="an_appeal_speaks_against_one_decision",
            ),
            models.CheckConstraint(
                condition=models.Q(outcome="", ended_at__isnull=True)
                | (~models.Q(outcome="") & models.Q(ended_at__isnull=False)),
                name="an_appeal_ends_with_an_outcome",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.person}: {self.received_at:%Y-%m-%d}"
