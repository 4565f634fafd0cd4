"""What stands in the way of loading tables that are sound in themselves: the same thing under another key."""

from collections.abc import Iterable

from species.models import Pair, Species
from species.rules.tables.problems import Fault, Problem, Problems
from species.rules.tables.records import Flora, PairRecord, SpeciesRecord


def stored_otherwise(flora: Flora) -> tuple[Problem, ...]:
    """Species by name, and pairs by their two species, that are stored under a key which the tables lack.

    A key is what other rows, addresses and exported files refer to: it never changes.
    """
    problems = Problems()
    stored = dict(Species.objects.exclude(key__in=_keys(flora.plants.species)).values_list("name", "key"))
    for species in flora.plants.species:
        if species.name in stored:
            problems.add(
                "species.csv", species.row, "key", Fault.STORED_OTHERWISE,
                value=species.name, stored=stored[species.name],
            )  # fmt: skip
    pairs = {
        (gathered, mistaken): key
        for gathered, mistaken, key in Pair.objects.exclude(key__in=_keys(flora.lookalikes.pairs)).values_list(
            "gathered__key", "mistaken__key", "key"
        )
    }
    for pair in flora.lookalikes.pairs:
        sides = (pair.gathered, pair.mistaken)
        if sides in pairs:
            problems.add(
                "pairs.csv", pair.row, "key", Fault.STORED_OTHERWISE,
                value=f"{pair.gathered}, {pair.mistaken}", stored=pairs[sides],
            )  # fmt: skip
    return tuple(problems.found)


def _keys(records: Iterable[SpeciesRecord] | Iterable[PairRecord]) -> list[str]:
    return [each.key for each in records]
