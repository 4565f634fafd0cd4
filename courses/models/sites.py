"""Sites: how to get there, who allows what, what grows and what can hurt there, and how that is reviewed."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from species.models import Locality, Species
from species.models.flora import STAGE_WORDS

from .people import Person


class Site(models.Model):
    """A locality as the school uses it: how to get there, who allows it, what can hurt there."""

    locality = models.OneToOneField(Locality, models.PROTECT, related_name="site", verbose_name=_("locality"))
    access = models.TextField(_("how to get there"), blank=True)
    meeting_point = models.CharField(_("meeting point"), max_length=200, blank=True)
    hazards = models.TextField(_("hazards"), blank=True)
    emergency_place = models.TextField(_("exact place for the ambulance"), blank=True)
    phone_signal = models.CharField(_("telephone signal"), max_length=200, blank=True)
    access_gate = models.CharField(_("gate for the ambulance"), max_length=200, blank=True)
    nearest_road = models.CharField(_("nearest road"), max_length=200, blank=True)
    hospital = models.CharField(_("nearest hospital with an emergency department"), max_length=200, blank=True)
    who_calls = models.CharField(_("who calls for help"), max_length=200, blank=True)
    facilities = models.CharField(_("parking, toilets, shelter"), max_length=200, blank=True)
    region = models.CharField(_("region"), max_length=120, blank=True)
    group_size = models.PositiveSmallIntegerField(_("most people to one leader"), null=True, blank=True)

    class Meta:
        verbose_name = _("site")
        verbose_name_plural = _("sites")
        ordering = ["locality__name"]

    def __str__(self) -> str:
        return self.locality.name


class SitePermission(models.Model):
    """What somebody who may allow it has allowed at a site, for which days, on which conditions."""

    site = models.ForeignKey(Site, models.CASCADE, related_name="permissions", verbose_name=_("site"))
    given_by = models.CharField(_("given by"), max_length=120)
    walking = models.BooleanField(_("walking with a group"), default=True)
    picking = models.BooleanField(_("picking"), default=False)
    digging = models.BooleanField(_("digging"), default=False)
    valid_from = models.DateField(_("valid from"))
    valid_until = models.DateField(_("valid until"), null=True, blank=True)
    conditions = models.TextField(_("conditions"), blank=True)
    proof = models.CharField(_("letter or message that proves it"), max_length=200, blank=True)
    recorded_by = models.ForeignKey(
        Person, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("recorded by")
    )
    recorded_on = models.DateField(_("recorded on"), null=True, blank=True)
    ended_on = models.DateField(_("taken back on"), null=True, blank=True)

    class Meta:
        verbose_name = _("permission")
        verbose_name_plural = _("permissions")
        ordering = ["site", "-valid_from", "id"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(valid_until__isnull=True) | models.Q(valid_until__gte=models.F("valid_from")),
                name="a_permission_ends_after_it_begins",
            )
        ]

    def __str__(self) -> str:
        return f"{self.site}: {self.given_by}"


class SiteRecord(models.Model):
    """What was seen growing at a site, in which stage, on a day."""

    site = models.ForeignKey(Site, models.CASCADE, related_name="records", verbose_name=_("site"))
    species = models.ForeignKey(Species, models.PROTECT, related_name="+", verbose_name=_("species"))
    stage = models.CharField(_("stage"), max_length=12, choices=STAGE_WORDS)
    seen_on = models.DateField(_("seen on"))
    seen_by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("seen by"))
    note = models.CharField(_("note"), max_length=200, blank=True)

    class Meta:
        verbose_name = _("record of a site")
        verbose_name_plural = _("records of sites")
        ordering = ["site", "-seen_on", "id"]

    def __str__(self) -> str:
        return f"{self.site}: {self.species}"


class SiteReview(models.Model):
    """A recce with its assessment of risks: one row a review, carried forward from the one before, never edited."""

    class Decision(models.TextChoices):
        """What a review comes to."""

        GO = "go", _("go")
        CHANGE = "change", _("go with changes")
        CANCEL = "cancel", _("do not go")

    site = models.ForeignKey(Site, models.PROTECT, related_name="reviews", verbose_name=_("site"))
    meeting = models.ForeignKey(
        "Meeting", models.SET_NULL, null=True, blank=True, related_name="reviews", verbose_name=_("meeting")
    )
    walked_on = models.DateField(_("route walked on"), null=True, blank=True)
    reviewed_on = models.DateField(_("reviewed on"))
    reviewed_by = models.ForeignKey(Person, models.PROTECT, related_name="+", verbose_name=_("reviewed by"))
    review_again_by = models.DateField(_("review again by"))
    headings = models.JSONField(_("what was found, by heading"), default=dict)
    residual_risk = models.TextField(_("risk that remains"), blank=True)
    decision = models.CharField(_("decision"), max_length=8, choices=Decision.choices)
    reason = models.TextField(_("reason"), blank=True)

    class Meta:
        verbose_name = _("review of a site")
        verbose_name_plural = _("reviews of sites")
        ordering = ["site", "-reviewed_on", "-id"]

    def __str__(self) -> str:
        return f"{self.site}: {self.reviewed_on}"
