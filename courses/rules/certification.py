"""Whether a certificate may be issued, and what stands in the way. Pure: facts in, a verdict with its reasons out."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from assessments.rules.gaps import Gap
from assessments.rules.standing import Standing
from assessments.rules.windows import months_later


class Obstacle(StrEnum):
    """What stands in the way beside missing evidence."""

    EVIDENCE_MISSING = "evidence_missing"
    NOT_APPLIED = "not_applied"
    NO_DECIDER = "no_decider"
    DECIDER_IS_THE_HOLDER = "decider_is_the_holder"
    DECIDER_MAY_NOT_DECIDE = "decider_may_not_decide"
    DECIDER_TAUGHT = "decider_taught"
    DECIDER_ASSESSED = "decider_assessed"
    DECIDER_HAS_CONFLICT = "decider_has_conflict"
    HAS_A_CURRENT_ONE = "has_a_current_one"
    PASS_RAN_OUT = "pass_ran_out"
    NAME_CANNOT_BE_PRINTED = "name_cannot_be_printed"
    WORDS_CANNOT_BE_PRINTED = "words_cannot_be_printed"
    NOT_AGREED = "not_agreed"
    RENEWED_ON_OLD_EVIDENCE = "renewed_on_old_evidence"
    RENEWED_STANDS_STILL = "renewed_stands_still"


ABOUT_THE_DECIDER = frozenset(
    {
        Obstacle.DECIDER_IS_THE_HOLDER,
        Obstacle.DECIDER_MAY_NOT_DECIDE,
        Obstacle.DECIDER_TAUGHT,
        Obstacle.DECIDER_ASSESSED,
        Obstacle.DECIDER_HAS_CONFLICT,
    }
)
"""What keeps this decider from deciding at all, whatever the evidence says."""


@dataclass(frozen=True)
class DeciderFacts:
    """Who decides, as far as impartiality goes. `is_only_one`: nobody else in the school could decide."""

    is_holder: bool
    may_decide: bool
    taught: bool
    assessed: bool
    is_only_one: bool = False
    has_conflict: bool = False


@dataclass(frozen=True)
class Certification:
    """The one answer that the page shows and that the action obeys.

    `gaps` is what the evidence lacks; `obstacles` everything in the way, that first. `exception` is set where a
    school of one person decides on somebody they taught or assessed, or about whom they declared a conflict of
    interest: it is printed on the certificate.
    """

    standing: Standing
    obstacles: tuple[Obstacle, ...]
    exception: tuple[Obstacle, ...] = ()

    @property
    def gaps(self) -> tuple[Gap, ...]:
        return self.standing.gaps

    @property
    def may_be_issued(self) -> bool:
        return not self.obstacles

    @property
    def may_be_declined(self) -> bool:
        """Declining asks nothing of the evidence, and as much of the decider as issuing does."""
        return not ABOUT_THE_DECIDER & set(self.obstacles)


def certification(
    standing: Standing,
    *,
    applied: bool,
    has_current: bool,
    decider: DeciderFacts | None,
    pass_ran_out: bool = False,
    printable: bool = True,
    words_printable: bool = True,
    agreed: bool = True,
    on_old_evidence: bool = False,
    renewed_stands_still: bool = False,
) -> Certification:
    """What stands between a person and a certificate if this decider decides now.

    A decider who taught or assessed the person, or declared a conflict of interest, may decide only where nobody
    else could, and then the certificate says so. Holder and decider are never the same person.

    `pass_ran_out`: a certificate on this pass would be over already, since validity is counted from the pass and
    never moved. `agreed`: the person has agreed to how a certificate may be used; `on_old_evidence`: a renewal would
    rest on what the old certificate rests on; `renewed_stands_still`: that one is suspended, withdrawn or was renewed
    meanwhile. `words_printable`: so are the other names on it, those of plants,
    school, standard and decider.
    """
    obstacles: list[Obstacle] = []
    if not standing.passed:
        obstacles.append(Obstacle.EVIDENCE_MISSING)
    if pass_ran_out:
        obstacles.append(Obstacle.PASS_RAN_OUT)
    if not printable:
        obstacles.append(Obstacle.NAME_CANNOT_BE_PRINTED)
    if not words_printable:
        obstacles.append(Obstacle.WORDS_CANNOT_BE_PRINTED)
    if on_old_evidence:
        obstacles.append(Obstacle.RENEWED_ON_OLD_EVIDENCE)
    if renewed_stands_still:
        obstacles.append(Obstacle.RENEWED_STANDS_STILL)
    if has_current:
        obstacles.append(Obstacle.HAS_A_CURRENT_ONE)
    if not applied:
        obstacles.append(Obstacle.NOT_APPLIED)
    elif not agreed:
        obstacles.append(Obstacle.NOT_AGREED)
    if decider is None:
        return Certification(standing, (*obstacles, Obstacle.NO_DECIDER))
    impartiality = impartiality_of(decider)
    return Certification(standing, (*obstacles, *impartiality.bars), impartiality.exception)


@dataclass(frozen=True)
class Impartiality:
    """Whether somebody may decide about a person: not if there are `bars`. `exception`: see Certification."""

    bars: tuple[Obstacle, ...] = ()
    exception: tuple[Obstacle, ...] = ()


def impartiality_of(decider: DeciderFacts) -> Impartiality:
    """What keeps this decider from deciding about that person, or is set aside as nobody else could."""
    bars = []
    if decider.is_holder:
        bars.append(Obstacle.DECIDER_IS_THE_HOLDER)
    if not decider.may_decide:
        bars.append(Obstacle.DECIDER_MAY_NOT_DECIDE)
    partial = _partialities(decider)
    if decider.is_only_one:
        return Impartiality(tuple(bars), partial)
    return Impartiality((*bars, *partial))


def _partialities(decider: DeciderFacts) -> tuple[Obstacle, ...]:
    found = (
        (decider.taught, Obstacle.DECIDER_TAUGHT),
        (decider.assessed, Obstacle.DECIDER_ASSESSED),
        (decider.has_conflict, Obstacle.DECIDER_HAS_CONFLICT),
    )
    return tuple(obstacle for holds, obstacle in found if holds)


class State(StrEnum):
    """What a certificate is worth on a day."""

    CURRENT = "current"
    EXPIRED = "expired"
    SUSPENDED = "suspended"
    WITHDRAWN = "withdrawn"


def state_of(valid_from: date, valid_until: date, events: tuple[str, ...], today: date) -> State:
    """The state on a day: `events` are the kinds of what happened, in order ("suspended", "lifted", "withdrawn").

    Withdrawal is for ever; a suspension lasts until it is lifted; the last day of validity still counts.
    """
    if "withdrawn" in events:
        return State.WITHDRAWN
    if today > valid_until or today < valid_from:
        return State.EXPIRED
    standing = [event for event in events if event in ("suspended", "lifted")]
    if standing and standing[-1] == "suspended":
        return State.SUSPENDED
    return State.CURRENT


def last_valid_day(passed_on: date, months: int) -> date:
    """The last day of validity: the same day of the month so many months later, or that month's last day."""
    return months_later(passed_on, months)
