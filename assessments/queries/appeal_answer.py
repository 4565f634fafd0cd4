"""The answer behind an appeal, as the person and whoever decides see it."""

from dataclasses import dataclass

from django.utils.translation import gettext as _

from assessments.models import Evidence, Question
from species.models import Photo
from species.queries.pictures import picture_of
from species.rules.vocabulary import Settlement

from .flora import PlantName, the_flora
from .own_pictures import OwnPictures
from .sentences.words import stage_word
from .standing_page import decision_word, said_word


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
    return AnswerShown(
        title=title_of(evidence),
        plant=flora.plant(known.key) if known else None,
        stage=stage_word(specimen.stage),
        said=said_word(evidence.said, evidence.named.key if evidence.named else None, flora),
        decision=decision_word(evidence.decision),
        pictures=_own(evidence) if is_own else _of_the_bank(evidence),
    )


def _own(evidence: Evidence) -> tuple[ShownPicture, ...]:
    """What the person saw of this plant; a question may have shown two."""
    if evidence.sitting is None:
        return ()
    question = Question.objects.get(sitting=evidence.sitting, position=evidence.position)
    shown = OwnPictures(evidence.sitting, [question]).of_plant(question, evidence.specimen_id)
    return tuple(ShownPicture(each.src, each.full, each.alt) for each in shown)


def _of_the_bank(evidence: Evidence) -> tuple[ShownPicture, ...]:
    photos = list(Photo.objects.filter(specimen=evidence.specimen).prefetch_related("renditions"))
    for photo in photos:
        photo.specimen = evidence.specimen
    whole = [photo for photo in photos if photo.renditions.all()]
    pictures = [picture_of(photo) for photo in sorted(whole, key=lambda each: (each.order, each.pk))]
    return tuple(ShownPicture(each.smallest, each.src, each.alt) for each in pictures)
