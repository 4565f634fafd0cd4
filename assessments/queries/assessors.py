"""Who assessed whom: set a paper that somebody sat, or set, recorded or signed a live check of theirs."""

from collections import defaultdict
from collections.abc import Collection

from assessments.models import Evidence, Sitting


def assessors_of(people: Collection[int]) -> dict[int, frozenset[int]]:
    """For each of these users the users who assessed them; two queries, however many people."""
    found: dict[int, set[int]] = defaultdict(set)
    sat = Sitting.objects.filter(seat__person_id__in=people)
    for person, setter in sat.values_list("seat__person_id", "seat__paper__set_by_id").distinct():
        found[person].add(setter)
    live = Evidence.objects.filter(person_id__in=people, station__isnull=False)
    columns = ("person_id", "recorded_by_id", "station__spot_test__set_by_id", "station__spot_test__key_checked_by_id")
    for person, *assessors in live.values_list(*columns).order_by().distinct():
        found[person].update(each for each in assessors if each is not None)
    return {person: frozenset(found[person] - {person}) for person in people}
