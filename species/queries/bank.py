"""The bank as its keepers see it: how much there is of what, and the specimens that fit a filter."""

from dataclasses import dataclass
from typing import Any

from django.db.models import Count, QuerySet
from django.utils.translation import gettext as _

from species.models import Species, Specimen
from species.models.bank import SETTLEMENT_WORDS, USE_WORDS
from species.models.flora import STAGE_WORDS
from species.queries.pictures import Picture, picture_of
from species.rules.vocabulary import Settlement, Stage, Use

FILTERS = {"species": "species__key", "stage": "stage", "use": "use", "settlement": "settlement"}
"""The words of the address and the columns that they narrow down."""


def specimens_in_bank(filters: dict[str, str]) -> QuerySet[Specimen]:
    """Specimens by species key, stage, use and settlement; words that are no such value find nothing."""
    wanted: dict[str, Any] = {FILTERS[name]: value for name, value in filters.items() if name in FILTERS and value}
    rows = Specimen.objects.in_the_bank().filter(**wanted).select_related("species", "individual__locality")
    return rows.prefetch_related("photos__renditions", "species__common_names").order_by("-seen_on", "-pk")


@dataclass(frozen=True)
class Card:
    """A specimen in a list, with its first picture."""

    specimen: Specimen
    picture: Picture | None
    photos: int


def card_of(specimen: Specimen) -> Card:
    """Reads what `specimens_in_bank` prefetched."""
    photos = [photo for photo in specimen.photos.all() if photo.renditions.all()]
    return Card(specimen, picture_of(photos[0]) if photos else None, len(photos))


@dataclass(frozen=True)
class Filter:
    """One thing to narrow the list down by: word of the address, label, (value, words)."""

    name: str
    label: str
    choices: list[tuple[str, str]]


def filter_choices() -> list[Filter]:
    """What the list can be narrowed down by; two queries."""
    plants = Species.objects.prefetch_related("common_names").order_by("name")
    return [
        Filter("species", _("Plant"), [(each.key, f"{each.common_name} ({each.name})") for each in plants]),
        Filter("stage", _("Stage"), [(value, str(words)) for value, words in STAGE_WORDS]),
        Filter("use", _("Use"), [(value, str(words)) for value, words in USE_WORDS]),
        Filter("settlement", _("Name"), [(value, str(words)) for value, words in SETTLEMENT_WORDS]),
    ]


@dataclass(frozen=True)
class StageCount:
    """Specimens of one species in one stage: to teach from, and to test with (named by two)."""

    stage: str
    teaching: int
    assessment: int


@dataclass(frozen=True)
class BankCount:
    """How many specimens of one species the bank holds, and how many of them lack a second name."""

    key: str
    name: str
    stages: list[StageCount]
    waiting: int


def bank_counts() -> list[BankCount]:
    """Counts by species, stage and use, those without an agreed name first; one query."""
    rows = (
        Specimen.objects.in_the_bank().order_by().values("species__key", "species__name", "stage", "use", "settlement")
    )
    found: dict[tuple[str, str], list[dict[str, Any]]] = {}
    for row in rows.annotate(number=Count("pk")):
        plant = (row["species__name"] or "", row["species__key"] or "")
        found.setdefault(plant, []).append(dict(row))
    return [_count(name, key, found[name, key]) for name, key in sorted(found)]


def _count(name: str, key: str, rows: list[dict[str, Any]]) -> BankCount:
    def total(**wanted: str) -> int:
        return sum(row["number"] for row in rows if all(row[column] == value for column, value in wanted.items()))

    stages = [
        StageCount(
            stage.value,
            total(stage=stage.value, use=Use.TEACHING),
            total(stage=stage.value, use=Use.ASSESSMENT, settlement=Settlement.CONFIRMED),
        )
        for stage in Stage
    ]
    return BankCount(key, name, stages, total() - total(settlement=Settlement.CONFIRMED))
