"""What is known of people who might lead, and what the school asks of them; the same queries for one as for all."""

from collections import defaultdict
from collections.abc import Collection, Mapping
from datetime import date, timedelta
from types import MappingProxyType

from django.db.models import Count, Q
from django.utils import timezone

from courses.models import (
    Certificate,
    CertificateEvent,
    CertifiedPair,
    LeadingGrant,
    Meeting,
    RequirementRecord,
    WalkPart,
)
from courses.models import Requirement as RequirementRow
from courses.rules.certification import state_of
from courses.rules.requirements import (
    BY_DEFAULT,
    DAYS_IN_A_MONTH,
    Asked,
    Held,
    LeaderFacts,
    Leave,
    Occasion,
    Proof,
    Requirement,
)

ASSISTED, OBSERVED = WalkPart.Step.ASSISTED.value, WalkPart.Step.OBSERVED.value
FIRST_AID, INSURANCE = RequirementRecord.Kind.FIRST_AID.value, RequirementRecord.Kind.INSURANCE.value
CONDUCT, SAFEGUARDING = RequirementRecord.Kind.CONDUCT.value, RequirementRecord.Kind.SAFEGUARDING.value
NOWHERE: Mapping[int, Collection[Proof]] = MappingProxyType({})


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

    @property
    def on_the_way(self) -> set[int]:
        """Who is on the way to leading: with a leader's certificate, any proof, any step, or leave to lead."""
        leading = {
            person for person, held in self._certificates.items() if any(standard[1] for _life, standard in held)
        }
        return leading.union(self._inductions, self._leaves, *self._proofs.values(), *self._walked.values())

    def on(self, person: int, day: date) -> LeaderFacts:
        """What is known of one person, with certificates as they stand on a day."""
        proofs, walked, held = self._proofs, self._walked, self._certificates.get(person)
        return LeaderFacts(
            tuple([Held(state_of(*life, day), life[1], *rest) for life, rest in held]) if held else (),
            proofs[FIRST_AID].get(person, ()),
            proofs[INSURANCE].get(person, ()),
            walked[ASSISTED].get(person, ()),
            walked[OBSERVED].get(person, ()),
            proofs[CONDUCT].get(person, ()),
            proofs[SAFEGUARDING].get(person, ()),
            self._inductions.get(person, NOWHERE),
            self._leaves.get(person, ()),
        )


def _of(people: Collection[int] | None, field: str = "person_id") -> Q:
    return Q() if people is None else Q(**{f"{field}__in": people})


Life = tuple[date, date, tuple[str, ...]]
"""First and last day of a certificate, and what happened to it, in order."""
Certificates = dict[int, list[tuple[Life, tuple[str, bool, int, int]]]]
"""By person the life of every certificate, with its standard, whether that leads, and the pairs left and named."""


def _certificates(people: Collection[int] | None) -> Certificates:
    events: dict[int, list[str]] = defaultdict(list)
    happened = CertificateEvent.objects.filter(_of(people, "certificate__person_id"))
    for certificate, kind in happened.order_by("happened_at", "id").values_list("certificate_id", "kind"):
        events[certificate].append(kind)
    rows = CertifiedPair.objects.filter(_of(people, "certificate__person_id")).order_by()
    counts = rows.values_list("certificate_id").annotate(left=Count("pk", filter=Q(dropped_by=None)), named=Count("pk"))
    pairs = {pk: (left, named) for pk, left, named in counts}
    found: Certificates = defaultdict(list)
    columns = ("pk", "person_id", "valid_from", "valid_until", "standard__key", "standard__leads_walks")
    for pk, person, first, last, standard, leads in (
        Certificate.objects.filter(_of(people)).order_by().values_list(*columns)
    ):
        life = (first, last, tuple(events[pk]) if pk in events else ())
        found[person].append((life, (standard, leads, *pairs.get(pk, (0, 0)))))
    return found


Proofs = dict[str, dict[int, list[Proof]]]
"""By kind, then by person."""
Inductions = dict[int, dict[int, list[Proof]]]
"""By person, then by the id of a site."""


def _proofs(people: Collection[int] | None) -> tuple[Proofs, Inductions]:
    proofs: Proofs = defaultdict(lambda: defaultdict(list))
    inductions: Inductions = defaultdict(lambda: defaultdict(list))
    rows = RequirementRecord.objects.filter(_of(people)).order_by()
    for person, kind, site, first, last in rows.values_list(
        "person_id", "kind", "site_id", "valid_from", "valid_until"
    ):
        if kind != RequirementRecord.Kind.INDUCTION:
            proofs[kind][person].append(Proof(first, last))
        elif site is not None:
            inductions[person][site].append(Proof(first, last))
    return proofs, inductions


def _walked(people: Collection[int] | None) -> dict[str, dict[int, set[date]]]:
    """The days of steps that count, by step and person. Who was named as assistant of a walk that stood assisted."""
    found: dict[str, dict[int, set[date]]] = defaultdict(lambda: defaultdict(set))
    walks = Meeting.objects.walks().standing().filter(_of(people, "assistants"), assistants__isnull=False)
    for person, starts in walks.order_by().values_list("assistants", "starts_at"):
        found[ASSISTED][person].add(timezone.localdate(starts))
    parts = WalkPart.objects.filter(_of(people), went_well=True).order_by()
    for person, step, day in parts.values_list("person_id", "step", "walked_on"):
        found[step][person].add(day)
    return found


def _leaves(people: Collection[int] | None) -> dict[int, list[Leave]]:
    found: dict[int, list[Leave]] = defaultdict(list)
    for row in LeadingGrant.objects.filter(_of(people)):
        # on the day on which it is taken back it holds no longer
        ended = row.ended_on - timedelta(days=1) if row.ended_on else None
        ends = [each for each in (row.valid_until, ended) if each is not None]
        proof = Proof(row.valid_from, min(ends) if ends else None)
        found[row.person_id].append(Leave(proof, row.region, frozenset(row.months)))
    return found
