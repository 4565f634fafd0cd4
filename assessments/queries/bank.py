"""What of the bank may still be set to somebody, as the rules draw papers from it."""

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil
from typing import Any

from django.conf import settings
from django.db.models import Count, Exists, OuterRef, QuerySet
from django.db.models.expressions import CombinedExpression

from assessments.models import Evidence, Paper, Question, Seen, Sitting, Voiding
from assessments.rules.blueprint import Blueprint, Candidate, Cell, Quota, pair_quotas, stage_quotas
from assessments.rules.standard import PairFacts, Side, StandardFacts
from assessments.rules.treatment import stages_that_count
from species.models import Determination, Photo, Specimen
from species.rules.vocabulary import Settlement

CANDIDATE_COLUMNS = ("pk", "individual_id", "individual__locality_id", "species__key", "stage", "seen_on", "uses")
"""What `candidate_of` reads of a specimen."""
LEAST_SHARE, LARGEST_SHARE = Fraction(2, 5), Fraction(3, 5)


@dataclass(frozen=True)
class Share:
    """What one person may be shown, and how many individuals of each kind and place they answered before."""

    candidates: tuple[Candidate, ...]
    answered: Mapping[Cell, int]


def usable_specimens() -> QuerySet[Specimen]:
    """Specimens that may be set: for assessment, in the bank, with a picture, confirmed, and not void."""
    void = Voiding.objects.standing().filter(specimen=OuterRef("pk"))
    return specimens_for_tests().filter(~Exists(void), settlement=Settlement.CONFIRMED)


def specimens_for_tests() -> QuerySet[Specimen]:
    """Specimens for assessment that are in the bank with a picture, however well they are named.

    Drawings only where the school is invented (the setting DRAWINGS_COUNT).
    """
    specimens = Specimen.objects.for_assessment().in_the_bank()
    if not settings.DRAWINGS_COUNT:
        specimens = specimens.photographed()
    return specimens.filter(Exists(Photo.objects.filter(specimen=OuterRef("pk"))))


def shares_of(people: Collection[int], facts: StandardFacts, pairs: Sequence[PairFacts]) -> dict[int, Share]:
    """For each of these users what a paper over these pairs can be drawn from; five queries."""
    rows = _rows(pairs)
    met = individuals_met(people)
    answered = individuals_answered(people, pairs)
    sides = sides_of(pairs)
    counting = stages_counting(facts, sides)
    fair = [row for row in rows if is_fair(row, counting)]
    return {
        person: Share(
            tuple(candidate_of(row, sides) for row in fair if row["individual_id"] not in met[person]),
            answered[person],
        )
        for person in people
    }


def sides_of(pairs: Iterable[PairFacts]) -> dict[str, Side]:
    """The species of these pairs, each with its side; the dangerous one wins."""
    known = list(pairs)
    return {pair.gathered: Side.EDIBLE for pair in known} | {pair.mistaken: Side.DANGEROUS for pair in known}


def stages_counting(facts: StandardFacts, sides: Mapping[str, Side]) -> dict[str, Collection[str] | None]:
    """For each edible species the stages in which a specimen enters its ledger; None means every stage."""
    return {key: stages_that_count(key, facts) for key, side in sides.items() if side is Side.EDIBLE}


def _rows(pairs: Sequence[PairFacts]) -> list[Mapping[str, Any]]:
    species = {pair.gathered for pair in pairs} | {pair.mistaken for pair in pairs}
    specimens = usable_specimens().filter(species__key__in=species).annotate(uses=times_set())
    return [dict(row) for row in specimens.values(*CANDIDATE_COLUMNS)]


def times_set() -> CombinedExpression:
    """How often a specimen has been set, alone or beside another."""
    return Count("questions", distinct=True) + Count("questions_beside", distinct=True)


def is_fair(row: Mapping[str, Any], counting: Mapping[str, Collection[str] | None]) -> bool:
    """Whether the specimen can count: an edible one only in the stages that enter its ledger."""
    stages = counting.get(row["species__key"])
    return stages is None or row["stage"] in stages


