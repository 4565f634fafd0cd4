"""Papers drawn to a blueprint, and what is said when none can be drawn."""

from datetime import date, timedelta
from fractions import Fraction

import pytest

from assessments.rules.assembly import Assembly, assemble
from assessments.rules.blueprint import Blueprint, Candidate, Importance, Quota, pair_quotas, stage_quotas
from assessments.rules.shortfall import (
    Shortage,
    Shortfall,
    conflicting_conditions,
    least_questions,
    quotas_short_of_supply,
    supply,
)
from assessments.rules.standard import Side

from .specimens import CICELY_PAIR, HEMLOCK_PAIR, LILY_PAIR

DAY = date(2031, 4, 1)
D, E = Side.DANGEROUS, Side.EDIBLE
PLANTS = [("hemlock", D), ("lily", D), ("cow-parsley", E), ("cicely", E), ("ramsons", E), ("dock", None)]
STAGES = ["rosette", "flower"]


def photo(key, species="hemlock", side=D, **more):
    facts = {"individual": key, "stage": "flower", "locality": key, "day": DAY, "uses": 0}
    return Candidate(key=key, species=species, side=side, **{**facts, **more})


def bank(of_each=12):
    """So many photos of each plant, half of them rosettes, each from a place of its own."""
    return [
        photo(f"{species}{n}", species, side, stage=STAGES[n % 2], uses=n % 3)
        for species, side in PLANTS
        for n in range(of_each)
    ]


def drawn(candidates, blueprint, seed=1, **more):
    paper = assemble(candidates, blueprint, seed, **more)
    assert isinstance(paper, Assembly), paper
    return paper


def refused(candidates, blueprint, **more):
    answer = assemble(candidates, blueprint, 1, **more)
    assert isinstance(answer, Shortfall)
    return answer


def number_of(paper, **facts):
    return sum(all(getattr(q, name) == value for name, value in facts.items()) for q in paper.questions)


def test_a_paper_has_its_length_and_meets_every_quota():
    quotas = (
        *pair_quotas([HEMLOCK_PAIR, CICELY_PAIR, LILY_PAIR], 3, 2),
        *stage_quotas({("hemlock", "rosette"): 2}),
    )
    paper = drawn(bank(), Blueprint(20, quotas))
    assert len(paper.questions) == len({q.key for q in paper.questions}) == 20
    assert number_of(paper, species="hemlock") >= 3
    assert number_of(paper, species="lily") >= 3
    assert min(number_of(paper, species=s) for s in ("cow-parsley", "cicely", "ramsons")) >= 2
    assert number_of(paper, species="hemlock", stage="rosette") >= 2


def test_one_dangerous_species_serves_all_its_pairs_with_one_quota():
    names = [(q.name, q.at_least) for q in pair_quotas([HEMLOCK_PAIR, CICELY_PAIR], 4, 1)]
    assert names == [("hemlock", 4), ("cow-parsley", 1), ("cicely", 1)]
    assert pair_quotas([HEMLOCK_PAIR], 4, 0)[-1].name == "hemlock"
    assert stage_quotas({("hemlock", "rosette"): 0}) == ()


def test_the_same_seed_draws_the_same_paper_whatever_order_the_photos_come_in():
    photos, blueprint = bank(), Blueprint(20)
    assert drawn(photos, blueprint) == drawn(photos[::-1], blueprint)
    assert drawn(photos, blueprint) != drawn(photos, blueprint, seed=2)


def test_the_share_of_dangerous_plants_is_drawn_between_its_bounds():
    shares = {drawn(bank(), Blueprint(20), seed).dangerous for seed in range(40)}
    assert shares == {8, 9, 10, 11, 12}


def test_the_share_is_that_of_the_dangerous_plants_and_of_no_others():
    blueprint = Blueprint(20, dangerous_share=(Fraction(1, 5), Fraction(1, 4)))
    assert {drawn(bank(), blueprint, seed).dangerous for seed in range(12)} == {4, 5}


def test_quotas_may_leave_only_part_of_the_bounds():
    quotas = (Quota("dangerous", 12, side=D),)
    assert {drawn(bank(), Blueprint(20, quotas), seed).dangerous for seed in range(8)} == {12}


