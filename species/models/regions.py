"""Regions on photographs: where on a picture a character can be seen."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from species.rules.regions import Frame

from .pairs import Character, CharacterState
from .photos import Photo


class Region(models.Model):
    """A rectangle or a circle on a photograph, as fractions of its size, that shows a character.

    A rectangle has its upper left corner at x, y, and a width and a height. A circle has its centre there, and a
    radius as a fraction of the picture's width. This is how the standard for media records writes regions.
    """

    photo = models.ForeignKey(Photo, models.CASCADE, related_name="regions", verbose_name=_("photograph"))
    character = models.ForeignKey(Character, models.PROTECT, related_name="regions", verbose_name=_("character"))
    state = models.ForeignKey(
        CharacterState, models.PROTECT, related_name="regions", null=True, blank=True, verbose_name=_("state")
    )
    x = models.DecimalField(_("from the left"), max_digits=5, decimal_places=4)
    y = models.DecimalField(_("from the top"), max_digits=5, decimal_places=4)
    width = models.DecimalField(_("width"), max_digits=5, decimal_places=4, null=True, blank=True)
    height = models.DecimalField(_("height"), max_digits=5, decimal_places=4, null=True, blank=True)
    radius = models.DecimalField(_("radius"), max_digits=5, decimal_places=4, null=True, blank=True)
    drawn_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", null=True, verbose_name=_("drawn by")
    )
    drawn_at = models.DateTimeField(_("drawn at"))

    class Meta:
        verbose_name = _("region")
        verbose_name_plural = _("regions")
        ordering = ["photo", "id"]
        constraints = [
            models.CheckConstraint(
                # said in full: a comparison with nothing is unknown, and a check lets the unknown pass
                condition=Q(radius__isnull=True, width__isnull=False, width__gt=0, height__isnull=False, height__gt=0)
                | Q(radius__isnull=False, radius__gt=0, width__isnull=True, height__isnull=True),
                name="a_region_is_a_rectangle_or_a_circle",
            ),
            models.CheckConstraint(
                condition=Q(x__gte=0, y__gte=0, x__lte=1, y__lte=1)
                & (Q(width__isnull=True) | Q(width__lte=1 - F("x"), height__lte=1 - F("y"))),
                name="a_region_lies_on_the_picture",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.photo}: {self.character}"

    @property
    def frame(self) -> Frame:
        """Its place, as the rules write it."""
        return Frame(
            float(self.x),
            float(self.y),
            float(self.width or 0),
            float(self.height or 0),
            float(self.radius or 0),
        )
