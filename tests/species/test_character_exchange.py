"""The character table as CSV: out, in again without loss, and refused as a whole where anything is wrong."""

import csv
import json
from io import StringIO
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import CommandError, call_command
from django.urls import reverse

from species.actions.table import edit_table
from species.models import StateRecord, TableEdit
from species.queries.table_cells import all_cells
from tests.species.test_edit_table import NOW, marks, wish

IMPORT = reverse("species:table_import")
MARKED = "conium-maculatum,Conium maculatum,stem_marks"


@pytest.fixture
def table(school, tmp_path: Path) -> Path:
    """The loaded flora, taken out."""
    call_command("load_flora", verbosity=0)
    call_command("export_characters", str(tmp_path / "characters.csv"))
    return tmp_path / "characters.csv"


def bring_in(table: Path, *arguments: str) -> str:
    out = StringIO()
    call_command("import_characters", str(table), *arguments, stdout=out, stderr=out)
    return out.getvalue()


def refused(table: Path) -> str:
    """What is said of a file that is refused, nothing having changed."""
    before, errors = grids(), StringIO()
    with pytest.raises(CommandError, match="nothing was changed"):
        call_command("import_characters", str(table), stderr=errors)
    assert grids() == before
    return errors.getvalue()


def grids():
    return {ids: each.grid for ids, each in all_cells().items()}


def change(table: Path, old: str, new: str) -> None:
    text = table.read_text("utf-8")
    assert old in text, [line for line in text.splitlines() if line.startswith(MARKED)]
    table.write_text(text.replace(old, new, 1), "utf-8", newline="")


def rows(table: Path) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(table.read_text("utf-8"))))


def test_every_plant_has_every_character_and_every_state_stands_once(table) -> None:
    found = rows(table)
    assert len({(row["species"], row["character"]) for row in found}) == 50 * 51
    for row in found:
        coded = [
            piece.split(" (")[0]
            for c in ("present", "variable", "absent", "not_known")
            for piece in row[c].split(" | ")
            if piece
        ]
        assert len(coded) == len(set(coded)) > 1


def test_what_is_not_recorded_is_not_known_rather_than_absent(table) -> None:
    row = next(
        each for each in rows(table) if each["species"] == "allium-ursinum" and each["character"] == "stem_marks"
    )
    assert (row["present"], row["variable"], row["absent"]) == ("", "", "")
    assert row["not_known"] == "plain | flushed | blotched"


def test_it_comes_back_without_loss_into_an_empty_table(table) -> None:
    before = grids()
    StateRecord.objects.all().delete()
    text = table.read_text("utf-8")
    without = StringIO()
    writer = csv.DictWriter(without, list(rows(table)[0])[:-1], extrasaction="ignore")
    writer.writeheader()
    writer.writerows(rows(table))
    table.write_text(without.getvalue(), "utf-8", newline="")
    bring_in(table)
    assert grids() == before
    call_command("export_characters", str(table))
    cells = [line.rsplit(",", 1)[0] for line in table.read_text("utf-8").splitlines()]
    assert cells == [line.rsplit(",", 1)[0] for line in text.splitlines()]


def test_the_same_file_changes_nothing(table) -> None:
    assert "0 changed, 2550 unchanged." in bring_in(table)
    assert not TableEdit.objects.exists()


def spoil(table: Path) -> None:
    """Hemlock whose blotches are rarer."""
    change(table, "blotched (usually)", "blotched (sometimes)")


def test_a_change_is_taken_with_who_and_why(table, tutor) -> None:
    spoil(table)
    said = bring_in(table, "--by", tutor.user.email, "--why", "the flora, p. 12")
    assert "changed: " in said
    assert "1 changed, 2549 unchanged." in said
    edit = TableEdit.objects.get()
    assert (edit.by, edit.why) == (tutor.user, "the flora, p. 12")


def test_a_dry_run_says_what_would_change_and_what_would_follow(table) -> None:
    lines = table.read_text("utf-8").splitlines()
    number = next(n for n, line in enumerate(lines) if line.startswith("rumex-acetosa,Rumex acetosa,petiole_sheath"))
    row = next(csv.reader([lines[number]]))
    states = " | ".join(piece.split(" (")[0] for cell in row[4:8] for piece in cell.split(" | ") if piece)
    lines[number] = ",".join([*row[:4], "", "", "", states, row[8]])
    table.write_text("\n".join(lines), "utf-8")
    before = grids()
    report = json.loads(bring_in(table, "--dry-run", "--json"))
    assert report["changed"] == [["rumex-acetosa", "petiole_sheath"]]
    assert "sorrel-arum" in {pair for pair, _words in report["lost"]}
    assert any(each.startswith("new: sorrel-arum calls") for each in report["disagreements"])
    assert grids() == before


