"""Whether a pair can be mistaken now, and what is taught to separate it."""

from species.rules.confusion import Confusion, MonthOfPair, confusions_of, stretches, year_of_pair
from species.rules.separation import Combination, Comparison, MonthClass, TableCharacter
from species.rules.stages import ListedCharacter
from species.rules.vocabulary import Stage, Trust

ROSETTES = Combination(Stage.ROSETTE, Stage.ROSETTE)
FLOWERS = Combination(Stage.FLOWER, Stage.FLOWER)
EVERY = frozenset(Stage)
CHARACTERS = {key: TableCharacter(key, EVERY, needs_digging=key == "root") for key in ("hairs", "bracts", "root")}


def listed(key: str, trust: Trust = Trust.DECISIVE) -> ListedCharacter:
    return ListedCharacter(key, EVERY, trust, key == "root")


def test_only_what_is_taught_and_above_ground_separates():
    compared = [Comparison(ROSETTES, ("hairs", "bracts", "root"), ())]
    (found,) = confusions_of(compared, CHARACTERS, [listed("hairs"), listed("root")])
    assert found.separates == ("hairs",)
    (none,) = confusions_of(compared, CHARACTERS, [listed("hairs", Trust.NOT_TO_BE_RELIED_ON)])
    assert none.separates == ()


def test_a_month_is_told_apart_in_all_some_or_none_of_what_shows():
    told, untold = Confusion(FLOWERS, ("bracts",)), Confusion(ROSETTES, ())
    assert MonthOfPair(6, (told,)).told_apart == MonthClass.IN_ALL
    assert MonthOfPair(6, (told, untold)).told_apart == MonthClass.IN_SOME
    assert MonthOfPair(6, (untold,)).told_apart == MonthClass.IN_NONE
    assert MonthOfPair(6, ()).told_apart == MonthClass.NOT_TOGETHER


def test_a_combination_shows_only_in_months_in_which_both_stages_do():
    gathered, mistaken = {Stage.ROSETTE: frozenset({11, 12, 1})}, {Stage.ROSETTE: frozenset({12, 1, 2})}
    year = year_of_pair([Confusion(ROSETTES, ())], gathered, mistaken)
    assert [each.month for each in year if each.confusions] == [1, 12]


def test_months_that_are_alike_are_one_stretch_also_over_the_new_year():
    gathered = mistaken = {Stage.ROSETTE: frozenset({11, 12, 1}), Stage.FLOWER: frozenset({6, 7})}
    year = year_of_pair([Confusion(ROSETTES, ()), Confusion(FLOWERS, ("bracts",))], gathered, mistaken)
    assert [each.months for each in stretches(year)] == [(2, 3, 4, 5), (6, 7), (8, 9, 10), (11, 12, 1)]


def test_a_year_that_is_alike_throughout_is_one_stretch():
    assert [each.months for each in stretches(year_of_pair([], {}, {}))] == [tuple(range(1, 13))]
