"""What is known of people who might lead, and what the school asks of them; the same queries for one as for all."""

from collections import defaultdict
from collections.abc import Callable, Collection
from datetime import date

from django.utils import timezone

from courses.models import Certificate, LeadingGrant, Meeting, RequirementRecord, WalkPart
from courses.models import Requirement as RequirementRow
from courses.rules.certification import state_of
from courses.rules.readiness import BY_DEFAULT, Asked, Held, LeaderFacts, Leave, Occasion, Proof, Requirement

DAYS_IN_A_MONTH = 30.4375
Proofs = dict[tuple[int, str], list[tuple[int | None, Proof]]]
"""By person and kind: the site (None: no site) and the proof."""


def asked_of(part: str = RequirementRow.Part.LEADER) -> tuple[Asked, ...]:
    """What the school asks for a part in a walk; the defaults until it has set something; one query."""
    rows = RequirementRow.objects.filter(part=part).order_by("order", "key")
    return tuple(_asked(row) for row in rows) or BY_DEFAULT


def _asked(row: RequirementRow) -> Asked:
    kinds = {
        RequirementRow.Kind.CERTIFICATE: Requirement.CERTIFICATE,
        RequirementRow.Kind.WALKS: Requirement.ASSISTED_WALKS,
        RequirementRow.Kind.OBSERVED: Requirement.OBSERVED_WALK,
        RequirementRow.Kind.GRANT: Requirement.LEAVE_TO_LEAD,
    }
    requirement = kinds.get(RequirementRow.Kind(row.kind)) or Requirement(row.proof)
    within = round(row.within_months * DAYS_IN_A_MONTH) if row.within_months else None
    return Asked(requirement, row.number, within, row.with_children)


def occasion_of(meeting: Meeting) -> Occasion:
    """A walk as the rule sees it; its site must have been read with it."""
    day = timezone.localdate(meeting.starts_at)
    region = meeting.site.region if meeting.site else ""
    return Occasion(day, meeting.site_id, region, meeting.children_come)


def leader_facts(people: Collection[int]) -> dict[int, Callable[[date], LeaderFacts]]:
    """For each of these people what is known of them on whatever day is asked for; six queries in all."""
    certificates, proofs = _certificates(people), _proofs(people)
    walked, leaves = _walked(people), _leaves(people)

    def facts_of(person: int) -> Callable[[date], LeaderFacts]:
        def plain(kind: str) -> tuple[Proof, ...]:
            return tuple(proof for _site, proof in proofs[person, kind])

        def on(day: date) -> LeaderFacts:
            return LeaderFacts(
                certificates=tuple(
                    Held(state_of(first, last, events, day), last) for first, last, events in certificates[person]
                ),
                first_aid=plain(RequirementRecord.Kind.FIRST_AID),
                insurance=plain(RequirementRecord.Kind.INSURANCE),
                conduct=plain(RequirementRecord.Kind.CONDUCT),
                safeguarding=plain(RequirementRecord.Kind.SAFEGUARDING),
                induction=_by_site(proofs[person, RequirementRecord.Kind.INDUCTION]),
                assisted_on=tuple(sorted(walked[person, WalkPart.Step.ASSISTED])),
                observed_on=tuple(sorted(walked[person, WalkPart.Step.OBSERVED])),
                leaves=tuple(leaves[person]),
            )

        return on

    return {person: facts_of(person) for person in people}


def _by_site(proofs: list[tuple[int | None, Proof]]) -> dict[int, tuple[Proof, ...]]:
    found: dict[int, list[Proof]] = defaultdict(list)
    for site, proof in proofs:
        if site is not None:
            found[site].append(proof)
    return {site: tuple(each) for site, each in found.items()}


def _certificates(people: Collection[int]) -> dict[int, list[tuple[date, date, tuple[str, ...]]]]:
    """First and last day of every leader certificate, with what happened to it, in order."""
    found: dict[int, list[tuple[date, date, tuple[str, ...]]]] = defaultdict(list)
    rows = Certificate.objects.filter(person_id__in=people, standard__leads_walks=True)
    for row in rows.prefetch_related("events"):
        found[row.person_id].append((row.valid_from, row.valid_until, tuple(event.kind for event in row.events.all())))
    return found


def _proofs(people: Collection[int]) -> Proofs:
    found: Proofs = defaultdict(list)
    for row in RequirementRecord.objects.filter(person_id__in=people):
        found[row.person_id, row.kind].append((row.site_id, Proof(row.valid_from, row.valid_until)))
    return found


def _walked(people: Collection[int]) -> dict[tuple[int, str], set[date]]:
    """The days of steps that count. Whoever was named as an assistant of a walk that was not cancelled assisted."""
    found: dict[tuple[int, str], set[date]] = defaultdict(set)
    rows = Meeting.objects.walks().standing().filter(assistants__in=people)
    for person, starts in rows.values_list("assistants", "starts_at"):
        found[person, WalkPart.Step.ASSISTED].add(timezone.localdate(starts))
    for part in WalkPart.objects.filter(person_id__in=people, went_well=True):
        found[part.person_id, part.step].add(part.walked_on)
    return found


def _leaves(people: Collection[int]) -> dict[int, list[Leave]]:
    found: dict[int, list[Leave]] = defaultdict(list)
    for row in LeadingGrant.objects.filter(person_id__in=people):
        ends = [each for each in (row.valid_until, row.ended_on) if each is not None]
        proof = Proof(row.valid_from, min(ends) if ends else None)
        found[row.person_id].append(Leave(proof, row.region, frozenset(row.months)))
    return found
