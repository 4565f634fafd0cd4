"""Appealing against a question, and taking that back. Deciding is in `deciding_appeals`."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from assessments.models import Appeal, AppealStep, Evidence
from assessments.queries.appeals import Obstacle, deciders_of, obstacle_to, terms_of
from assessments.queries.sentences.appeals import day_word
from assessments.rules.appeals import ENDS, Step

from .notices import note_for
from .refusals import Refused


class AppealRefused(Refused):
    """Nothing was changed about the appeal."""


class AlreadyAppealed(AppealRefused):
    """One appeal per answer."""


class AlreadyEnded(AppealRefused):
    """It was decided or withdrawn."""


@dataclass(frozen=True)
class Complaint:
    """What is held to be wrong: a word of the vocabulary, and the person's own words."""

    ground: str
    words: str


def refusal_for(evidence: Evidence, obstacle: Obstacle) -> AppealRefused:
    """The refusal that belongs to an obstacle."""
    if obstacle is Obstacle.TOO_LATE:
        sentence = _("The last day to appeal this answer was %(day)s. Tell your tutor what you saw all the same.")
        return AppealRefused(sentence % {"day": day_word(terms_of(evidence).until)})
    return AppealRefused(_("This plant counts for nobody already, for or against: there is nothing to appeal."))


def appeal(evidence: Evidence, complaint: Complaint, now: datetime) -> Appeal:
    """Receive an appeal of the person whose answer it is, and acknowledge it with the day it is decided by.

    Raises AlreadyAppealed, and AppealRefused where the time is over or the plant counts for nobody.
    """
    if not complaint.words.strip():
        raise AppealRefused(_("Say in your own words what is wrong."))
    try:
        with transaction.atomic():
            # Two taps at once: the second waits here, and finds the appeal of the first.
            locked = Evidence.objects.select_for_update(of=("self",)).get(pk=evidence.pk)
            if Appeal.objects.filter(evidence=locked).exists():
                raise _already()
            obstacle = obstacle_to(evidence, now)
            if obstacle is not None:
                raise refusal_for(evidence, obstacle)
            return _receive(evidence, complaint, now)
    except IntegrityError as error:
        raise _already() from error


def _already() -> AlreadyAppealed:
    return AlreadyAppealed(_("You have appealed this answer already: there is one appeal per answer."))


def _receive(evidence: Evidence, complaint: Complaint, now: datetime) -> Appeal:
    made = Appeal.objects.create(
        evidence=evidence,
        ground=complaint.ground,
        words=complaint.words.strip(),
        held_for=evidence.specimen.species,
        received_at=now,
        decide_by=timezone.localdate(now) + timedelta(days=terms_of(evidence).decided_days),
    )
    AppealStep.objects.create(appeal=made, kind=Step.RECEIVED.value, at=now, by=evidence.person)
    day = made.decide_by.isoformat()
    note_for([evidence.person_id], "appeal_received", now, appeal=made.key, decide_by=day)
    may = [each.person.pk for each in deciders_of([made])[made.pk] if each.eligibility.may_decide]
    note_for(may, "appeal_to_decide", now, appeal=made.key, decide_by=day)
    return made


def locked_appeal(appeal: Appeal) -> Appeal:
    """The appeal, locked and not ended. Raises AlreadyEnded."""
    rows = Appeal.objects.select_for_update(of=("self",))
    locked = rows.select_related("evidence__person", "evidence__specimen", "voiding").get(pk=appeal.pk)
    end = locked.steps.filter(kind__in=[each.value for each in ENDS]).first()
    if end is not None and end.kind == Step.WITHDRAWN:
        raise AlreadyEnded(_("This appeal was withdrawn: there is nothing to decide any more."))
    if end is not None:
        raise AlreadyEnded(_("This appeal has been decided already: read below what was decided, and why."))
    return locked


def withdraw(appeal: Appeal, by: User, now: datetime) -> Appeal:
    """The person takes the appeal back. Raises AppealRefused once the plant is being named anew."""
    with transaction.atomic():
        locked = locked_appeal(appeal)
        if by.pk != locked.evidence.person_id:
            raise AppealRefused(_("Only the person who appealed can withdraw it."))
        if locked.steps.filter(kind=Step.NAMES_ASKED.value).exists():
            raise AppealRefused(
                _("The plant is being named anew for everybody, so this appeal is decided now and stays.")
            )
        AppealStep.objects.create(appeal=locked, kind=Step.WITHDRAWN.value, at=now, by=by)
    return locked
