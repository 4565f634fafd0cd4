"""Appeals: whether an answer may be appealed, until when, and who may decide."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from django.contrib.auth.models import User
from django.utils import timezone

from assessments.models import Appeal, Evidence, Standard, Voiding
from assessments.querysets import AppealQuerySet
from assessments.rules.appeals import Bar, Eligibility, NewNames, State, Step, eligibility, last_day, state_of
from species.models import Determination
from species.queries.opinions import opinion
from species.rules.determination import settled
from species.rules.vocabulary import Settlement

from .assessors import testers_of

DECIDE = "assessments.decide_appeal"
NAME_ANEW = "species.add_determination"


@dataclass(frozen=True)
class Terms:
    """Until when (a day, itself included) an answer may be appealed, and in how many days that is decided."""

    until: date
    decided_days: int


def terms_of(evidence: Evidence) -> Terms:
    """The terms of the standard that the paper was set for, counted from the day the result was first seen.

    An answer to a living plant has no paper: the numbers that a new standard begins with, from the day it was
    recorded.
    """
    sitting = evidence.sitting
    standard = sitting.seat.paper.standard if sitting else Standard()
    known = (sitting.result_shown_at or sitting.settled_at) if sitting else evidence.recorded_at
    begins = timezone.localdate(known or evidence.recorded_at)
    return Terms(last_day(begins, standard.appeal_days), standard.appeal_decided_days)


class Obstacle(StrEnum):
    """Why an answer cannot be appealed now."""

    TOO_LATE = "too_late"
    ALREADY_VOID = "already_void"


def obstacle_to(evidence: Evidence, now: datetime) -> Obstacle | None:
    """What keeps an answer from being appealed: the question of the page and of the action."""
    void = Voiding.objects.standing().filter(specimen=evidence.specimen_id)
    if void.exclude(appeal__in=Appeal.objects.undecided()).exists():
        return Obstacle.ALREADY_VOID
    return Obstacle.TOO_LATE if timezone.localdate(now) > terms_of(evidence).until else None


def answer_at(person_id: int, key: str, position: int, plant: int = 1) -> Evidence | None:
    """A settled answer of this person, by the key of the paper or of the sitting and the position.

    `plant`: which of the plants of that question, counted from one; most questions show one.
    """
    rows = Evidence.objects.filter(person_id=person_id, position=position, sitting__annulled_at__isnull=True)
    rows = rows.select_related("sitting__seat__paper__standard", "specimen__species", "named", "appeal", "person")
    found = list((rows.filter(sitting__seat__paper__key=key) | rows.filter(sitting__key=key)).in_order())
    return found[plant - 1] if 0 < plant <= len(found) else None


def states_of_appeals(sitting_id: int) -> dict[tuple[int, int], State]:
    """How far the appeals of one sitting are, by position and specimen; two queries."""
    rows = Appeal.objects.filter(evidence__sitting=sitting_id).select_related("evidence").prefetch_related("steps")
    return {
        (each.evidence.position, each.evidence.specimen_id): state_of([step.kind for step in each.steps.all()])
        for each in rows
    }


def whole_appeals() -> AppealQuerySet:
    """Appeals with everything that pages say of them; steps at hand, oldest first."""
    return Appeal.objects.select_related(
        "evidence__person",
        "evidence__named",
        "evidence__specimen__species",
        "evidence__sitting__seat__paper__standard",
        "evidence__station__spot_test",
        "held_for",
        "voiding",
    ).prefetch_related("steps__by")


def holders_of(permission: str) -> list[User]:
    """Everybody who holds this permission and can sign in, by name."""
    return list(User.objects.with_perm(permission).order_by("first_name", "last_name", "email"))


@dataclass(frozen=True)
class Decider:
    """Somebody with their eligibility for one appeal."""

    person: User
    eligibility: Eligibility


def deciders_of(appeals: Collection[Appeal]) -> dict[int, list[Decider]]:
    """For each appeal (by id) everybody who decides appeals at all, and what bars them; a few queries for all."""
    holders = holders_of(DECIDE)
    testers = testers_of({appeal.evidence.person_id for appeal in appeals})
    namers = _namers({appeal.evidence.specimen_id for appeal in appeals})
    found = {}
    for appeal in appeals:
        others = [each for each in holders if each.pk != appeal.evidence.person_id]
        found[appeal.pk] = [
            Decider(
                person,
                eligibility(
                    _bars(appeal, person, testers[appeal.evidence.person_id], namers[appeal.evidence.specimen_id]),
                    is_only_one=[each.pk for each in others] == [person.pk],
                ),
            )
            for person in holders
        ]
    return found


def eligibility_of(person: User, appeal: Appeal) -> Eligibility:
    """Whether one person may decide one appeal."""
    for each in deciders_of([appeal])[appeal.pk]:
        if each.person.pk == person.pk:
            return each.eligibility
    return Eligibility((Bar.MAY_NOT_DECIDE,))


def _bars(appeal: Appeal, person: User, testers: Collection[int], namers: Collection[str]) -> list[Bar]:
    sitting, bars = appeal.evidence.sitting, []
    if person.pk == appeal.evidence.person_id:
        bars.append(Bar.APPEALED)
    if sitting is not None and sitting.seat.paper.set_by_id == person.pk:
        bars.append(Bar.SET_THE_TEST)
    if _word_for(person.email, person.pk) in namers:
        bars.append(Bar.NAMED_THE_PLANT)
    if person.pk in testers and Bar.SET_THE_TEST not in bars:
        bars.append(Bar.ASSESSED_THE_PERSON)
    return bars


def _namers(specimens: Collection[int]) -> dict[int, set[str]]:
    """Who ever named each of these specimens, by their address, since an invitation knows no user."""
    found: dict[int, set[str]] = defaultdict(set)
    rows = Determination.objects.filter(specimen_id__in=specimens).order_by()
    for specimen, user, email, invited in rows.values_list(
        "specimen_id", "determiner_id", "determiner__email", "link__email"
    ):
        found[specimen].add(_word_for(email or invited or "", user))
    return found


def _word_for(email: str, user: int | None) -> str:
    return email.strip().lower() or f"user {user}"


def new_names_of(appeal: Appeal) -> NewNames | None:
    """What became of asking for new names; None while nobody was asked. The appellant's own does not count."""
    asked = next((step for step in appeal.steps.all() if step.kind == Step.NAMES_ASKED), None)
    if asked is None:
        return None
    specimen = appeal.evidence.specimen
    rows = Determination.objects.filter(specimen=specimen, determined_at__gte=asked.at)
    new = [opinion(row) for row in rows.select_related("species", "link", "determiner")]
    own = _word_for(appeal.evidence.person.email, appeal.evidence.person_id)
    found = settled(each for each in new if each.determiner != own)
    agreed = found.settlement == specimen.settlement == Settlement.CONFIRMED and specimen.species is not None
    agreed = agreed and specimen.species is not None and found.species == specimen.species.key
    return NewNames(found.determiners, agreed, agreed and specimen.species_id != appeal.held_for_id)
