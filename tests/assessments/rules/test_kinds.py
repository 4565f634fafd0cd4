"""The kinds of question: what each asks, when it is right, what it says of gathering, and what counts."""

from random import Random

import pytest

from assessments.rules.evidence import Decision
from assessments.rules.kinds import point_at_it, side_by_side, which_character
from assessments.rules.kinds.catalogue import KINDS, counts_as_evidence, kind_called
from assessments.rules.kinds.shape import Clue, Mark, PictureFacts, PlantShown, Subject, Truth
from assessments.rules.standard import PairFacts, Side
from species.rules.regions import Frame

PAIR = PairFacts("leaves", "goodleaf", "badleaf")
RIM = Clue("rim", "Rim", "smooth", "wavy", decides=True)
STALK = Clue("stalk", "Stalk", "round", "ridged", decides=False)
SAME = Clue("smell", "Colour", "green", "green", decides=True)
PICTURE = PictureFacts(5, 0.75, (Mark("rim", Frame(0.1, 0.05, 0.2, 0.15)), Mark("stalk", Frame(0.7, 0.8, 0.2, 0.1))))
SEEDS = range(40)


def subject(side: Side = Side.EDIBLE, **more: object) -> Subject:
    facts = {"clues": (RIM, STALK), "pictures": (PICTURE,), **more}
    return Subject(PlantShown("1", side), PAIR, **facts)  # type: ignore[arg-type]


def truth(*sides: Side | None) -> Truth:
    return Truth(sides, PICTURE, (RIM, STALK))


def test_only_naming_and_deciding_counts():
    assert [kind.key for kind in KINDS if kind.counts] == ["name_and_decide"]
    assert not counts_as_evidence("a_kind_that_is_no_longer_listed")


def test_kinds_bear_names_of_their_own_and_an_unknown_one_is_an_error():
    assert len({kind.key for kind in KINDS}) == len(KINDS) == 4
    assert all(kind_called(kind.key) is kind for kind in KINDS)
    with pytest.raises(KeyError):
        kind_called("guess_it")


@pytest.mark.parametrize("seed", SEEDS)
def test_the_states_offered_do_not_depend_on_the_plant_shown(seed):
    asked = [which_character.ask(subject(side), Random(seed)) for side in Side]
    assert asked[0] == asked[1]
    assert asked[0] is not None
    options = asked[0].asks["options"]
    assert sorted(each["shows"] for each in options) == ["ridged", "round", "smooth", "wavy"]


def test_the_state_that_decides_is_not_always_offered_at_the_same_place():
    asked = [which_character.ask(subject(), Random(seed)) for seed in SEEDS]
    places = [next(n for n, each in enumerate(put.asks["options"]) if each["shows"] == "wavy") for put in asked if put]
    assert set(places) == {0, 1, 2, 3}


@pytest.mark.parametrize("clues", [(), (STALK,), (SAME,)], ids=["none", "none decides", "alike on both"])
def test_no_character_is_asked_for_where_none_decides(clues):
    assert which_character.ask(subject(clues=clues), Random(1)) is None


@pytest.mark.parametrize(
    ("side", "right"), [(Side.EDIBLE, "smooth"), (Side.DANGEROUS, "wavy")], ids=["edible", "dangerous"]
)
def test_right_is_the_deciding_state_of_the_plant_itself(side, right):
    put = which_character.ask(subject(side), Random(3))
    assert put is not None
    found = {
        each["shows"]: which_character.is_right(put.asks, each["key"], truth(side)) for each in put.asks["options"]
    }
    assert [shows for shows, is_right in found.items() if is_right] == [right]
    assert which_character.is_right(put.asks, which_character.CANNOT_TELL, truth(side)) is False
    assert which_character.is_right(put.asks, "0", truth(None)) is None


@pytest.mark.parametrize(
    ("chosen", "right"),
    [
        ("at 0.2000 0.1000", True),
        ("at 0.3200 0.1000", True),  # a finger's width beside it
        ("at 0.5000 0.1000", False),
        ("at 0.8000 0.8500", False),  # what only leans is marked there
        ("field A", True),
        ("field L", False),
        (point_at_it.CANNOT_TELL, False),
    ],
)
def test_pointing_is_right_where_what_decides_is_marked(chosen, right):
    assert point_at_it.is_right({}, chosen, truth(Side.EDIBLE)) is right


def test_nobody_says_whether_pointing_was_right_once_the_mark_is_gone():
    assert point_at_it.is_right({}, "field A", Truth((Side.EDIBLE,), PictureFacts(5, 0.75), (RIM,))) is None


def test_a_picture_is_not_pointed_at_where_nothing_or_nearly_everything_is_right():
    whole = PictureFacts(6, 0.75, (Mark("rim", Frame(0, 0, 1, 1)),))
    assert point_at_it.ask(subject(pictures=(PictureFacts(7, 0.75), whole)), Random(1)) is None
    put = point_at_it.ask(subject(pictures=(whole, PICTURE)), Random(1))
    assert put is not None
    assert put.asks["photo"] == PICTURE.key


@pytest.mark.parametrize("letter", point_at_it.LETTERS)
def test_the_middle_of_a_field_lies_in_it(letter):
    frame = point_at_it.field_frame(letter)
    assert point_at_it.field_at(frame.x + frame.width / 2, frame.y + frame.height / 2) == letter


@pytest.mark.parametrize(
    ("chosen", "said"),
    [
        ("first", (Decision.GATHER, Decision.REFUSE)),
        ("second", (Decision.REFUSE, Decision.GATHER)),
        ("both", (Decision.GATHER, Decision.GATHER)),
        ("neither", (Decision.REFUSE, Decision.REFUSE)),
        ("leave", (Decision.LEAVE, Decision.LEAVE)),
        ("", (None, None)),
    ],
)
def test_choosing_of_two_says_of_either_whether_it_would_be_gathered(chosen, said):
    assert side_by_side.decisions(chosen) == said


def test_right_of_two_is_to_gather_just_the_edible_ones():
    good, bad = Side.EDIBLE, Side.DANGEROUS
    for sides, right in [
        ((good, bad), "first"),
        ((bad, good), "second"),
        ((good, good), "both"),
        ((bad, bad), "neither"),
    ]:
        found = [each for each in side_by_side.GATHERED if side_by_side.is_right({}, each, truth(*sides))]
        assert found == [right]
    assert side_by_side.is_right({}, "first", truth(good, None)) is None


def test_beside_a_plant_stands_its_double_as_often_as_one_of_its_own():
    partners = (PlantShown("2", Side.EDIBLE), PlantShown("3", Side.DANGEROUS))
    drawn = [side_by_side.ask(subject(partners=partners), Random(seed)) for seed in range(400)]
    doubles = sum(put.beside.side is Side.DANGEROUS for put in drawn if put and put.beside)
    assert 160 < doubles < 240  # four standard deviations around a half
    assert side_by_side.ask(subject(), Random(1)) is None
