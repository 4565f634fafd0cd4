"""A fifth kind of question, added as DEVELOPERS.md says: a module to a ring, a line in the catalogue, a word for it."""

import sys
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest
from django.conf import settings
from django.urls import reverse
from django.utils import timezone

from assessments.actions.sittings import open_sitting
from assessments.forms import kinds as form_modules
from assessments.models import Answer, Evidence
from assessments.queries.sentences.kinds import WORDS
from assessments.queries.standings import standings_of
from assessments.rules import kinds as rule_modules
from assessments.rules.kinds import catalogue

from .asking import ask, question_of

KEY = "which_of_two"
RULE = '''
"""Which of the two plants of its pair is it."""
from assessments.rules.kinds.shape import Kind, Put
from assessments.rules.standard import Side

SIDES = {"0": Side.EDIBLE, "1": Side.DANGEROUS}


def ask(subject, _chance):
    return Put(subject.about)


def is_right(_asks, chosen, truth):
    return None if truth.sides[0] is None else SIDES.get(chosen) is truth.sides[0]


KIND = Kind(key="which_of_two", counts=False, asks_name=False, asks_decision=False, ask=ask, is_right=is_right)
'''
FORM = '''
"""One of two names."""
from django import forms

from assessments.forms.kinds.shape import KindForm


class WhichOfTwo(KindForm):
    chosen = forms.ChoiceField(label="Which of the two is it?", widget=forms.RadioSelect)

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["chosen"].choices = [(str(n), plant.common_name) for n, plant in enumerate(self.both)]


FORM = WhichOfTwo
'''
PAGE = '{% include "pieces/answer_choices.html" with field=form.chosen only %}'
TOLD = "<p>You chose number {{ told.chosen }} of the two.</p>"


def write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text)


@pytest.fixture
def fifth(tmp_path, monkeypatch, settings) -> Iterator[str]:
    """The four steps, in a folder of their own that every ring looks into as well."""
    write(tmp_path / "rules" / f"{KEY}.py", RULE)
    write(tmp_path / "forms" / f"{KEY}.py", FORM)
    write(tmp_path / "templates/assessments/kinds" / f"{KEY}.html", PAGE)
    write(tmp_path / "templates/assessments/kinds/told" / f"{KEY}.html", TOLD)
    for ring, package in (("rules", rule_modules), ("forms", form_modules)):
        monkeypatch.setattr(package, "__path__", [*package.__path__, str(tmp_path / ring)])
    (engine,) = settings.TEMPLATES
    settings.TEMPLATES = [{**engine, "DIRS": [*engine["DIRS"], tmp_path / "templates"]}]
    kind = import_module(f"{rule_modules.__name__}.{KEY}").KIND
    monkeypatch.setattr(catalogue, "KINDS", (*catalogue.KINDS, kind))
    monkeypatch.setitem(WORDS, KEY, "Which of two")
    yield KEY
    for package in (rule_modules, form_modules):
        sys.modules.pop(f"{package.__name__}.{KEY}", None)
        vars(package).pop(KEY, None)


@pytest.fixture
def paper(fifth, bank, standard, pair, participant, tutor):
    """A test with a question of the fifth kind, opened."""
    made = ask({fifth: 1}, standard, pair, participant, tutor)
    open_sitting(made.seats.get(), timezone.now())
    return made


def url(paper, name: str, *more: int) -> str:
    return reverse(f"assessments:{name}", args=[paper.key, *more])


def test_a_fifth_kind_is_drawn_shown_answered_handed_in_and_told(signed_in, participant, paper, pair):
    client, question = signed_in(participant), question_of(paper, KEY)
    page = client.get(url(paper, "question", question.position)).content.decode()
    assert "Which of the two is it?" in page
    right = "0" if question.specimen.species == pair.gathered else "1"
    client.post(url(paper, "question", question.position), {"chosen": right, "go": "next"})
    assert Answer.objects.get().chosen == right
    client.post(url(paper, "hand_in"))
    client.post(url(paper, "show_now"))
    told = client.get(url(paper, "feedback")).content.decode()
    assert f"You chose number {right} of the two." in told
    assert "Which of two" in told
    assert "For learning: it counts for nothing." in told


def test_a_fifth_kind_enters_no_ledger(signed_in, participant, standard, paper):
    client, question = signed_in(participant), question_of(paper, KEY)
    client.post(url(paper, "question", question.position), {"chosen": "1", "go": "next"})
    client.post(url(paper, "hand_in"))
    client.post(url(paper, "show_now"))
    assert Evidence.objects.get().kind == KEY
    where = standings_of([participant.user.pk], standard, timezone.now())[participant.user.pk]
    assert {str(each.effect) for each in where.treatments} == {"none"}


def test_the_guide_names_every_place_that_a_kind_has():
    guide = (settings.BASE_DIR / "DEVELOPERS.md").read_text()
    step_by_step = guide.split("**A question kind**")[1].split("**A printed document:**")[0]
    places = (
        "assessments/rules/kinds/KEY.py",
        "assessments/forms/kinds/KEY.py",
        "templates/assessments/kinds/KEY.html",
    )
    for place in (*places, "told/KEY.html", "catalogue.py", "assessments/queries/sentences/kinds.py"):
        assert place in step_by_step
    for kind in catalogue.KINDS:
        for place in places:
            assert (settings.BASE_DIR / place.replace("KEY", kind.key)).is_file()
        told = settings.BASE_DIR / "templates/assessments/kinds/told" / f"{kind.key}.html"
        assert kind.counts or told.is_file()


@pytest.mark.parametrize("ring", [rule_modules, form_modules], ids=["rules", "forms"])
def test_no_kind_knows_another(ring):
    folder = Path(ring.__path__[0])
    for kind in catalogue.KINDS:
        text = (folder / f"{kind.key}.py").read_text().replace(f"kinds.{kind.key}", "itself")
        assert not [other.key for other in catalogue.KINDS if f".{other.key}" in text or f"import {other.key}" in text]
