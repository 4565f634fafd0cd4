"""What a decision about a specimen changes for everybody who ever answered it: standings before and after."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from assessments.models import Evidence, Standard
from assessments.rules.appeals import changes
from assessments.rules.figures import PairFigures, StandingFigures

from .flora import Flora, PlantName, the_flora
from .kept_standings import figures_of
from .standards import facts_of, standards_with_parts


@dataclass(frozen=True)
class Snapshot:
    """Where people stand at one moment, by version of a standard and user."""

    versions: tuple[Standard, ...]
    figures: Mapping[int, Mapping[int, StandingFigures]]


def people_concerned(specimen_id: int) -> list[int]:
    """Users whose evidence holds an answer to this specimen."""
    rows = Evidence.objects.filter(specimen_id=specimen_id).order_by()
    return sorted(set(rows.values_list("person_id", flat=True)))


def snapshot(people: Collection[int], now: datetime) -> Snapshot:
    """Where these users stand under every version that is or was in use: a certificate may be of an old one."""
    flora = the_flora()
    versions = tuple(Standard.objects.put_to_use().order_by("key", "-version"))
    return Snapshot(versions, {each.pk: figures_of(people, each, now, flora) for each in versions})


def facts_for_each(people: Collection[int], specimen_id: int, before: Snapshot, after: Snapshot) -> dict[int, Any]:
    """For each of these users plain facts to freeze: their answers to the specimen, and what is different now."""
    flora = the_flora()
    answers = _answers(people, specimen_id)
    pairs = {key: facts.dangerous_pairs for key, facts in facts_of(standards_with_parts()).items()}
    plants = {pair.key: (pair.gathered, pair.mistaken) for each in pairs.values() for pair in each}
    return {
        person: {
            "answers": answers.get(person, []),
            "standards": [
                each
                for version in before.versions
                if (each := _standard(version, person, before, after, plants, flora)) is not None
            ],
        }
        for person in people
    }


def _answers(people: Collection[int], specimen_id: int) -> dict[int, list[dict[str, Any]]]:
    """Which questions it was: title of the test and number of the question."""
    rows = Evidence.objects.filter(specimen_id=specimen_id, person_id__in=people).in_order()
    found: dict[int, list[dict[str, Any]]] = {}
    columns = ("person_id", "sitting__seat__paper__title", "station__spot_test__title", "position")
    for person, paper, spot_test, position in rows.values_list(*columns):
        found.setdefault(person, []).append({"title": paper or spot_test or "", "position": position})
    return found


def _standard(
    version: Standard,
    person: int,
    before: Snapshot,
    after: Snapshot,
    plants: Mapping[str, tuple[str, str]],
    flora: Flora,
) -> dict[str, Any] | None:
    old, new = before.figures[version.pk][person], after.figures[version.pk][person]
    changed = changes(old, new)
    if not changed:
        return None
    return {
        "key": version.key,
        "version": version.version,
        "name": version.name,
        "passed_before": old.passed,
        "passed_after": new.passed,
        "pairs": [
            {
                "key": each.before.key,
                "gathered": _name(flora.plants.get(plants[each.before.key][0])),
                "mistaken": _name(flora.plants.get(plants[each.before.key][1])),
                "before": _pair(each.before),
                "after": _pair(each.after),
            }
            for each in changed
        ],
    }


def _pair(figures: PairFigures) -> dict[str, Any]:
    return {
        "passed": figures.passed,
        "misses": figures.misses,
        "dangerous_missing": figures.dangerous_missing,
        "edible_missing": figures.edible_missing,
    }


def _name(plant: PlantName | None) -> str:
    return plant.common_name if plant else ""
