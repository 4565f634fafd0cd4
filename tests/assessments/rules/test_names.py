"""Names: what somebody said, against what the plant is (synonym, aggregate, genus, free text)."""

import pytest

from assessments.rules.names import NameBook, NameKind, SpeciesNames, plain

from .specimens import GATHER, NAMES, REFUSE, shown

EDIBLE = frozenset({"cow-parsley", "cicely"})


def kind_of(species, taken_as=frozenset(), **name):
    return NAMES.kind(shown(species, REFUSE, **name), taken_as)


@pytest.mark.parametrize(
    "said",
    [
        "cow parsley",
        "Cow-Parsley",
        "COWPARSLEY",
        "  cow  parsley ",
        "Queen Annes lace",
        "queen anne’s lace",
        "Anthriscus sylvestris",
        "anthriscus sylvestris agg.",
        "Chaerophyllum sylvestre",
        "Ánthriscus sylvestris",
    ],
)
def test_the_right_name_is_read_whatever_its_spelling_of_case_accents_and_hyphens(said):
    assert kind_of("cow-parsley", said=said) is NameKind.RIGHT


def test_a_synonym_is_right():
    assert kind_of("hemlock", said="Cicuta officinalis") is NameKind.RIGHT


def test_the_aggregate_is_right_as_text_and_as_an_entry_of_its_own():
    assert kind_of("cow-parsley", named="cow-parsley-agg") is NameKind.RIGHT
    assert kind_of("dandelion", said="Taraxacum officinale") is NameKind.RIGHT


def test_the_species_is_not_right_for_its_aggregate_unless_the_entry_says_so():
    assert kind_of("cow-parsley-agg", named="cow-parsley") is NameKind.ANOTHER


@pytest.mark.parametrize("said", ["Anthriscus", "anthriscus sp.", "Anthriscus spp", "ANTHRISCUS"])
def test_the_genus_alone_is_not_the_name(said):
    assert kind_of("cow-parsley", said=said) is NameKind.GENUS_ONLY


def test_a_genus_chosen_from_the_list_reads_like_a_genus_typed():
    assert kind_of("cow-parsley", named_genus="Anthriscus") is NameKind.GENUS_ONLY
    assert kind_of("hemlock", named_genus="Anthriscus") is NameKind.ANOTHER


def test_the_genus_of_an_edible_lookalike_names_it_as_edible():
    assert kind_of("hemlock", EDIBLE, said="Anthriscus") is NameKind.AS_EDIBLE
    assert kind_of("hemlock", EDIBLE, said="Myrrhis") is NameKind.AS_EDIBLE
    assert kind_of("hemlock", EDIBLE, said="Allium") is NameKind.ANOTHER


def test_an_edible_lookalike_its_synonym_and_its_aggregate_name_it_as_edible():
    assert kind_of("hemlock", EDIBLE, named="cicely") is NameKind.AS_EDIBLE
    assert kind_of("hemlock", EDIBLE, said="Chaerophyllum sylvestre") is NameKind.AS_EDIBLE
    assert kind_of("hemlock", EDIBLE, named="cow-parsley-agg") is NameKind.AS_EDIBLE
    assert kind_of("hemlock", EDIBLE, named="ramsons") is NameKind.ANOTHER


def test_a_name_of_two_plants_is_right_for_neither_and_edible_if_either_is():
    assert kind_of("cicely", said="beaked parsley") is NameKind.ANOTHER
    assert kind_of("hemlock", EDIBLE, said="beaked parsley") is NameKind.AS_EDIBLE


def test_a_text_that_matches_no_name_is_another_plant():
    assert kind_of("cow-parsley", said="some umbellifer") is NameKind.ANOTHER


@pytest.mark.parametrize("said", ["", "   "])
def test_no_name_at_all_is_nothing(said):
    assert kind_of("cow-parsley", said=said) is NameKind.NOTHING


def test_punctuation_alone_is_text_that_names_nothing_we_know():
    assert kind_of("cow-parsley", said="?") is NameKind.ANOTHER


def test_the_species_chosen_wins_over_the_words_typed():
    assert kind_of("cow-parsley", named="hemlock", said="cow parsley") is NameKind.ANOTHER
    assert kind_of("cow-parsley", named="cow-parsley", named_genus="Conium") is NameKind.RIGHT
    assert kind_of("cow-parsley", named_genus="Anthriscus", said="cow parsley") is NameKind.GENUS_ONLY


def test_a_species_that_the_book_does_not_know_is_right_under_its_own_key_only():
    empty = NameBook()
    assert empty.kind(shown("x", GATHER, "x")) is NameKind.RIGHT
    assert empty.kind(shown("x", GATHER, "y")) is NameKind.ANOTHER
    assert empty.kind(shown("x", GATHER, said="Conium")) is NameKind.ANOTHER


def test_an_undetermined_plant_has_no_right_name():
    assert kind_of(None, named="hemlock") is NameKind.ANOTHER


def test_an_entry_without_words_is_not_found_by_no_words():
    book = NameBook([SpeciesNames("x", "Xus")])
    assert book.kind(shown("x", GATHER, said="...")) is NameKind.ANOTHER


def test_plain_drops_words_of_rank_only_as_whole_words():
    assert plain("Rubus fruticosus agg.") == plain("rubus fruticosus") == "rubusfruticosus"
    assert plain("Aggregata spinosa") == "aggregataspinosa"
    assert plain("Hieracium s.l.") == "hieracium"
