"""One person's go at a paper: opening it, being shown its questions, answering them."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from random import Random

from django.db import transaction
from django.utils.translation import gettext as _

from assessments.models import Answer, Question, Seat, Seen, Sitting
from assessments.queries.bank import pairs_of_paper, shares_of
from assessments.queries.drawing import Missing, draw_paper
from assessments.queries.flora import the_flora
from assessments.queries.sentences.shortfalls import missing_sentences
from assessments.queries.sentences.words import moment_word
from assessments.queries.standards import standard_facts
from assessments.rules.kinds.drawing import Drawn

from .refusals import Refused
from .standings import refresh_standings
from .windows import ensure_window


class SittingRefused(Refused):
    """The sitting is not in a state for this."""


class NotOpenNow(SittingRefused):
    """The paper is not open yet, or closed."""


class BankUsedUp(SittingRefused):
    """The bank no longer holds what the paper asks for, for this person."""


class Over(SittingRefused):
    """The sitting takes no more answers: handed in, past its limit, or annulled."""


@dataclass(frozen=True)
class Given:
    """What somebody answered; `said` and `species_id` are empty for "I don't know".

    `chosen` is for kinds of question that ask for more than a name and a decision; they may leave `decision` empty.
    """

    decision: str = ""
    confidence: str = ""
    said: str = ""
    species_id: int | None = None
    chosen: str = ""


@dataclass(frozen=True)
class Delivery:
    """Which of its answers a device sends: it counts upwards, so that a late copy never undoes a newer answer."""

    device: str
    number: int


MOST_DEVICES = 20
"""How many devices are remembered for one answer; a choice."""


def open_sitting(seat: Seat, now: datetime) -> Sitting:
    """Draw this person's own questions and start their time; a second time gives the same sitting.

    The first paper that counts opens the first window of evidence with it. Raises NotOpenNow or BankUsedUp.
    """
    with transaction.atomic():
        seat = Seat.objects.select_for_update(of=("self",)).select_related("paper__standard", "person").get(pk=seat.pk)
        sitting = Sitting.objects.filter(seat=seat).first()
        if sitting is not None:
            return sitting
        _refuse_outside(seat, now)
        drawn = _draw(seat)
        sitting = Sitting.objects.create(seat=seat, opened_at=now, closes_at=limit_of(seat, now))
        Question.objects.bulk_create(
            Question(
                sitting=sitting,
                position=position,
                kind=each.kind,
                specimen_id=int(each.plants[0].key),
                beside_id=int(each.plants[1].key) if len(each.plants) > 1 else None,
                asks=each.asks,
            )
            for position, each in enumerate(drawn, start=1)
        )
        if ensure_window(seat.person, seat.person, seat.paper.standard.period_months, now, now):
            refresh_standings([seat.person_id], now)
    return sitting


def _refuse_outside(seat: Seat, now: datetime) -> None:
    if now < seat.opens_at:
        raise NotOpenNow(_("This test opens on %(moment)s: come back then.") % {"moment": moment_word(seat.opens_at)})
    if seat.closes_at is not None and now >= seat.closes_at:
        raise NotOpenNow(
            _("This test closed on %(moment)s. If you could not come, ask for another one.")
            % {"moment": moment_word(seat.closes_at)}
        )


def refuse_unopened(seat: Seat, sitting: Sitting | None, now: datetime) -> None:
    """Say why this person has nothing to look at or to answer in their test: not opened yet, or annulled.

    Returns where neither is so. Raises NotOpenNow or Over.
    """
    if sitting is None:
        _refuse_outside(seat, now)
        raise NotOpenNow(_("You have not opened this test yet: open it first."))
    if sitting.annulled_at is not None:
        raise Over(_("This sitting was annulled: it takes no more answers, and counts for nothing."))


def limit_of(seat: Seat, opened_at: datetime) -> datetime | None:
    """When a sitting opened then closes by itself: at its time limit, or when the paper closes for this person."""
    minutes = seat.paper.minutes
    ends = [] if minutes is None else [opened_at + timedelta(minutes=float(minutes * seat.time_factor))]
    return min([*ends, *([seat.closes_at] if seat.closes_at else [])], default=None)


def _draw(seat: Seat) -> tuple[Drawn, ...]:
    facts = standard_facts(seat.paper.standard)
    pairs = pairs_of_paper(seat.paper, facts)
    share = shares_of([seat.person_id], facts, pairs)[seat.person_id]
    seed = Random(f"{seat.paper.seed} {seat.person_id}").getrandbits(63)
    drawn = draw_paper(seat.paper, share, pairs, seed)
    if isinstance(drawn, Missing):
        sentence = _("There are not enough plants left that you have not seen. Tell whoever set the test:")
        raise BankUsedUp(sentence, *missing_sentences(drawn, the_flora()))
    return drawn


def show_question(question: Question, now: datetime) -> None:
    """Note when a question is first shown, and that its specimen is now seen. Raises Over if too late."""
    if question.first_shown_at is not None:
        return
    with transaction.atomic():
        sitting = still_open(question.sitting_id, now)
        Question.objects.filter(pk=question.pk, first_shown_at__isnull=True).update(first_shown_at=now)
        Seen.objects.bulk_create(
            [
                Seen(person_id=sitting.seat.person_id, specimen_id=each, seen_at=now, why=Seen.QUESTION)
                for each in question.specimen_ids
            ],
            ignore_conflicts=True,
        )
    question.first_shown_at = now


def save_answer(question: Question, given: Given, now: datetime, delivery: Delivery | None = None) -> bool:
    """Let this stand as the answer; the latest wins, and the same again changes nothing.

    A delivery that its device has overtaken changes nothing either. Returns whether anything changed. Raises Over
    when the sitting takes no more answers; what stood, stands.
    """
    show_question(question, now)
    columns = {
        "decision": given.decision,
        "confidence": given.confidence,
        "said": given.said,
        "named_id": given.species_id,
        "chosen": given.chosen,
    }
    with transaction.atomic():
        still_open(question.sitting_id, now)
        current = Answer.objects.filter(question_id=question.pk).first()
        if current is None:
            deliveries = _noted({}, delivery)
            Answer.objects.create(question_id=question.pk, saved_at=now, deliveries=deliveries, **columns)
            return True
        if delivery and delivery.number <= current.deliveries.get(delivery.device, 0):
            return False
        changed = any(getattr(current, name) != value for name, value in columns.items())
        if changed:
            for name, value in columns.items():
                setattr(current, name, value)
            current.saved_at = now
        if changed or delivery:
            current.deliveries = _noted(current.deliveries, delivery)
            current.save()
    return changed


def _noted(deliveries: dict[str, int], delivery: Delivery | None) -> dict[str, int]:
    if delivery is None:
        return deliveries
    others = {device: number for device, number in deliveries.items() if device != delivery.device}
    return dict([*others.items(), (delivery.device, delivery.number)][-MOST_DEVICES:])


def still_open(sitting_id: int, now: datetime) -> Sitting:
    """The sitting, locked for the rest of the transaction, if it still takes answers. Raises Over."""
    locked = Sitting.objects.select_for_update(of=("self",)).select_related("seat")
    sitting = locked.get(pk=sitting_id)
    refuse_unopened(sitting.seat, sitting, now)
    if sitting.handed_in_at is not None:
        raise Over(
            _("This test was handed in on %(moment)s: it takes no more answers.")
            % {"moment": moment_word(sitting.handed_in_at)}
        )
    if sitting.closes_at is not None and now >= sitting.closes_at:
        raise Over(
            _("The time of this test was over on %(moment)s: what was saved until then counts.")
            % {"moment": moment_word(sitting.closes_at)}
        )
    return sitting
