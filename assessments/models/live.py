"""Spot tests: live, numbered specimens at one locality on one day. One station is a live check."""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from species.models import Locality, Specimen
from species.rules.keys import new_key

RECOGNISED_WORDS = [
    ("sight", _("Known by sight")),
    ("document", _("A document with a photograph was shown")),
]


class SpotTest(models.Model):
    """One occasion: one locality on one day."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    title = models.CharField(_("title"), max_length=120)
    locality = models.ForeignKey(Locality, models.PROTECT, related_name="spot_tests", verbose_name=_("locality"))
    held_at = models.DateTimeField(_("held at"))
    set_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="spot_tests_set", verbose_name=_("set by")
    )
    key_checked_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="spot_tests_checked",
        verbose_name=_("key checked by"),
    )
    key_checked_at = models.DateTimeField(_("key checked at"), null=True, blank=True)
    closed_at = models.DateTimeField(_("closed at"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta:
        verbose_name = _("spot test")
        verbose_name_plural = _("spot tests")
        ordering = ["-held_at"]

    def __str__(self) -> str:
        return self.title


class Station(models.Model):
    """One numbered specimen of a spot test."""

    spot_test = models.ForeignKey(SpotTest, models.CASCADE, related_name="stations", verbose_name=_("spot test"))
    number = models.PositiveSmallIntegerField(_("number"))
    specimen = models.ForeignKey(Specimen, models.PROTECT, related_name="stations", verbose_name=_("specimen"))
    struck_out_why = models.CharField(_("struck out because"), max_length=200, blank=True)

    class Meta:
        verbose_name = _("station")
        verbose_name_plural = _("stations")
        ordering = ["spot_test", "number"]
        constraints = [
            models.UniqueConstraint(fields=["spot_test", "number"], name="one_station_per_number"),
            models.UniqueConstraint(fields=["spot_test", "specimen"], name="a_specimen_once_in_a_spot_test"),
        ]

    def __str__(self) -> str:
        return f"{self.spot_test} {self.number}"


class IdentityCheck(models.Model):
    """That the person at the stations was who they said: how they were recognised, and by whom. Written once."""

    spot_test = models.ForeignKey(SpotTest, models.PROTECT, related_name="identity_checks", verbose_name=_("spot test"))
    person = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="identity_checks", verbose_name=_("person")
    )
    how = models.CharField(_("how the person was recognised"), max_length=10, choices=RECOGNISED_WORDS)
    checked_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", verbose_name=_("checked by")
    )
    checked_at = models.DateTimeField(_("recorded at"))

    class Meta:
        verbose_name = _("check of identity")
        verbose_name_plural = _("checks of identity")
        ordering = ["spot_test", "person"]
        constraints = [models.UniqueConstraint(fields=["spot_test", "person"], name="recognised_once_per_spot_test")]

    def __str__(self) -> str:
        return f"{self.person}: {self.how}"