def test_a_cell_that_was_changed_since_is_not_overwritten(table, tutor) -> None:
    edit_table([wish()], by=tutor.user, now=NOW, why="seen so")
    said = refused(table)
    assert "conium-maculatum, stem_marks was changed in the school since this file was written" in said
    lines = table.read_text("utf-8").splitlines()
    table.write_text("\n".join(f"{line.rsplit(',', 1)[0]}," if MARKED in line else line for line in lines), "utf-8")
    assert "1 changed, 2549 unchanged." in bring_in(table)


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("conium-maculatum,", "conium-maculatun,", "plant of the school is called 'conium-maculatun'; nearest"),
        (",stem_marks,", ",stem_mark,", "character: no character has the key 'stem_mark'; nearest: stem_marks"),
        ("blotched (usually)", "blotched", "variable: 'blotched' lacks how often"),
        ("blotched (usually)", "blotches (usually)", "no state of stem_marks has the key 'blotches'; nearest"),
        ("plain (sometimes)", "", "plain: in none of the columns present, variable, absent and not_known"),
        ("leafy | ", "leafy | spring | ", "stages: 'spring' is not one of"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_named_with_row_and_column(table, old, new, sentence) -> None:
    lines = table.read_text("utf-8").splitlines()
    number = next(n for n, line in enumerate(lines) if line.startswith(MARKED))
    assert old in lines[number], lines[number]
    lines[number] = lines[number].replace(old, new, 1)
    table.write_text("\n".join(lines), "utf-8")
    said = refused(table)
    assert f"characters.csv, row {number + 1}, " in said
    assert sentence in said


def test_wrong_columns_are_a_sentence(table) -> None:
    change(table, "absent,not_known", "missing,not_known")
    said = refused(table)
    assert "absent: this column is missing" in said
    assert "missing: no such column belongs here" in said


@pytest.mark.parametrize("content", [b"", b"\xff\xfe\x00", b'species,"character\n', b"PK\x03\x04 not a table"])
def test_what_is_no_table_is_a_sentence(table, content) -> None:
    table.write_bytes(content)
    assert refused(table).startswith("characters.csv")


def test_a_name_does_as_well_as_a_key_and_other_rows_stay(table) -> None:
    before = grids()
    row = "Hemlock,stem_marks,leafy,plain,,flushed | blotched,"
    table.write_text(f"species,character,stages,present,variable,absent,not_known\n{row}\n")
    assert "1 changed, 0 unchanged." in bring_in(table)
    assert {ids for ids, grid in grids().items() if grid != before[ids]} == {("conium-maculatum", "stem_marks")}
    assert list(marks().grid["leafy"]) == ["plain"]
    assert marks().grid["flower"] == before["conium-maculatum", "stem_marks"]["flower"]


def upload(table: Path, **fields: str) -> dict[str, object]:
    return {"table": SimpleUploadedFile("characters.csv", table.read_bytes()), "why": "the flora", **fields}


def test_the_page_tries_first_and_takes_then(signed_in, table, tutor) -> None:
    spoil(table)
    client = signed_in(tutor)
    assert "Tried; nothing was changed" in client.post(IMPORT, upload(table, only_try="on")).content.decode()
    assert not TableEdit.objects.exists()
    assert "Taken in" in client.post(IMPORT, upload(table)).content.decode()
    assert TableEdit.objects.get().by == tutor.user


def test_the_page_names_what_is_wrong_and_keeps_the_reason(signed_in, table, tutor) -> None:
    change(table, "conium-maculatum,", "conium-maculatun,")
    response = signed_in(tutor).post(IMPORT, upload(table))
    assert response.status_code == 422
    shown = response.content.decode()
    assert "no plant of the school is called" in shown
    assert 'value="the flora"' in shown


def test_the_page_gives_the_same_file_as_the_command(signed_in, table, tutor) -> None:
    response = signed_in(tutor).get(reverse("species:table_csv"))
    assert response.content.decode() == table.read_bytes().decode()
    assert "attachment" in response["Content-Disposition"]


def test_only_those_who_may_change_the_table_are_named(table, participant) -> None:
    with pytest.raises(CommandError, match="may not change the character table"):
        bring_in(table, "--by", participant.user.email)
