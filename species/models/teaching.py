"""Modules: what is taught together."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from .flora import Species
from .pairs import Pair


class Module(models.Model):
    """A teachable unit: a title, a text, and species and pairs in the order of teaching."""

    key = models.SlugField(_("key"), max_length=60, unique=True)
    title = models.CharField(_("title"), max_length=120)
    text = models.TextField(_("text"), blank=True)
    order = models.PositiveSmallIntegerField(_("order"), default=0)
    species = models.ManyToManyField(
        Species, through="ModuleSpecies", related_name="modules", verbose_name=_("species")
    )
    pairs = models.ManyToManyField(Pair, through="ModulePair", related_name="modules", verbose_name=_("pairs"))

    class Meta:
        verbose_name = _("module")
        verbose_name_plural = _("modules")
        ordering = ["order", "title"]

    def __str__(self) -> str:
        return self.title


class ModuleSpecies(models.Model):
    """A species at its place in a module."""

    module = models.ForeignKey(Module, models.CASCADE, related_name="species_in_order")
    species = models.ForeignKey(Species, models.PROTECT, related_name="+", verbose_name=_("species"))
    order = models.PositiveSmallIntegerField(_("order"), default=0)

    class Meta:
        verbose_name = _("species of a module")
        verbose_name_plural = _("species of modules")
        ordering = ["module", "order"]
        constraints = [models.UniqueConstraint(fields=["module", "species"], name="a_species_once_in_a_module")]

    def __str__(self) -> str:
        return f"{self.module}: {self.species}"


class ModulePair(models.Model):
    """A pair at its place in a module."""

    module = models.ForeignKey(Module, models.CASCADE, related_name="pairs_in_order")
    pair = models.ForeignKey(Pair, models.PROTECT, related_name="+", verbose_name=_("pair"))
    order = models.PositiveSmallIntegerField(_("order"), default=0)

    class Meta:
        verbose_name = _("pair of a module")
        verbose_name_plural = _("pairs of modules")
        ordering = ["module", "order"]
        constraints = [models.UniqueConstraint(fields=["module", "pair"], name="a_pair_once_in_a_module")]

    def __str__(self) -> str:
        return f"{self.module}: {self.pair}"
