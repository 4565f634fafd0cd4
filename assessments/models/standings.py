"""Where people stand, kept as whole numbers so that long lists need not compute it again.

All of it can be thrown away at any time and follows again from evidence, specimens and standards. A row is
worth something only as long as its stamp is that of what it was computed from (`queries.standing_stamps`);
no certificate is ever decided on it.
"""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from assessments.rules.standard import Side
from species.models import Species

from .standards import Standard

SIDE_WORDS = [(Side.DANGEROUS.value, _("dangerous species")), (Side.EDIBLE.value, _("edible species"))]


class KeptLedger(models.Model):
    """One person and one species under one version: `rules.figures.LedgerFigures` in plain form."""

    person = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="+", verbose_name=_("person"))
    standard = models.ForeignKey(Standard, models.CASCADE, related_name="+", verbose_name=_("standard"))
    side = models.CharField(_("side"), max_length=9, choices=SIDE_WORDS)
    species = models.ForeignKey(Species, models.CASCADE, related_name="+", verbose_name=_("species"))
    figures = models.JSONField(_("figures"))
    stamp = models.CharField(_("stamp of what it was computed from"), max_length=64)

    class Meta:
        verbose_name = _("ledger as kept")
        verbose_name_plural = _("ledgers as kept")
        ordering = ["person", "standard", "side", "species"]
        constraints = [
            models.UniqueConstraint(
                fields=["person", "standard", "side", "species"], name="one_kept_ledger_per_species_and_side"
            )
        ]

    def __str__(self) -> str:
        return f"{self.person}, {self.standard}: {self.species}"


class KeptStanding(models.Model):
    """One person under one version: whether they pass, how many pairs, how many things are missing."""

    person = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="+", verbose_name=_("person"))
    standard = models.ForeignKey(Standard, models.CASCADE, related_name="+", verbose_name=_("standard"))
    passed = models.BooleanField(_("passes"))
    pairs = models.PositiveSmallIntegerField(_("dangerous pairs"))
    pairs_passed = models.PositiveSmallIntegerField(_("dangerous pairs passed"))
    gaps = models.PositiveSmallIntegerField(_("things missing"))
    stamp = models.CharField(_("stamp of its ledgers"), max_length=64)

    class Meta:
        verbose_name = _("standing as kept")
        verbose_name_plural = _("standings as kept")
        ordering = ["person", "standard"]
        constraints = [models.UniqueConstraint(fields=["person", "standard"], name="one_kept_standing_per_standard")]

    def __str__(self) -> str:
        return f"{self.person}: {self.standard}"
