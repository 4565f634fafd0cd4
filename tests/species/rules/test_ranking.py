"""How well characters separate, in figures, and in which order to look."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from species.rules.ranking import Proof, ranked_characters, separation_of
from species.rules.separation import Combination, Relation, Score, TableCharacter
from species.rules.vocabulary import Frequency, Stage

ALWAYS, USUALLY, SOMETIMES = Frequency
ROSETTES = Combination(Stage.ROSETTE, Stage.ROSETTE)
amounts = st.dictionaries(st.sampled_from("abcd"), st.floats(0.05, 1.0), min_size=1)


def character(key: str, not_relied_on: bool = False) -> TableCharacter:
    return TableCharacter(key, frozenset({Stage.ROSETTE}), not_relied_on=not_relied_on)


def test_states_apart_separate_wholly() -> None:
    found = separation_of({"bristly": 3}, {"none": 1})
    assert (found.safe_share, found.proof_share, found.total_variation) == (1, 1, 1)
    assert found.is_telling
    assert found.least_error == 0


def test_the_same_shares_separate_nothing() -> None:
    found = separation_of({"a": 1, "b": 1}, {"a": 5, "b": 5})
    assert (found.safe_share, found.proof_share, found.total_variation) == (0, 0, 0)
    assert not found.is_telling


def test_a_one_way_sign_proves_one_side_only() -> None:
    """Blotches: three hemlock stems in four by the weights 0.75 and 0.25, and never cow parsley."""
    found = separation_of({"plain": 1.0}, {"blotched": 0.75, "plain": 0.25})
    assert found.proof_share == pytest.approx(0.75)
    assert found.safe_share == 0
    assert found.total_variation == pytest.approx(0.75)


@pytest.mark.parametrize(
    ("gathered", "mistaken", "proof"),
    [
        ({"plain": 1}, {"blotched": 3, "plain": 1}, Proof.MISTAKEN),
        ({"hairy": 3, "bald": 1}, {"bald": 1}, Proof.GATHERED),
        ({"a": 1, "b": 1}, {"b": 1, "c": 1}, Proof.EITHER),
        ({"a": 1, "b": 1}, {"a": 3, "b": 1}, Proof.NEITHER),
    ],
)
def test_a_character_may_prove_one_species_only(gathered, mistaken, proof) -> None:
    assert separation_of(gathered, mistaken).proof == proof


def test_a_tolerance_forgives_a_rare_state() -> None:
    assert separation_of({"a": 99, "b": 1}, {"b": 1}).proof_share == 0
    assert separation_of({"a": 99, "b": 1}, {"b": 1}, tolerance=0.02).proof_share == 1


def test_the_odour_of_mushrooms_clears_few_though_it_errs_seldom() -> None:
    """UCI mushrooms, odour by class: the published one-rule errs 120 times in 8124 (Duch et al. 1996)."""
    edible = {"almond": 400, "anise": 400, "none": 3408}
    poisonous = {
        "creosote": 192, "fishy": 576, "foul": 2160, "musty": 36, "none": 120, "pungent": 256, "spicy": 576,
    }  # fmt: skip
    found = separation_of(edible, poisonous)
    assert found.total_variation == pytest.approx(0.969, abs=0.0005)
    assert found.safe_share == pytest.approx(0.19, abs=0.001)


def test_a_side_without_states_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one state"):
        separation_of({}, {"a": 1.0})


def test_proof_comes_before_distance_and_what_must_not_be_relied_on_last() -> None:
    table = [
        character("smell", not_relied_on=True),
        character("hairs"),
        character("marks"),
        character("dots"),
    ]
    gathered = {
        "smell": [Score("garlic", ALWAYS)],
        "hairs": [Score("few", USUALLY), Score("none", SOMETIMES)],
        "marks": [Score("plain", ALWAYS)],
        "dots": [Score("none", ALWAYS)],
    }
    mistaken = {
        "smell": [Score("none", ALWAYS)],
        "hairs": [Score("none", ALWAYS)],
        "marks": [Score("blotched", USUALLY), Score("plain", SOMETIMES)],
        "dots": [Score("black", ALWAYS)],
    }
    found = ranked_characters(table, gathered, mistaken, ROSETTES)
    assert [each.character for each in found] == ["dots", "marks", "hairs", "smell"]
    assert [each.relation for each in found] == [
        Relation.SEPARATES,
        Relation.LEANS,
        Relation.LEANS,
        Relation.LEANS,
    ]


def test_what_is_not_recorded_on_both_sides_is_not_ranked() -> None:
    assert ranked_characters([character("hairs")], {"hairs": [Score("few", ALWAYS)]}, {}, ROSETTES) == ()


@given(amounts, amounts)
def test_shares_lie_between_nothing_and_everything(first, second) -> None:
    found = separation_of(first, second)
    assert 0 <= found.total_variation <= 1 + 1e-9
    assert max(found.safe_share, found.proof_share) <= found.total_variation + 1e-9


@given(amounts, amounts)
def test_turning_the_sides_round_exchanges_safe_and_proof(first, second) -> None:
    there, back = separation_of(first, second), separation_of(second, first)
    assert there.safe_share == pytest.approx(back.proof_share)
    assert there.total_variation == pytest.approx(back.total_variation)
