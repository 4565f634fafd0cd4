"""`manage.py plan_standard`: the plan as text and as JSON; bad input is a sentence."""

import json
from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from tests.factories.assessments import make_standard


def said(*arguments: str) -> str:
    out = StringIO()
    call_command("plan_standard", *arguments, stdout=out)
    return out.getvalue()


def as_json(*arguments: str) -> dict:
    return json.loads(said(*arguments, "--json"))


def test_the_text_gives_every_table(standard, bank):
    text = said("participant")
    assert "it lacks specimens of badleaf (6 of 13)" in text
    assert "THE CHANCE TO PASS ONE DANGEROUS PLANT" in text
    assert "Questions for one person, on average" in text


def test_the_json_has_the_shape_that_the_module_describes(standard, bank, pair):
    found = as_json("participant")
    (plan,) = found["plans"]
    assert set(plan) == {
        "name", "key", "version", "draft", "can_be_met", "sentence", "dangerous", "edible", "together", "bank", "load",
    }  # fmt: skip
    side = plan["dangerous"]
    assert set(side) == {"limit", "ratio", "alpha", "weight", "species", "needed", "marks", "rates"}
    assert side["needed"] == [13, 24, 36, 47]
    assert set(side["rates"][0]) == {"rate", "within", "ever", "mean", "median", "nine_in_ten"}
    assert set(plan["together"][0]) == {"rate", "within", "ever", "from_bank"}
    assert plan["bank"]["held"][0] == {
        "species": pair.mistaken.key, "side": "dangerous", "specimens": 6, "countable": 6, "least": 13,
        "stages": {"rosette": 6},
    }  # fmt: skip
    assert plan["load"][0]["questions"] == 22


def test_numbers_make_a_draft_beside_the_standard(standard):
    first, draft = as_json("Participant", "--limit", "0.15", "--alpha", "0.05")["plans"]
    assert (first["draft"], draft["draft"]) == (False, True)
    assert draft["dangerous"]["limit"] == 0.15
    assert draft["dangerous"]["needed"][0] > first["dangerous"]["needed"][0]


def test_two_standards_stand_beside_each_other(standard, pair):
    make_standard(pair, key="leader", name="Walk leader", miss_limit="0.10", miss_alpha="0.05")
    plans = as_json("participant", "--against", "Walk leader", "--weeks", "10")["plans"]
    assert [plan["key"] for plan in plans] == ["participant", "leader"]
    assert plans[1]["dangerous"]["needed"][:2] == [34, 58]


def test_a_version_is_chosen_after_a_colon_and_the_newest_otherwise(standard, pair):
    make_standard(pair, version=2, in_use=False)
    assert as_json("participant")["plans"][0]["version"] == 2
    assert as_json("participant:1")["plans"][0]["version"] == 1


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["nobody"], "No standard is called 'nobody'. There are: participant"),
        (["participant:7"], "has no version '7'"),
        (["participant", "--limit", "much"], "'much' is no number; write it as 0.15"),
        (["participant", "--limit", "20"], "cannot be shown by any number"),
        (["participant", "--ratio", "1"], "above 1, and at most 1000"),
        (["participant", "--limit", "0.001"], "more than 1500 are not calculated"),
        (["participant", "--weeks", "0"], "at least one week"),
        (["participant", "--weeks", "soon"], "at least one week"),
        (["participant", "--alpha", "1/0"], "is no number"),
    ],
)
def test_bad_input_is_a_sentence(standard, arguments, sentence):
    with pytest.raises(CommandError, match=sentence):
        said(*arguments)


def test_all_wrong_numbers_are_named_at_once(standard):
    with pytest.raises(CommandError) as refused:
        said("participant", "--limit", "2", "--ratio", "x")
    assert "--limit 2" in str(refused.value)
    assert "--ratio: 'x'" in str(refused.value)


def test_a_school_without_standards_is_told_what_to_do(db):
    with pytest.raises(CommandError, match="make one first; a draft is enough"):
        said("participant")
