"""Applications, certificates with what happened to them, and proofs of the other requirements."""

from django.db import models
from django.utils.translation import gettext_lazy as _
from simple_history.models import HistoricalRecords

from assessments.models import Standard
from courses.querysets import ApplicationQuerySet, CertificateQuerySet, RequirementRecordQuerySet

from .people import Person, new_key


class FoundingAssessor(models.Model):
    """Somebody trusted to decide before the school has any holder, with the reason on record."""

    person = models.OneToOneField(Person, models.PROTECT, related_name="founding_record", verbose_name=_("person"))
    reason = models.TextField(_("reason"))
    recorded_by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("recorded by"))
    recorded_on = models.DateField(_("recorded on"))

    class Meta:
        verbose_name = _("founding assessor")
        verbose_name_plural = _("founding assessors")
        ordering = ["recorded_on"]

    def __str__(self) -> str:
        return str(self.person)


class Application(models.Model):
    """A person asks for a certificate under a standard. Enrolment is not needed."""

    person = models.ForeignKey(Person, models.PROTECT, related_name="applications", verbose_name=_("person"))
    standard = models.ForeignKey(Standard, models.PROTECT, related_name="applications", verbose_name=_("standard"))
    applied_at = models.DateTimeField(_("applied at"))
    statement = models.BooleanField(_("stated that the answers were their own"), default=False)
    taken_back_at = models.DateTimeField(_("taken back at"), null=True, blank=True)
    decided_at = models.DateTimeField(_("decided at"), null=True, blank=True)
    decided_by = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("decided by")
    )
    granted = models.BooleanField(_("granted"), null=True, blank=True)
    reason = models.TextField(_("reason"), blank=True)

    objects = ApplicationQuerySet.as_manager()

    class Meta:
        verbose_name = _("application")
        verbose_name_plural = _("applications")
        ordering = ["-applied_at"]
        constraints = [
            models.UniqueConstraint(
                fields=["person", "standard"],
                condition=models.Q(decided_at__isnull=True, taken_back_at__isnull=True),
                name="one_open_application_per_standard",
            )
        ]

    def __str__(self) -> str:
        return f"{self.person}: {self.standard}"


class Certificate(models.Model):
    """A record handed over. `facts` is frozen on the day of issue, so a reprint says the same words."""

    number = models.CharField(_("number"), max_length=20, unique=True)
    key = models.CharField(_("key of the check page"), max_length=32, unique=True, default=new_key)
    person = models.ForeignKey(Person, models.PROTECT, related_name="certificates", verbose_name=_("person"))
    standard = models.ForeignKey(Standard, models.PROTECT, related_name="certificates", verbose_name=_("standard"))
    application = models.OneToOneField(
        Application, models.PROTECT, null=True, related_name="certificate", verbose_name=_("application")
    )
    issued_at = models.DateTimeField(_("issued at"))
    valid_from = models.DateField(_("valid from"))
    valid_until = models.DateField(_("valid until"))
    decided_by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("decided by"))
    exception = models.TextField(_("exception made, printed on it"), blank=True)
    name_is_public = models.BooleanField(_("the check page shows the name"), default=False)
    facts = models.JSONField(_("facts as they stood"))

    objects = CertificateQuerySet.as_manager()
    history = HistoricalRecords()

    class Meta:
        verbose_name = _("certificate")
        verbose_name_plural = _("certificates")
        ordering = ["-issued_at"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(valid_until__gt=models.F("valid_from")), name="a_certificate_lasts"
            )
        ]

    def __str__(self) -> str:
        return self.number


class CertificateEvent(models.Model):
    """What happened to a certificate after it was issued: by whom, why, when."""

    class Kind(models.TextChoices):
        """The steps a certificate can take after its issue."""

        SUSPENDED = "suspended", _("suspended")
        LIFTED = "lifted", _("suspension lifted")
        WITHDRAWN = "withdrawn", _("withdrawn")

    certificate = models.ForeignKey(Certificate, models.PROTECT, related_name="events", verbose_name=_("certificate"))
    kind = models.CharField(_("what happened"), max_length=12, choices=Kind.choices)
    happened_at = models.DateTimeField(_("happened at"))
    by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("by"))
    reason = models.TextField(_("reason"))

    class Meta:
        verbose_name = _("event of a certificate")
        verbose_name_plural = _("events of certificates")
        ordering = ["certificate", "happened_at", "id"]

    def __str__(self) -> str:
        return f"{self.certificate}: {self.kind}"


class RequirementRecord(models.Model):
    """Proof that a person meets a requirement: seen by whom, valid from when until when."""

    class Kind(models.TextChoices):
        """Requirements that are met by showing something."""

        FIRST_AID = "first_aid", _("first aid")
        INSURANCE = "insurance", _("liability insurance")

    person = models.ForeignKey(Person, models.PROTECT, related_name="requirement_records", verbose_name=_("person"))
    kind = models.CharField(_("requirement"), max_length=20, choices=Kind.choices)
    valid_from = models.DateField(_("valid from"))
    valid_until = models.DateField(_("valid until"), null=True, blank=True)
    seen_by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("seen by"))
    seen_on = models.DateField(_("seen on"))
    note = models.CharField(_("note"), max_length=200, blank=True)

    objects = RequirementRecordQuerySet.as_manager()

    class Meta:
        verbose_name = _("proof of a requirement")
        verbose_name_plural = _("proofs of requirements")
        ordering = ["person", "kind", "-valid_until"]

    def __str__(self) -> str:
        return f"{self.person}: {self.kind}"
