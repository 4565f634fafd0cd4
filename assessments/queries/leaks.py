"""What rests on specimens whose pictures got out: who answered them when, and in which tests they are still open."""

from collections import Counter
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Q, QuerySet

from assessments.models import Evidence, Paper, Question, Seen, Voiding
from species.models import Specimen

from .people import name_of


@dataclass(frozen=True)
class LeakedPlant:
    """One specimen: how many people have seen it (its exposure) and answered it, whether that still counts."""

    specimen: Specimen
    name: str
    seen: int
    answers: int
    is_void: bool


@dataclass(frozen=True)
class RestingAnswer:
    """One answer that rests on such a specimen."""

    person: str
    user: int
    specimen: str
    plant: str
    test: str
    shown_at: datetime
    decision: str
    is_void: bool


@dataclass(frozen=True)
class Leak:
    """Everything that rests on some specimens. `under_way`: questions in tests that were opened and not handed in."""

    plants: tuple[LeakedPlant, ...]
    answers: tuple[RestingAnswer, ...]
    under_way: int

    @property
    def is_withdrawn(self) -> bool:
        """Whether no test shows any of them any more."""
        return all(each.specimen.retired_on is not None for each in self.plants)


def specimens_shown_in(paper: Paper) -> QuerySet[Specimen]:
    """The specimens that were drawn for anybody's sitting of a paper, beside others too."""
    drawn = Question.objects.filter(sitting__seat__paper=paper).order_by()
    return Specimen.objects.filter(Q(pk__in=drawn.values("specimen")) | Q(pk__in=drawn.values("beside")))


def leak_of(specimens: QuerySet[Specimen]) -> Leak:
    """What rests on these specimens, the latest answers first; seven queries."""
    rows = list(specimens.select_related("species").prefetch_related("species__common_names").order_by("pk"))
    pks = [row.pk for row in rows]
    void = set(Voiding.objects.standing().filter(specimen__in=pks).values_list("specimen_id", flat=True))
    seen = Counter(Seen.objects.filter(specimen__in=pks).order_by().values_list("specimen_id", flat=True))
    answers = list(
        Evidence.objects.filter(specimen__in=pks)
        .select_related("person", "sitting__seat__paper", "station__spot_test")
        .order_by("-shown_at", "-pk")
    )
    answered = Counter(each.specimen_id for each in answers)
    named = {row.pk: row for row in rows}
    under_way = Question.objects.filter(
        Q(specimen__in=pks) | Q(beside__in=pks), sitting__handed_in_at__isnull=True, sitting__annulled_at__isnull=True
    )
    return Leak(
        tuple(LeakedPlant(row, _name(row), seen[row.pk], answered[row.pk], row.pk in void) for row in rows),
        tuple(_answer(each, named[each.specimen_id], each.specimen_id in void) for each in answers),
        under_way.filter(sitting__settled_at__isnull=True).count(),
    )


def _name(specimen: Specimen) -> str:
    return specimen.species.common_name if specimen.species else ""


def _answer(row: Evidence, specimen: Specimen, is_void: bool) -> RestingAnswer:
    if row.sitting is not None:
        test = row.sitting.seat.paper.title
    else:
        test = row.station.spot_test.title if row.station else ""
    return RestingAnswer(
        name_of(row.person),
        row.person_id,
        specimen.key,
        _name(specimen),
        test,
        row.shown_at,
        str(row.get_decision_display()) if row.decision else "",
        is_void,
    )
