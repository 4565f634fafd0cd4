"""The end of a sitting: handed in, perhaps taken back, settled once, its result seen; or annulled."""

from collections.abc import Collection, Iterator
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from assessments.models import Evidence, Question, Sitting
from assessments.queries.sittings import decisions_of
from assessments.querysets import MINUTE_FOR_UNDOING
from assessments.rules.evidence import Medium

from .notices import note_for
from .sittings import SittingRefused
from .standings import refresh_standings


class TooLateToUndo(SittingRefused):
    """The minute is over, or the result was opened."""


class NotHandedIn(SittingRefused):
    """There is nothing to see before handing in."""


class AnnulRefused(SittingRefused):
    """This sitting may not be annulled, or not by this person."""


def hand_in(sitting: Sitting, now: datetime) -> Sitting:
    """Hand in. Twice is once; past its limit the sitting closes as if by itself. Raises SittingRefused."""
    with transaction.atomic():
        sitting = _locked(sitting)
        if sitting.annulled_at is not None:
            raise SittingRefused(_("This sitting was annulled: there is nothing to hand in."))
        if sitting.handed_in_at is not None:
            return sitting
        if sitting.closes_at is not None and now >= sitting.closes_at:
            return _settle(_close_itself(sitting, now), now)
        sitting.handed_in_at = now
        sitting.save(update_fields=["handed_in_at"])
    return sitting


def may_be_taken_back(sitting: Sitting, now: datetime) -> bool:
    """Whether handing in can still be undone: within the minute, before the limit, result not opened."""
    if sitting.handed_in_at is None or sitting.settled_at is not None or sitting.annulled_at is not None:
        return False
    within_limit = sitting.closes_at is None or now < sitting.closes_at
    return within_limit and now < sitting.handed_in_at + MINUTE_FOR_UNDOING


def take_back(sitting: Sitting, now: datetime) -> Sitting:
    """Undo handing in. Raises TooLateToUndo; a sitting that is under way is left as it is."""
    with transaction.atomic():
        sitting = _locked(sitting)
        if sitting.handed_in_at is None:
            return sitting
        if not may_be_taken_back(sitting, now):
            raise TooLateToUndo(
                _("Handing in can be undone for one minute, until the result is opened. It is handed in.")
            )
        sitting.handed_in_at = None
        sitting.save(update_fields=["handed_in_at"])
    return sitting


def show_result(sitting: Sitting, now: datetime) -> Sitting:
    """Settle at once, which ends the undo, and note that the result was seen. Raises NotHandedIn."""
    with transaction.atomic():
        sitting = _locked(sitting)
        if sitting.annulled_at is not None:
            raise SittingRefused(_("This sitting was annulled: it has no result."))
        if sitting.handed_in_at is None:
            raise NotHandedIn(_("The result opens after handing in."))
        if sitting.settled_at is None:
            sitting = _settle(sitting, now)
        if sitting.result_shown_at is None:
            sitting.result_shown_at = now
            sitting.save(update_fields=["result_shown_at"])
    return sitting


def note_results_seen(people: Collection[int], now: datetime) -> None:
    """Somebody looks at where these users stand, so their settled sittings can no longer be annulled."""
    unseen = Sitting.objects.settled().standing().filter(result_shown_at__isnull=True)
    unseen.filter(seat__person_id__in=people).update(result_shown_at=now)


def settle_overdue(now: datetime) -> int:
    """Close what is past its limit and settle what can no longer be taken back. Returns how many.

    Safe to run at any time, as often as one likes and several times at once.
    """
    settled = 0
    for pk in Sitting.objects.due(now).values_list("pk", flat=True):
        settled += settle_if_due(pk, now)
    return settled


def settle_if_due(sitting_id: int, now: datetime) -> bool:
    """Close and settle one sitting if its time has come; whether anything was done."""
    with transaction.atomic():
        sitting = Sitting.objects.due(now).select_for_update(of=("self",)).filter(pk=sitting_id).first()
        if sitting is None:
            return False
        if sitting.handed_in_at is None:
            sitting = _close_itself(sitting, now)
        _settle(sitting, now)
    return True


def annul(sitting: Sitting, by: User, why: str, now: datetime) -> Sitting:
    """Take a whole sitting out of everything, before anybody saw its result. Its specimens stay seen.

    Only a second person may: neither who sat it nor who set it. Raises AnnulRefused.
    """
    with transaction.atomic():
        sitting = _locked(sitting)
        if by.pk in (sitting.seat.person_id, sitting.seat.paper.set_by_id):
            raise AnnulRefused(_("Only somebody who neither set nor sat this test may annul it: ask a colleague."))
        if sitting.annulled_at is not None:
            raise AnnulRefused(_("This sitting is annulled already."))
        if sitting.result_shown_at is not None:
            raise AnnulRefused(_("Its result has been seen, so it stays. A question that was wrong can be appealed."))
        if not why.strip():
            raise AnnulRefused(_("Write down why the sitting is annulled."))
        sitting.annulled_at, sitting.annulled_by, sitting.annulled_why = now, by, why.strip()
        sitting.save(update_fields=["annulled_at", "annulled_by", "annulled_why"])
        paper = sitting.seat.paper
        note_for(
            [sitting.seat.person_id],
            "sitting_annulled",
            now,
            paper=paper.key,
            title=paper.title,
            why=sitting.annulled_why,
        )
        refresh_standings([sitting.seat.person_id], now)
    return sitting


def _locked(sitting: Sitting) -> Sitting:
    locked = Sitting.objects.select_for_update(of=("self",)).select_related("seat__paper")
    return locked.get(pk=sitting.pk)


def _close_itself(sitting: Sitting, now: datetime) -> Sitting:
    sitting.handed_in_at, sitting.closed_itself = sitting.closes_at, True
    sitting.save(update_fields=["handed_in_at", "closed_itself"])
    paper = sitting.seat.paper
    note_for([sitting.seat.person_id], "sitting_closed_itself", now, paper=paper.key, title=paper.title)
    return sitting


def _settle(sitting: Sitting, now: datetime) -> Sitting:
    """Write the evidence of a locked sitting, once: one row per plant of every question that was shown."""
    person = sitting.seat.person_id
    questions = list(Question.objects.shown().filter(sitting=sitting).select_related("answer"))
    Evidence.objects.bulk_create(row for each in questions for row in _evidence(each, sitting, person, now))
    sitting.settled_at = now
    sitting.save(update_fields=["settled_at"])
    refresh_standings([person], now)
    return sitting


def _evidence(question: Question, sitting: Sitting, person: int, now: datetime) -> Iterator[Evidence]:
    answer = getattr(question, "answer", None)
    for specimen, decision in zip(question.specimen_ids, decisions_of(question, answer), strict=True):
        yield Evidence(
            person_id=person,
            specimen_id=specimen,
            sitting=sitting,
            kind=question.kind,
            medium=Medium.PHOTO.value,
            decision=decision,
            said=answer.said if answer else "",
            named_id=answer.named_id if answer else None,
            confidence=answer.confidence if answer else "",
            opened_at=sitting.opened_at,
            position=question.position,
            shown_at=question.first_shown_at or sitting.opened_at,
            recorded_at=now,
            recorded_by_id=person,
        )
