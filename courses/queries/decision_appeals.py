"""Decisions about certificates that can be appealed, their appeals, and who may decide those."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date, datetime

from django.utils import timezone

from assessments.models import Standard
from assessments.rules.appeals import last_day
from courses.models import Application, Certificate, CertificateEvent, DecisionAppeal, Person
from courses.queries.deciding import deciders_about
from courses.queries.lives import life_on
from courses.queries.people import Viewer
from courses.querysets import DecisionAppealQuerySet
from courses.rules.certification import State
from courses.rules.decision_appeals import (
    Bar,
    Decision,
    Eligibility,
    Follows,
    Refusal,
    appeal_refusal,
    bars_of,
    eligibilities,
    what_follows,
)

APPEALABLE = frozenset(decision.value for decision in Decision)


@dataclass(frozen=True)
class DecisionTaken:
    """A decision that took something from somebody, as it stands on a day, with its appeal if there is one.

    One of `application` (declined) and `event` (of `certificate`, which is in `state`) is set. `until`: the last day
    to appeal; `refusal`: why it cannot be appealed on that day.
    """

    decision: Decision
    person: Person
    standard: Standard
    on: date
    by: Person | None
    reason: str
    until: date
    refusal: Refusal | None
    appeal: DecisionAppeal | None
    application: Application | None = None
    event: CertificateEvent | None = None
    certificate: Certificate | None = None
    state: State | None = None

    @property
    def renewable(self) -> Certificate | None:
        """The certificate that a new one would follow: what is withdrawn is followed by none."""
        return self.certificate if self.state is not State.WITHDRAWN else None

    @property
    def follows(self) -> Follows:
        """What upholding an appeal against it does on that day."""
        return what_follows(self.decision, self.state)


def declined(application: Application, appeal: DecisionAppeal | None, today: date) -> DecisionTaken | None:
    """The decision on an application; None unless it was declined."""
    if application.decided_at is None or application.granted:
        return None
    on, standard = timezone.localdate(application.decided_at), application.standard
    return DecisionTaken(
        decision=Decision.DECLINED,
        person=application.person,
        standard=standard,
        on=on,
        by=application.decided_by,
        reason=application.reason,
        until=last_day(on, standard.appeal_days),
        refusal=appeal_refusal(on, standard.appeal_days, today, appealed=appeal is not None),
        appeal=appeal,
        application=application,
    )


def step_taken(event: CertificateEvent, appeal: DecisionAppeal | None, today: date) -> DecisionTaken | None:
    """The decision behind a step of a certificate; None for steps that take nothing away."""
    if event.kind not in APPEALABLE:
        return None
    on, certificate = timezone.localdate(event.happened_at), event.certificate
    standard = certificate.standard
    return DecisionTaken(
        decision=Decision(event.kind),
        person=certificate.person,
        standard=standard,
        on=on,
        by=event.by,
        reason=event.reason,
        until=last_day(on, standard.appeal_days),
        refusal=appeal_refusal(on, standard.appeal_days, today, appealed=appeal is not None),
        appeal=appeal,
        event=event,
        certificate=certificate,
        state=life_on(certificate, today).state,
    )


def decision_appealed(appeal: DecisionAppeal, today: date) -> DecisionTaken:
    """What an appeal, fetched whole, speaks against."""
    taken = declined(appeal.application, appeal, today) if appeal.application else None
    taken = step_taken(appeal.event, appeal, today) if appeal.event else taken
    if taken is None:
        raise ValueError(f"{appeal} speaks against no decision that can be appealed.")
    return taken


def declined_of(person: Person, now: datetime) -> list[DecisionTaken]:
    """One's own applications that were declined, the latest first; one query."""
    rows = person.applications.filter(decided_at__isnull=False, granted=False).order_by("-decided_at")
    today = timezone.localdate(now)
    found = [
        declined(row, getattr(row, "appeal", None), today)
        for row in rows.select_related("standard", "decided_by", "appeal", "person")
    ]
    return [each for each in found if each]


def steps_of(certificate: Certificate, now: datetime) -> dict[int, DecisionTaken]:
    """By id of the step what of a certificate can be appealed, or could once; two queries."""
    today = timezone.localdate(now)
    rows = certificate.events.select_related("by", "appeal").order_by("happened_at", "pk")
    taken = {}
    for row in rows:
        row.certificate = certificate  # its events are at hand
        found = step_taken(row, getattr(row, "appeal", None), today)
        if found:
            taken[row.pk] = found
    return taken


def own_declined(person: Person, pk: int, now: datetime) -> DecisionTaken | None:
    """One declined application of this person."""
    return next((each for each in declined_of(person, now) if each.application and each.application.pk == pk), None)


def appeals_seen_by(viewer: Viewer) -> DecisionAppealQuerySet:
    """All for organisers, their own for everybody else."""
    rows = DecisionAppeal.objects.whole()
    if viewer.person is None:
        return rows.none()
    return rows if viewer.is_organiser else rows.filter(person=viewer.person)


@dataclass(frozen=True)
class AppealLine:
    """An appeal with what it speaks against, and who may decide it."""

    appeal: DecisionAppeal
    taken: DecisionTaken
    deciders: dict[Person, Eligibility]
    today: date

    @property
    def is_late(self) -> bool:
        return self.appeal.ended_at is None and self.appeal.decide_by < self.today

    @property
    def may_decide(self) -> list[Person]:
        """Everybody who may."""
        return [person for person, each in self.deciders.items() if each.may_decide]

    def eligibility(self, person: Person) -> Eligibility:
        """Whether one person may."""
        return self.deciders.get(person, Eligibility((Bar.MAY_NOT_DECIDE,)))


def appeal_lines(appeals: Iterable[DecisionAppeal], now: datetime) -> list[AppealLine]:
    """Appeals, fetched whole, with everything that is said of them; a constant number of queries."""
    found, today = list(appeals), timezone.localdate(now)
    about = deciders_about(_people(found), now) if found else {}
    lines = []
    for appeal in found:
        taken = decision_appealed(appeal, today)
        facts = about[appeal.person_id]
        by = taken.by.pk if taken.by else None
        bars = {each.pk: bars_of(facts[each], decided_it=each.pk == by) for each in facts}
        may = eligibilities(bars)
        lines.append(AppealLine(appeal, taken, {each: may[each.pk] for each in facts}, today))
    return lines


def _people(appeals: Collection[DecisionAppeal]) -> list[Person]:
    return list({appeal.person_id: appeal.person for appeal in appeals}.values())
