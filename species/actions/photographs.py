"""Keeping a picture: its files and its rows come together or not at all."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.core.files.base import ContentFile
from django.db import transaction
from django.utils import timezone

from species.actions.specimens import SpecimenRefusal, drop_specimen
from species.documents.pictures import Picture
from species.models import Photo, PhotoRendition, Specimen
from species.models.photos import photo_storage
from species.queries.specimen_uses import uses_of
from species.rules.bank import Said, Why

SUFFIXES = {"image/jpeg": "jpg", "image/webp": "webp"}


@dataclass(frozen=True)
class Credit:
    """Which part a picture shows, who took it, under which licence it may be shown, and whose it is.

    Where nobody says whose it is, it is the photographer's.
    """

    part: str = ""
    photographer: str = ""
    licence: str = ""
    rights_holder: str = ""

    @property
    def said(self) -> Said:
        return Said(self.part, self.rights_holder or self.photographer, self.licence)


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


def delete_photo(photo: Photo) -> None:
    """Delete a photograph with its regions, and its files in all sizes as soon as that is certain.

    Raises SpecimenRefusal where somebody has been asked about the specimen, since then its pictures are what they
    were asked about; and for the only picture of a specimen in the bank. The only one in the tray takes its
    specimen along.
    """
    with transaction.atomic():
        specimen = Specimen.objects.select_for_update().get(photos=photo)
        if uses := uses_of(specimen):
            raise SpecimenRefusal(Why.IN_USE, uses)
        is_last = specimen.photos.count() == 1
        if is_last and not specimen.is_in_the_tray:
            raise SpecimenRefusal(Why.ONLY_PICTURE)
        names = [rendition.file.name for rendition in photo.renditions.all() if rendition.file.name]
        photo.delete()
        if is_last:
            drop_specimen(specimen)
        transaction.on_commit(lambda: take_away(names))


def keep_picture(
    specimen: Specimen, picture: Picture, credit: Credit, stored: list[str], *, by: User | None, now: datetime
) -> Photo:
    """Store the sizes of a picture under names that say nothing. To be called inside a transaction and inside
    `files_kept_on_success`, whose list gets the names."""
    facts, place = picture.facts, picture.facts.place
    photo = Photo.objects.create(
        specimen=specimen,
        original_sha256=picture.sha256,
        likeness=picture.likeness,
        width=picture.width,
        height=picture.height,
        part=credit.part,
        photographer=credit.photographer,
        rights_holder=credit.said.rights_holder,
        licence=credit.licence,
        taken_at=timezone.make_aware(facts.taken_at) if facts.taken_at else None,
        latitude=place.latitude if place else None,
        longitude=place.longitude if place else None,
        camera=facts.camera,
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
