"""Applications, certificates, and what happened to them."""

from django.db import models
from django.utils.translation import gettext_lazy as _
from simple_history.models import HistoricalRecords

from assessments.models import Standard
from courses.querysets import ApplicationQuerySet, CertificateQuerySet, CertifiedPairQuerySet
from species.rules.keys import new_key

from .people import Person


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
    agreed_at = models.DateTimeField(_("agreed how a certificate may be used at"), null=True, blank=True)
    renews = models.ForeignKey(
        "Certificate", models.PROTECT, null=True, blank=True, related_name="renewals", verbose_name=_("renews")
    )

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
    pairs_are_public = models.BooleanField(_("the check page shows the pairs"), default=True)
    status_index = models.PositiveIntegerField(_("place in the status list"), unique=True, null=True, editable=False)
    credential = models.TextField(_("signed credential as issued"), blank=True, editable=False)
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
        NARROWED = "narrowed", _("narrowed")
        RENEWED = "renewed", _("renewed by another")
        WITHDRAWN = "withdrawn", _("withdrawn")

    certificate = models.ForeignKey(Certificate, models.PROTECT, related_name="events", verbose_name=_("certificate"))
    kind = models.CharField(_("what happened"), max_length=12, choices=Kind.choices)
    happened_at = models.DateTimeField(_("happened at"))
    by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("by"))
    reason = models.TextField(_("reason"))
    facts = models.JSONField(_("what it leaves, where it narrows"), default=dict, blank=True)

    class Meta:
        verbose_name = _("event of a certificate")
        verbose_name_plural = _("events of certificates")
        ordering = ["certificate", "happened_at", "id"]

    def __str__(self) -> str:
        return f"{self.certificate}: {self.kind}"


class CertifiedPair(models.Model):
    """A pair that a certificate was issued over: its frozen facts again, as rows that the database can count."""

    certificate = models.ForeignKey(
        Certificate, models.CASCADE, related_name="certified_pairs", verbose_name=_("certificate")
    )
    key = models.SlugField(_("pair"), max_length=120, db_index=False)
    dropped_by = models.ForeignKey(
        CertificateEvent, models.CASCADE, null=True, blank=True, related_name="+", verbose_name=_("taken away by")
    )

    objects = CertifiedPairQuerySet.as_manager()

    class Meta:
        verbose_name = _("pair of a certificate")
        verbose_name_plural = _("pairs of certificates")
        ordering = ["certificate", "key"]
        constraints = [models.UniqueConstraint(fields=["certificate", "key"], name="a_certificate_names_a_pair_once")]

    def __str__(self) -> str:
        return f"{self.certificate}: {self.key}"


class ReviewOpened(models.Model):
    """That the decider was told of a certificate whose own evidence no longer passes. Whether it is so is computed."""

    certificate = models.ForeignKey(Certificate, models.CASCADE, related_name="reviews", verbose_name=_("certificate"))
    reason = models.TextField(_("reason"))
    told_at = models.DateTimeField(_("told at"))
    closed_at = models.DateTimeField(_("closed at"), null=True, blank=True)

    class Meta:
        verbose_name = _("review of a certificate")
        verbose_name_plural = _("reviews of certificates")
        ordering = ["-told_at", "-id"]
        constraints = [
            models.UniqueConstraint(
                fields=["certificate"], condition=models.Q(closed_at__isnull=True), name="told_once_of_a_review"
            )
        ]

    def __str__(self) -> str:
        return str(self.certificate)


class Conflict(models.Model):
    """A declared reason why one person does not decide about another."""

    decider = models.ForeignKey(Person, models.CASCADE, related_name="conflicts", verbose_name=_("who would decide"))
    about = models.ForeignKey(Person, models.CASCADE, related_name="+", verbose_name=_("about whom"))
    reason = models.CharField(_("reason"), max_length=200)
    declared_on = models.DateField(_("declared on"))
    ended_on = models.DateField(_("ended on"), null=True, blank=True)

    class Meta:
        verbose_name = _("conflict of interest")
        verbose_name_plural = _("conflicts of interest")
        ordering = ["-declared_on", "-id"]

    def __str__(self) -> str:
        return f"{self.decider}: {self.about}"


class Complaint(models.Model):
    """A complaint about the school: kept apart from appeals, and answered."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    name = models.CharField(_("name"), max_length=120)
    email = models.EmailField(_("e-mail"))
    text = models.TextField(_("complaint"))
    received_at = models.DateTimeField(_("received at"))
    answer = models.TextField(_("answer"), blank=True)
    answered_at = models.DateTimeField(_("answered at"), null=True, blank=True)
    answered_by = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("answered by")
    )

    class Meta:
        verbose_name = _("complaint")
        verbose_name_plural = _("complaints")
        ordering = ["-received_at"]

    def __str__(self) -> str:
        return self.name
