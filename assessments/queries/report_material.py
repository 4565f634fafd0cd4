"""Everything that the chapters of a report are written from, read once."""

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Count

from assessments.models import Standard
from assessments.rules.figures import StandingFigures
from assessments.rules.outlook import Outlook, TooManySpecimens, outlook
from assessments.rules.standard import Side, StandardFacts

from .flora import Flora, the_flora
from .kept_standings import figures_of
from .people import name_of
from .planning_bank import Holding, holdings_for
from .report_bank import Agreement, BankCell, BankOrigins, agreement_of_determiners, bank_cells, bank_origins
from .report_corrections import AppealCounts, Corrections, appeal_counts, corrections
from .report_founders import Founder, assessed_by, founding_assessors
from .report_sittings import (
    Answers,
    QuestionCounts,
    SittingCounts,
    SpotTestCounts,
    answers_by_medium,
    people_with_evidence,
    question_counts,
    sitting_counts,
    spot_test_counts,
    sure_and_wrong,
    windows_opened,
)
from .standards import facts_of, standards_with_parts


@dataclass(frozen=True)
class Material:
    """One version with all that was counted for it. `ahead`: its outlook, None where its numbers allow none.

    `founders`: each with the number of people with evidence whom they tested.

    `standings` and `standings_before` hold, for everybody with evidence, the figures under this version and under
    the one that it follows (empty where it follows none).
    """

    standard: Standard
    facts: StandardFacts
    versions: tuple[tuple[Standard, int], ...]
    set_by: str
    flora: Flora
    ahead: Outlook | None
    holdings: Mapping[str, Holding]
    cells: tuple[BankCell, ...]
    origins: BankOrigins
    agreement: Agreement
    sittings: SittingCounts
    questions: QuestionCounts
    answers: tuple[Answers, ...]
    sure_and_wrong: int
    spot_tests: SpotTestCounts
    corrections: Corrections
    appeals: AppealCounts
    founders: Mapping[Founder, int]
    windows: Counter[int]
    standings: Mapping[int, StandingFigures]
    standings_before: Mapping[int, StandingFigures]

    @property
    def dangerous(self) -> tuple[str, ...]:
        return self.facts.species(Side.DANGEROUS)

    @property
    def species(self) -> frozenset[str]:
        return frozenset((*self.dangerous, *self.facts.species(Side.EDIBLE)))


def material_for(standard: Standard, now: datetime) -> Material:
    """What the report of a version is written from; a constant number of queries however much there is."""
    found = standards_with_parts().select_related("made_by", "follows").get(pk=standard.pk)
    facts, flora = facts_of([found])[found.pk], the_flora()
    dangerous, edible = facts.species(Side.DANGEROUS), facts.species(Side.EDIBLE)
    species = frozenset((*dangerous, *edible))
    people = people_with_evidence(species)
    before = found.follows
    return Material(
        standard=found,
        facts=facts,
        versions=versions_of(found.key),
        set_by=name_of(found.made_by) if found.made_by else "",
        flora=flora,
        ahead=_ahead(facts),
        holdings=holdings_for([facts])[0],
        cells=tuple(bank_cells(species)),
        origins=bank_origins(species),
        agreement=agreement_of_determiners(dangerous, edible),
        sittings=sitting_counts(found),
        questions=question_counts(found, dangerous),
        answers=tuple(answers_by_medium(dangerous)),
        sure_and_wrong=sure_and_wrong(dangerous),
        spot_tests=spot_test_counts(species),
        corrections=corrections(species),
        appeals=appeal_counts(species),
        founders=_founders(people),
        windows=windows_opened(people, now),
        standings=figures_of(people, found, now, flora),
        standings_before=figures_of(people, before, now, flora) if before is not None else {},
    )


def _founders(people: Collection[int]) -> dict[Founder, int]:
    found = founding_assessors()
    tested = assessed_by([each.user for each in found], people)
    return {each: tested[each.user] for each in found}


def versions_of(key: str) -> tuple[tuple[Standard, int], ...]:
    """All versions of a standard, the oldest first, each with its number of pairs; one query."""
    rows = Standard.objects.filter(key=key).annotate(pair_count=Count("pairs")).order_by("version")
    return tuple((each, each.pair_count) for each in rows)


def _ahead(facts: StandardFacts) -> Outlook | None:
    if not facts.dangerous_pairs:
        return None
    try:
        return outlook(facts)
    except TooManySpecimens:
        return None