def candidate_of(row: Mapping[str, Any], sides: Mapping[str, Side]) -> Candidate:
    """One specimen as the rules draw it, from its columns by name."""
    return Candidate(
        key=str(row["pk"]),
        individual=str(row["individual_id"]),
        species=row["species__key"],
        stage=row["stage"],
        locality=str(row["individual__locality_id"]),
        day=row["seen_on"],
        side=sides[row["species__key"]],
        uses=row["uses"],
    )


def individuals_met(people: Collection[int]) -> dict[int, set[int]]:
    """For each user the individual plants they have seen, named, or have before them in an open sitting."""
    met: dict[int, set[int]] = defaultdict(set)
    seen = Seen.objects.filter(person_id__in=people)
    for person, individual in seen.values_list("person_id", "specimen__individual_id"):
        met[person].add(individual)
    named = Determination.objects.filter(determiner_id__in=people)
    for person, individual in named.values_list("determiner_id", "specimen__individual_id"):
        if person is not None:
            met[person].add(individual)
    drawn = Question.objects.filter(sitting__in=Sitting.objects.under_way(), sitting__seat__person__in=people)
    columns = ("sitting__seat__person_id", "specimen__individual_id", "beside__individual_id")
    for person, individual, beside in drawn.values_list(*columns):
        met[person] |= {individual} if beside is None else {individual, beside}
    return met


def individuals_answered(people: Collection[int], pairs: Sequence[PairFacts]) -> dict[int, Counter[Cell]]:
    """For each user how many individuals of each species, place and day they have answered."""
    species = {pair.gathered for pair in pairs} | {pair.mistaken for pair in pairs}
    rows = Evidence.objects.of_people(list(people)).filter(specimen__species__key__in=species)
    found: dict[int, Counter[Cell]] = defaultdict(Counter)
    columns = (
        "person_id",
        "specimen__individual_id",
        "specimen__species__key",
        "specimen__individual__locality_id",
        "specimen__seen_on",
    )
    for person, _individual, key, locality, day in rows.order_by().values_list(*columns).distinct():
        found[person][key, str(locality), day] += 1
    return found


def quotas_for(questions: int, dangerous: int, edible: int) -> dict[str, int]:
    """How many questions of each species a paper asks for at least, and at most.

    `dangerous`, `edible`: how many species there are on each side. Two fifths of the paper are spread evenly
    over each side; the rest is left to chance, so that proportions give nothing away.
    """
    even = LEAST_SHARE * questions
    return {
        "dangerous_each": int(even / dangerous),
        "edible_each": int(even / edible),
        "per_species": ceil(LARGEST_SHARE * questions / min(dangerous, edible)) + 2,
    }


def blueprint_of(paper: Paper, pairs: Sequence[PairFacts]) -> Blueprint:
    """The blueprint of a paper, from what was written down when it was set."""
    wanted = paper.blueprint
    stages: dict[tuple[str, str], int] = {}
    if wanted.get("each_stage"):
        for species in dict.fromkeys(pair.mistaken for pair in pairs):
            asked = [pair.required_stages for pair in pairs if pair.mistaken == species]
            required = list(dict.fromkeys(stage for each in asked for stage in each))
            if required and wanted["dangerous_each"] >= len(required):
                stages |= {(species, stage): wanted["dangerous_each"] // len(required) for stage in required}
    quotas: list[Quota] = [*pair_quotas(pairs, wanted["dangerous_each"], wanted["edible_each"]), *stage_quotas(stages)]
    lowered = wanted.get("lowered", {})
    least = (replace(each, at_least=min(each.at_least, lowered.get(each.name, each.at_least))) for each in quotas)
    return Blueprint(
        paper.counting_questions,
        tuple(each for each in least if each.at_least > 0),
        per_species=wanted["per_species"],
    )


def pairs_of_paper(paper: Paper, facts: StandardFacts) -> tuple[PairFacts, ...]:
    """The pairs of a paper as its standard asks for them."""
    keys = set(paper.pairs.values_list("key", flat=True))
    return tuple(pair for pair in facts.dangerous_pairs if pair.key in keys)
