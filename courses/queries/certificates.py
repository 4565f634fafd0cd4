"""Certificates and applications as pages show them, with what they are worth now."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import QuerySet
from django.utils import timezone

from assessments.models import Standard
from assessments.queries.flora import the_flora
from courses.documents.facts import CertificateFacts
from courses.models import Application, Certificate, Person
from courses.queries.certification import certifications
from courses.queries.credentials import pairs_left, told_from
from courses.queries.lives import life_on
from courses.queries.people import Viewer
from courses.queries.reviews import under_review
from courses.queries.sentences.obstacles import Missing, missing_lines
from courses.rules.certification import Certification, Obstacle, State, state_of
from courses.rules.life import renewal_refusal


@dataclass(frozen=True)
class CertificateLine:
    """A certificate with its state now; `under_review` where today's evidence no longer carries it."""

    certificate: Certificate
    state: State
    under_review: bool

    @property
    def status(self) -> str:
        """The word of the status piece: review comes before current."""
        return "review" if self.under_review and self.state is State.CURRENT else self.state.value


@dataclass(frozen=True)
class ApplicationLine:
    """An open application with what stands in its way."""

    application: Application
    found: Certification
    missing: list[Missing]


def certificates_seen_by(viewer: Viewer) -> QuerySet[Certificate]:
    """All for those who work for the school, their own for everybody else."""
    rows = Certificate.objects.select_related("person__user", "standard", "decided_by").prefetch_related("events")
    if viewer.person is None:
        return rows.none()
    return rows if viewer.is_staff else rows.filter(person=viewer.person)


def state_on(certificate: Certificate, day: date) -> State:
    """The state of a certificate that comes with its events, on a day."""
    steps = tuple(event.kind for event in certificate.events.all())
    return state_of(certificate.valid_from, certificate.valid_until, steps, day)


def certificate_lines(certificates: Iterable[Certificate], now: datetime) -> list[CertificateLine]:
    """Certificates with their state and whether they are under review, in a constant number of queries."""
    found = list(certificates)
    today = timezone.localdate(now)
    states = {each.pk: state_on(each, today) for each in found}
    current = [each for each in found if states[each.pk] is State.CURRENT]
    review = under_review(current, now)
    return [CertificateLine(each, states[each.pk], each.pk in review) for each in found]


def pairs_to_keep(certificate: Certificate) -> list[tuple[str, str]]:
    """Key and names of each pair that a certificate still stands for."""
    left = pairs_left(certificate, CertificateFacts.from_json(certificate.facts))
    return [(pair.key, told_from(pair.gathered.common, pair.mistaken.common)) for pair in left]


def open_applications(decider: Person | None, now: datetime) -> list[ApplicationLine]:
    """Applications that wait for a decision, with what is missing if this person decides."""
    rows = list(Application.objects.undecided().select_related("person__user", "standard").order_by("applied_at"))
    flora, lines = the_flora(), []
    for standard in {row.standard_id: row.standard for row in rows}.values():
        mine = [row for row in rows if row.standard_id == standard.pk]
        found = certifications([row.person for row in mine], standard, decider, now)
        lines += [
            ApplicationLine(row, found[row.person_id], missing_lines(found[row.person_id], flora)) for row in mine
        ]
    return sorted(lines, key=lambda line: line.application.applied_at)


@dataclass(frozen=True)
class Prospect:
    """How far a person is towards a certificate under one standard in use.

    `held`: the certificate that they hold under it, where it is too early to renew it and so nothing to apply for.
    """

    standard: Standard
    found: Certification
    missing: list[Missing]
    application: Application | None
    renewable: Certificate | None
    held: Certificate | None = None

    @property
    def agreed(self) -> bool:
        """Whether no agreement is lacking: there is no application, or it came with one."""
        return self.application is None or self.application.agreed_at is not None


def prospects(person: Person, now: datetime) -> list[Prospect]:
    """Every standard in use, with what this person still lacks; applying itself is not a lack here."""
    flora = the_flora()
    applied = {row.standard_id: row for row in Application.objects.undecided().filter(person=person)}
    renewable, held, lines = _renewable(person, now), _held(person, now), []
    for standard in Standard.objects.in_use():
        found = certifications([person], standard, None, now)[person.pk]
        missing = missing_lines(_own_matters(found), flora)
        renews, application = renewable.get(standard.key), applied.get(standard.pk)
        holds = None if renews or application else held.get(standard.pk)
        lines.append(Prospect(standard, found, missing, application, renews, holds))
    return lines


def _held(person: Person, now: datetime) -> dict[int, Certificate]:
    """By id of the standard the certificate that stands in the way of another one."""
    rows = Certificate.objects.of(person.pk).not_expired(timezone.localdate(now)).exclude(events__kind="withdrawn")
    return {row.standard_id: row for row in rows.order_by("valid_until")}


def _renewable(person: Person, now: datetime) -> dict[str, Certificate]:
    """By key of the standard the certificate of this person whose renewal may be asked for today."""
    today = timezone.localdate(now)
    rows = Certificate.objects.of(person.pk).select_related("standard").prefetch_related("events")
    return {
        row.standard.key: row
        for row in rows.order_by("valid_until")
        if renewal_refusal(life_on(row, today), today, same_standard=True) is None
    }


OWN_MATTERS = frozenset({Obstacle.EVIDENCE_MISSING, Obstacle.PASS_RAN_OUT, Obstacle.NAME_CANNOT_BE_PRINTED})


def _own_matters(found: Certification) -> Certification:
    """Without what others do, and without what follows from applying itself."""
    return Certification(found.standing, tuple(each for each in found.obstacles if each in OWN_MATTERS))


def missing_before(application: Application, decider: Person, now: datetime) -> tuple[Certification, list[Missing]]:
    """What is missing before this decider may grant an application: the list of the page and of the refusal."""
    found = certifications([application.person], application.standard, decider, now)[application.person_id]
    return found, missing_lines(found, the_flora())
