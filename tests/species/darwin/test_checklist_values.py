"""The checklist for archives, on what stands in the cells: DW-11 to DW-13."""

import pytest

from species.queries.table_exchange import character_table_csv
from species.rules.darwin.names import name_and_author
from species.rules.lists import split_list
from tests.species.darwin.archives import plant, rows_of, species_archive

pytestmark = pytest.mark.django_db


def test_dw_11_the_author_is_told_from_the_name_and_the_full_name_is_kept():
    names = {
        "Mentha × piperita L.": ("Mentha × piperita", "L."),
        "×Cuprocyparis leylandii (A.B.Jacks. & Dallim.) Farjon": (
            "×Cuprocyparis leylandii", "(A.B.Jacks. & Dallim.) Farjon",
        ),
        "Daucus carota subsp. sativus (Hoffm.) Schübl. & G.Martens": (
            "Daucus carota subsp. sativus", "(Hoffm.) Schübl. & G.Martens",
        ),
        "Digitalis purpurea var. alba Schrank": ("Digitalis purpurea var. alba", "Schrank"),
        "Hyacinthoides non-scripta (L.) Chouard ex Rothm.": ("Hyacinthoides non-scripta", "(L.) Chouard ex Rothm."),
        "Taraxacum officinale agg. F.H.Wigg.": ("Taraxacum officinale agg.", "F.H.Wigg."),
    }  # fmt: skip
    for number, (full, (name, author)) in enumerate(names.items()):
        assert name_and_author(full, author) == name_and_author(full, "") == (name, author)
        plant(f"plant-{number}", name, author=author)
    assert {row["scientificName"] for row in rows_of(species_archive(), "taxon.csv")} == set(names)


def test_dw_11_cf_and_aff_never_stand_in_the_name(specimens):
    rows = rows_of(specimens, "identification.csv")
    assert [row["scientificName"] for row in rows] == ["Rumex acetosa L."] * 2
    assert [row["identificationQualifier"] for row in rows] == ["", "cf."]
    assert rows[1]["verbatimIdentification"] == "cf. Rumex acetosa"


def test_dw_12_the_character_table_says_what_is_not_known_and_lists_states_by_bars(specimens):
    header = character_table_csv().split("\n")[0]
    assert {"present", "variable", "absent", "not_known"} <= set(header.strip().split(","))


def test_dw_13_lists_are_parted_by_bars_and_a_bar_inside_is_marked(both):
    row = rows_of(both[0], "taxon.csv")[0]
    assert row["sources"] == r"A. B. (1990) \| first"
    assert split_list(row["sources"]) == ("A. B. (1990) | first",)
    months = next(each for each in rows_of(both[0], "description.csv") if each["type"] == "phenology")["months"]
    assert months == "1 | 2 | 3"
    assert next(each for each in rows_of(both[0], "description.csv") if each["type"] == "general")[
        "description"
    ] == "one | two \\| three"  # fmt: skip
