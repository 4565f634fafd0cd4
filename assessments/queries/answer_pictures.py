"""Pictures beside answers: to the person whose answers they are, and to those who keep the bank.

The person sees what their own feedback shows: pictures of their own sittings, which are settled once there is
evidence, unless the sitting was annulled. Others see the same pictures only if they may see the bank.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.urls import reverse
from django.utils.translation import gettext as _

from assessments.models import Evidence
from assessments.rules.evidence import AnswerFacts, Medium
from species.models import Photo, PhotoRendition

SMALL = 400
"""Width of the pictures, px: one of those in which a question shows them."""
Place = tuple[str, datetime, int]


@dataclass(frozen=True)
class AnswerPicture:
    """A small picture of what was shown, and the larger one that it opens."""

    src: str
    full: str
    alt: str
    width: int
    height: int
    drawn: bool


def place_of(answer: AnswerFacts) -> Place:
    """What tells one answer of a person from another."""
    return answer.specimen.key, answer.opened_at, answer.position


def answer_pictures(person: User, viewer: User, answers: Iterable[AnswerFacts]) -> dict[Place, AnswerPicture]:
    """The first picture of each of these answers of `person` that `viewer` may see now; at most two queries."""
    places = {place_of(answer) for answer in answers if answer.medium is Medium.PHOTO}
    if person.pk == viewer.pk:
        return _own(person, places)
    return _of_the_bank(places) if viewer.has_perm("species.view_specimen") else {}


def _own(person: User, places: set[Place]) -> dict[Place, AnswerPicture]:
    rows = Evidence.objects.filter(person=person, sitting__annulled_at__isnull=True, sitting__isnull=False)
    papers = {
        (specimen, opened_at, position): paper
        for specimen, opened_at, position, paper in rows.filter(
            specimen__key__in={specimen for specimen, _opened, _position in places}
        ).values_list("specimen__key", "opened_at", "position", "sitting__seat__paper__key")
    }
    photos = _first_photos(places)
    found = {}
    for place in places & papers.keys():
        photo = photos.get(place[0])
        if photo is not None:
            small, full = (
                reverse("assessments:question_photo", args=[papers[place], place[2], 1, width])
                for width in (SMALL, 2 * SMALL)
            )
            found[place] = _picture(photo, small, full)
    return found


def _of_the_bank(places: set[Place]) -> dict[Place, AnswerPicture]:
    photos, found = _first_photos(places), {}
    widths: dict[int, list[int]] = {}
    rows = PhotoRendition.objects.filter(photo__in=[photo.pk for photo in photos.values()]).order_by("width")
    for photo_id, width in rows.values_list("photo_id", "width"):
        widths.setdefault(photo_id, []).append(width)
    for place in places:
        photo = photos.get(place[0])
        if photo is not None and photo.pk in widths:
            small, full = (
                reverse("species:photo", args=[photo.key, _fitting(widths[photo.pk], width)])
                for width in (SMALL, 2 * SMALL)
            )
            found[place] = _picture(photo, small, full)
    return found


def _fitting(widths: list[int], wanted: int) -> int:
    return next((width for width in widths if width >= wanted), widths[-1])


def _first_photos(places: set[Place]) -> dict[str, Photo]:
    keys = {specimen for specimen, _opened, _position in places}
    rows = Photo.objects.filter(specimen__key__in=keys).select_related("specimen").order_by("specimen", "order", "id")
    found: dict[str, Photo] = {}
    for photo in rows:
        found.setdefault(photo.specimen.key, photo)
    return found


def _picture(photo: Photo, src: str, full: str) -> AnswerPicture:
    alt = photo.alt_full or photo.alt_blind or _("Photograph of a plant")
    return AnswerPicture(src, full, alt, photo.width, photo.height, photo.specimen.is_drawn)
