"""What a participant tells in confidence: encrypted, read by tutors of the course, every reading written down."""

import uuid

from django.db import models
from django.utils.translation import gettext_lazy as _

from .people import Person
from .teaching import Enrolment, Meeting


class JoiningForm(models.Model):
    """What is asked once somebody has a place. The texts are encrypted; the row's uuid is bound into each."""

    uuid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    enrolment = models.OneToOneField(
        Enrolment, models.CASCADE, related_name="joining_form", verbose_name=_("place in a course")
    )
    emergency_contact = models.BinaryField(_("emergency contact"), blank=True, default=bytes)
    allergies = models.BinaryField(_("allergies"), blank=True, default=bytes)
    medicines = models.BinaryField(_("medicines that matter"), blank=True, default=bytes)
    pregnancy = models.BinaryField(_("pregnancy"), blank=True, default=bytes)
    mobility = models.BinaryField(_("mobility"), blank=True, default=bytes)
    filled_at = models.DateTimeField(_("filled in at"))
    changed_at = models.DateTimeField(_("changed at"))
    erased_at = models.DateTimeField(_("erased at"), null=True, blank=True)

    class Meta:
        verbose_name = _("joining form")
        verbose_name_plural = _("joining forms")
        ordering = ["enrolment"]

    def __str__(self) -> str:
        return str(self.enrolment)


class Consent(models.Model):
    """One thing agreed to or taken back, with the words it was asked in."""

    class Kind(models.TextChoices):
        """What can be agreed to, each by itself."""

        HEALTH = "health", _("keeping health notes for the course")
        TASTING = "tasting", _("tasting")
        PICTURES = "pictures", _("pictures of me")

    enrolment = models.ForeignKey(Enrolment, models.CASCADE, related_name="consents", verbose_name=_("place"))
    kind = models.CharField(_("to what"), max_length=10, choices=Kind.choices)
    words = models.TextField(_("the words that were agreed to"))
    version = models.PositiveSmallIntegerField(_("version of the words"), default=1)
    given_at = models.DateTimeField(_("given at"))
    withdrawn_at = models.DateTimeField(_("taken back at"), null=True, blank=True)

    class Meta:
        verbose_name = _("consent")
        verbose_name_plural = _("consents")
        ordering = ["enrolment", "kind", "-given_at"]
        constraints = [
            models.UniqueConstraint(
                fields=["enrolment", "kind"],
                condition=models.Q(withdrawn_at__isnull=True),
                name="one_standing_consent_of_a_kind",
            )
        ]

    def __str__(self) -> str:
        return f"{self.enrolment}: {self.kind}"


class HealthReading(models.Model):
    """Who read whose notes, when, and for which meeting."""

    form = models.ForeignKey(JoiningForm, models.CASCADE, related_name="readings", verbose_name=_("joining form"))
    reader = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("read by"))
    read_at = models.DateTimeField(_("read at"))
    meeting = models.ForeignKey(
        Meeting, models.SET_NULL, null=True, blank=True, related_name="+", verbose_name=_("for the meeting")
    )

    class Meta:
        verbose_name = _("reading of a joining form")
        verbose_name_plural = _("readings of joining forms")
        ordering = ["-read_at", "-id"]

    def __str__(self) -> str:
        return f"{self.reader}: {self.form}"
