"""The bench of a whole school sitting at once still runs, and would notice a lost answer; how long is nobody's test."""

from urllib.parse import urlsplit

import pytest

from assessments.models import Answer

from . import sitters, sitting_load

QUICK = sitters.Rhythm(seconds=1.0, every=0.4)


@pytest.mark.django_db(transaction=True)
def test_everything_that_is_said_to_be_saved_is_in_the_database(live_server, settings):
    settings.ROOT_URLCONF = "tests.bench.served_addresses"
    at = urlsplit(live_server.url)
    people = sitting_load.made_up_test(2, (at.hostname, at.port), fresh=False)
    sitters.sit_at_once(people, QUICK)
    assert [each.failures for each in people] == [[], []]
    assert sum(each.sent for each in people) == sum(each.saved for each in people) == Answer.objects.count() > 2
    kept = sitting_load.kept_by([each.session for each in people])
    assert [sitters.lost(each, has) for each, has in zip(people, kept, strict=True)] == [[], []]
    assert set(people[0].waits) == {"answer", "insert", "page", "picture"}


def test_an_answer_that_is_not_there_or_is_an_older_one_is_called_lost():
    person = sitters.Sitter(("", 0), "", "", 3, ())
    person.stands = {1: {("gather", "a")}, 2: {("gather", "a"), ("refuse", "b")}, 3: {("refuse", "b")}}
    assert sitters.lost(person, {1: ("gather", "a"), 2: ("refuse", "b"), 3: ("gather", "a")}) == [3]
    assert sitters.lost(person, {3: ("refuse", "b")}) == [1, 2]


def test_of_a_hundred_waits_five_are_longer_than_the_ninety_fifth_percentile():
    waits = [float(each) for each in range(1, 101)]
    assert sitters.percentile(waits, 0.95) == 95
    assert sitters.percentile([7.0], 0.95) == 7
