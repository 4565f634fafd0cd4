"""The words, names and places of archives."""

from math import cos, hypot, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from species.rules.darwin.layouts import COMMON_NAMES, SPECIES_ARCHIVE, SPECIMEN_ARCHIVE
from species.rules.darwin.names import full_name, key_of, name_and_author, rank_word
from species.rules.darwin.places import METRES_PER_DEGREE, blurred, in_degrees
from species.rules.darwin.rows import Table
from species.rules.darwin.words import LIFE_STAGES, REPRODUCTIVE_CONDITIONS, licence_address, part_of_subject
from species.rules.vocabulary import Stage

LATITUDES, LONGITUDES, SIZES = st.floats(-85, 85), st.floats(-179, 179), st.integers(1, 50)


@given(LATITUDES, LONGITUDES, SIZES)
def test_a_place_lies_within_what_is_said_of_its_blurring(latitude, longitude, km):
    cell = blurred(latitude, longitude, km)
    off = hypot(
        (cell.latitude - latitude) * METRES_PER_DEGREE,
        (cell.longitude - longitude) * METRES_PER_DEGREE * cos(radians(cell.latitude)),
    )
    assert off <= cell.within_m + 12  # the middle is written to four decimals, which is 11 m


@given(LATITUDES, LONGITUDES, SIZES)
def test_blurring_what_is_blurred_changes_nothing(latitude, longitude, km):
    once = blurred(latitude, longitude, km)
    assert blurred(once.latitude, once.longitude, km) == once


def test_neighbours_share_a_cell_and_less_than_a_kilometre_is_refused():
    assert blurred(54.5001, -2.3, 1) == blurred(54.5002, -2.3001, 1)
    with pytest.raises(ValueError, match="at least 1 km"):
        blurred(54.5, -2.3, 0)


@pytest.mark.parametrize(("value", "text"), [(54.5, "54.5"), (-0.000001, "0"), (100.0, "100"), (0.1234567, "0.12346")])
def test_degrees_are_written_plainly(value, text):
    assert in_degrees(value, 5) == text


@pytest.mark.parametrize(
    ("licence", "address"),
    [
        ("CC BY 4.0", "https://creativecommons.org/licenses/by/4.0/"),
        ("cc by-nc-sa 3.0", "https://creativecommons.org/licenses/by-nc-sa/3.0/"),
        ("CC-BY-SA", "https://creativecommons.org/licenses/by-sa/4.0/"),
        ("CC0", "https://creativecommons.org/publicdomain/zero/1.0/"),
        ("https://creativecommons.org/licenses/by/2.0/", "https://creativecommons.org/licenses/by/2.0/"),
        ("for this school alone", ""),
        ("CC BY-ND-NC-SA 9", ""),
        ("", ""),
    ],
)
def test_only_an_open_licence_has_an_address(licence, address):
    assert licence_address(licence) == address


@pytest.mark.parametrize(
    ("part", "word"),
    [("leaf", "leaf"), ("Leaves", "leaf"), ("flowers", "flower"), ("whole plant", "entireOrganism"),
     ("rhizome", "unspecifiedPart"), ("", "")],
)  # fmt: skip
def test_a_part_has_the_word_of_the_vocabulary_or_is_unspecified(part, word):
    assert part_of_subject(part) == word


def test_every_stage_has_one_word_in_one_of_the_two_terms():
    words = [*LIFE_STAGES.values(), *REPRODUCTIVE_CONDITIONS.values()]
    assert LIFE_STAGES.keys() | REPRODUCTIVE_CONDITIONS.keys() == set(Stage)
    assert len(set(words)) == len(words) == len(Stage)


@pytest.mark.parametrize(
    ("name", "rank"),
    [("Rumex acetosa", "species"), ("Taraxacum officinale agg.", "aggregate"), ("Daucus carota subsp. sativus",
     "subspecies"), ("Digitalis purpurea var. alba", "variety"), ("Mentha × piperita", "species"), ("Rumex", "genus")],
)  # fmt: skip
def test_the_rank_is_a_word_in_small_letters(name, rank):
    assert rank_word(name) == rank


def test_a_name_without_an_author_in_it_is_kept_letter_by_letter():
    for name in ("Rumex acetosa s.l.", "Brassica oleracea ssp. oleracea"):
        assert name_and_author(full_name(name, "L."), "L.") == (name, "L.")
    assert name_and_author("Apium nodiflorum (L.) Lag.", "") == ("Apium nodiflorum", "(L.) Lag.")


def test_keys_are_made_of_names():
    assert key_of("Mentha × piperita") == "mentha-piperita"
    assert key_of("Taraxacum officinale agg.") == "taraxacum-officinale-agg"


def test_no_table_has_two_columns_of_one_name():
    for layout in (*SPECIES_ARCHIVE, *SPECIMEN_ARCHIVE):
        names = [each.name for each in layout.columns]
        assert len(set(names)) == len(names), layout.file


def test_a_cell_without_a_column_is_an_error():
    with pytest.raises(KeyError, match="no column colour"):
        list(Table(COMMON_NAMES, [{"colour": "red"}]).cells())
