"""Tables are read with everything that is wrong named by file, row and field."""

import pytest

from species.queries.table_sentences import SENTENCES, sentence_about
from species.rules.tables.layout import COLUMNS
from species.rules.tables.problems import Fault, Problem
from species.rules.tables.reading import read_flora
from tests.species.flora import contents


def problems_after(file: str, old: str, new: str) -> tuple[Problem, ...]:
    """The problems after one change to one of the school's own tables."""
    tables = contents()
    text = (tables[file] or b"").decode()
    assert old in text
    tables[file] = text.replace(old, new, 1).encode()
    return read_flora(tables).problems


def sentences_after(file: str, old: str, new: str) -> list[str]:
    return [sentence_about(each) for each in problems_after(file, old, new)]


def test_a_misspelt_species_is_named_with_its_row_and_its_neighbour() -> None:
    assert sentences_after("pairs.csv", "carrot-hemlock,daucus-carota,conium-maculatum",
                           "carrot-hemlock,daucus-carota,conium-maculatun") == [
        "pairs.csv, row 8, mistaken: no species has the key 'conium-maculatun'; nearest: conium-maculatum."
    ]  # fmt: skip


def test_all_problems_are_collected_in_the_order_of_the_files() -> None:
    tables = contents()
    tables["species.csv"] = (tables["species.csv"] or b"").replace(b",deadly,", b",lethal,", 1)
    tables["pairs.csv"] = (tables["pairs.csv"] or b"").replace(b",dangerous,yes,", b",dangerous,maybe,", 2)
    found = read_flora(tables).problems
    assert [(each.file, each.fault) for each in found] == [
        ("species.csv", Fault.NOT_A_CHOICE),
        ("pairs.csv", Fault.NOT_YES_OR_NO),
        ("pairs.csv", Fault.NOT_YES_OR_NO),
    ]


def test_a_missing_file_is_one_problem_of_that_file() -> None:
    tables = contents()
    tables["sources.csv"] = None
    found = read_flora(tables).problems
    assert found[0] == Problem("sources.csv", 0, "", Fault.FILE_MISSING)


@pytest.mark.parametrize("separator", [";", "\t"])
def test_a_spreadsheet_may_save_with_another_separator_and_a_mark_in_front(separator: str) -> None:
    tables = contents()
    lines = (tables["pair_stages.csv"] or b"").decode()
    tables["pair_stages.csv"] = ("\ufeff" + lines.replace(",", separator).replace("\n", "\r\n")).encode()
    assert read_flora(tables).problems == ()


def test_blank_rows_are_passed_over_and_still_counted() -> None:
    tables = contents()
    text = (tables["pair_stages.csv"] or b"").decode()
    header, first, rest = text.split("\n", 2)
    wrong = first.replace("rosette", "rosett", 1)
    tables["pair_stages.csv"] = "\n".join([header, ",,", "", wrong, rest]).encode()
    found = read_flora(tables).problems
    assert [(each.row, each.field) for each in found] == [(4, "gathered_stage")]


def test_a_file_in_another_character_set_is_refused_in_words() -> None:
    tables = contents()
    tables["synonyms.csv"] = (tables["synonyms.csv"] or b"") + "allium-ursinum,Bärlauch,synonym".encode("latin-1")
    assert "save the file as CSV with the character set UTF-8" in sentence_about(read_flora(tables).problems[0])


