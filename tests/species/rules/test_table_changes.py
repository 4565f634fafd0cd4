"""What a change of the table does to a pair, and where it disagrees with what somebody called decisive."""

from dataclasses import replace

from species.rules.separation import Combination, Relation, Score, TableCharacter
from species.rules.stages import ListedCharacter
from species.rules.table_changes import Disagreement, PairInTable, TableFacts, changes, disagreements
from species.rules.vocabulary import Frequency, Stage, Trust

ALWAYS, USUALLY, SOMETIMES = Frequency
ROSETTES = Combination(Stage.ROSETTE, Stage.ROSETTE)
FLOWERS = Combination(Stage.FLOWER, Stage.FLOWER)
BOTH = frozenset({Stage.ROSETTE, Stage.FLOWER})
HAIRS = ListedCharacter("hairs", BOTH, Trust.DECISIVE)
PAIR = PairInTable("good-bad", "good", "bad", (ROSETTES, FLOWERS), (HAIRS,))
FACTS = TableFacts(
    characters={
        "hairs": TableCharacter("hairs", BOTH),
        "root": TableCharacter("root", BOTH, needs_digging=True),
        "smell": TableCharacter("smell", BOTH, not_relied_on=True),
    },
    scores={
        "good": {"hairs": [Score("few", ALWAYS)], "root": [Score("thin", ALWAYS)]},
        "bad": {"hairs": [Score("none", ALWAYS)], "root": [Score("thick", ALWAYS)]},
    },
    calendars={
        "good": {Stage.ROSETTE: frozenset({3, 4}), Stage.FLOWER: frozenset({6})},
        "bad": {Stage.ROSETTE: frozenset({4, 5}), Stage.FLOWER: frozenset({6, 7})},
    },
    pairs=(PAIR,),
)


def with_hairs(*scores: Score) -> TableFacts:
    return FACTS.with_scores("bad", {**FACTS.scores["bad"], "hairs": list(scores)})


def test_nothing_changed_says_nothing() -> None:
    assert changes(FACTS, FACTS) == ()
    assert disagreements(FACTS) == ()


def test_a_lost_character_is_named_with_stages_and_months() -> None:
    bald_rosettes = with_hairs(
        Score("none", ALWAYS, frozenset({Stage.FLOWER})), Score("few", ALWAYS, frozenset({Stage.ROSETTE}))
    )
    (found,) = changes(FACTS, bald_rosettes)
    assert (found.pair, found.character, found.combination) == ("good-bad", "hairs", ROSETTES)
    assert (found.months, found.before, found.after) == ({4}, Relation.SEPARATES, Relation.SAME)
    assert found.is_lost
    assert not found.is_gained


def test_where_only_digging_tells_nothing_is_left() -> None:
    assert all(each.leaves_nothing for each in changes(FACTS, with_hairs(Score("few", ALWAYS))))


def test_where_another_character_separates_something_is_left() -> None:
    more = replace(FACTS, characters={**FACTS.characters, "root": TableCharacter("root", BOTH)})
    after = more.with_scores("bad", {**more.scores["bad"], "hairs": [Score("few", ALWAYS)]})
    assert [each.left for each in changes(more, after)] == [("root",), ("root",)]


def test_going_back_gains_what_was_lost() -> None:
    found = changes(with_hairs(Score("few", ALWAYS)), FACTS)
    assert [(each.combination, each.is_gained) for each in found] == [(ROSETTES, True), (FLOWERS, True)]


def test_another_species_changes_nothing_for_the_pair() -> None:
    assert changes(FACTS, FACTS.with_scores("third", {"hairs": [Score("few", ALWAYS)]})) == ()


def test_a_decisive_character_that_leans_is_a_disagreement() -> None:
    found = disagreements(with_hairs(Score("none", USUALLY), Score("few", SOMETIMES)))
    assert found == (
        Disagreement("good-bad", "hairs", ROSETTES, frozenset({4}), Relation.LEANS),
        Disagreement("good-bad", "hairs", FLOWERS, frozenset({6}), Relation.LEANS),
    )


def test_a_decisive_character_that_is_not_known_is_a_disagreement() -> None:
    assert {each.said for each in disagreements(with_hairs())} == {Relation.UNKNOWN}


def test_a_more_cautious_list_is_none() -> None:
    cautious = replace(PAIR, listed=(replace(HAIRS, trust=Trust.SUPPORTING),))
    assert disagreements(replace(with_hairs(), pairs=(cautious,))) == ()


def test_a_list_that_is_silent_about_a_stage_does_not_disagree_there() -> None:
    for_flowers = replace(PAIR, listed=(replace(HAIRS, stages=frozenset({Stage.FLOWER})),))
    assert [each.combination for each in disagreements(replace(with_hairs(), pairs=(for_flowers,)))] == [FLOWERS]


def test_what_must_not_be_relied_on_cannot_be_decisive() -> None:
    smell = replace(PAIR, listed=(ListedCharacter("smell", BOTH, Trust.DECISIVE),))
    smelling = FACTS.with_scores("good", {"smell": [Score("garlic", ALWAYS)]})
    smelling = smelling.with_scores("bad", {"smell": [Score("none", ALWAYS)]})
    assert {each.said for each in disagreements(replace(smelling, pairs=(smell,)))} == {Relation.LEANS}


def test_what_only_leaned_before_leaves_nothing_by_no_change() -> None:
    """Nothing was lost where nothing separated, however little is left."""
    leaning = with_hairs(Score("none", USUALLY), Score("few", SOMETIMES))
    found = changes(leaning, with_hairs(Score("few", ALWAYS)))
    assert {(each.before, each.after, each.leaves_nothing) for each in found} == {
        (Relation.LEANS, Relation.SAME, False)
    }
