"""What a character says about two species at the stages they are in."""

from species.rules.separation import (
    Combination,
    Comparison,
    MonthClass,
    Relation,
    Score,
    TableCharacter,
    combinations_in_month,
    comparison,
    month_class,
    relation,
)
from species.rules.vocabulary import Frequency, Stage

ALWAYS, USUALLY, SOMETIMES = Frequency
ROSETTES = Combination(Stage.ROSETTE, Stage.ROSETTE)
HAIRS = TableCharacter("hairs", frozenset({Stage.ROSETTE, Stage.LEAFY}))


def said(gathered: list[Score], mistaken: list[Score], combination=ROSETTES, character=HAIRS) -> Relation:
    return relation(character, {character.key: gathered}, {character.key: mistaken}, combination)


def test_no_state_in_common_separates() -> None:
    assert said([Score("bristly", USUALLY), Score("few", SOMETIMES)], [Score("none", ALWAYS)]) == "separates"


def test_a_rare_state_in_common_makes_it_lean() -> None:
    assert said([Score("few", USUALLY), Score("none", SOMETIMES)], [Score("none", ALWAYS)]) == "leans"


def test_a_frequent_state_in_common_says_nothing() -> None:
    assert said([Score("none", USUALLY)], [Score("none", ALWAYS)]) == "same"


def test_without_a_frequent_state_on_one_side_nothing_leans() -> None:
    assert said([Score("none", SOMETIMES), Score("few", SOMETIMES)], [Score("none", ALWAYS)]) == "same"


def test_what_is_not_recorded_is_not_absent() -> None:
    assert said([], [Score("none", ALWAYS)]) == "unknown"
    assert relation(HAIRS, {}, {}, ROSETTES) == "unknown"


def test_a_character_that_cannot_be_seen_at_a_stage_is_unknown() -> None:
    flowers = Combination(Stage.FLOWER, Stage.ROSETTE)
    assert said([Score("few", ALWAYS)], [Score("none", ALWAYS)], flowers) == "unknown"


def test_a_state_of_another_stage_does_not_count() -> None:
    later = [Score("few", ALWAYS, frozenset({Stage.LEAFY}))]
    assert said(later, [Score("none", ALWAYS)]) == "unknown"


def test_of_two_stages_a_plant_has_its_states_at_both() -> None:
    changing = [
        Score("crown", ALWAYS, frozenset({Stage.ROSETTE})),
        Score("on stem", ALWAYS, frozenset({Stage.LEAFY})),
    ]
    mixed = Combination(Stage.LEAFY, Stage.ROSETTE)
    assert said(changing, changing, mixed) == "same"
    assert said(changing, [Score("crown", ALWAYS)], ROSETTES) == "same"


def test_what_must_not_be_relied_on_never_more_than_leans() -> None:
    smell = TableCharacter("smell", frozenset({Stage.ROSETTE}), not_relied_on=True)
    assert said([Score("garlic", ALWAYS)], [Score("none", ALWAYS)], character=smell) == "leans"


def test_a_comparison_keeps_the_order_of_the_table() -> None:
    others = [TableCharacter(key, frozenset({Stage.ROSETTE})) for key in ("b", "a")]
    gathered = {key: [Score("yes", ALWAYS)] for key in ("a", "b", "hairs")}
    mistaken = {key: [Score("no", ALWAYS)] for key in ("a", "b")} | {"hairs": [Score("yes", ALWAYS)]}
    found = comparison([*others, HAIRS], gathered, mistaken, ROSETTES)
    assert found == Comparison(ROSETTES, ("b", "a"), ())


def test_a_combination_shows_when_both_stages_do() -> None:
    gathered = {Stage.ROSETTE: frozenset({2, 3})}
    mistaken = {Stage.ROSETTE: frozenset({3, 4})}
    assert combinations_in_month([ROSETTES], gathered, mistaken, 3) == (ROSETTES,)
    assert combinations_in_month([ROSETTES], gathered, mistaken, 4) == ()


def test_a_month_is_judged_without_digging() -> None:
    characters = {"root": TableCharacter("root", frozenset(), needs_digging=True), "hairs": HAIRS}
    dug, seen = Comparison(ROSETTES, ("root",), ()), Comparison(ROSETTES, ("hairs",), ())
    assert month_class([dug], characters) == MonthClass.IN_NONE
    assert month_class([dug, seen], characters) == MonthClass.IN_SOME
    assert month_class([seen], characters) == MonthClass.IN_ALL
    assert month_class([], characters) == MonthClass.NOT_TOGETHER
