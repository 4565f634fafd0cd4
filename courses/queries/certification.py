"""What stands between a person and a certificate: one question, asked by the page and by the action alike."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from unicodedata import normalize

from django.db.models import Q
from django.utils import timezone

from assessments.models import Standard
from assessments.queries.assessors import assessors_of
from assessments.queries.evidence import windows_of
from assessments.queries.flora import the_flora
from assessments.queries.standings import standings_of
from assessments.rules.standard import WindowFacts
from courses.models import Application, Certificate, Conflict, Course, Person, Presence, Role, RoleGrant
from courses.queries.lives import life_on
from courses.queries.passes import passes_that_ran_out
from courses.queries.people import the_school
from courses.rules.certification import Certification, DeciderFacts, certification
from courses.rules.life import Step, step_refusal
from species.documents.fonts import unprintable


@dataclass(frozen=True)
class Involvement:
    """Which people had a hand in what a person learned and proved (ids of people)."""

    taught: frozenset[int]
    assessed: frozenset[int]

    @property
    def anyone(self) -> frozenset[int]:
        return self.taught | self.assessed


def gaps_before_certificate(person: Person, standard: Standard, decider: Person | None, now: datetime) -> Certification:
    """What is missing before this decider may issue this person a certificate under this standard."""
    return certifications([person], standard, decider, now)[person.pk]


def certifications(
    people: Collection[Person], standard: Standard, decider: Person | None, now: datetime
) -> dict[int, Certification]:
    """The same for several people, by their ids, in a constant number of queries."""
    ids = [person.pk for person in people]
    standings = standings_of([person.user_id for person in people], standard, now)
    ran_out = passes_that_ran_out([user for user, each in standings.items() if each.passed], standard, now)
    applied = _open_applications(ids, standard)
    holders = _holders(ids, standard, now)
    shy_of = conflicts([decider.pk], now)[decider.pk] if decider else frozenset()
    windows = windows_of([person.user_id for person in people], now)
    hands = involvements(people)
    could_decide = deciders(now)
    words_printable = _can_be_printed(_names_printed(standard, decider))
    return {
        person.pk: certification(
            standings[person.user_id],
            applied=person.pk in applied,
            has_current=bool(holders[person.pk] - {_renewed_by(applied.get(person.pk))}),
            decider=facts_about(person, decider, hands[person.pk], could_decide, shy_of) if decider else None,
            pass_ran_out=person.user_id in ran_out,
            printable=_can_be_printed(person.name),
            words_printable=words_printable,
            agreed=person.pk not in applied or applied[person.pk].agreed_at is not None,
            on_old_evidence=_is_on_old_evidence(applied.get(person.pk), windows[person.user_id]),
            renewed_stands_still=_renewed_stands_still(applied.get(person.pk), timezone.localdate(now)),
        )
        for person in people
    }


def _can_be_printed(text: str) -> bool:
    return not unprintable(normalize("NFC", text))


def _names_printed(standard: Standard, decider: Person | None) -> str:
    """The names on a certificate beside the holder's, in one text."""
    school, flora = the_school(), the_flora()
    pairs = standard.pairs.values_list("pair__gathered__key", "pair__mistaken__key")
    plants = [flora.plant(key) for pair in pairs for key in pair]
    names = [name for plant in plants for name in (plant.common_name, plant.name)]
    names += [school.name, school.region] if school else []
    return " ".join([*names, standard.name, decider.name if decider else ""])


def deciders(now: datetime) -> frozenset[int]:
    """The people who may decide on a day: the organisers."""
    held = RoleGrant.objects.held_on(timezone.localdate(now)).filter(role=Role.ORGANISER)
    return frozenset(held.filter(person__left_on__isnull=True).values_list("person_id", flat=True))


def decider_facts(person: Person, decider: Person, now: datetime) -> DeciderFacts:
    """How this decider stands to one person on a day."""
    hands, shy_of = involvements([person])[person.pk], conflicts([decider.pk], now)[decider.pk]
    return facts_about(person, decider, hands, deciders(now), shy_of)


