"""The bank: localities, individual plants, specimens, and who says what a specimen is.

A specimen is one plant or patch at one time. What it is follows from the determinations; `species` and
`settlement` on the row are a cache of that answer, written only by the determination actions.
"""

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from species.querysets import DeterminerLinkQuerySet, SpecimenQuerySet
from species.rules.keys import new_key
from species.rules.vocabulary import Settlement, Use

from .flora import STAGE_WORDS, Species

USE_WORDS = [(Use.TEACHING.value, _("teaching")), (Use.ASSESSMENT.value, _("assessment"))]
SETTLEMENT_WORDS = [
    (Settlement.UNDETERMINED.value, _("no name yet")),
    (Settlement.SINGLE.value, _("named by one person")),
    (Settlement.CONFIRMED.value, _("confirmed")),
    (Settlement.DISPUTED.value, _("disputed")),
]


class Locality(models.Model):
    """A place where plants grow. The exact position is for the school alone."""

    name = models.CharField(_("name"), max_length=120, unique=True)
    latitude = models.DecimalField(_("latitude"), max_digits=8, decimal_places=5, null=True, blank=True)
    longitude = models.DecimalField(_("longitude"), max_digits=8, decimal_places=5, null=True, blank=True)
    blurred_to_km = models.PositiveSmallIntegerField(_("shown to others within, km"), default=1)
    days_late = models.SmallIntegerField(_("days later than the region (negative: earlier)"), default=0)
    habitat = models.CharField(_("habitat"), max_length=200, blank=True)

    class Meta:
        verbose_name = _("locality")
        verbose_name_plural = _("localities")
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name


class Individual(models.Model):
    """One plant or patch, which may be met again on another day."""

    locality = models.ForeignKey(Locality, models.PROTECT, related_name="individuals", verbose_name=_("locality"))
    label = models.CharField(_("label"), max_length=120, blank=True)

    class Meta:
        verbose_name = _("individual plant")
        verbose_name_plural = _("individual plants")
        ordering = ["id"]

    def __str__(self) -> str:
        return self.label or f"{self.locality} {self.pk}"


class Specimen(models.Model):
    """One individual plant or patch at one time. Several photographs of it are one specimen."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    individual = models.ForeignKey(
        Individual, models.PROTECT, related_name="specimens", verbose_name=_("individual plant")
    )
    seen_on = models.DateField(_("seen on"))
    stage = models.CharField(_("stage"), max_length=12, choices=STAGE_WORDS, blank=True)
    form = models.CharField(_("form"), max_length=60, default="typical", blank=True)
    use = models.CharField(_("use"), max_length=12, choices=USE_WORDS, blank=True)  # empty: unsorted, in the tray
    drawing_seed = models.PositiveIntegerField(_("seed of the drawing"), null=True, blank=True)
    retired_on = models.DateField(_("taken out of the bank on"), null=True, blank=True)
    retired_why = models.CharField(_("why taken out"), max_length=200, blank=True)
    note = models.TextField(_("note"), blank=True)
    added_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", null=True, verbose_name=_("added by")
    )
    added_at = models.DateTimeField(_("added at"))
    species = models.ForeignKey(
        Species,
        models.PROTECT,
        related_name="specimens",
        null=True,
        editable=False,
        verbose_name=_("species as determined today"),
    )
    settlement = models.CharField(
        _("name is"),
        max_length=12,
        choices=SETTLEMENT_WORDS,
        default=Settlement.UNDETERMINED.value,
        editable=False,
    )

    objects = SpecimenQuerySet.as_manager()

    class Meta:
        verbose_name = _("specimen")
        verbose_name_plural = _("specimens")
        ordering = ["id"]
        indexes = [models.Index(fields=["use", "settlement", "species", "stage"])]

    def __str__(self) -> str:
        return self.key

    @property
    def is_drawn(self) -> bool:
        return self.drawing_seed is not None

    @property
    def is_in_the_tray(self) -> bool:
        return not self.use


class DeterminerLink(models.Model):
    """An outsider asked, by a link in an e-mail, to say what some specimens are."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    name = models.CharField(_("name"), max_length=120)
    email = models.EmailField(_("e-mail"))
    specimens = models.ManyToManyField(Specimen, related_name="determiner_links", verbose_name=_("specimens"))
    invited_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", verbose_name=_("invited by")
    )
    invited_at = models.DateTimeField(_("invited at"))
    closes_on = models.DateField(_("usable until"))
    withdrawn_on = models.DateField(_("withdrawn on"), null=True, blank=True)

    objects = DeterminerLinkQuerySet.as_manager()

    class Meta:
        verbose_name = _("invitation to determine")
        verbose_name_plural = _("invitations to determine")
        ordering = ["-invited_at"]

    def __str__(self) -> str:
        return self.name


class Determination(models.Model):
    """Somebody's dated opinion of what a specimen is. Never edited; a later one by the same person follows it."""

    specimen = models.ForeignKey(Specimen, models.CASCADE, related_name="determinations", verbose_name=_("specimen"))
    determiner = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        related_name="determinations",
        null=True,
        verbose_name=_("determiner"),
    )
    link = models.ForeignKey(
        DeterminerLink,
        models.PROTECT,
        related_name="determinations",
        null=True,
        verbose_name=_("outside determiner"),
    )
    species = models.ForeignKey(
        Species, models.PROTECT, related_name="determinations", null=True, verbose_name=_("species")
    )
    said = models.CharField(_("name as given"), max_length=160)
    characters = models.TextField(_("which characters decided"), blank=True)
    determined_at = models.DateTimeField(_("determined at"))
    brought_by = models.ForeignKey(  # empty: said here, or in an archive of the school's own
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", null=True, verbose_name=_("came with an archive of")
    )

    class Meta:
        verbose_name = _("determination")
        verbose_name_plural = _("determinations")
        ordering = ["specimen", "determined_at", "id"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(determiner__isnull=False) ^ models.Q(link__isnull=False),
                name="a_determination_has_one_author",
            )
        ]

    def __str__(self) -> str:
        return f"{self.specimen}: {self.said}"
