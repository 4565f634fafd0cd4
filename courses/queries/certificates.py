"""Certificates and applications as pages show them, with what they are worth now."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.db.models import QuerySet
from django.utils import timezone

from assessments.models import Standard
from assessments.queries.evidence import answers_of
from assessments.queries.flora import the_flora
from assessments.queries.standards import facts_of, standards_with_parts
from assessments.queries.standings import standings_of
from assessments.rules.standing import misses_since
from courses.models import Application, Certificate, Person
from courses.queries.certification import certifications
from courses.queries.people import Viewer
from courses.queries.sentences.obstacles import Missing, missing_lines
from courses.rules.certification import Certification, Obstacle, State, state_of


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


def certificate_lines(certificates: Iterable[Certificate], now: datetime) -> list[CertificateLine]:
    """Certificates with their state and whether they are under review, in a constant number of queries."""
    found = list(certificates)
    today = timezone.localdate(now)
    states = {
        each.pk: state_of(each.valid_from, each.valid_until, tuple(e.kind for e in each.events.all()), today)
        for each in found
    }
    current = [each for each in found if states[each.pk] is State.CURRENT]
    review = _under_review(current, now)
    return [CertificateLine(each, states[each.pk], each.pk in review) for each in found]


def _under_review(certificates: list[Certificate], now: datetime) -> set[int]:
    """Certificates whose evidence no longer passes, or with a dangerous miss after their issue."""
    review: set[int] = set()
    if not certificates:
        return review
    answers = answers_of([each.person.user_id for each in certificates])
    facts = facts_of(standards_with_parts().filter(pk__in={each.standard_id for each in certificates}))
    for standard in Standard.objects.filter(pk__in=facts):
        mine = [each for each in certificates if each.standard_id == standard.pk]
        standings = standings_of([each.person.user_id for each in mine], standard, now)
        for each in mine:
            later = misses_since(facts[standard.pk], answers[each.person.user_id], each.issued_at)
            if later or not standings[each.person.user_id].passed:
                review.add(each.pk)
    return review


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
    """How far a person is towards a certificate under one standard in use."""

    standard: Standard
    found: Certification
    missing: list[Missing]
    applied: bool


def prospects(person: Person, now: datetime) -> list[Prospect]:
    """Every standard in use, with what this person still lacks; applying itself is not a lack here."""
    flora, applied = (
        the_flora(),
        set(Application.objects.undecided().filter(person=person).values_list("standard_id", flat=True)),
    )
    lines = []
    for standard in Standard.objects.in_use():
        found = certifications([person], standard, None, now)[person.pk]
        lines.append(Prospect(standard, found, missing_lines(_own_matters(found), flora), standard.pk in applied))
    return lines


OWN_MATTERS = frozenset({Obstacle.EVIDENCE_MISSING, Obstacle.PASS_RAN_OUT, Obstacle.NAME_CANNOT_BE_PRINTED})


def _own_matters(found: Certification) -> Certification:
    """Without what others do, and without what follows from applying itself."""
    return Certification(found.standing, tuple(each for each in found.obstacles if each in OWN_MATTERS))


def missing_before(application: Application, decider: Person, now: datetime) -> tuple[Certification, list[Missing]]:
    """What is missing before this decider may grant an application: the list of the page and of the refusal."""
    found = certifications([application.person], application.standard, decider, now)[application.person_id]
    return found, missing_lines(found, the_flora())
