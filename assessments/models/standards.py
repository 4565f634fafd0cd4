"""Standards: how sure the school wants to be, and of which pairs. A version in use is never edited."""

from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.core.exceptions import ValidationError
from django.db import models
from django.utils.translation import gettext_lazy as _

from assessments.querysets import StandardQuerySet
from species.models import Pair, Species

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise


def share(words: "StrOrPromise") -> models.DecimalField:
    """A column for a share between 0 and 1, kept as it is written."""
    return models.DecimalField(words, max_digits=5, decimal_places=4)


class Standard(models.Model):
    """One version of a standard. Its numbers are those of the decision rule."""

    key = models.SlugField(_("key"), max_length=40)
    version = models.PositiveSmallIntegerField(_("version"), default=1)
    name = models.CharField(_("name"), max_length=80)
    purpose = models.TextField(_("what a pass means, and what it does not mean"), blank=True)
    follows = models.OneToOneField(
        "self", models.PROTECT, null=True, blank=True, related_name="followed_by", verbose_name=_("follows")
    )
    miss_limit = share(_("tolerated share of dangerous misses"))
    miss_ratio = models.PositiveSmallIntegerField(_("ratio c on the dangerous side"), default=10)
    miss_alpha = share(_("chance of a false pass, dangerous side"))
    refusal_limit = share(_("tolerated share not recognised"))
    refusal_ratio = models.PositiveSmallIntegerField(_("ratio c on the edible side"), default=5)
    refusal_alpha = share(_("chance of a false pass, edible side"))
    window_weights = models.JSONField(_("weights of the windows"), default=list)
    live_run = models.PositiveSmallIntegerField(_("last live specimens that must be clean"))
    live_occasions = models.PositiveSmallIntegerField(_("on at least so many occasions"))
    stage_clean = models.PositiveSmallIntegerField(_("clean specimens for a stage to count as shown"), default=4)
    period_months = models.PositiveSmallIntegerField(_("evidence counts for, months"), default=24)
    valid_months = models.PositiveSmallIntegerField(_("a certificate is valid for, months"))
    appeal_days = models.PositiveSmallIntegerField(_("an answer can be appealed for, days"), default=28)
    appeal_decided_days = models.PositiveSmallIntegerField(_("an appeal is decided within, days"), default=28)
    leads_walks = models.BooleanField(_("its certificate is asked of walk leaders"), default=False)
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+", verbose_name=_("made by")
    )
    reasons = models.TextField(_("why these pairs and numbers"), blank=True)
    in_use_since = models.DateField(_("in use since"), null=True, blank=True)

    objects = StandardQuerySet.as_manager()

    class Meta:
        verbose_name = _("standard")
        verbose_name_plural = _("standards")
        ordering = ["key", "-version"]
        constraints = [models.UniqueConstraint(fields=["key", "version"], name="one_row_per_version")]

    def __str__(self) -> str:
        return f"{self.name} {self.version}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Refuse every change to a version that has been put to use."""
        if self.pk and Standard.objects.put_to_use().filter(pk=self.pk).exists():
            raise ValidationError(_("A standard in use is never edited; make a new version."))
        super().save(*args, **kwargs)


class PartOfStandard(models.Model):
    """A row that belongs to a version of a standard, and is as fixed as that version."""

    standard_id: int

    class Meta:
        abstract = True

    def save(self, *args: Any, **kwargs: Any) -> None:
        self._refuse_when_in_use()
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> tuple[int, dict[str, int]]:
        self._refuse_when_in_use()
        return super().delete(*args, **kwargs)

    def _refuse_when_in_use(self) -> None:
        if Standard.objects.put_to_use().filter(pk=self.standard_id).exists():
            raise ValidationError(_("A standard in use is never edited; make a new version."))


class StandardPair(PartOfStandard):
    """A pair that the standard asks for, with the stages of the mistaken species to be shown."""

    standard = models.ForeignKey(Standard, models.CASCADE, related_name="pairs", verbose_name=_("standard"))
    pair = models.ForeignKey(Pair, models.PROTECT, related_name="in_standards", verbose_name=_("pair"))
    required_stages = models.JSONField(_("stages of the dangerous species that must be shown"), default=list)
    edible_stages = models.JSONField(_("stages of the edible species that count"), default=list)

    class Meta:
        verbose_name = _("pair of a standard")
        verbose_name_plural = _("pairs of standards")
        ordering = ["standard", "pair__order"]
        constraints = [models.UniqueConstraint(fields=["standard", "pair"], name="a_pair_once_in_a_standard")]

    def __str__(self) -> str:
        return f"{self.standard}: {self.pair}"


class StandardSpecies(PartOfStandard):
    """What a standard says of one species beyond its numbers."""

    standard = models.ForeignKey(Standard, models.CASCADE, related_name="species", verbose_name=_("standard"))
    species = models.ForeignKey(Species, models.PROTECT, related_name="+", verbose_name=_("species"))
    live_required = models.BooleanField(_("live specimens are required"), default=True)
    recognise_only = models.BooleanField(_("recognised by name alone"), default=False)
    reason = models.CharField(_("reason"), max_length=200, blank=True)

    class Meta:
        verbose_name = _("species of a standard")
        verbose_name_plural = _("species of standards")
        ordering = ["standard", "species"]
        constraints = [
            models.UniqueConstraint(fields=["standard", "species"], name="a_species_once_in_a_standard"),
            models.CheckConstraint(
                condition=models.Q(live_required=True) | ~models.Q(reason=""),
                name="photographs_only_needs_a_reason",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.standard}: {self.species}"
