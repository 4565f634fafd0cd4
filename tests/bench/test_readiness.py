"""Both sides of the readiness bench read the same rows of the same people."""

import pytest
from django.utils import timezone

from courses.queries.leader_facts import asked_of
from courses.queries.readiness import on_the_way
from tests.bench.readiness import aggregate, costs, make_rows


@pytest.mark.django_db
def test_readiness_and_the_aggregate_are_of_the_same_rows() -> None:
    make_rows(people=12, pairs=14)
    stand = on_the_way().readiness(asked_of(), timezone.localdate())
    counted = {(person, kind): number for person, kind, number, _latest in aggregate()}
    assert len(stand) == 12
    for person, each in stand.items():
        certificate, _aid, _insurance, walks = each.checks
        assert certificate.done == counted[person, "pair"] == 14
        assert walks.done == counted[person, "assisted"] == 3
    assert 0 < sum(each.ready for each in stand.values()) < 12
    assert [cost.ratio > 0 for cost in costs(rounds=1)] == [True] * 3
