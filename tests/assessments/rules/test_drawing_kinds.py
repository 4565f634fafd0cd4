"""Drawing the questions that only teach: from what is left, each plant once, the least used first, by a seed."""

from collections import Counter
from dataclasses import replace
from datetime import date

from assessments.rules.blueprint import Candidate
from assessments.rules.kinds.drawing import Botany, Drawn, KindShortage, draw_kinds, mixed_in
from assessments.rules.standard import Side

from .test_kinds import PAIR, PICTURE, RIM, STALK

KINDS = {"which_character": 2, "point_at_it": 2, "side_by_side": 2}


def plants(each: int = 8) -> list[Candidate]:
    sides = ((PAIR.gathered, Side.EDIBLE), (PAIR.mistaken, Side.DANGEROUS))
    return [
        Candidate(f"{species}{n}", f"plant {species}{n}", species, "rosette", f"wood {n}", date(2026, 4, 2), side)
        for species, side in sides
        for n in range(each)
    ]


def botany(left: list[Candidate]) -> Botany:
    return Botany((PAIR,), {(PAIR.key, "rosette"): (RIM, STALK)}, {each.key: (PICTURE,) for each in left})


def drawn(left: list[Candidate], seed: int = 1, wanted: dict[str, int] = KINDS) -> list[Drawn]:
    found = draw_kinds(wanted, left, botany(left), seed)
    assert all(isinstance(each, Drawn) for each in found), found
    return [each for each in found if isinstance(each, Drawn)]


def test_so_many_of_each_kind_are_drawn_and_no_plant_twice():
    found = drawn(plants())
    assert Counter(each.kind for each in found) == KINDS
    shown = [plant.individual for each in found for plant in each.plants]
    assert len(shown) == len(set(shown)) == 8


def test_the_same_seed_draws_the_same_and_another_one_others():
    assert drawn(plants()) == drawn(plants()[::-1])
    assert drawn(plants()) != drawn(plants(), seed=2)


def test_what_was_set_least_is_drawn_first():
    left = [replace(plant, uses=n % 4) for n, plant in enumerate(plants())]
    assert all(plant.uses == 0 for each in drawn(left, wanted={"point_at_it": 2}) for plant in each.plants)


def test_either_side_is_shown_as_often_so_that_guessing_helps_nobody():
    left = plants()
    sides = Counter(drawn(left, seed, {"which_character": 1})[0].plants[0].side for seed in range(400))
    assert 160 < sides[Side.DANGEROUS] < 240  # four standard deviations around a half


def test_of_two_plants_either_may_stand_first():
    pairs = [drawn(plants(), seed, {"side_by_side": 1})[0].plants for seed in range(400)]
    orders = Counter((first.side, second.side) for first, second in pairs)
    assert len(orders) == 4
    assert min(orders.values()) > 60


def test_what_cannot_be_asked_is_named_with_how_much_there_is():
    assert draw_kinds({"side_by_side": 9}, plants(), botany(plants()), 1) == (KindShortage("side_by_side", 9, 8),)
    bare = Botany((PAIR,), {}, {})
    assert draw_kinds({"point_at_it": 1}, plants(), bare, 1) == (KindShortage("point_at_it", 1, 0),)


def test_the_other_kinds_stand_anywhere_among_those_that_count_which_keep_their_order():
    counting = [Drawn("name_and_decide", (plant,)) for plant in plants()]
    more = drawn(plants(), wanted={"point_at_it": 2})
    orders = [mixed_in(counting, more, seed) for seed in range(60)]
    assert all([each for each in order if each in counting] == counting for order in orders)
    assert {place for order in orders for place, each in enumerate(order) if each in more} == set(range(18))
