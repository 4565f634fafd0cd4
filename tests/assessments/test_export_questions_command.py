"""`manage.py export_questions FILE`: both files or neither, what it refuses, and what it writes down."""

import json
from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from assessments.models import PackageRun
from assessments.queries.packages.bank import Scope
from species.models import Photo
from tests.assessments.packages import fill_bank, take
from tests.factories.assessments import make_standard


@pytest.fixture
def bank(pair, tutor, assessor):
    return fill_bank(pair, (tutor.user, assessor.user))


def said_by(*arguments: str) -> str:
    out = StringIO()
    call_command("export_questions", *arguments, stdout=out)
    return out.getvalue()


def test_the_command_writes_the_package_and_the_table_beside_it(bank, tmp_path, standard):
    text = said_by(str(tmp_path / "out.zip"), "--standard", "Participant")
    assert "Marks alone lose the safety rule" in text
    assert sorted(each.name for each in tmp_path.iterdir()) == ["out-beside.csv", "out.zip"]
    assert (tmp_path / "out.zip").read_bytes() == take(Scope(standard)).content
    assert PackageRun.objects.filter(part="both", by=None, standard=standard).exists()


def test_the_command_gives_plain_values(bank, tmp_path, organiser):
    arguments = ["--json", "--assessment", "--sure", "test questions leave", "--by", organiser.user.email]
    plain = json.loads(said_by(str(tmp_path / "out.zip"), *arguments))
    assert plain["for assessment"] >= 2
    assert plain["questions"] == sum(plain[key] for key in plain if "_" in key and key != "left_out")


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["--assessment"], "say so a second time"),
        (["--assessment", "--sure", "test questions leave"], "say so a second time"),
        (["--standard", "none"], "In use: "),
        (["--by", "nobody@example.org"], "No account has the address"),
    ],
)
def test_the_command_refuses_in_a_sentence_and_writes_nothing(bank, tmp_path, arguments, sentence):
    with pytest.raises(CommandError, match=sentence):
        said_by(str(tmp_path / "out.zip"), *arguments)
    assert list(tmp_path.iterdir()) == []
    assert PackageRun.objects.count() == 0


def test_the_command_is_for_organisers_and_leaves_no_broken_file(bank, tmp_path, tutor):
    with pytest.raises(CommandError, match="that is for organisers"):
        said_by(str(tmp_path / "out.zip"), "--by", tutor.user.email)
    with pytest.raises(CommandError, match="cannot be written"):
        said_by(str(tmp_path / "no" / "out.zip"))
    Photo.objects.update(licence="")
    with pytest.raises(CommandError, match="under which licence"):
        said_by(str(tmp_path / "out.zip"))
    assert list(tmp_path.iterdir()) == []


def test_a_draft_is_no_standard_in_use(bank, pair, tmp_path):
    make_standard(pair, in_use=False, key="leader", name="Leader")
    with pytest.raises(CommandError, match="In use: none"):
        said_by(str(tmp_path / "out.zip"), "--standard", "leader")
