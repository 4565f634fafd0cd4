"""The pages of species: the index, and one species with everything a tutor would print."""

from dataclasses import dataclass
from datetime import date

from django.db.models import QuerySet

from species.models import Pair, PartUsed, Showing, Species
from species.models.flora import STAGE_WORDS
from species.queries.pictures import Picture, teaching_pictures
from species.rules.names import nearest_names, squeezed
from species.rules.vocabulary import Stage

WORDS = dict(STAGE_WORDS)


@dataclass(frozen=True)
class StageGallery:
    """One stage of a species: its months and its pictures."""

    stage: str
    name: str
    months: list[int]
    pictures: list[Picture]


@dataclass(frozen=True)
class SpeciesPage:
    """Everything on the page of one species."""

    species: Species
    names: list[str]
    parts: list[PartUsed]
    stages: list[StageGallery]
    pairs: list[Pair]
    month: int

    @property
    def has_pictures(self) -> bool:
        return any(stage.pictures for stage in self.stages)


def species_matching(text: str) -> QuerySet[Species]:
    """Species found by any of their names; all for an empty text."""
    rows = Species.objects.matching(squeezed(text)) if text.strip() else Species.objects.all()
    return rows.prefetch_related("common_names").order_by("name")


def nearest_to(text: str) -> tuple[str, ...]:
    """The names nearest to one that finds nothing."""
    known = [name for row in species_matching("") for name in [row.name, *(c.name for c in row.common_names.all())]]
    return nearest_names(text, known)


def species_page(species: Species, today: date) -> SpeciesPage:
    """One species, in a constant number of queries. `species` comes with its common names."""
    pictures = teaching_pictures([species.pk])[species.pk]
    months = {row.stage: row.months for row in Showing.objects.filter(species=species)}
    stages = [
        StageGallery(stage.value, str(WORDS[stage.value]), months.get(stage.value, []), pictures.get(stage.value, []))
        for stage in Stage
        if months.get(stage.value) or pictures.get(stage.value)
    ]
    pairs = Pair.objects.of_species(species.pk).with_both_species()
    pairs = pairs.prefetch_related("gathered__common_names", "mistaken__common_names").order_by("order")
    return SpeciesPage(
        species=species,
        names=[each.name for each in species.common_names.all()],
        parts=list(species.parts_used.order_by("order")),
        stages=stages,
        pairs=list(pairs),
        month=today.month,
    )
