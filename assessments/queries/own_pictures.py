"""The pictures of somebody's own test, at the addresses of that test, with what is marked on them."""

from collections import defaultdict
from collections.abc import Collection, Iterable
from dataclasses import dataclass

from django.urls import reverse
from django.utils.translation import gettext as _

from assessments.models import Question, Sitting
from species.models import Photo
from species.queries.regions import RegionShown, regions_of

from .sittings import shown_of

WIDTHS = (400, 800)
NUMBER_SHARE = 24
"""The number in a frame is one such part of the picture's height."""


@dataclass(frozen=True)
class OwnPicture:
    """One picture of a question, as `species/_regions.html` takes it, and the larger one that it opens."""

    src: str
    srcset: str
    full: str
    alt: str
    width: int
    height: int

    @property
    def number_size(self) -> int:
        """The height of the number in a frame, in px of the picture as it was taken."""
        return max(12, self.height // NUMBER_SHARE)


class OwnPictures:
    """The pictures of the questions of one sitting; two queries."""

    def __init__(self, sitting: Sitting, questions: Iterable[Question]) -> None:
        self.key = sitting.seat.paper.key
        specimens = [each for question in questions for each in question.specimen_ids]
        self.photos: dict[int, list[Photo]] = defaultdict(list)
        for photo in Photo.objects.filter(specimen__in=specimens).order_by("order", "id"):
            self.photos[photo.specimen_id].append(photo)
        self.regions = regions_of([photo.pk for photos in self.photos.values() for photo in photos])

    def of(self, question: Question) -> tuple[OwnPicture, ...]:
        """What the question showed, in the order in which it did."""
        return tuple(self._picture(question, number, photo) for number, photo in enumerate(self._shown(question), 1))

    def of_plant(self, question: Question, specimen_id: int) -> tuple[OwnPicture, ...]:
        """What the question showed of one of its plants, at the same addresses."""
        shown = enumerate(self._shown(question), 1)
        return tuple(self._picture(question, number, each) for number, each in shown if each.specimen_id == specimen_id)

    def marked(self, question: Question, characters: Collection[str]) -> tuple[RegionShown, ...]:
        """What is marked of these characters on the first picture of the question."""
        first = next(iter(self._shown(question)), None)
        return tuple(each for each in self.regions[first.pk] if each.character_key in characters) if first else ()

    def _shown(self, question: Question) -> list[Photo]:
        return shown_of(question, [photo for each in question.specimen_ids for photo in self.photos[each]])

    def _picture(self, question: Question, number: int, photo: Photo) -> OwnPicture:
        def address(width: int) -> str:
            return reverse("assessments:question_photo", args=[self.key, question.position, number, width])

        srcset = ", ".join(f"{address(width)} {width}w" for width in WIDTHS)
        alt = photo.alt_full or _("Photograph of a plant")
        return OwnPicture(address(WIDTHS[-1]), srcset, address(1600), alt, photo.width, photo.height)
