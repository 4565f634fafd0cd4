"""What a leader must have, what was shown of it, the steps to leading alone, and who can come when."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from assessments.models import Standard
from courses.querysets import RequirementRecordQuerySet

from .people import Person
from .sites import Site
from .teaching import Meeting


class Requirement(models.Model):
    """One thing that a part in a walk asks for, as the school has set it."""

    class Part(models.TextChoices):
        """The part that somebody takes in a walk."""

        LEADER = "leader", _("leader")
        ASSISTANT = "assistant", _("assistant")

    class Kind(models.TextChoices):
        """How it is met."""

        CERTIFICATE = "certificate", _("a current certificate")
        PROOF = "proof", _("a proof that was seen")
        WALKS = "walks", _("a number of walks in a part")
        OBSERVED = "observed", _("a walk led under observation")
        GRANT = "grant", _("leave to lead alone")

    key = models.SlugField(_("key"), max_length=40, unique=True)
    part = models.CharField(_("for which part"), max_length=10, choices=Part.choices)
    kind = models.CharField(_("how it is met"), max_length=12, choices=Kind.choices)
    title = models.CharField(_("title"), max_length=120)
    standard = models.ForeignKey(
        Standard, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("standard")
    )
    proof = models.CharField(_("which proof"), max_length=20, blank=True)
    number = models.PositiveSmallIntegerField(_("how many"), default=1)
    within_months = models.PositiveSmallIntegerField(_("within how many months"), null=True, blank=True)
    at_the_site = models.BooleanField(_("for each site by itself"), default=False)
    with_children = models.BooleanField(_("only where children come"), default=False)
    order = models.PositiveSmallIntegerField(_("order"), default=0)

    class Meta:
        verbose_name = _("requirement")
        verbose_name_plural = _("requirements")
        ordering = ["part", "order", "key"]

    def __str__(self) -> str:
        return self.title


class RequirementRecord(models.Model):
    """Proof that a person meets a requirement: seen by whom, valid from when until when."""

    class Kind(models.TextChoices):
        """Requirements that are met by showing something."""

        FIRST_AID = "first_aid", _("first aid")
        INSURANCE = "insurance", _("liability insurance")
        CONDUCT = "conduct", _("code of conduct")
        INDUCTION = "induction", _("induction at a site")
        SAFEGUARDING = "safeguarding", _("safeguarding")

    person = models.ForeignKey(Person, models.PROTECT, related_name="requirement_records", verbose_name=_("person"))
    kind = models.CharField(_("requirement"), max_length=20, choices=Kind.choices)
    valid_from = models.DateField(_("valid from"))
    valid_until = models.DateField(_("valid until"), null=True, blank=True)
    seen_by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("seen by"))
    seen_on = models.DateField(_("seen on"))
    site = models.ForeignKey(
        Site, models.PROTECT, null=True, blank=True, related_name="inductions", verbose_name=_("site")
    )
    note = models.CharField(_("note"), max_length=200, blank=True)

    objects = RequirementRecordQuerySet.as_manager()

    class Meta:
        verbose_name = _("proof of a requirement")
        verbose_name_plural = _("proofs of requirements")
        ordering = ["person", "kind", "-valid_until"]

    def __str__(self) -> str:
        return f"{self.person}: {self.kind}"


class WalkPart(models.Model):
    """A step on the way to leading alone, taken at a walk and confirmed by somebody else."""

    class Step(models.TextChoices):
        """The steps, in their order."""

        WATCHED = "watched", _("watched")
        ASSISTED = "assisted", _("assisted")
        CO_LED = "co_led", _("led together")
        OBSERVED = "observed", _("led under observation")

    person = models.ForeignKey(Person, models.PROTECT, related_name="walk_parts", verbose_name=_("person"))
    step = models.CharField(_("step"), max_length=10, choices=Step.choices)
    meeting = models.ForeignKey(
        Meeting, models.PROTECT, null=True, blank=True, related_name="parts_taken", verbose_name=_("walk")
    )
    walked_on = models.DateField(_("walked on"))
    went_well = models.BooleanField(_("counts towards the next step"), default=True)
    confirmed_by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("confirmed by"))
    confirmed_on = models.DateField(_("confirmed on"))
    note = models.TextField(_("what was seen"), blank=True)

    class Meta:
        verbose_name = _("part in a walk")
        verbose_name_plural = _("parts in walks")
        ordering = ["person", "-walked_on", "-id"]
        constraints = [
            models.UniqueConstraint(fields=["person", "meeting", "step"], name="one_part_of_a_kind_per_walk")
        ]

    def __str__(self) -> str:
        return f"{self.person}: {self.step}"


class LeadingGrant(models.Model):
    """Leave to lead alone, for a region and months, until a day."""

    person = models.ForeignKey(Person, models.PROTECT, related_name="leading_grants", verbose_name=_("person"))
    region = models.CharField(_("region"), max_length=120, blank=True)
    months = models.JSONField(_("months"), default=list, blank=True)
    valid_from = models.DateField(_("valid from"))
    valid_until = models.DateField(_("valid until"), null=True, blank=True)
    granted_by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("granted by"))
    reason = models.TextField(_("reason"), blank=True)
    ended_on = models.DateField(_("taken back on"), null=True, blank=True)

    class Meta:
        verbose_name = _("leave to lead alone")
        verbose_name_plural = _("leaves to lead alone")
        ordering = ["person", "-valid_from", "-id"]

    def __str__(self) -> str:
        return f"{self.person}: {self.region}"


class Availability(models.Model):
    """Whether somebody can come to a walk, as they said themselves."""

    person = models.ForeignKey(Person, models.CASCADE, related_name="availabilities", verbose_name=_("person"))
    meeting = models.ForeignKey(Meeting, models.CASCADE, related_name="availabilities", verbose_name=_("walk"))
    can_come = models.BooleanField(_("can come"))
    said_at = models.DateTimeField(_("said at"))

    class Meta:
        verbose_name = _("availability")
        verbose_name_plural = _("availabilities")
        ordering = ["meeting", "person"]
        constraints = [models.UniqueConstraint(fields=["person", "meeting"], name="one_word_per_walk")]

    def __str__(self) -> str:
        return f"{self.person}: {self.meeting}"
