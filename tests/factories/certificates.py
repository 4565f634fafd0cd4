"""Makers of evidence that passes, applications, certificates and proofs."""

from datetime import date, datetime, timedelta

from django.utils import timezone

from assessments.models import Evidence, Paper, Period, Seat, Sitting, Standard, Window
from courses.actions.certified_pairs import write_pairs
from courses.documents.facts import CertificateFacts, PairEvidence, PlantName
from courses.models import Application, Certificate, FoundingAssessor, Person, RequirementRecord
from courses.rules.certification import last_valid_day
from species.models import Pair, Species
from tests.factories.assessments import make_live_evidence
from tests.factories.species import SpecimenFactory

PHOTOGRAPHS = 15


def open_window(person: Person, at: datetime) -> Window:
    """The first window of a period of two years that began then."""
    period = Period.objects.create(
        person=person.user, number=1, started_at=at, ends_at=last_moment(at), is_renewal=False
    )
    return Window.objects.create(period=period, number=1, opened_at=at, opened_by=person.user)


def last_moment(at: datetime) -> datetime:
    return at + timedelta(days=730)


def sit_paper(person: Person, standard: Standard, set_by: Person, at: datetime) -> Sitting:
    """A paper that somebody set and this person sat and settled."""
    paper = Paper.objects.create(
        title="A paper", standard=standard, questions=30, opens_at=at, seed=1, set_by=set_by.user, set_at=at
    )
    seat = Seat.objects.create(paper=paper, person=person.user, opens_at=at)
    return Sitting.objects.create(seat=seat, opened_at=at, handed_in_at=at, settled_at=at)


def answer_photographs(
    sitting: Sitting, species: Species, decision: str, count: int = PHOTOGRAPHS, **plant: object
) -> None:
    """So many answers to as many plants of a species, rightly named."""
    person, at, before = sitting.seat.person, sitting.opened_at, sitting.evidence.count()
    Evidence.objects.bulk_create(
        Evidence(
            person=person,
            specimen=SpecimenFactory(species=species, **plant),
            sitting=sitting,
            medium="photo",
            decision=decision,
            named=species,
            said=species.name,
            confidence="sure",
            opened_at=at,
            position=before + number,
            shown_at=at,
            recorded_at=at,
            recorded_by=person,
        )
        for number in range(1, count + 1)
    )


def give_pass(
    person: Person,
    standard: Standard,
    pair: Pair,
    *,
    set_by: Person,
    checked_by: Person,
    at: datetime | None = None,
    **plant: object,
) -> None:
    """Evidence that passes one pair: photographs of both plants, and three living ones on two occasions.

    `plant`: fields of every specimen, such as its stage.
    """
    # at noon, so that what takes three hours lies on one day whenever the tests run
    moment = at or timezone.localtime().replace(hour=12, minute=0) - timedelta(days=3)
    open_window(person, moment)
    sitting = sit_paper(person, standard, set_by, moment)
    answer_photographs(sitting, pair.mistaken, "refuse", **plant)
    answer_photographs(sitting, pair.gathered, "gather", **plant)
    for hours in (1, 2, 3):
        specimen = SpecimenFactory(species=pair.mistaken, **plant)
        make_live_evidence(person.user, specimen, "refuse", by=checked_by.user, at=moment + timedelta(hours=hours))


def gather_dangerous(person: Person, pair: Pair, by: Person) -> Evidence:
    """One miss, now."""
    return make_live_evidence(person.user, SpecimenFactory(species=pair.mistaken), "gather", by=by.user)


def trust_founder(person: Person) -> FoundingAssessor:
    """Put somebody on record as a founding assessor, since long ago."""
    since = timezone.localdate() - timedelta(days=3000)
    return FoundingAssessor.objects.create(
        person=person, reason="Ten seasons here.", recorded_by=person, recorded_on=since
    )


def make_application(person: Person, standard: Standard) -> Application:
    """An application that waits for a decision."""
    now = timezone.now()
    return Application.objects.create(person=person, standard=standard, applied_at=now, statement=True, agreed_at=now)


def make_facts(pairs: int = 1, **fields: object) -> CertificateFacts:
    """What a certificate says, with so many pairs of equal figures."""
    evidence = tuple(
        PairEvidence(
            key=f"pair-{number}",
            gathered=PlantName(f"goodleaf {number}", f"Bona folia-{number}"),
            mistaken=PlantName(f"badleaf {number}", f"Mala folia-{number}"),
            stages=("rosette", "flower"),
            specimens=24,
            live=3,
            occasions=2,
            misses=1 if number == 2 else 0,
            limit=0.1725,
            recognised=12,
        )
        for number in range(1, pairs + 1)
    )
    values: dict[str, object] = {
        "number": "2026-0007",
        "key": "abcDEF123",
        "check_address": "https://school.example/check/abcDEF123/",
        "school": "Test School of Wild Food",
        "region": "The Test Coast",
        "holder": "Pat Participant",
        "standard": "Participant",
        "version": 2,
        "purpose": "",
        "tolerated_share": "one in 5",
        "false_pass": "10 %",
        "pairs": evidence,
        "first_evidence": date(2026, 3, 1),
        "last_evidence": date(2026, 5, 2),
        "issued_on": date(2026, 5, 12),
        "valid_from": date(2026, 5, 2),
        "valid_until": date(2028, 5, 2),
        "decider": "Olga Organiser",
        "cautions": ("Identification must be certain at every step.", "Local law comes first."),
    }
    return CertificateFacts(**{**values, **fields})  # type: ignore[arg-type]


def make_certificate(
    person: Person, standard: Standard, decided_by: Person, number: str = "2026-0007", **fields: object
) -> Certificate:
    """A certificate as a bare row, valid since yesterday, with or without evidence behind it."""
    first = timezone.localdate() - timedelta(days=1)
    facts = make_facts(number=number, key=f"key-{number}", holder=person.name)
    certificate = Certificate.objects.create(
        **{
            "number": number,
            "key": facts.key,
            "person": person,
            "standard": standard,
            "issued_at": timezone.now(),
            "valid_from": first,
            "valid_until": last_valid_day(first, 24),
            "decided_by": decided_by,
            "facts": facts.as_json(),
            **fields,
        }
    )
    write_pairs(certificate)
    return certificate


def show_proof(person: Person, kind: str, seen_by: Person, days_left: int | None = 300) -> RequirementRecord:
    """A ticket or a policy, valid since a while; `days_left` None for one without end, below 0 for a lapsed one."""
    today = timezone.localdate()
    until = None if days_left is None else today + timedelta(days=days_left)
    return RequirementRecord.objects.create(
        person=person,
        kind=kind,
        valid_from=today - timedelta(days=400),
        valid_until=until,
        seen_by=seen_by,
        seen_on=today,
    )
