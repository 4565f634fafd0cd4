"""What the report of a standard counts in the bank: specimens by stage and settlement, origins, agreement."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass

from django.db.models import Count, Exists, Max, OuterRef, Q, Sum

from assessments.models import Question, Voiding
from species.models import Determination, Specimen
from species.querysets import SpecimenQuerySet
from species.rules.vocabulary import Settlement


@dataclass(frozen=True, slots=True)
class BankCell:
    """Specimens for assessment of one species in one stage, by how well their name is established."""

    species: str
    stage: str
    confirmed: int
    single: int
    disputed: int

    @property
    def total(self) -> int:
        return self.confirmed + self.single + self.disputed


@dataclass(frozen=True, slots=True)
class BankOrigins:
    """Where specimens for assessment came from and what became of them."""

    specimens: int
    drawn: int
    retired: int
    void: int
    asked: int
    questions: int
    most_asked: int


@dataclass(frozen=True, slots=True)
class Agreement:
    """First opinions of the first two determiners of a specimen: how many specimens had two, how many agreed.

    `edible_against_dangerous`: one of the two named a species that the standard takes for edible, the other one that
    it takes for dangerous.
    """

    specimens: int
    agreed: int
    edible_against_dangerous: int
    determiners: int
    by_outsiders: int


def assessed_specimens(species: Collection[str]) -> SpecimenQuerySet:
    """Specimens for assessment of these species, those taken out of the bank too."""
    return Specimen.objects.for_assessment().filter(species__key__in=species)


def bank_cells(species: Collection[str]) -> list[BankCell]:
    """The bank by species and stage; one query."""
    rows = (
        assessed_specimens(species)
        .in_the_bank()
        .values_list("species__key", "stage")
        .annotate(
            confirmed=Count("pk", filter=Q(settlement=Settlement.CONFIRMED)),
            single=Count("pk", filter=Q(settlement=Settlement.SINGLE)),
            disputed=Count("pk", filter=Q(settlement=Settlement.DISPUTED)),
        )
        .order_by("species__key", "stage")
    )
    return [BankCell(*row) for row in rows]


def bank_origins(species: Collection[str]) -> BankOrigins:
    """Origins, withdrawals and use of the specimens; two queries."""
    void = Exists(Voiding.objects.standing().filter(specimen=OuterRef("pk")))
    found = assessed_specimens(species).aggregate(
        specimens=Count("pk"),
        drawn=Count("pk", filter=Q(drawing_seed__isnull=False)),
        retired=Count("pk", filter=Q(retired_on__isnull=False)),
        void=Count("pk", filter=void),
    )
    asked = (
        Question.objects.shown()
        .filter(specimen__species__key__in=species)
        .values("specimen")
        .annotate(times=Count("pk"))
        .order_by()
    )
    used = asked.aggregate(asked=Count("specimen"), questions=Sum("times"), most_asked=Max("times"))
    return BankOrigins(**found, **{name: count or 0 for name, count in used.items()})


def agreement_of_determiners(dangerous: Collection[str], edible: Collection[str]) -> Agreement:
    """How far determiners agreed on specimens of these species before anybody settled anything; one query."""
    first: dict[int, dict[tuple[int | None, int | None], str | None]] = defaultdict(dict)
    authors: set[tuple[int | None, int | None]] = set()
    outsiders = 0
    rows = Determination.objects.filter(specimen__species__key__in={*dangerous, *edible})
    columns = ("specimen_id", "determiner_id", "link_id", "species__key")
    for specimen, determiner, link, named in rows.order_by("determined_at", "pk").values_list(*columns):
        first[specimen].setdefault((determiner, link), named)
        authors.add((determiner, link))
        outsiders += link is not None
    twos = [tuple(opinions.values())[:2] for opinions in first.values() if len(opinions) > 1]
    agreed = sum(1 for one, other in twos if one is not None and one == other)
    crossed = sum(1 for one, other in twos if _crosses(one, other, dangerous, edible))
    return Agreement(len(twos), agreed, crossed, len(authors), outsiders)


def _crosses(one: str | None, other: str | None, dangerous: Collection[str], edible: Collection[str]) -> bool:
    return (one in dangerous and other in edible) or (one in edible and other in dangerous)
