"""The questions that the bank holds, as a package says them; a constant number of queries, however large the bank."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from django.conf import settings
from django.db.models import Exists, OuterRef
from django.utils.translation import get_language

from assessments.models import Standard, Voiding
from assessments.queries.drawing import clues_of
from assessments.queries.flora import Flora, PlantName, the_flora
from assessments.queries.standards import standard_facts
from assessments.rules.kinds.catalogue import KINDS
from assessments.rules.kinds.shape import Mark, PictureFacts
from assessments.rules.standard import PairFacts
from species.models import Pair, PhotoRendition, Specimen
from species.models.flora import EDIBILITY_WORDS
from species.querysets import SpecimenQuerySet
from species.rules.vocabulary import Danger, Use

from .kinds.catalogue import BUILDERS
from .pictures import Pictures, names_of_plants
from .shape import Asked, BankPair, BankPlant, Chance


@dataclass(frozen=True)
class Scope:
    """Which questions: over the dangerous pairs of a standard, or over all; with those that serve for tests or not."""

    standard: Standard | None = None
    with_assessment: bool = False


@dataclass(frozen=True)
class LeftOut:
    """What stays in the school, and how much of it: pictures, but for drawings, which are plants."""

    drawings: int = 0
    without_licence: int = 0
    without_file: int = 0
    several_fields: int = 0
    kinds: tuple[str, ...] = ()


@dataclass(frozen=True)
class Packaged:
    """The questions in the order of their identifiers, the files of their pictures by path, and what stays."""

    questions: tuple[Asked, ...]
    files: Mapping[str, PhotoRendition]
    left_out: LeftOut
    reworded: int
    plants: Mapping[str, PlantName]

    @property
    def counts(self) -> dict[str, int]:
        """How many of what, for the record."""
        by_kind = Counter(each.kind for each in self.questions)
        for_tests = sum(any(plant.is_for_tests for plant in each.plants) for each in self.questions)
        totals = {"questions": len(self.questions), "pictures": len(self.files), "for assessment": for_tests}
        return {**totals, **{key: by_kind[key] for key in sorted(by_kind)}}


def questions_to_package(scope: Scope) -> Packaged:
    """Every question that can be put about the plants of the bank, kind by kind."""
    flora = the_flora()
    pairs = _pairs(scope, flora)
    bank = _specimens(scope, pairs)
    pictures = Pictures(names_of_plants(flora))
    plants = _plants(bank if settings.DRAWINGS_COUNT else bank.photographed(), pictures)
    clues = clues_of([pair.facts.key for pair in pairs])
    language = get_language() or settings.LANGUAGE_CODE
    questions: list[Asked] = []
    several = 0
    for pair in pairs:
        for stage, mine in _by_stage(pair, plants).items():
            chance = Chance(pair, mine, clues.get((pair.facts.key, stage), ()), language)
            for build in BUILDERS.values():
                made = build(chance)
                questions += made.questions
                several += made.left_out
    needed = {picture.path for each in questions for picture in each.item.pictures}
    return Packaged(
        tuple(sorted(questions, key=lambda each: each.item.identifier)),
        {path: row for path, row in pictures.files.items() if path in needed},
        LeftOut(
            drawings=0 if settings.DRAWINGS_COUNT else bank.drawn().count(),
            without_licence=pictures.without_licence,
            without_file=pictures.without_file,
            several_fields=several,
            kinds=tuple(kind.key for kind in KINDS if kind.key not in BUILDERS),
        ),
        pictures.reworded,
        flora.plants,
    )


def _pairs(scope: Scope, flora: Flora) -> list[BankPair]:
    """The dangerous pairs asked for, in the order in which they are taught."""
    rows = Pair.objects.dangerous().with_both_species().order_by("order", "key")
    by_name: frozenset[str] = frozenset()
    if scope.standard is not None:
        facts = standard_facts(scope.standard)
        by_name = facts.recognise_only
        rows = rows.filter(key__in=[pair.key for pair in facts.dangerous_pairs])
    words = dict(EDIBILITY_WORDS)
    return [
        BankPair(
            facts=PairFacts(row.key, row.gathered.key, row.mistaken.key, Danger(row.danger)),
            gathered=flora.plant(row.gathered.key),
            mistaken=flora.plant(row.mistaken.key),
            is_named_only=row.gathered.is_known_by_name_alone or row.gathered.key in by_name,
            harm=str(words[row.mistaken.edibility]),
        )
        for row in rows
    ]


def _specimens(scope: Scope, pairs: Sequence[BankPair]) -> SpecimenQuerySet:
    """Confirmed plants of these pairs, none of them void."""
    species = {key for pair in pairs for key in (pair.facts.gathered, pair.facts.mistaken)}
    void = Voiding.objects.standing().filter(specimen=OuterRef("pk"))
    rows: SpecimenQuerySet = Specimen.objects.in_the_bank().confirmed().filter(~Exists(void), species__key__in=species)
    return rows if scope.with_assessment else rows.for_teaching()


def _plants(rows: SpecimenQuerySet, pictures: Pictures) -> list[BankPlant]:
    found = rows.select_related("species").prefetch_related(
        "determinations", "photos__renditions", "photos__regions__character"
    )
    return [_plant(row, pictures) for row in found.order_by("key")]


def _plant(row: Specimen, pictures: Pictures) -> BankPlant:
    agreeing = [each for each in row.determinations.all() if each.species_id == row.species_id]
    photos = list(row.photos.all())
    facts = [
        PictureFacts(
            photo.pk,
            photo.width / photo.height,
            tuple(Mark(region.character.key, region.frame) for region in photo.regions.all()),
        )
        for photo in photos
    ]
    return BankPlant(
        key=row.key,
        individual=row.individual_id,
        species=row.species.key if row.species else "",
        stage=row.stage,
        is_for_tests=row.use == Use.ASSESSMENT,
        named_by=len({(each.determiner_id, each.link_id) for each in agreeing}),
        named_on=max((each.determined_at.date() for each in agreeing), default=None),
        pictures=pictures.of(photos, facts),
    )


def _by_stage(pair: BankPair, plants: Iterable[BankPlant]) -> dict[str, tuple[BankPlant, ...]]:
    """The plants of a pair by the stage that they show."""
    both = (pair.facts.gathered, pair.facts.mistaken)
    found: dict[str, list[BankPlant]] = defaultdict(list)
    for plant in plants:
        if plant.species in both:
            found[plant.stage].append(plant)
    return {stage: tuple(found[stage]) for stage in sorted(found)}
