"""What is known of people who might lead, and what the school asks of them; the same queries for one as for all."""

from collections import defaultdict
from collections.abc import Collection
from datetime import date
from typing import Any

from django.db.models import Count, Q
from django.utils import timezone

from courses.models import Certificate, CertificateEvent, LeadingGrant, Meeting, RequirementRecord, WalkPart
from courses.models import Requirement as RequirementRow
from courses.rules.certification import state_of
from courses.rules.readiness import BY_DEFAULT, Asked, Held, LeaderFacts, Leave, Occasion, Proof, Requirement

DAYS_IN_A_MONTH = 30.4375
Kind, Step = RequirementRecord.Kind, WalkPart.Step


def asked_of(part: str = RequirementRow.Part.LEADER) -> tuple[Asked, ...]:
    """What the school asks for a part in a walk; one query.

    Of leaders the usual is asked until the school has set something, of assistants nothing.
    """
    rows = RequirementRow.objects.filter(part=part).select_related("standard").order_by("order", "key")
    return tuple(_asked(row) for row in rows) or (BY_DEFAULT if part == RequirementRow.Part.LEADER else ())


def _asked(row: RequirementRow) -> Asked:
    kinds = {
        RequirementRow.Kind.CERTIFICATE: Requirement.CERTIFICATE,
        RequirementRow.Kind.WALKS: Requirement.ASSISTED_WALKS,
        RequirementRow.Kind.OBSERVED: Requirement.OBSERVED_WALK,
        RequirementRow.Kind.GRANT: Requirement.LEAVE_TO_LEAD,
    }
    requirement = kinds.get(RequirementRow.Kind(row.kind)) or Requirement(row.proof)
    within = round(row.within_months * DAYS_IN_A_MONTH) if row.within_months else None
    standard = row.standard.key if row.standard and requirement is Requirement.CERTIFICATE else ""
    return Asked(requirement, row.number, within, row.with_children, standard)


def occasion_of(meeting: Meeting) -> Occasion:
    """A walk as the rule sees it; its site must have been read with it."""
    day = timezone.localdate(meeting.starts_at)
    region = meeting.site.region if meeting.site else ""
    return Occasion(day, meeting.site_id, region, meeting.children_come)


class KnownOfLeaders:
    """What is known of people who might lead, read once in a constant number of queries.

    `people`: their ids, or None for everybody of whom anything is known. Rows are read as plain values: a large
    school has tens of thousands of them.
    """

    def __init__(self, people: Collection[int] | None = None) -> None:
        self._certificates = _certificates(people)
        self._proofs, self._inductions = _proofs(people)
        self._walked = _walked(people)
        self._leaves = _leaves(people)

    def on(self, person: int, day: date) -> LeaderFacts:
        """What is known of one person, with certificates as they stand on a day."""
        proofs, walked = self._proofs.get(person, {}), self._walked.get(person, {})
        held = self._certificates.get(person, ())
        return LeaderFacts(
            certificates=tuple([Held(state_of(*life, day), life[1], *rest) for life, rest in held]),
            first_aid=tuple(proofs.get(Kind.FIRST_AID, ())),
            insurance=tuple(proofs.get(Kind.INSURANCE, ())),
            conduct=tuple(proofs.get(Kind.CONDUCT, ())),
            safeguarding=tuple(proofs.get(Kind.SAFEGUARDING, ())),
            induction={site: tuple(each) for site, each in self._inductions.get(person, {}).items()},
            assisted_on=tuple(walked.get(Step.ASSISTED, ())),
            observed_on=tuple(walked.get(Step.OBSERVED, ())),
            leaves=tuple(self._leaves.get(person, ())),
        )


def _of(people: Collection[int] | None, field: str = "person_id") -> Q:
    return Q() if people is None else Q(**{f"{field}__in": people})


Life = tuple[date, date, tuple[str, ...]]
"""First and last day of a certificate, and what happened to it, in order."""


def _certificates(people: Collection[int] | None) -> dict[int, list[tuple[Life, tuple[str, bool, int, int]]]]:
    """By person the life of every certificate, with its standard, whether that leads, and the pairs left and named."""
    events: dict[int, list[str]] = defaultdict(list)
    happened = CertificateEvent.objects.filter(_of(people, "certificate__person_id"))
    for certificate, kind in happened.order_by("happened_at", "id").values_list("certificate_id", "kind"):
        events[certificate].append(kind)
    left = Count("certified_pairs", filter=Q(certified_pairs__dropped_by=None))
    rows = Certificate.objects.filter(_of(people)).annotate(left=left, named=Count("certified_pairs")).order_by()
    found: dict[int, list[tuple[Life, tuple[str, bool, int, int]]]] = defaultdict(list)
    columns = ("standard__key", "standard__leads_walks", "left", "named")
    for pk, person, first, last, *rest in rows.values_list("pk", "person_id", "valid_from", "valid_until", *columns):
        standard, leads, pairs, named = rest
        found[person].append(((first, last, tuple(events.get(pk, ()))), (standard, leads, pairs, named)))
    return found


Proofs = dict[int, dict[Any, list[Proof]]]
"""By person, then by kind or by the id of a site."""


def _proofs(people: Collection[int] | None) -> tuple[Proofs, Proofs]:
    """Proofs by kind, and inductions by site."""
    proofs: Proofs = defaultdict(lambda: defaultdict(list))
    inductions: Proofs = defaultdict(lambda: defaultdict(list))
    rows = RequirementRecord.objects.filter(_of(people)).order_by()
    for person, kind, site, first, last in rows.values_list(
        "person_id", "kind", "site_id", "valid_from", "valid_until"
    ):
        if kind != Kind.INDUCTION:
            proofs[person][kind].append(Proof(first, last))
        elif site is not None:
            inductions[person][site].append(Proof(first, last))
    return proofs, inductions


def _walked(people: Collection[int] | None) -> dict[int, dict[str, list[date]]]:
    """The days of steps that count, in order. Whoever was named as an assistant of a walk that stood assisted."""
    found: dict[int, dict[str, set[date]]] = defaultdict(lambda: defaultdict(set))
    walks = Meeting.objects.walks().standing().filter(_of(people, "assistants"), assistants__isnull=False)
    for person, starts in walks.order_by().values_list("assistants", "starts_at"):
        found[person][Step.ASSISTED].add(timezone.localdate(starts))
    parts = WalkPart.objects.filter(_of(people), went_well=True).order_by()
    for person, step, day in parts.values_list("person_id", "step", "walked_on"):
        found[person][step].add(day)
    return {person: {step: sorted(days) for step, days in steps.items()} for person, steps in found.items()}


def _leaves(people: Collection[int] | None) -> dict[int, list[Leave]]:
    found: dict[int, list[Leave]] = defaultdict(list)
    for row in LeadingGrant.objects.filter(_of(people)):
        ends = [each for each in (row.valid_until, row.ended_on) if each is not None]
        proof = Proof(row.valid_from, min(ends) if ends else None)
        found[row.person_id].append(Leave(proof, row.region, frozenset(row.months)))
    return found
