"""Appealing a decision about a certificate, taking that back, and deciding on it.

An appeal weighs nothing: standing, certificate and practice of whoever appeals are what they were before.
"""

from datetime import datetime, timedelta

from django.db import IntegrityError, transaction
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from courses.actions.certificates import NotPossibleNow, lift_on_appeal
from courses.actions.letters import full_address, send_letter, write_to
from courses.models import Application, DecisionAppeal, Person
from courses.queries.decision_appeals import AppealLine, DecisionTaken, appeal_lines
from courses.queries.sentences.decision_appeals import bar_sentence, outcome_sentence, refusal_sentence, title_of
from courses.rules.decision_appeals import Follows, Outcome, Refusal


class AppealRefused(Exception):
    """Nothing was changed; the text says why, in a sentence."""


class AlreadyEnded(AppealRefused):
    """It was decided or taken back meanwhile."""


def appeal_decision(taken: DecisionTaken, words: str, *, now: datetime) -> DecisionAppeal:
    """Receive the appeal of the person whom a decision is about, acknowledge it, and tell those who may decide.

    Raises AppealRefused where the time is over, or there is an appeal already.
    """
    if taken.refusal:
        raise AppealRefused(refusal_sentence(taken, taken.refusal))
    try:
        with transaction.atomic():
            made = DecisionAppeal.objects.create(
                person=taken.person,
                application=taken.application,
                event=taken.event,
                words=words.strip(),
                received_at=now,
                decide_by=timezone.localdate(now) + timedelta(days=taken.standard.appeal_decided_days),
            )
            _acknowledge(_line(made, now))
    except IntegrityError as error:  # two presses at once
        raise AppealRefused(refusal_sentence(taken, Refusal.ALREADY)) from error
    return made


def take_back_appeal(appeal: DecisionAppeal, *, now: datetime) -> None:
    """Take one's appeal back before it is decided; it stays on record. Raises AlreadyEnded."""
    ended = {"outcome": Outcome.TAKEN_BACK.value, "ended_at": now}
    if not DecisionAppeal.objects.undecided().filter(pk=appeal.pk).update(**ended):
        raise _ended()


def decide_appeal(appeal: DecisionAppeal, by: Person, *, upheld: bool, reasons: str, now: datetime) -> DecisionAppeal:
    """Uphold or dismiss, with reasons, and do what follows. Raises AppealRefused, AlreadyEnded."""
    with transaction.atomic():
        locked = DecisionAppeal.objects.select_for_update().get(pk=appeal.pk)
        if locked.ended_at is not None:
            raise _ended()
        line = _line(locked, now)
        may = line.eligibility(by)
        if not may.may_decide:
            raise AppealRefused(" ".join(bar_sentence(bar) for bar in may.bars))
        locked.led_to = _uphold(line.taken, by, reasons, now) if upheld else None
        locked.outcome = (Outcome.UPHELD if upheld else Outcome.DISMISSED).value
        locked.ended_at, locked.decided_by, locked.reasons = now, by, reasons.strip()
        locked.exception = " ".join(bar.value for bar in may.exception)
        locked.save(update_fields=["outcome", "ended_at", "decided_by", "reasons", "exception", "led_to"])
        _tell_outcome(_line(locked, now))
    return locked


def _line(appeal: DecisionAppeal, now: datetime) -> AppealLine:
    return appeal_lines(DecisionAppeal.objects.whole().filter(pk=appeal.pk), now)[0]


def _ended() -> AlreadyEnded:
    return AlreadyEnded(_("Nothing was changed: this appeal was decided or taken back meanwhile."))


def _uphold(taken: DecisionTaken, by: Person, reasons: str, now: datetime) -> Application | None:
    """Do what follows from an appeal that is upheld: the application that stands again, if one does."""
    if taken.follows is Follows.LIFTED and taken.certificate:
        try:
            lift_on_appeal(taken.certificate, by, reasons, now=now)
        except NotPossibleNow as error:  # somebody took another step in this very moment: look again
            raise AppealRefused(str(error)) from error
    return _apply_again(taken, now) if taken.follows is Follows.APPLICATION else None


def _apply_again(taken: DecisionTaken, now: datetime) -> Application:
    """The open application of this person under this standard, or a new one on what they stated and agreed to."""
    before = taken.application or (taken.certificate.application if taken.certificate else None)
    renews = taken.application.renews if taken.application else taken.renewable
    found, _made = Application.objects.undecided().get_or_create(
        person=taken.person,
        standard=taken.standard,
        defaults={
            "applied_at": now,
            "statement": before is not None and before.statement,
            "agreed_at": before.agreed_at if before else None,
            "renews": renews,
        },
    )
    return found


def _acknowledge(line: AppealLine) -> None:
    facts = {"appeal": line.appeal, "title": title_of(line.taken), "link": _link(line.appeal)}
    send_letter(line.appeal.person.user.email, "decision_appeal_received", {"person": line.appeal.person, **facts})
    write_to(line.may_decide, "decision_appeal", {"who": line.appeal.person, **facts})


def _tell_outcome(line: AppealLine) -> None:
    facts = {"appeal": line.appeal, "title": title_of(line.taken), "link": _link(line.appeal)}
    said = {"person": line.appeal.person, "outcome": outcome_sentence(line), **facts}
    send_letter(line.appeal.person.user.email, "decision_appeal_decided", said)


def _link(appeal: DecisionAppeal) -> str:
    return full_address(reverse("courses:decision_appeal", args=[appeal.key]))
