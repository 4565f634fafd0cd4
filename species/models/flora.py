"""Species as any flora has them: names, family, parts used, hazard, and what shows when."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from species.querysets import SpeciesQuerySet
from species.rules.vocabulary import Edibility, Stage

EDIBILITY_WORDS = [
    (Edibility.EDIBLE.value, _("edible")),
    (Edibility.WITH_PRECAUTIONS.value, _("edible with precautions")),
    (Edibility.NOT_EATEN.value, _("not eaten")),
    (Edibility.POISONOUS.value, _("poisonous")),
    (Edibility.DEADLY.value, _("deadly")),
]
STAGE_WORDS = [
    (Stage.SEEDLING.value, _("seedling")),
    (Stage.ROSETTE.value, _("rosette (basal leaves)")),
    (Stage.LEAFY.value, _("leafy stem")),
    (Stage.FLOWER.value, _("flower")),
    (Stage.FRUIT.value, _("fruit")),
    (Stage.DORMANT.value, _("dormant (root only)")),
]


class Species(models.Model):
    """One species, or an aggregate that the school treats as one."""

    key = models.SlugField(_("key"), max_length=80, unique=True)
    name = models.CharField(_("scientific name"), max_length=120, unique=True)
    author = models.CharField(_("author"), max_length=120, blank=True)
    family = models.CharField(_("family"), max_length=60)
    edibility = models.CharField(_("edibility"), max_length=30, choices=EDIBILITY_WORDS)
    aggregate = models.CharField(_("aggregate"), max_length=120, blank=True)
    life = models.CharField(_("life form"), max_length=80, blank=True)
    height_low_cm = models.PositiveSmallIntegerField(_("height from, cm"), null=True, blank=True)
    height_high_cm = models.PositiveSmallIntegerField(_("height to, cm"), null=True, blank=True)
    habitat = models.TextField(_("habitat"), blank=True)
    legal = models.TextField(_("legal note"), blank=True)
    note = models.TextField(_("note"), blank=True)
    status = models.CharField(_("status in the region"), max_length=120, blank=True)
    moisture = models.PositiveSmallIntegerField(_("moisture, 1 dry to 12 water"), null=True, blank=True)
    squares_britain = models.PositiveSmallIntegerField(_("ten-km squares, Britain"), null=True, blank=True)
    squares_ireland = models.PositiveSmallIntegerField(_("ten-km squares, Ireland"), null=True, blank=True)
    leafless_stages = models.JSONField(_("stages that show without leaves"), default=list, blank=True)
    place_is_blurred = models.BooleanField(_("places are blurred"), default=False)
    hazard_toxin = models.CharField(_("toxin"), max_length=200, blank=True)
    hazard_parts = models.CharField(_("poisonous parts"), max_length=200, blank=True)
    hazard_signs = models.TextField(_("signs"), blank=True)
    hazard_onset = models.CharField(_("onset"), max_length=200, blank=True)
    hazard_severity = models.CharField(_("how serious"), max_length=200, blank=True)
    hazard_uncertain = models.TextField(_("what is uncertain"), blank=True)
    sources = models.JSONField(_("sources"), default=dict, blank=True)
    search_text = models.TextField(_("all names, normalised for searching"), blank=True, editable=False)

    objects = SpeciesQuerySet.as_manager()

    class Meta:
        verbose_name = _("species")
        verbose_name_plural = _("species")
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name

    @property
    def genus(self) -> str:
        return self.name.split(" ")[0]

    @property
    def may_be_gathered(self) -> bool:
        """Whether this school ever gathers it to eat."""
        return self.edibility in (Edibility.EDIBLE, Edibility.WITH_PRECAUTIONS)

    @property
    def is_known_by_name_alone(self) -> bool:
        """A plant that the school teaches without eating it: recognising it means naming it rightly."""
        return self.edibility == Edibility.NOT_EATEN

    @property
    def common_name(self) -> str:
        """The first common name, or the scientific one. Reads the prefetched `common_names`."""
        names = [each.name for each in self.common_names.all()]
        return names[0] if names else self.name


class CommonName(models.Model):
    """A name in everyday speech; the first one is what pages print."""

    species = models.ForeignKey(Species, models.CASCADE, related_name="common_names", verbose_name=_("species"))
    name = models.CharField(_("name"), max_length=80)
    language = models.CharField(_("language"), max_length=10, default="en")
    order = models.PositiveSmallIntegerField(_("order"), default=0)

    class Meta:
        verbose_name = _("common name")
        verbose_name_plural = _("common names")
        ordering = ["species", "order", "name"]
        constraints = [models.UniqueConstraint(fields=["species", "language", "name"], name="one_common_name_once")]

    def __str__(self) -> str:
        return self.name


class Synonym(models.Model):
    """Another scientific name of the species: an older name, or the aggregate that it belongs to."""

    species = models.ForeignKey(Species, models.CASCADE, related_name="synonyms", verbose_name=_("species"))
    name = models.CharField(_("name"), max_length=120)
    is_aggregate = models.BooleanField(_("names the aggregate"), default=False)

    class Meta:
        verbose_name = _("synonym")
        verbose_name_plural = _("synonyms")
        ordering = ["species", "name"]
        constraints = [models.UniqueConstraint(fields=["species", "name"], name="one_synonym_once")]

    def __str__(self) -> str:
        return self.name


class PartUsed(models.Model):
    """A part that is gathered, and in which months."""

    species = models.ForeignKey(Species, models.CASCADE, related_name="parts_used", verbose_name=_("species"))
    part = models.CharField(_("part"), max_length=80)
    months = models.JSONField(_("months, 1 to 12"), default=list)
    stages = models.JSONField(_("stages in which it is gathered"), default=list)
    note = models.TextField(_("note"), blank=True)
    order = models.PositiveSmallIntegerField(_("order"), default=0)

    class Meta:
        verbose_name = _("part used")
        verbose_name_plural = _("parts used")
        ordering = ["species", "order"]

    def __str__(self) -> str:
        return f"{self.species}: {self.part}"


class Showing(models.Model):
    """The months in which a stage of a species can be met somewhere in the region."""

    species = models.ForeignKey(Species, models.CASCADE, related_name="showings", verbose_name=_("species"))
    stage = models.CharField(_("stage"), max_length=12, choices=STAGE_WORDS)
    months = models.JSONField(_("months, 1 to 12"), default=list)

    class Meta:
        verbose_name = _("stage by month")
        verbose_name_plural = _("stages by month")
        ordering = ["species", "id"]
        constraints = [models.UniqueConstraint(fields=["species", "stage"], name="one_showing_per_stage")]

    def __str__(self) -> str:
        return f"{self.species}: {self.stage}"
