"""Deciding appeals: taken up, perhaps named anew, decided once. Standings follow in the same transaction."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from assessments.models import Appeal, AppealStep, Seen, Voiding
from assessments.queries.appeal_changes import people_concerned
from assessments.queries.appeals import NAME_ANEW, eligibility_of, holders_of, new_names_of
from assessments.queries.sentences.appeals import bars_to_you, new_names_sentence
from assessments.rules.appeals import Eligibility, Step, outcomes_open
from species.actions.determinations import determine
from species.actions.second_looks import NotInTheBank, ask_second_look
from species.models import Determination, Species

from .appeals import AlreadyEnded, AppealRefused, locked_appeal
from .notices import note_for
from .standings import refresh_standings
from .voiding import change_and_tell


@dataclass(frozen=True)
class Verdict:
    """What is decided, why, and, where somebody involved decides, why nobody else could."""

    outcome: Step
    reasons: str
    exception: str = ""


def take_up(appeal: Appeal, by: User, now: datetime) -> Appeal:
    """Say that one is looking at it; the person can follow that. Twice is once. Raises AppealRefused."""
    with transaction.atomic():
        locked = locked_appeal(appeal)
        _eligible(locked, by)
        last = locked.steps.filter(kind=Step.TAKEN_UP.value).last()
        if last is None or last.by_id != by.pk:
            AppealStep.objects.create(appeal=locked, kind=Step.TAKEN_UP.value, at=now, by=by)
    return locked


def ask_for_names(appeal: Appeal, by: User, why: str, now: datetime) -> Appeal:
    """Ask two people to name the plant anew; until they agree it counts for nobody. Raises AppealRefused.

    The plant also joins those that are to be named by somebody who is not told, so that whoever names next finds it.
    """
    with transaction.atomic():
        locked = locked_appeal(appeal)
        _eligible(locked, by)
        if not why.strip():
            raise AppealRefused(_("Write down why the plant is to be named anew."))
        if locked.steps.filter(kind=Step.NAMES_ASKED.value).exists():
            raise AppealRefused(_("Two new names have been asked for already: see below how far they are."))
        if not locked.evidence.specimen.photos.exists():
            raise AppealRefused(_("There is no photograph of this plant to look at again: take it out, or dismiss."))
        step = AppealStep.objects.create(appeal=locked, kind=Step.NAMES_ASKED.value, at=now, by=by, words=why.strip())
        _change(locked, "plant_waits", now, lambda: _void(locked, step))
        namers = {each.pk for each in holders_of(NAME_ANEW)} - {by.pk, locked.evidence.person_id}
        day = locked.decide_by.isoformat()
        note_for(sorted(namers), "names_wanted", now, appeal=locked.key, decide_by=day)
        # Nobody who names the plant reads what was appealed, or why. One taken out of the bank is named here alone.
        with suppress(NotInTheBank):
            ask_second_look(locked.evidence.specimen, by=by, why=_("An appeal asks for new names."), now=now)
    return locked


def name_anew(appeal: Appeal, by: User, said: str, species: Species | None, characters: str, now: datetime) -> None:
    """One of the two new names, given without having been told any. Raises AppealRefused."""
    with transaction.atomic():
        locked = locked_appeal(appeal)
        asked = locked.steps.filter(kind=Step.NAMES_ASKED.value).first()
        if asked is None:
            raise AppealRefused(_("Nobody has asked for new names for this plant."))
        if by.pk == locked.evidence.person_id:
            raise AppealRefused(_("It is your own appeal: others name the plant anew."))
        specimen = locked.evidence.specimen
        if Determination.objects.filter(specimen=specimen, determiner=by, determined_at__gte=asked.at).exists():
            raise AppealRefused(_("You have named this plant anew already, thank you."))
        determine(specimen, said=said, species=species, characters=characters, by=by, now=now)
        Seen.objects.get_or_create(person=by, specimen=specimen, defaults={"seen_at": now, "why": Seen.DETERMINATION})
        refresh_standings(people_concerned(specimen.pk), now)


def decide(appeal: Appeal, by: User, verdict: Verdict, now: datetime) -> Appeal:
    """Decide, once and with reasons; everything that follows from it is computed again at once.

    Raises AppealRefused: somebody involved, no reasons, an outcome that is not open; AlreadyEnded to the second
    of two who decide at the same moment.
    """
    try:
        with transaction.atomic():
            locked = locked_appeal(appeal)
            found = _eligible(locked, by)
            _refuse_incomplete(locked, verdict, found)
            step = AppealStep.objects.create(
                appeal=locked,
                kind=verdict.outcome.value,
                at=now,
                by=by,
                words=verdict.reasons.strip(),
                exception=verdict.exception.strip() if found.exception else "",
            )
            _carry_out(locked, step, now)
            note_for(
                [locked.evidence.person_id],
                "appeal_decided",
                now,
                appeal=locked.key,
                outcome=step.kind,
                reasons=step.words,
            )
    except IntegrityError as error:
        raise AlreadyEnded(_("Somebody else decided this appeal at the same moment.")) from error
    return locked


def _eligible(appeal: Appeal, by: User) -> Eligibility:
    found = eligibility_of(by, appeal)
    if not found.may_decide:
        raise AppealRefused(*bars_to_you(found.bars))
    return found


def _refuse_incomplete(appeal: Appeal, verdict: Verdict, found: Eligibility) -> None:
    if not verdict.reasons.strip():
        raise AppealRefused(_("Write down your reasons: the person reads them."))
    if found.exception and not verdict.exception.strip():
        raise AppealRefused(_("You had a part in this question: write down why nobody else can decide."))
    names = new_names_of(appeal)
    if verdict.outcome not in outcomes_open(names):
        if names is None:
            raise AppealRefused(_("Nobody has named this plant anew yet: ask for two new names first."))
        raise AppealRefused(new_names_sentence(names), _("This decision is not open now: choose another."))


def _carry_out(appeal: Appeal, step: AppealStep, now: datetime) -> None:
    if step.kind == Step.VOIDED:
        _change(appeal, "plant_void", now, lambda: _void(appeal, step))
    elif appeal.voiding is not None:
        kind = "plant_renamed" if step.kind == Step.NAMED_ANEW else "plant_counts_again"
        _change(appeal, kind, now, lambda: _lift(appeal, step))


def _void(appeal: Appeal, step: AppealStep) -> None:
    """Void the whole specimen; an appeal that did so while names were asked for leaves it at that."""
    if appeal.voiding is not None:
        return
    appeal.voiding = Voiding.objects.create(
        specimen=appeal.evidence.specimen, voided_at=step.at, voided_by=step.by, reason=step.words
    )
    appeal.save(update_fields=["voiding"])


def _lift(appeal: Appeal, step: AppealStep) -> None:
    voiding = appeal.voiding
    assert voiding is not None  # it is lifted only where there is one
    voiding.lifted_at, voiding.lifted_by = step.at, step.by
    voiding.save(update_fields=["lifted_at", "lifted_by"])


def _change(appeal: Appeal, kind: str, now: datetime, change: Callable[[], None]) -> None:
    change_and_tell(appeal.evidence.specimen_id, kind, now, change)
