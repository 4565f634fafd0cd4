"""Changing a cell of the state table: whole or not at all, nothing of another's lost, and kept by loading."""

from datetime import UTC, datetime
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command

from species.actions.flora.loading import DATA_FOLDER
from species.actions.table import Overtaken, TooFull, Wish, edit_table
from species.models import Character, CharacterState, Species, StateRecord, TableEdit
from species.queries.table_cells import Cell, cell
from species.rules.vocabulary import Frequency, Stage

pytestmark = pytest.mark.django_db
NOW = datetime(2026, 5, 12, 9, 0, tzinfo=UTC)
PLAIN = {stage: {"plain": Frequency.ALWAYS} for stage in (Stage.LEAFY, Stage.FLOWER, Stage.FRUIT)}


@pytest.fixture
def flora(school) -> None:
    call_command("load_flora", verbosity=0)


def marks() -> Cell:
    """The stem marks of hemlock."""
    return cell(Species.objects.get(key="conium-maculatum"), Character.objects.get(key="stem_marks"))


def wish(grid=PLAIN, version: str = "") -> Wish:
    found = marks()
    return Wish(found.species, found.character, grid, version)


def load(*arguments: str) -> str:
    out = StringIO()
    call_command("load_flora", *arguments, stdout=out)
    return out.getvalue()


def test_an_edit_changes_the_lines_and_keeps_what_was_there(flora, tutor) -> None:
    was = marks()
    (edit,) = edit_table([wish()], by=tutor.user, now=NOW, why="seen so at the ford")
    assert marks().grid == PLAIN
    assert (edit.number, edit.by, edit.at, edit.why) == (1, tutor.user, NOW, "seen so at the ford")
    assert [line[0] for line in edit.before] == [each.state for each in was.scores]
    assert edit.after == [["plain", "always", []]]


def test_the_same_again_is_no_edit(flora, tutor) -> None:
    assert edit_table([wish(marks().grid)], by=tutor.user, now=NOW, why="no reason") == []
    assert not TableEdit.objects.exists()


def test_who_read_an_older_version_changes_nothing(flora, tutor, organiser) -> None:
    read = marks().version
    edit_table([wish(version=read)], by=organiser.user, now=NOW, why="first")
    with pytest.raises(Overtaken) as refusal:
        edit_table([wish({Stage.FLOWER: {"blotched": Frequency.ALWAYS}}, read)], by=tutor.user, now=NOW, why="second")
    assert refusal.value.last is not None
    assert refusal.value.last.by == organiser.user
    assert marks().grid == PLAIN


def test_lines_that_changed_without_an_edit_are_noticed_too(flora, tutor) -> None:
    read = marks().version
    StateRecord.objects.filter(species__key="conium-maculatum", state__character__key="stem_marks").delete()
    with pytest.raises(Overtaken):
        edit_table([wish(version=read)], by=tutor.user, now=NOW, why="seen so")


def test_of_several_cells_all_or_none_are_changed(flora, tutor) -> None:
    hairs = Character.objects.get(key="stem_hairs")
    full = {Stage.LEAFY: {"none": Frequency.ALWAYS, "few": Frequency.SOMETIMES}}
    with pytest.raises(TooFull):
        edit_table([wish(), Wish(marks().species, hairs, full)], by=tutor.user, now=NOW, why="both")
    assert marks().grid != PLAIN
    assert not TableEdit.objects.exists()


def test_loading_keeps_what_the_school_wrote_and_says_where_it_differs(flora, tutor) -> None:
    edit_table([wish()], by=tutor.user, now=NOW, why="seen so")
    said = load()
    assert "state table, conium-maculatum, stem_marks: the school wrote" in said
    assert "the school's words were kept (--replace-edits takes those of the tables)" in said
    assert marks().grid == PLAIN
    assert load() == said


def test_loading_replaces_it_when_told_to_and_the_history_says_so(flora, tutor) -> None:
    before = marks().grid
    edit_table([wish()], by=tutor.user, now=NOW, why="seen so")
    assert "the tables replaced it" in load("--replace-edits")
    assert marks().grid == before
    last = TableEdit.objects.order_by("number").last()
    assert last is not None
    assert (last.number, last.from_tables, last.by) == (2, True, None)
    assert "the school wrote" not in load()


def test_a_dry_run_of_loading_replaces_nothing(flora, tutor) -> None:
    edit_table([wish()], by=tutor.user, now=NOW, why="seen so")
    load("--replace-edits", "--dry-run")
    assert marks().grid == PLAIN
    assert TableEdit.objects.count() == 1


def test_a_state_that_only_the_school_still_uses_outlives_the_tables(flora, tutor, tmp_path: Path) -> None:
    edit_table([wish()], by=tutor.user, now=NOW, why="seen so")
    for path in DATA_FOLDER.glob("*.csv"):
        lines = path.read_text("utf-8").splitlines(keepends=True)
        left = [line for line in lines if "stem_marks,plain," not in line]
        (tmp_path / path.name).write_text("".join(left), "utf-8")
    load("--folder", str(tmp_path))
    assert marks().grid == PLAIN
    assert CharacterState.objects.filter(character__key="stem_marks", key="plain").exists()