CHANGES = [
    ("species.csv", "key,name,", "key,nam,", Fault.COLUMN_MISSING, "name"),
    ("species.csv", "key,name,", "key,nam,", Fault.COLUMN_UNKNOWN, "nam"),
    ("species.csv", "allium-ursinum,", "Allium ursinum,", Fault.NOT_A_KEY, "key"),
    ("species.csv", ",20,50,", ",50,20,", Fault.UPSIDE_DOWN, "height_to_cm"),
    ("species.csv", ",20,50,", ",tall,50,", Fault.NOT_A_NUMBER, "height_from_cm"),
    ("species.csv", "Amaryllidaceae", "", Fault.EMPTY, "family"),
    ("species.csv", "Amaryllidaceae", "A" * 61, Fault.TOO_LONG, "family"),
    ("species.csv", ",2040,517,", ",2040,517,fruit flower,", Fault.TOO_MANY_CELLS, ""),
    ("species.csv", "allium-triquetrum,", "allium-ursinum,", Fault.TWICE, "key"),
    ("hazards.csv", "\nconium-maculatum,", "\nurtica-dioica,", Fault.NO_HAZARD, "edibility"),
    ("common_names.csv", "wild garlic", "Hem-Lock", Fault.NAME_OF_TWO, "name"),
    ("common_names.csv", "wild garlic", "RAMSONS", Fault.TWICE, "name"),
    (
        "showing.csv",
        "allium-ursinum,flower,4 to 6",
        "allium-ursinum,flower,spring",
        Fault.NOT_MONTHS,
        "months",
    ),
    ("showing.csv", "allium-ursinum,flower,4 to 6", "allium-ursinum,flower,1", Fault.NEVER_TOGETHER, ""),
    (
        "showing.csv",
        "allium-ursinum,flower,4 to 6",
        "allium-ursinum,flower,8",
        Fault.NOT_GATHERED_THEN,
        "stages",
    ),
    ("parts_used.csv", "allium-ursinum,leaf", "conium-maculatum,leaf", Fault.POISON_GATHERED, "species"),
    (
        "state_table.csv",
        "allium-ursinum,sap,clear,always,",
        "allium-ursinum,sap,clear,always,dormant",
        Fault.OUTSIDE_CHARACTER,
        "stages",
    ),
    ("state_table.csv", "carpet,usually", "carpet,always", Fault.ALWAYS_AND_MORE, "frequency"),
    ("state_table.csv", "allium-ursinum,colony,clumps", "allium-ursinum,colony,carpet", Fault.TWICE, "state"),
    ("state_table.csv", "allium-ursinum,sap,clear", "allium-ursinum,sap,cleer", Fault.UNKNOWN_KEY, "state"),
    (
        "pairs.csv",
        "sorrel-arum,rumex-acetosa,arum-maculatum",
        "sorrel-arum,rumex-acetosa,rumex-acetosa",
        Fault.SAME_SPECIES,
        "mistaken",
    ),
    (
        "pairs.csv",
        "conium-maculatum,dangerous,no",
        "conium-maculatum,unpleasant,no",
        Fault.TOO_MILD,
        "danger",
    ),
    (
        "pairs.csv",
        "euphorbia-peplus,unpleasant,no",
        "euphorbia-peplus,unpleasant,yes",
        Fault.CORE_IS_SAFE,
        "core",
    ),
    (
        "pair_stages.csv",
        "ramsons-lily,flower,flower",
        "ramsons-lily,leafy,flower",
        Fault.NEVER_SHOWS,
        "gathered_stage",
    ),
    (
        "pair_characters.csv",
        "cowparsley-hemlock,leaf_hairs,,supporting",
        "cowparsley-hemlock,leaf_hairs,,decisive",
        Fault.TOO_SURE,
        "trust",
    ),
    (
        "pair_characters.csv",
        "sorrel-arum,venation,,",
        "sorrel-arum,venation,veins,",
        Fault.LABEL_OR_CHARACTER,
        "label",
    ),
    ("pair_characters.csv", "reddish branched spike of tiny flowers,", ",", Fault.SIDE_MISSING, "gathered"),
    (
        "pair_characters.csv",
        "sorrel-arum,inflorescence,,decisive,flower,",
        "sorrel-arum,inflorescence,,decisive,leafy,",
        Fault.OUTSIDE_CHARACTER,
        "stages",
    ),
    (
        "pair_characters.csv",
        "sorrel-arum,venation,,decisive,rosette |",
        "sorrel-arum,venation,,decisive,fruit |",
        Fault.STAGE_NOT_CONFUSED,
        "stages",
    ),
    (
        "module_species.csv",
        "berries,sambucus-ebulus",
        "berries,conium-maculatum",
        Fault.SIDE_NOT_TAUGHT,
        "pair",
    ),
    ("pairs.csv", "\nramsons-lily,", '\n"ramsons-lily,', Fault.NOT_A_TABLE, ""),
]


@pytest.mark.parametrize(("file", "old", "new", "fault", "field"), CHANGES, ids=lambda value: str(value)[:24])
def test_a_slip_is_found_where_it_was_made(file: str, old: str, new: str, fault: Fault, field: str) -> None:
    found = [each for each in problems_after(file, old, new) if each.fault == fault]
    assert found
    assert field in ("", found[0].field)
    assert "{" not in sentence_about(found[0])


def test_a_species_without_months_and_a_pair_without_stages_are_named() -> None:
    tables = contents()
    for file, word in (("showing.csv", b"urtica-dioica"), ("pair_stages.csv", b"ramsons-lily")):
        lines = (tables[file] or b"").splitlines(keepends=True)
        tables[file] = b"".join(line for line in lines if word not in line)
    faults = {each.fault for each in read_flora(tables).problems}
    assert {Fault.NOTHING_SHOWS, Fault.NO_COMBINATION} <= faults


def test_every_fault_has_its_sentence() -> None:
    assert set(SENTENCES) == set(Fault)


@pytest.mark.parametrize("file", COLUMNS)
def test_an_empty_file_or_nonsense_never_raises(file: str) -> None:
    for content in (b"", b"\n", b"\x00\xff", b"key\n1\n", b'"', b",,,\n,,,\n"):
        tables = {**contents(), file: content}
        assert read_flora(tables).problems
