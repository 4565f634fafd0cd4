"""The answer behind an appeal, as the person and whoever decides see it."""

from dataclasses import dataclass

from django.urls import reverse
from django.utils.translation import gettext as _

from assessments.models import Evidence
from species.models import Photo
from species.queries.pictures import picture_of
from species.rules.vocabulary import Settlement

from .flora import PlantName, the_flora
from .sentences.words import stage_word
from .standing_page import decision_word, said_word

SMALL, LARGE = 400, 800
"""Widths of the pictures, px: two of those in which a question shows them."""


@dataclass(frozen=True)
class ShownPicture:
    """A picture of the plant and the larger one that it opens."""

    src: str
    full: str
    alt: str


@dataclass(frozen=True)
class AnswerShown:
    """One answer: the plant as it is named today (None while in doubt), its pictures, what was said."""

    title: str
    plant: PlantName | None
    stage: str
    said: str
    decision: str
    pictures: tuple[ShownPicture, ...]


def title_of(evidence: Evidence) -> str:
    """Which question it is."""
    title = evidence.sitting.seat.paper.title if evidence.sitting else ""
    title = evidence.station.spot_test.title if evidence.station else title
    return _("%(title)s, question %(position)s") % {"title": title, "position": evidence.position}


def answer_shown(evidence: Evidence, *, is_own: bool) -> AnswerShown:
    """One answer; `is_own`: to the person whose it is, through the addresses of their own sitting."""
    flora, specimen = the_flora(), evidence.specimen
    known = specimen.species if specimen.settlement == Settlement.CONFIRMED else None
    photos = list(Photo.objects.filter(specimen=specimen).prefetch_related("renditions").order_by("order", "id"))
    for photo in photos:
        photo.specimen = specimen
    return AnswerShown(
        title=title_of(evidence),
        plant=flora.plant(known.key) if known else None,
        stage=stage_word(specimen.stage),
        said=said_word(evidence.said, evidence.named.key if evidence.named else None, flora),
        decision=decision_word(evidence.decision),
        pictures=_own(evidence, photos) if is_own else _of_the_bank(photos),
    )


def _own(evidence: Evidence, photos: list[Photo]) -> tuple[ShownPicture, ...]:
    if evidence.sitting is None:
        return ()
    paper, position = evidence.sitting.seat.paper.key, evidence.position

    def address(number: int, width: int) -> str:
        return reverse("assessments:question_photo", args=[paper, position, number, width])

    return tuple(
        ShownPicture(address(number, SMALL), address(number, LARGE), photo.alt_full or _("Photograph of a plant"))
        for number, photo in enumerate(photos, start=1)
    )


def _of_the_bank(photos: list[Photo]) -> tuple[ShownPicture, ...]:
    pictures = [picture_of(photo) for photo in photos if photo.renditions.all()]
    return tuple(ShownPicture(each.smallest, each.src, each.alt) for each in pictures)