def facts_about(
    person: Person, decider: Person, hands: Involvement, could_decide: frozenset[int], shy_of: frozenset[int]
) -> DeciderFacts:
    """The same, where everything is known. `could_decide`: all who decide at all; `shy_of`: see `conflicts`.

    The decider is the only one where the school has no other organiser at all who is not the person.
    """
    return DeciderFacts(
        is_holder=decider.pk == person.pk,
        may_decide=decider.pk in could_decide,
        taught=decider.pk in hands.taught,
        assessed=decider.pk in hands.assessed,
        is_only_one=not (could_decide - {decider.pk, person.pk}),
        has_conflict=person.pk in shy_of,
    )


def involvements(people: Collection[Person]) -> dict[int, Involvement]:
    """Who taught and who assessed each of these people; a constant number of queries.

    Taught: a tutor of a course in which they have or had a place, or whoever led a meeting that they were at.
    """
    ids = [person.pk for person in people]
    taught: dict[int, set[int]] = {pk: set() for pk in ids}
    tutors = Course.tutors.through.objects.filter(course__enrolments__person_id__in=ids)
    for pupil, tutor in tutors.values_list("course__enrolments__person_id", "person_id").distinct():
        if pupil in taught:
            taught[pupil].add(tutor)
    there = Person.objects.filter(pk__in=ids, attendances__meeting__leader__isnull=False).exclude(
        Q(attendances__presence=Presence.ABSENT)
    )
    for pupil, leader in there.values_list("pk", "attendances__meeting__leader_id").distinct():
        taught[pupil].add(leader)
    assessed = _assessed([person.user_id for person in people])
    return {
        person.pk: Involvement(frozenset(taught[person.pk] - {person.pk}), assessed.get(person.user_id, frozenset()))
        for person in people
    }


def _assessed(users: Collection[int]) -> Mapping[int, frozenset[int]]:
    by_user = assessors_of(users)
    known = dict(
        Person.objects.filter(user_id__in={u for found in by_user.values() for u in found}).values_list("user_id", "pk")
    )
    return {user: frozenset(known[each] for each in found if each in known) for user, found in by_user.items()}


def _open_applications(people: Collection[int], standard: Standard) -> dict[int, Application]:
    rows = standard.applications.undecided().filter(person_id__in=people).select_related("renews")
    return {row.person_id: row for row in rows.prefetch_related("renews__events", "appeals_before")}


def _renewed_stands_still(application: Application | None, today: date) -> bool:
    """Whether the certificate that would be renewed can no longer be followed by another."""
    if application is None or application.renews is None:
        return False
    life = life_on(application.renews, today)
    return life.was_renewed or step_refusal(life, Step.RENEWED) is not None


def _renewed_by(application: Application | None) -> int | None:
    return application.renews_id if application else None


def _is_on_old_evidence(application: Application | None, windows: Sequence[WindowFacts]) -> bool:
    """Whether the evidence that counts now began before the certificate that would be renewed was issued.

    Where an appeal against narrowing was upheld, the evidence of then is just what the new certificate rests on; it
    lasts as long as that evidence does.
    """
    if application is None or application.renews is None or application.appeals_before.all():
        return False
    renewed = application.renews
    return any(window.opened_at <= renewed.issued_at for window in windows)


def conflicts(deciding: Collection[int], now: datetime) -> dict[int, frozenset[int]]:
    """By id of a decider the people about whom they declared that they should not decide; one query."""
    today = timezone.localdate(now)
    rows = Conflict.objects.filter(Q(ended_on__isnull=True) | Q(ended_on__gt=today), decider__in=deciding)
    found = set(rows.values_list("decider_id", "about_id"))
    return {each: frozenset(about for decider, about in found if decider == each) for each in deciding}


def _holders(people: Collection[int], standard: Standard, now: datetime) -> dict[int, set[int]]:
    """By person their certificates under this very version that are neither expired nor withdrawn."""
    held: dict[int, set[int]] = {person: set() for person in people}
    rows = Certificate.objects.filter(person_id__in=people, standard=standard).not_expired(timezone.localdate(now))
    for pk, person in rows.exclude(events__kind="withdrawn").values_list("pk", "person_id"):
        held[person].add(pk)
    return held
