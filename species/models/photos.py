"""Photographs of specimens, and the sizes in which they are served."""

from django.conf import settings
from django.core.files.storage import storages
from django.core.files.storage.base import Storage
from django.db import models
from django.utils.translation import gettext_lazy as _

from species.querysets import PhotoQuerySet
from species.rules.keys import new_key

from .bank import Specimen


def photo_storage() -> Storage:
    """Where pictures lie: outside the static root, reached only through views."""
    return storages["photos"]


class Photo(models.Model):
    """One photograph, or one drawing, of a specimen. What is served holds no metadata."""

    key = models.CharField(_("key"), max_length=32, unique=True, default=new_key, editable=False)
    specimen = models.ForeignKey(Specimen, models.PROTECT, related_name="photos", verbose_name=_("specimen"))
    original_sha256 = models.CharField(_("SHA-256 of the file as sent"), max_length=64, unique=True)
    likeness = models.CharField(_("perceptual hash, 16 hex digits"), max_length=16, blank=True)
    width = models.PositiveIntegerField(_("width, px"))
    height = models.PositiveIntegerField(_("height, px"))
    part = models.CharField(_("part shown"), max_length=60, blank=True)
    caption = models.CharField(_("caption"), max_length=300, blank=True)
    alt_blind = models.CharField(_("text alternative that does not name the plant"), max_length=300, blank=True)
    alt_full = models.CharField(_("full text alternative"), max_length=500, blank=True)
    photographer = models.CharField(_("photographer"), max_length=120, blank=True)
    rights_holder = models.CharField(_("rights holder"), max_length=120, blank=True)
    licence = models.CharField(_("licence"), max_length=200, blank=True)
    taken_at = models.DateTimeField(_("taken at"), null=True, blank=True)
    # Kept for sorting only, never served: where the camera was, and a mark that tells one camera from another.
    latitude = models.DecimalField(_("latitude"), max_digits=8, decimal_places=5, null=True, blank=True)
    longitude = models.DecimalField(_("longitude"), max_digits=8, decimal_places=5, null=True, blank=True)
    camera = models.CharField(_("mark of the camera"), max_length=16, blank=True)
    placed_by_hand = models.BooleanField(_("put with its specimen by hand"), default=False)
    added_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", null=True, verbose_name=_("added by")
    )
    added_at = models.DateTimeField(_("added at"))
    order = models.PositiveSmallIntegerField(_("order"), default=0)

    objects = PhotoQuerySet.as_manager()

    class Meta:
        verbose_name = _("photograph")
        verbose_name_plural = _("photographs")
        ordering = ["specimen", "order", "id"]

    def __str__(self) -> str:
        return self.key


class PhotoRendition(models.Model):
    """One file that is served: a photograph in one width and one format."""

    photo = models.ForeignKey(Photo, models.CASCADE, related_name="renditions", verbose_name=_("photograph"))
    width = models.PositiveIntegerField(_("width, px"))
    height = models.PositiveIntegerField(_("height, px"))
    media_type = models.CharField(_("media type"), max_length=40)
    file = models.FileField(_("file"), storage=photo_storage, max_length=120)

    class Meta:
        verbose_name = _("size of a photograph")
        verbose_name_plural = _("sizes of photographs")
        ordering = ["photo", "width"]
        constraints = [models.UniqueConstraint(fields=["photo", "width", "media_type"], name="one_rendition_per_size")]

    def __str__(self) -> str:
        return f"{self.photo} {self.width}"
