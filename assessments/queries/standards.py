"""Standards as the rules read them, and as a public page prints them."""

from collections import defaultdict
from collections.abc import Iterable
from types import MappingProxyType

from django.conf import settings
from django.db.models import Prefetch

from assessments.models import Standard, StandardPair
from assessments.querysets import StandardQuerySet
from assessments.rules.standard import PairFacts, SideBar, StandardFacts, exact
from species.models import Pair
from species.rules.vocabulary import Danger, Edibility


def standards_with_parts() -> StandardQuerySet:
    """Standards with their pairs and species at hand, for `facts_of`."""
    both = StandardPair.objects.select_related("pair__gathered", "pair__mistaken")
    pairs = both.order_by("pair__order", "id")
    return Standard.objects.prefetch_related(Prefetch("pairs", pairs), "species__species")


def standard_facts(standard: Standard) -> StandardFacts:
    """One version as the rules read it, in a constant number of queries."""
    return facts_of([standards_with_parts().get(pk=standard.pk)])[standard.pk]


def facts_of(standards: Iterable[Standard]) -> dict[int, StandardFacts]:
    """Several versions, from `standards_with_parts`, by id; one query more for the pairs outside them."""
    taken_for = _edible_by_dangerous()
    return {standard.pk: _facts(standard, taken_for) for standard in standards}


def _edible_by_dangerous() -> dict[str, frozenset[str]]:
    """For each dangerous species the gathered ones it is taken for, in whatever standard or none."""
    found: dict[str, set[str]] = defaultdict(set)
    for dangerous, edible in Pair.objects.dangerous().values_list("mistaken__key", "gathered__key"):
        found[dangerous].add(edible)
    return {key: frozenset(edible) for key, edible in found.items()}


def _facts(standard: Standard, taken_for: dict[str, frozenset[str]]) -> StandardFacts:
    species = list(standard.species.all())
    pairs = tuple(_pair_facts(row) for row in standard.pairs.all())
    not_eaten = {
        row.pair.gathered.key for row in standard.pairs.all() if row.pair.gathered.edibility == Edibility.NOT_EATEN
    }
    by_name = {row.species.key for row in species if row.recognise_only}
    return StandardFacts(
        key=standard.key,
        name=standard.name,
        version=standard.version,
        dangerous=SideBar.of(standard.miss_limit, standard.miss_ratio, standard.miss_alpha),
        edible=SideBar.of(standard.refusal_limit, standard.refusal_ratio, standard.refusal_alpha),
        window_weights=tuple(exact(weight) for weight in standard.window_weights),
        live_run=standard.live_run,
        live_occasions=standard.live_occasions,
        valid_months=standard.valid_months,
        period_months=standard.period_months,
        stage_clean=standard.stage_clean,
        pairs=pairs,
        recognise_only=frozenset(not_eaten | by_name),
        live_not_required=MappingProxyType({row.species.key: row.reason for row in species if not row.live_required}),
        taken_for=MappingProxyType(taken_for),
        drawings_count=settings.DRAWINGS_COUNT,
    )


def _pair_facts(row: StandardPair) -> PairFacts:
    return PairFacts(
        key=row.pair.key,
        gathered=row.pair.gathered.key,
        mistaken=row.pair.mistaken.key,
        danger=Danger(row.pair.danger),
        required_stages=tuple(row.required_stages),
        edible_stages=tuple(row.edible_stages),
    )