@pytest.mark.parametrize(
    ("length", "bounds"),
    [(1, (0, 1)), (2, (1, 1)), (3, (1, 2)), (5, (2, 3)), (6, (3, 3)), (20, (8, 12)), (40, (16, 24))],
)
def test_the_bounds_are_whole_questions(length, bounds):
    assert Blueprint(length).dangerous_bounds == bounds


def test_without_a_share_any_proportion_will_do():
    blueprint = Blueprint(4, dangerous_share=None)
    assert drawn([photo(f"h{n}") for n in range(4)], blueprint).dangerous == 4


def test_the_least_used_photos_are_drawn_first():
    photos = [photo(f"h{n}", uses=n) for n in range(8)] + [photo(f"p{n}", "cow-parsley", E, uses=n) for n in range(8)]
    paper = drawn(photos, Blueprint(8, dangerous_share=(Fraction(1, 2), Fraction(1, 2))))
    assert sorted(q.key for q in paper.questions) == ["h0", "h1", "h2", "h3", "p0", "p1", "p2", "p3"]


def test_equally_used_photos_are_drawn_by_chance():
    keys = {q.key for seed in range(40) for q in drawn(bank(8), Blueprint(4), seed).questions}
    assert len(keys) > 12


def test_one_individual_is_shown_once():
    photos = [photo(f"h{n}", individual="a") for n in range(5)] + [photo("h9")]
    blueprint = Blueprint(2, dangerous_share=None)
    assert {q.individual for q in drawn(photos, blueprint).questions} == {"a", "h9"}
    assert refused(photos, Blueprint(3, dangerous_share=None)).least_questions == 0


def test_no_more_than_two_of_a_species_from_one_place_and_day():
    photos = [photo(f"h{n}", locality="the mill") for n in range(5)]
    assert len(drawn(photos, Blueprint(2, dangerous_share=None)).questions) == 2
    assert isinstance(assemble(photos, Blueprint(3, dangerous_share=None), 1), Shortfall)
    other_day = [photo("x", locality="the mill", day=DAY + timedelta(days=1))]
    assert drawn([*photos, *other_day], Blueprint(3, dangerous_share=None))
    other_plant = [photo("x", "lily", locality="the mill")]
    assert drawn([*photos, *other_plant], Blueprint(3, dangerous_share=None))


@pytest.mark.parametrize(("before", "room"), [(0, 2), (1, 1), (2, 0), (3, 0)])
def test_what_the_person_answered_from_there_before_takes_its_place(before, room):
    photos = [photo(f"h{n}", locality="the mill") for n in range(5)]
    answered = {("hemlock", "the mill", DAY): before}
    quota = Quota("hemlock", 1)
    assert supply(quota, photos, Blueprint(5), answered) == room


def test_the_cap_per_species_holds():
    blueprint = Blueprint(10, per_species=2)
    paper = drawn(bank(), blueprint)
    assert max(number_of(paper, species=species) for species, _ in PLANTS) == 2
    assert isinstance(assemble(bank(), Blueprint(11, per_species=2), 1), Shortfall)


def test_how_often_a_photo_was_got_right_is_not_even_known():
    assert set(Candidate.__dataclass_fields__) == {
        "key", "individual", "species", "stage", "locality", "day", "side", "uses"
    }  # fmt: skip


def test_each_quota_is_held_against_its_own_supply():
    quotas = (
        *stage_quotas({("hemlock", "rosette"): 7, ("lily", "rosette"): 6}),
        Quota("yew", 1, frozenset({"yew"})),
    )
    answer = refused(bank(), Blueprint(20, quotas))
    assert answer.short == (Shortage("hemlock, rosette", 7, 6), Shortage("yew", 1, 0))
    assert [shortage.short for shortage in answer.short] == [1, 1]
    assert answer.least_questions is None
    assert answer.conflict == ()


def test_a_paper_too_short_for_its_quotas_says_how_long_it_must_be():
    quotas = pair_quotas([HEMLOCK_PAIR, CICELY_PAIR, LILY_PAIR], 4, 4)
    answer = refused(bank(), Blueprint(12, quotas))
    assert (answer.short, answer.length, answer.least_questions, answer.conflict) == ((), 12, 20, ())


