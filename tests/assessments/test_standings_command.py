"""`manage.py standings`: every ledger and pair with its figures and its sentence; bad input is a sentence."""

import json
from io import StringIO

import pytest
from django.contrib.auth.models import User
from django.core.management import CommandError, call_command

from assessments.models import Standard
from tests.factories.assessments import make_standard

from .evidence import START


def said(*arguments: str) -> str:
    out = StringIO()
    call_command("standings", *arguments, stdout=out)
    return out.getvalue()


def as_json(*arguments: str) -> dict:
    return json.loads(said(*arguments, "--json"))


def test_every_pair_and_every_ledger_has_its_sentence_and_figures(participant, record):
    text = said(participant.user.email)
    assert "Participant: 0 of 1 dangerous pair passed; every one is needed." in text
    assert "goodleaf / badleaf: 17 more specimens of badleaf without a miss" in text
    assert "badleaf: Seven clean, one miss; 17 more without a miss." in text
    assert "goodleaf: Two recognised, one not recognised; six more to recognise." in text
    assert "Clean 7, Misses 1, Neither for nor against 3" in text
    assert "1 neither for nor against: Shown, and not answered." in text
    assert "Alive: 2 of 3 in a row without a miss, from 2 of 2 occasions." in text


def test_the_json_has_the_shape_that_the_module_describes(participant, record):
    (standard,) = as_json(participant.user.email).values()
    assert set(standard) == {"name", "version", "passed", "sentence", "pairs", "ledgers", "missing", "set_aside"}
    (pair,) = standard["pairs"]
    assert set(pair) == {"key", "gathered", "mistaken", "passed", "sentence", "window", "missing", "stages", "live"}
    assert pair["missing"] == standard["missing"]
    assert set(pair["live"]) == {
        "met", "clean", "misses", "needed", "occasions", "occasions_needed", "not_required", "sentence",
    }  # fmt: skip
    for ledger in standard["ledgers"]:
        assert set(ledger) == {"species", "side", "passed", "sentence", "answers", "not_counted", "windows"}
        for window in ledger["windows"]:
            assert set(window) == {
                "number", "weight", "opened_at", "closes_at", "clean", "misses", "neutral", "live", "needed",
                "still_needed", "passed", "upper_limit",
            }  # fmt: skip


def test_the_json_gives_the_figures_of_every_window(participant, pair, record):
    ledgers = as_json(participant.user.email)["participant"]["ledgers"]
    (bad,) = [each for each in ledgers if each["side"] == "dangerous"]
    assert bad["species"] == pair.mistaken.key
    first, second = bad["windows"]
    assert (first["clean"], first["misses"], first["neutral"], first["live"]) == (7, 1, 3, 2)
    assert (first["weight"], first["needed"], first["still_needed"]) == ("4/5", 24, 17)
    assert (second["weight"], second["clean"], second["misses"], second["needed"]) == ("1/10", 4, 0, 23)
    assert first["opened_at"] == START.isoformat()
    assert (bad["answers"], bad["not_counted"]) == (14, 3)


def test_somebody_without_evidence_stands_at_nothing(participant, standard):
    ledgers = as_json(participant.user.email)["participant"]["ledgers"]
    assert [each["windows"][0]["still_needed"] for each in ledgers] == [13, 5]
    assert ledgers[0]["windows"][0]["opened_at"] is None


@pytest.mark.parametrize("wanted", ["leader", "Walk leader", " WALK LEADER "])
def test_one_standard_is_chosen_by_key_or_name(participant, standard, pair, wanted):
    make_standard(pair, key="leader", name="Walk leader")
    assert list(as_json(participant.user.email, "--standard", wanted)) == ["leader"]
    assert list(as_json(participant.user.email)) == ["participant", "leader"]


def test_an_unknown_standard_names_those_in_use(participant, standard, pair):
    make_standard(pair, key="draft", name="Draft", in_use=False)
    with pytest.raises(CommandError, match=r"No standard called 'draft' is in use. In use: participant\."):
        said(participant.user.email, "--standard", "draft")


def test_no_standard_in_use_says_what_to_do(participant):
    assert not Standard.objects.exists()
    with pytest.raises(CommandError, match="Put one to use first"):
        said(participant.user.email)


def test_an_unknown_address_is_said(standard):
    with pytest.raises(CommandError, match=r"Nobody here signs in with no@example\.org"):
        said("no@example.org")


@pytest.mark.parametrize("text", ["Pat Participant", "", " "])
def test_what_is_no_address_is_said(standard, text):
    with pytest.raises(CommandError, match="is no e-mail address"):
        said(text)


def test_an_address_in_capitals_and_with_spaces_is_the_same_person(participant, standard):
    assert as_json(f" {participant.user.email.upper()} ")


def test_two_people_with_one_address_are_not_mixed(participant, standard):
    User.objects.create(username="twin", email=participant.user.email)
    with pytest.raises(CommandError, match="Several people have the address"):
        said(participant.user.email)
