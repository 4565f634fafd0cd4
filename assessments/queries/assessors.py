"""Who assessed whom: set a paper that somebody sat, set, recorded or signed a live check, or decided an appeal."""

from collections import defaultdict
from collections.abc import Collection

from assessments.models import AppealStep, Evidence, Sitting
from assessments.rules.appeals import OUTCOMES


def assessors_of(people: Collection[int]) -> dict[int, frozenset[int]]:
    """For each of these users the users who assessed them; three queries, however many people."""
    found = {person: set(testers) for person, testers in testers_of(people).items()}
    decided = AppealStep.objects.filter(
        appeal__evidence__person_id__in=people, kind__in=[outcome.value for outcome in OUTCOMES]
    )
    for person, decider in decided.values_list("appeal__evidence__person_id", "by_id").order_by().distinct():
        found[person].add(decider)
    return {person: frozenset(found[person]) for person in people}


def testers_of(people: Collection[int]) -> dict[int, frozenset[int]]:
    """The same without those who only decided an appeal; two queries.

    Whoever decided an earlier appeal had no part in the answers that a later one is about.
    """
    found: dict[int, set[int]] = defaultdict(set)
    sat = Sitting.objects.filter(seat__person_id__in=people)
    for person, setter in sat.values_list("seat__person_id", "seat__paper__set_by_id").distinct():
        found[person].add(setter)
    live = Evidence.objects.filter(person_id__in=people, station__isnull=False)
    columns = ("person_id", "recorded_by_id", "station__spot_test__set_by_id", "station__spot_test__key_checked_by_id")
    for person, *assessors in live.values_list(*columns).order_by().distinct():
        found[person].update(each for each in assessors if each is not None)
    return {person: frozenset(found[person] - {person}) for person in people}