def test_the_least_number_of_questions_keeps_the_dangerous_share():
    quotas = (Quota("hemlock", 9, frozenset({"hemlock"})),)
    assert least_questions(bank(), Blueprint(12, quotas), {}) == 15
    assert least_questions(bank(), Blueprint(12, quotas, dangerous_share=None), {}) == 9
    edible = (Quota("ramsons", 9, frozenset({"ramsons"})),)
    assert least_questions(bank(), Blueprint(12, edible), {}) == 15


def test_the_way_out_gives_way_on_the_edible_side_before_the_dangerous():
    answer = refused(bank(), Blueprint(12, pair_quotas([HEMLOCK_PAIR, CICELY_PAIR, LILY_PAIR], 3, 3)))
    assert sum(shortage.short for shortage in answer.one_way_out) == 3
    assert {shortage.name for shortage in answer.one_way_out} <= {"cow-parsley", "cicely", "ramsons"}


@pytest.mark.parametrize(
    ("strong", "weak"),
    [
        (Importance.DANGEROUS, Importance.STAGE),
        (Importance.STAGE, Importance.EDIBLE),
        (Importance.EDIBLE, Importance.REST),
    ],
)
def test_the_less_important_quota_gives_way(strong, weak):
    photos = [*(photo(f"h{n}") for n in range(9)), *(photo(f"l{n}", "lily") for n in range(9))]
    quotas = (
        Quota("weak", 3, frozenset({"lily"}), importance=weak),
        Quota("strong", 3, frozenset({"hemlock"}), importance=strong),
    )
    answer = refused(photos, Blueprint(5, quotas, dangerous_share=None))
    assert answer.one_way_out == (Shortage("weak", 3, 2),)
    assert (Importance.DANGEROUS, Importance.STAGE, Importance.EDIBLE, Importance.REST) == (1000, 100, 50, 10)


def test_a_bank_that_is_too_small_can_only_make_a_shorter_paper():
    answer = refused(bank(2), Blueprint(20))
    assert answer.one_way_out == (Shortage("length", 20, 12), Shortage("dangerous share", 8, 4))
    assert answer.least_questions == 0


def test_a_bank_of_dangerous_plants_alone_breaks_the_share():
    photos = [photo(f"h{n}") for n in range(10)]
    answer = refused(photos, Blueprint(10))
    assert answer.one_way_out == (Shortage("length", 10, 6),)
    assert answer.conflict == ("length", "dangerous share")


def test_a_bank_of_edible_plants_alone_lacks_the_dangerous():
    photos = [photo(f"p{n}", "cow-parsley", E) for n in range(10)]
    answer = refused(photos, Blueprint(10))
    assert answer.one_way_out == (Shortage("dangerous share", 4, 0),)
    assert answer.conflict == ("dangerous share",)


def test_the_conflict_names_only_what_cannot_hold_together():
    quotas = (
        Quota("hemlock", 4, frozenset({"hemlock"})),
        Quota("rosettes", 1, stages=frozenset({"rosette"})),
        Quota("lily", 4, frozenset({"lily"})),
        Quota("dangerous", 2, side=D),
    )
    conflict = conflicting_conditions(bank(), Blueprint(10, quotas), {})
    assert conflict == ("hemlock", "lily", "dangerous share")


def test_a_photo_is_new_until_it_has_been_set():
    assert Candidate("p", "i", "hemlock", "flower", "here", DAY, D).uses == 0


def test_an_empty_bank_is_short_of_everything():
    answer = refused([], Blueprint(4, (Quota("hemlock", 1, frozenset({"hemlock"})),)))
    assert answer.short == (Shortage("hemlock", 1, 0),)
    assert quotas_short_of_supply([], Blueprint(4), {}) == ()


def test_a_blueprint_that_makes_no_paper_is_refused():
    with pytest.raises(ValueError, match="at least one question"):
        Blueprint(0)
    with pytest.raises(ValueError, match="name of its own"):
        Blueprint(4, (Quota("a", 1), Quota("a", 2)))
