"""`export_archive` and `import_archive`."""

import csv
import json
from io import StringIO
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from species.models import ArchiveRun, Determination, Individual, Photo, Species, Specimen
from tests.species.darwin.archives import (
    files_of,
    full_plant,
    named,
    photographed,
    rows_of,
    specimen,
    user,
    with_files,
)


@pytest.fixture
def row(school) -> Specimen:
    sorrel = full_plant()
    row = specimen(sorrel)
    named(row, sorrel, user("ann@example.org", "Ann One"))
    photographed(row)
    return row


def ran(*arguments: Any, **options: Any) -> str:
    out = StringIO()
    call_command(*arguments, stdout=out, stderr=StringIO(), **options)
    return out.getvalue()


def test_species_are_written_with_the_character_table_beside_them(row, tmp_path):
    said = ran("export_archive", "species", tmp_path / "plants.zip", publisher="Hedge School")
    assert "Rows: taxon.csv 3, vernacularname.csv 2" in said
    table = (tmp_path / "plants-characters.csv").read_text()
    assert "not_known" in next(csv.reader(StringIO(table)))
    assert [each.name for each in tmp_path.iterdir() if "part" in each.name] == []
    assert (
        "<creator><organizationName>Hedge School<"
        in files_of((tmp_path / "plants.zip").read_bytes())["eml.xml"].decode()
    )


def test_specimens_are_written_with_pictures_and_the_report_counts_them(row, tmp_path):
    path = tmp_path / "finds.zip"
    report = json.loads(ran("export_archive", "specimens", path, "--pictures", "--json", "--agreed", "ann@example.org"))
    assert (report["pictures"], report["rows"]["occurrence.csv"], report["for_assessment"]) == (1, 1, 0)
    assert rows_of(path.read_bytes(), "identification.csv")[0]["identifiedBy"] == "Ann One"
    assert ArchiveRun.objects.get().with_pictures


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["species", "--pictures"], "neither pictures nor places"),
        (["specimens", "--assessment"], "never public"),
        (["specimens", "--own", "--assessment"], "a second time"),
        (["specimens", "--own", "--assessment", "--sure", "yes"], "a second time"),
        (["specimens", "--own", "--assessment", "--sure", "test pictures leave"], "who takes them"),
        (["specimens", "--by", "nobody@example.org"], "No account has the address"),
    ],
)
def test_what_may_not_leave_is_refused_with_a_sentence_and_no_file_is_left(row, tmp_path, arguments, sentence):
    with pytest.raises(CommandError, match=sentence):
        ran("export_archive", arguments[0], tmp_path / "out.zip", *arguments[1:])
    assert list(tmp_path.iterdir()) == []
    assert ArchiveRun.objects.count() == 0


def test_tests_leave_with_the_words_and_a_name_and_it_is_written_down(row, organiser, tmp_path):
    Specimen.objects.update(use="assessment")
    said = ran("export_archive", "specimens", tmp_path / "own.zip", "--own", "--assessment", "--sure",
               "test pictures leave", "--by", organiser.user.email)  # fmt: skip
    assert "serve for tests: show this archive to nobody" in said
    assert ArchiveRun.objects.get().by == organiser.user


def test_a_place_that_cannot_be_written_to_is_said(row, tmp_path):
    with pytest.raises(CommandError, match="cannot be written"):
        ran("export_archive", "species", tmp_path / "missing" / "plants.zip")


def take_everything_out() -> None:
    Photo.objects.get().renditions.all().delete()
    for model in (Photo, Determination, Specimen, Individual):
        model.objects.all().delete()


def test_an_archive_is_brought_in_by_a_known_person(row, organiser, tmp_path):
    path = tmp_path / "finds.zip"
    ran("export_archive", "specimens", path, "--pictures")
    take_everything_out()
    tried = ran("import_archive", path, "--by", organiser.user.email, "--dry-run")
    assert "1 specimens added, 0 there already, 1 pictures.\nA dry run: nothing was kept." in tried
    assert Specimen.objects.count() == 0
    report = json.loads(ran("import_archive", path, "--by", organiser.user.email, "--json"))
    assert (report["kind"], report["added"], report["problems"]) == ("specimens", 1, [])
    assert ArchiveRun.objects.filter(direction="in").get().by == organiser.user


def test_problems_are_listed_with_file_and_row_and_end_with_status_1(row, organiser, tmp_path):
    path = tmp_path / "plants.zip"
    ran("export_archive", "species", path)
    text = b"taxonID,scientificName\nx,y\n"
    path.write_bytes(with_files(path.read_bytes(), {"taxon.csv": text}))
    out = StringIO()
    with pytest.raises(CommandError, match="nothing was brought in"):
        call_command("import_archive", path, by=organiser.user.email, json=True, stdout=out)
    report = json.loads(out.getvalue())
    assert {"file": "taxon.csv", "row": 2, "sentence": "taxon.csv, row 2: the row has 2 cells, and meta.xml names 22 "
            "columns."} in report["problems"]  # fmt: skip
    assert report["added"] == 0
    assert Species.objects.count() == 1


@pytest.mark.parametrize(
    ("content", "by", "sentence"),
    [(b"no archive", True, "it is no ZIP archive"), (None, True, "cannot be read"), (b"", False, "Say with --by")],
)
def test_what_cannot_be_read_is_said_in_one_sentence(organiser, tmp_path, content, by, sentence):
    path = tmp_path / "x.zip"
    if content is not None:
        path.write_bytes(content)
    with pytest.raises(CommandError, match=sentence):
        ran("import_archive", path, by=organiser.user.email if by else None)
