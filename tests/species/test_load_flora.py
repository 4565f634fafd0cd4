"""`manage.py load_flora`: checked first, all or nothing, the same however often."""

import json
import shutil
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from species.actions.flora.loading import DATA_FOLDER
from species.models import Module, Pair, Showing, Species, StateRecord
from tests.factories.species import SpecimenFactory

pytestmark = pytest.mark.django_db


def load(*arguments: str) -> str:
    out = StringIO()
    call_command("load_flora", *arguments, stdout=out, stderr=out)
    return out.getvalue()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the project's tables that a test may change."""
    shutil.copytree(DATA_FOLDER, tmp_path / "tables")
    return tmp_path / "tables"


def change(folder: Path, file: str, old: str, new: str) -> None:
    text = (folder / file).read_text("utf-8")
    assert old in text
    (folder / file).write_text(text.replace(old, new), "utf-8")


def test_it_loads_all_tables() -> None:
    said = load()
    assert "species: 50 added, 0 changed, 0 unchanged" in said
    assert (Species.objects.count(), Pair.objects.count(), Module.objects.count()) == (50, 38, 8)
    assert Pair.objects.core().count() == 14


def test_what_is_loaded_is_what_the_tables_say() -> None:
    load()
    hemlock = Species.objects.get(key="conium-maculatum")
    assert (hemlock.common_name, hemlock.author, hemlock.edibility) == ("hemlock", "L.", "deadly")
    assert "poisonhemlock" in hemlock.search_text.splitlines()
    assert hemlock.sources["hazard"][0].startswith("Vetter J. (2004)")
    blotches = StateRecord.objects.get(species=hemlock, state__character__key="stem_marks", state__key="blotched")
    assert (blotches.frequency, blotches.stages) == ("usually", [])
    pair = Pair.objects.get(key="ramsons-lily")
    assert pair.stage_combinations == [["rosette", "rosette"], ["flower", "flower"]]
    first = pair.characters.all()[0]
    assert (first.name, first.trust, first.stages) == (
        "how the leaves leave the ground",
        "supporting",
        ["rosette", "flower"],
    )


def test_a_second_run_changes_nothing_and_says_so() -> None:
    load()
    before = list(Species.objects.values_list("pk", "key"))
    said = load()
    assert "added, 0 changed" in said
    assert "nothing was changed" in said
    assert list(Species.objects.values_list("pk", "key")) == before


def test_a_change_is_made_in_place(folder: Path) -> None:
    load()
    sorrel = Species.objects.get(key="rumex-acetosa")
    change(folder, "species.csv", "avoids waterlogged and very limey ground", "avoids standing water")
    change(folder, "showing.csv", "rumex-acetosa,fruit,6 to 8", "rumex-acetosa,fruit,6 to 9")
    said = load("--folder", str(folder))
    assert "species: 0 added, 1 changed, 49 unchanged" in said
    assert Species.objects.get(key="rumex-acetosa").pk == sorrel.pk
    assert Showing.objects.get(species=sorrel, stage="fruit").months == [6, 7, 8, 9]


def test_a_row_that_left_the_tables_leaves_the_species(folder: Path) -> None:
    load()
    change(folder, "common_names.csv", "allium-ursinum,bear's garlic,en\n", "")
    assert "common names: 0 added, 0 changed, 91 unchanged, 1 removed" in load("--folder", str(folder))
    assert not Species.objects.get(key="allium-ursinum").common_names.filter(name="bear's garlic").exists()


def test_a_dry_run_reports_and_changes_nothing() -> None:
    said = load("--dry-run")
    assert "species: 50 added" in said
    assert "A dry run: nothing was changed." in said
    assert not Species.objects.exists()


def test_problems_are_all_named_and_nothing_is_loaded(folder: Path) -> None:
    change(folder, "pairs.csv", "carrot-hemlock,daucus-carota,conium-maculatum",
           "carrot-hemlock,daucus-carota,conium-maculatun")  # fmt: skip
    change(folder, "species.csv", "Urticaceae", "")
    errors = StringIO()
    with pytest.raises(CommandError, match="2 problems in the tables; nothing was changed"):
        call_command("load_flora", "--folder", str(folder), stderr=errors)
    assert "pairs.csv, row 8, mistaken: no species has the key 'conium-maculatun'" in errors.getvalue()
    assert "species.csv, row 20, family: this must not be empty." in errors.getvalue()
    assert not Species.objects.exists()


def test_the_report_can_be_read_by_a_program() -> None:
    report = json.loads(load("--json"))
    assert report["tables"]["pairs"] == {"added": 38, "changed": 0, "unchanged": 0, "removed": 0}
    assert (report["problems"], report["dry_run"]) == ([], False)


def test_problems_can_be_read_by_a_program(folder: Path) -> None:
    (folder / "modules.csv").unlink()
    out = StringIO()
    with pytest.raises(CommandError):
        call_command("load_flora", "--json", "--folder", str(folder), stdout=out)
    first = json.loads(out.getvalue())["problems"][0]
    assert (first["file"], first["row"], first["fault"]) == ("modules.csv", 0, "file_missing")


def without(folder: Path, key: str) -> None:
    """Take every row that names a key out of all tables."""
    for path in folder.glob("*.csv"):
        lines = path.read_text("utf-8").splitlines(keepends=True)
        path.write_text("".join(line for line in lines if key not in line), "utf-8")


def test_a_species_that_left_the_tables_is_kept(folder: Path) -> None:
    load()
    without(folder, "nettle-deadnettle")
    assert "Pair nettle-deadnettle is not in the tables; it was kept" in load("--folder", str(folder))
    assert Pair.objects.filter(key="nettle-deadnettle").exists()


def test_pruning_removes_what_nothing_points_to(folder: Path) -> None:
    load()
    without(folder, "nettle-deadnettle")
    assert "it was removed" in load("--folder", str(folder), "--prune")
    assert not Pair.objects.filter(key="nettle-deadnettle").exists()


def test_pruning_keeps_what_a_specimen_shows(folder: Path) -> None:
    load()
    nettle = Species.objects.get(key="urtica-dioica")
    SpecimenFactory(species=nettle)
    without(folder, "nettle-deadnettle")
    without(folder, "urtica-dioica")
    said = load("--folder", str(folder), "--prune")
    assert "Species urtica-dioica is not in the tables; it was kept, because it is in use (specimen)." in said
    assert nettle.showings.exists()


def test_a_key_never_changes(folder: Path) -> None:
    load()
    for path in folder.glob("*.csv"):
        path.write_text(path.read_text("utf-8").replace("rumex-acetosa", "acetosa-pratensis"), "utf-8")
    errors = StringIO()
    with pytest.raises(CommandError, match="1 problem"):
        call_command("load_flora", "--folder", str(folder), stderr=errors)
    assert "Rumex acetosa is stored under the key 'rumex-acetosa'" in errors.getvalue()


def test_a_folder_that_is_none_is_refused() -> None:
    with pytest.raises(CommandError, match="is no folder"):
        load("--folder", "/nowhere/at/all")


def test_it_can_be_silent() -> None:
    assert load("--verbosity", "0") == ""
