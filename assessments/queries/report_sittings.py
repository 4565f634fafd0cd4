"""What the report of a standard counts in papers, sittings, spot tests and answers."""

from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from statistics import median

from django.db.models import Count, Exists, F, OuterRef, Q, QuerySet

from assessments.models import Adjustment, Evidence, Paper, Question, Seat, Sitting, Standard, Voiding, Window
from assessments.models.live import SpotTest, Station
from assessments.rules.evidence import Confidence, Decision
from species.rules.vocabulary import Settlement


@dataclass(frozen=True, slots=True)
class SittingCounts:
    """Papers set for a version, and what became of their seats and sittings."""

    papers: int
    seats: int
    adjustments: int
    adjusted: int
    adjusted_sat: int
    people: int
    sittings: int
    settled: int
    closed_itself: int
    annulled: int
    results_seen: int
    most_per_person: int
    hours_to_result: float | None


@dataclass(frozen=True, slots=True)
class QuestionCounts:
    """Questions of standing sittings: by kind, by species, shown without an answer, repeated plants, shares of D."""

    shown: int
    unanswered: int
    kinds: dict[str, int]
    species: dict[str, int]
    repeated: int
    dangerous_shares: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Answers:
    """Answers to one dangerous species in one medium: shown, gathered, refused, the rest left or not answered."""

    species: str
    medium: str
    shown: int
    gathered: int
    refused: int

    @property
    def decided(self) -> int:
        return self.gathered + self.refused


@dataclass(frozen=True, slots=True)
class SpotTestCounts:
    """Spot tests with plants of these species: keys checked by somebody else, stations, stations struck out."""

    tests: int
    checked: int
    stations: int
    struck_out: int


def sitting_counts(standard: Standard) -> SittingCounts:
    """Papers, seats, adjustments and sittings of a version; five queries."""
    seats = Seat.objects.filter(paper__standard=standard)
    adjusted = Q(time_factor__gt=1) | ~Q(adjustment="")
    of_seats = seats.aggregate(
        seats=Count("pk"),
        adjusted=Count("pk", filter=adjusted),
        adjusted_sat=Count("pk", filter=adjusted & Q(sitting__isnull=False)),
    )
    sittings = Sitting.objects.filter(seat__paper__standard=standard)
    of_sittings = sittings.aggregate(
        sittings=Count("pk"),
        people=Count("seat__person", distinct=True),
        settled=Count("pk", filter=Q(settled_at__isnull=False)),
        closed_itself=Count("pk", filter=Q(closed_itself=True)),
        annulled=Count("pk", filter=Q(annulled_at__isnull=False)),
        results_seen=Count("pk", filter=Q(result_shown_at__isnull=False)),
    )
    rows = sittings.values_list("seat__person_id", "handed_in_at", "result_shown_at")
    per_person: Counter[int] = Counter()
    hours: list[float] = []
    for person, handed_in, shown in rows:
        per_person[person] += 1
        if handed_in and shown:
            hours.append((shown - handed_in).total_seconds() / 3600)
    return SittingCounts(
        papers=Paper.objects.standing().filter(standard=standard).count(),
        adjustments=Adjustment.objects.filter(seat__paper__standard=standard).count(),
        most_per_person=max(per_person.values(), default=0),
        hours_to_result=median(hours) if hours else None,
        **of_seats,
        **of_sittings,
    )


def question_counts(standard: Standard, dangerous: Collection[str]) -> QuestionCounts:
    """Questions that people had before them under a version; one query."""
    rows = (
        Question.objects.shown()
        .filter(sitting__seat__paper__standard=standard, sitting__annulled_at__isnull=True)
        .values_list(
            "sitting_id",
            "sitting__seat__person_id",
            "kind",
            "specimen__species__key",
            "specimen__individual_id",
            "answer",
        )
    )
    kinds: Counter[str] = Counter()
    species: Counter[str] = Counter()
    met: Counter[tuple[int, int]] = Counter()
    of_sitting: Counter[int] = Counter()
    of_danger: Counter[int] = Counter()
    unanswered = 0
    for sitting, person, kind, key, individual, answer in rows:
        kinds[kind] += 1
        species[key or ""] += 1
        met[person, individual] += 1
        of_sitting[sitting] += 1
        of_danger[sitting] += key in dangerous
        unanswered += answer is None
    return QuestionCounts(
        shown=sum(kinds.values()),
        unanswered=unanswered,
        kinds=dict(kinds),
        species=dict(species),
        repeated=sum(times - 1 for times in met.values()),
        dangerous_shares=tuple(of_danger[each] / asked for each, asked in of_sitting.items()),
    )


def answers_by_medium(dangerous: Collection[str]) -> list[Answers]:
    """Answers of everybody to these dangerous species, by photograph or live; one query.

    Void and unsettled specimens and annulled sittings are left out, as the ledgers leave them out.
    """
    rows = (
        _counting(dangerous)
        .order_by("specimen__species__key", "medium")
        .values_list("specimen__species__key", "medium")
        .annotate(
            shown=Count("pk"),
            gathered=Count("pk", filter=Q(decision=Decision.GATHER)),
            refused=Count("pk", filter=Q(decision=Decision.REFUSE)),
        )
    )
    return [Answers(*row) for row in rows]


def sure_and_wrong(dangerous: Collection[str]) -> int:
    """How often a dangerous plant would have been gathered by somebody who was sure; one query."""
    return _counting(dangerous).filter(decision=Decision.GATHER, confidence=Confidence.SURE).count()


def _counting(species: Collection[str]) -> QuerySet[Evidence]:
    void = Exists(Voiding.objects.standing().filter(specimen=OuterRef("specimen")))
    rows = Evidence.objects.filter(specimen__species__key__in=species, specimen__settlement=Settlement.CONFIRMED)
    return rows.exclude(void).exclude(sitting__annulled_at__isnull=False)


def spot_test_counts(species: Collection[str]) -> SpotTestCounts:
    """Spot tests that held plants of these species; two queries."""
    stations = Station.objects.filter(specimen__species__key__in=species)
    tests = SpotTest.objects.filter(Exists(stations.filter(spot_test=OuterRef("pk"))))
    checked = Q(key_checked_by__isnull=False) & ~Q(key_checked_by=F("set_by"))
    return SpotTestCounts(
        **tests.aggregate(tests=Count("pk"), checked=Count("pk", filter=checked)),
        **stations.aggregate(stations=Count("pk"), struck_out=Count("pk", filter=~Q(struck_out_why=""))),
    )


def people_with_evidence(species: Collection[str]) -> list[int]:
    """Users who ever answered a plant of these species in an assessment, in order; one query."""
    rows = Evidence.objects.filter(specimen__species__key__in=species)
    return list(rows.order_by("person_id").values_list("person_id", flat=True).distinct())


def windows_opened(people: Collection[int], now: datetime) -> Counter[int]:
    """Of these users, by the number of windows that they opened in a period; one query."""
    rows = Window.objects.filter(period__person__in=people, opened_at__lte=now)
    per_period = rows.order_by().values("period").annotate(windows=Count("pk")).values_list("windows", flat=True)
    return Counter(per_period)
