"""Names are compared without what people leave out, and a wrong one gets help."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from species.rules.names import is_same_name, nearest_names, normalise, search_text, squeezed


@pytest.mark.parametrize(
    ("typed", "plain"),
    [
        ("Water-Cress", "water cress"),
        ("dog's mercury", "dogs mercury"),
        ("DOG’S  MERCURY", "dogs mercury"),
        ("Bärlauch", "barlauch"),
        ("cœlestis æ", "coelestis ae"),
        ("Symphytum × uplandicum", "symphytum uplandicum"),
        ("Symphytum x uplandicum", "symphytum uplandicum"),
        ("  cat's-ear (rough) ", "cats ear rough"),
        ("Tamus_communis", "tamus communis"),
        ("Σίδη", "σιδη"),
        ("…", ""),
    ],
)
def test_a_name_is_stripped_of_case_accents_hyphens_and_signs(typed: str, plain: str) -> None:
    assert normalise(typed) == plain


def test_an_x_inside_a_word_is_no_hybrid_sign() -> None:
    assert normalise("Rumex maximus") == "rumex maximus"


def test_spaces_and_hyphens_do_not_tell_names_apart() -> None:
    assert is_same_name("water-cress", "Watercress")
    assert is_same_name("Atropa bella-donna", "atropa belladonna")
    assert not is_same_name("hemlock", "hemlock water-dropwort")
    assert not is_same_name("", "-")


def test_a_search_line_holds_each_name_in_both_spellings() -> None:
    assert search_text(["Water-cress", "sorrel"]) == "water cress\nwatercress\nsorrel"


def test_a_misspelt_key_finds_its_neighbour() -> None:
    known = ["conium-maculatum", "conopodium-majus", "daucus-carota"]
    assert nearest_names("conium-maculatun", known)[0] == "conium-maculatum"


def test_a_beginning_is_near_enough() -> None:
    assert nearest_names("hem", ["hemlock", "hogweed"]) == ("hemlock",)


def test_nothing_is_near_a_name_of_another_world() -> None:
    assert nearest_names("zzzz", ["hemlock", "hogweed"]) == ()
    assert nearest_names("", ["hemlock"]) == ()


@given(st.text())
def test_a_normalised_name_stays_as_it_is(text: str) -> None:
    assert normalise(normalise(text)) == normalise(text)


@given(st.text(), st.text())
def test_squeezing_takes_words_one_by_one(first: str, second: str) -> None:
    assert squeezed(f"{first} {second}") == squeezed(first) + squeezed(second)
