"""Keeping a picture: its files and its rows come together or not at all."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.core.files.base import ContentFile
from django.utils import timezone

from species.documents.pictures import Picture
from species.models import Photo, PhotoRendition, Specimen
from species.models.photos import photo_storage

SUFFIXES = {"image/jpeg": "jpg", "image/webp": "webp"}


@dataclass(frozen=True)
class Credit:
    """Which part a picture shows, who took it, and under which licence it may be shown."""

    part: str = ""
    photographer: str = ""
    licence: str = ""


@contextmanager
def files_kept_on_success() -> Iterator[list[str]]:
    """Collects the names of stored files, and takes them away again if what stands inside fails."""
    stored: list[str] = []
    try:
        yield stored
    except BaseException:
        take_away(stored)
        raise


def take_away(stored: list[str]) -> None:
    """Remove stored files."""
    storage = photo_storage()
    for name in stored:
        storage.delete(name)


def keep_picture(
    specimen: Specimen, picture: Picture, credit: Credit, stored: list[str], *, by: User | None, now: datetime
) -> Photo:
    """Store the sizes of a picture under names that say nothing. To be called inside a transaction and inside
    `files_kept_on_success`, whose list gets the names."""
    taken_at = timezone.make_aware(picture.taken_at) if picture.taken_at else None
    photo = Photo.objects.create(
        specimen=specimen,
        original_sha256=picture.sha256,
        likeness=picture.likeness,
        width=picture.width,
        height=picture.height,
        part=credit.part,
        photographer=credit.photographer,
        licence=credit.licence,
        taken_at=taken_at,
        added_by=by,
        added_at=now,
        order=specimen.photos.count(),
    )
    storage = photo_storage()
    for each in picture.renditions:
        name = f"{photo.key[:2]}/{photo.key}-{each.width}.{SUFFIXES[each.media_type]}"
        stored.append(storage.save(name, ContentFile(each.content)))
        PhotoRendition.objects.create(
            photo=photo, width=each.width, height=each.height, media_type=each.media_type, file=stored[-1]
        )
    return photo
