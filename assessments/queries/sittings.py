"""Seats, sittings and questions as the pages of the person sitting show them."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from assessments.models import Answer, Question, Seat, Sitting
from assessments.querysets import SeatQuerySet
from assessments.rules.kinds.catalogue import kind_called
from species.models import Photo, PhotoRendition

JPEG, WEBP = "image/jpeg", "image/webp"


class SeatState(StrEnum):
    """How far somebody is with a paper."""

    COMING = "coming"
    OPEN = "open"
    UNDER_WAY = "under_way"
    HANDED_IN = "handed_in"
    RESULT = "result"
    MISSED = "missed"
    ANNULLED = "annulled"


def sitting_of(seat: Seat) -> Sitting | None:
    """The sitting of a seat that was read together with it."""
    return getattr(seat, "sitting", None)


def seat_state(seat: Seat, now: datetime) -> SeatState:
    """How far the person is; reads the seat and its sitting, and asks nothing."""
    sitting = sitting_of(seat)
    if sitting is None:
        if now < seat.opens_at:
            return SeatState.COMING
        return SeatState.MISSED if seat.closes_at is not None and now >= seat.closes_at else SeatState.OPEN
    if sitting.annulled_at is not None:
        return SeatState.ANNULLED
    if sitting.handed_in_at is None:
        return SeatState.UNDER_WAY
    return SeatState.HANDED_IN if sitting.settled_at is None else SeatState.RESULT


def seats_with_papers() -> SeatQuerySet:
    """Seats with their paper, standard and sitting at hand."""
    seats: SeatQuerySet = Seat.objects.select_related("paper__standard", "sitting")
    return seats


def seat_at(person_id: int, paper_key: str) -> Seat | None:
    """One person's seat at a paper, if they have one."""
    return seats_with_papers().of(person_id).filter(paper__key=paper_key).first()


@dataclass(frozen=True)
class Place:
    """One question in the list of positions."""

    position: int
    is_answered: bool
    is_shown: bool


@dataclass(frozen=True)
class Progress:
    """How far somebody is through a paper."""

    places: tuple[Place, ...]

    @property
    def unanswered(self) -> tuple[int, ...]:
        return tuple(place.position for place in self.places if not place.is_answered)

    @property
    def answered(self) -> int:
        return len(self.places) - len(self.unanswered)

    @property
    def next_unanswered(self) -> int | None:
        return self.unanswered[0] if self.unanswered else None


def progress_of(sitting_id: int) -> Progress:
    """How far a sitting is; one query."""
    rows = Question.objects.filter(sitting_id=sitting_id).order_by("position")
    return Progress(
        tuple(
            Place(position, answer is not None, shown is not None)
            for position, shown, answer in rows.values_list("position", "first_shown_at", "answer__pk")
        )
    )


def question_at(person_id: int, paper_key: str, position: int) -> Question | None:
    """One question of this person's own sitting, with all that its page needs; one query."""
    rows = Question.objects.of_seat(person_id, paper_key).filter(position=position)
    return rows.select_related("sitting__seat__paper", "answer__named", "specimen").first()


def answer_to(question: Question) -> Answer | None:
    """The answer that stands, if one was read together with the question."""
    return getattr(question, "answer", None)


def decisions_of(question: Question, answer: Answer | None) -> list[str]:
    """What an answer says of each plant that its question shows; empty where it says nothing."""
    if answer is None or not answer.chosen:
        return [answer.decision if answer else "", *("" for _beside in question.specimen_ids[1:])]
    said = kind_called(question.kind).decisions(answer.chosen)
    return [decision.value if decision else "" for decision in said]


def pictures_of(question: Question) -> range:
    """The numbers of the pictures of a question, which is all that a page knows of them; one query."""
    return range(1, len(photos_of(question)) + 1)


def photos_of(question: Question) -> list[Photo]:
    """The pictures that a question shows, in order; one query.

    All of its plant; or of two plants the first of each; or the one that is asked about.
    """
    rows = Photo.objects.filter(specimen__in=question.specimen_ids).order_by("order", "id")
    return shown_of(question, list(rows))


def shown_of(question: Question, photos: list[Photo]) -> list[Photo]:
    """Those of the photos of its plants, which are in their order, that a question shows."""
    mine = [[photo for photo in photos if photo.specimen_id == each] for each in question.specimen_ids]
    if len(mine) > 1:
        return [each[0] for each in mine if each]
    asked = question.asks.get("photo")
    return [photo for photo in mine[0] if asked in (None, photo.pk)]


def rendition_for(
    person_id: int, paper_key: str, position: int, number: int, width: int, *, takes_webp: bool
) -> PhotoRendition | None:
    """The file to send for one picture of a question that was shown to this person.

    The smallest that is wide enough, or the widest there is: every address asks for one of the same few
    widths, whatever the picture.
    """
    question = Question.objects.of_seat(person_id, paper_key).shown().filter(position=position).first()
    photos = photos_of(question) if question else []
    if not 1 <= number <= len(photos):
        return None
    renditions = list(PhotoRendition.objects.filter(photo=photos[number - 1]).order_by("width"))
    return _fitting(renditions, width, WEBP if takes_webp else JPEG) if renditions else None


def _fitting(renditions: list[PhotoRendition], width: int, media_type: str) -> PhotoRendition:
    """Width comes first: a lighter kind that is not wide enough is no substitute."""
    least = min((each.width for each in renditions if each.width >= width), default=renditions[-1].width)
    fitting = [each for each in renditions if each.width == least]
    return next((each for each in fitting if each.media_type == media_type), fitting[0])
