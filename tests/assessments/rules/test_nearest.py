"""The nearest paper that can be drawn for everybody, where the one asked for cannot."""

from dataclasses import replace

from assessments.rules.assembly import Assembly, assemble
from assessments.rules.blueprint import Blueprint, Quota, pair_quotas, stage_quotas
from assessments.rules.nearest import Choice, longer_paper, nearest_paper
from assessments.rules.standard import Side

from .specimens import CICELY_PAIR, HEMLOCK_PAIR, LILY_PAIR
from .test_assembly import bank, photo


def everybody(*banks):
    return [Choice(each, {}) for each in banks]


def nearest(people, asked):
    found = nearest_paper(people, asked)
    assert found is not None
    return found


def asked_of(blueprint):
    return {quota.name: quota.at_least for quota in blueprint.quotas}


def test_what_can_be_drawn_stays_as_it_is():
    blueprint = Blueprint(10, pair_quotas([HEMLOCK_PAIR], 3, 3))
    assert nearest_paper(everybody(bank()), blueprint) == blueprint


def test_only_the_quota_that_is_short_asks_for_less():
    quotas = (*pair_quotas([HEMLOCK_PAIR], 3, 3), *stage_quotas({("hemlock", "rosette"): 8}))
    nearer = nearest(everybody(bank()), Blueprint(20, quotas))
    assert nearer.length == 20
    assert asked_of(nearer) == {"hemlock": 3, "cow-parsley": 3, "hemlock, rosette": 6}


def test_a_bank_that_is_too_small_gives_a_shorter_paper_within_the_share():
    nearer = nearest(everybody(bank(2)), Blueprint(20))
    assert nearer.length == 10
    assert assemble(bank(2), nearer, 1).dangerous == 4


def test_the_edible_side_gives_way_before_the_dangerous():
    asked = Blueprint(12, pair_quotas([HEMLOCK_PAIR, CICELY_PAIR, LILY_PAIR], 3, 3))
    nearer = nearest(everybody(bank()), asked)
    assert (asked_of(nearer)["hemlock"], asked_of(nearer)["lily"], nearer.length) == (3, 3, 12)
    assert sum(asked_of(asked).values()) - sum(asked_of(nearer).values()) == 3


def test_it_is_one_paper_for_everybody():
    few = [each for each in bank() if each.species != "hemlock"] + [photo("h0"), photo("h1")]
    asked = Blueprint(12, pair_quotas([HEMLOCK_PAIR, LILY_PAIR], 3, 3))
    people = everybody(bank(), few, bank(3))
    nearer = nearest(people, asked)
    assert asked_of(nearer)["hemlock"] == 2
    assert all(isinstance(assemble(person.candidates, nearer, 4), Assembly) for person in people)


def test_where_one_side_is_gone_there_is_no_paper():
    edible = [each for each in bank() if each.side is Side.EDIBLE]
    assert nearest_paper(everybody(bank(), edible), Blueprint(10)) is None
    assert nearest_paper(everybody([]), Blueprint(10)) is None


def test_a_longer_paper_keeps_every_quota():
    asked = Blueprint(12, pair_quotas([HEMLOCK_PAIR, CICELY_PAIR, LILY_PAIR], 4, 4))
    longer = longer_paper(everybody(bank(), bank(8)), asked, 60)
    assert longer == replace(asked, length=20)
    assert longer_paper(everybody(bank()), asked, 19) is None


def test_length_does_not_help_where_a_quota_is_short_by_itself():
    asked = Blueprint(4, (Quota("yew", 1, frozenset({"yew"})),))
    assert longer_paper(everybody(bank()), asked, 60) is None
