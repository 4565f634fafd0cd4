"""Everything that people ever answered in assessments, and their windows, as the rules read them."""

from collections import defaultdict
from collections.abc import Collection, Mapping
from datetime import datetime
from typing import Any

from django.db.models import Exists, OuterRef

from assessments.models import Evidence, Period, Voiding, Window
from assessments.querysets import EvidenceQuerySet
from assessments.rules.evidence import AnswerFacts, Confidence, Decision, Medium, SpecimenFacts
from assessments.rules.standard import WindowFacts
from species.rules.vocabulary import Settlement

COLUMNS = (
    "person_id",
    "decision",
    "opened_at",
    "position",
    "shown_at",
    "named__key",
    "said",
    "confidence",
    "medium",
    "kind",
    "specimen_id",
    "sitting__annulled_at",
    "station__spot_test__key",
    "is_void",
)
SPECIMEN_COLUMNS = (
    "specimen__key",
    "specimen__individual_id",
    "specimen__individual__locality_id",
    "specimen__species__key",
    "specimen__settlement",
    "specimen__stage",
    "specimen__seen_on",
    "specimen__drawing_seed",
)


def answers_of(people: Collection[int]) -> dict[int, list[AnswerFacts]]:
    """For each of these users everything they answered, in order; one query, however many people."""
    return answers_among(Evidence.objects.all(), people)


def answers_among(evidence: EvidenceQuerySet, people: Collection[int]) -> dict[int, list[AnswerFacts]]:
    """The same out of some of the evidence: to look at, never to decide by, since the first answer decides."""
    found: dict[int, list[AnswerFacts]] = {person: [] for person in people}
    specimens: dict[int, SpecimenFacts] = {}
    void = Exists(Voiding.objects.standing().filter(specimen_id=OuterRef("specimen_id")))
    rows = evidence.of_people(list(people)).annotate(is_void=void).in_order()
    for row in rows.values(*COLUMNS, *SPECIMEN_COLUMNS):
        specimen = specimens.get(row["specimen_id"])
        if specimen is None:
            specimen = specimens[row["specimen_id"]] = _specimen(row)
        found[row["person_id"]].append(_answer(row, specimen))
    return found


def _specimen(row: Mapping[str, Any]) -> SpecimenFacts:
    confirmed = row["specimen__settlement"] == Settlement.CONFIRMED
    return SpecimenFacts(
        key=row["specimen__key"],
        individual=str(row["specimen__individual_id"]),
        species=row["specimen__species__key"] if confirmed else None,
        stage=row["specimen__stage"],
        locality=str(row["specimen__individual__locality_id"]),
        day=row["specimen__seen_on"],
        void=row["is_void"],
        drawn=row["specimen__drawing_seed"] is not None,
    )


def _answer(row: Mapping[str, Any], specimen: SpecimenFacts) -> AnswerFacts:
    return AnswerFacts(
        specimen=specimen,
        decision=Decision(row["decision"]) if row["decision"] else None,
        opened_at=row["opened_at"],
        position=row["position"],
        shown_at=row["shown_at"],
        named_species=row["named__key"],
        said=row["said"],
        confidence=Confidence(row["confidence"]) if row["confidence"] else None,
        medium=Medium(row["medium"]),
        kind=row["kind"],
        occasion=row["station__spot_test__key"],
        annulled=row["sitting__annulled_at"] is not None,
    )


def windows_of(people: Collection[int], now: datetime) -> dict[int, list[WindowFacts]]:
    """For each of these users the windows of the period that runs at this moment; one query."""
    found: dict[int, list[WindowFacts]] = defaultdict(list)
    rows = Window.objects.filter(
        period__person_id__in=people, period__started_at__lte=now, period__ends_at__gt=now
    ).order_by("number")
    for person, number, opened_at, closes_at in rows.values_list(
        "period__person_id", "number", "opened_at", "period__ends_at"
    ):
        found[person].append(WindowFacts(number, opened_at, closes_at))
    return {person: found.get(person, []) for person in people}


def current_period(person_id: int, now: datetime) -> Period | None:
    """The period of evidence that runs at this moment, with its windows at hand."""
    periods = Period.objects.filter(person_id=person_id, started_at__lte=now, ends_at__gt=now)
    return periods.prefetch_related("windows").order_by("-number").first()
