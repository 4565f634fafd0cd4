"""`manage.py wanted STANDARD`: the list of the page in words and as plain values, and what it refuses."""

import json
from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from tests.factories.assessments import make_standard


@pytest.fixture
def standard(pair):
    return make_standard(pair, required_stages=("rosette",))


def said_by(*arguments):
    out = StringIO()
    call_command("wanted", *arguments, stdout=out)
    return out.getvalue()


def test_the_command_prints_the_list_of_the_page(standard):
    text = said_by("participant", "--papers", "1", "--questions", "5")
    assert text.startswith("The bank is 5 specimens short of 1 paper of 5 questions.")
    assert "badleaf (dangerous)" in text


def test_the_command_gives_plain_values(standard):
    plain = json.loads(said_by("Participant", "--papers=1", "--questions=5", "--json"))
    assert (plain["papers"], plain["questions"], plain["enough"]) == (1, 5, False)
    assert sum(line["to_photograph"] for line in plain["lines"]) == 5


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["none"], "In use: participant"),
        (["participant", "--papers", "0"], "from 1 to 60"),
        (["participant", "--papers", "x"], "from 1 to 60"),
        (["participant", "--questions", "99"], "from 1 to 60"),
    ],
)
def test_the_command_refuses_nonsense_in_a_sentence(standard, arguments, sentence):
    with pytest.raises(CommandError, match=sentence):
        said_by(*arguments)


def test_the_command_needs_a_standard_in_use(db):
    with pytest.raises(CommandError, match="No standard is in use yet"):
        said_by("participant")
