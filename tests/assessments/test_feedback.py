"""What somebody is told of their test: first and kindly where they were sure and wrong, then plant by plant."""

import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from assessments.actions.sittings import open_sitting
from assessments.models import Question
from species.rules.vocabulary import Use
from tests.factories.species import SpecimenFactory, give_picture

from .asking import EACH_KIND_ONCE, ask, mark_what_decides, question_of

GATHER = {"said": "goodleaf", "name_is": "listed", "decision": "gather", "go": "next"}


@pytest.fixture
def mixed(pair, bank, standard, participant, tutor):
    """A test of every kind on marked pictures, opened; both plants have a teaching picture too."""
    mark_what_decides(pair)
    for species in (pair.gathered, pair.mistaken):
        give_picture(SpecimenFactory(species=species, use=Use.TEACHING.value))
    paper = ask(EACH_KIND_ONCE, standard, pair, participant, tutor)
    open_sitting(paper.seats.get(), timezone.now())
    return paper


class Sitter:
    """A participant who answers, hands in and looks."""

    def __init__(self, client, paper, pair) -> None:
        self.client, self.paper, self.pair = client, paper, pair

    def url(self, name: str, *more: int) -> str:
        return reverse(f"assessments:{name}", args=[self.paper.key, *more])

    def answer(self, question: Question, **given: str) -> None:
        assert self.client.post(self.url("question", question.position), given).status_code == 302

    def gathers_the_dangerous_one(self, confidence: str) -> Question:
        question = Question.objects.get(kind="name_and_decide", specimen__species=self.pair.mistaken)
        self.answer(question, **GATHER, confidence=confidence)
        return question

    def told(self) -> str:
        """The main part of the feedback, its blanks made single."""
        self.client.post(self.url("hand_in"))
        self.client.post(self.url("show_now"))
        page = self.client.get(self.url("feedback")).content.decode()
        return re.sub(r"\s+", " ", page.split("<main", 1)[1].split("</main>")[0])


@pytest.fixture
def sitter(signed_in, participant, mixed, pair) -> Sitter:
    return Sitter(signed_in(participant), mixed, pair)


def test_sure_and_wrong_comes_first_and_is_said_kindly(sitter):
    sitter.gathers_the_dangerous_one("sure")
    told = sitter.told()
    first, rest = told.split("Where that leaves you")
    assert "Look at this first" in first
    assert "It happens to good people" in first
    assert "badleaf" in first
    assert "Plant by plant" in rest
    assert not re.search(r"\b(fail|failed|wrong answer|stupid|careless)\b", first, re.I)


def test_a_miss_without_being_sure_is_told_in_its_place(sitter):
    sitter.gathers_the_dangerous_one("unsure")
    told = sitter.told()
    assert "Look at this first" not in told
    assert "Taken for" in told


def test_side_by_side_a_sure_gather_of_the_dangerous_one_comes_first_too(sitter):
    question = question_of(sitter.paper, "side_by_side")
    Question.objects.filter(pk=question.pk).update(
        specimen=sitter.pair.mistaken.specimens.exclude(
            pk__in=[each for other in Question.objects.all() for each in other.specimen_ids]
        ).filter(use=Use.ASSESSMENT.value)[0]
    )
    sitter.answer(question, chosen="both", confidence="sure")
    told = sitter.told()
    assert "Look at this first" in told
    assert "gathering a dangerous plant counts in any kind" in told


def test_the_plant_stands_beside_what_it_was_taken_for_with_what_decides_framed(sitter):
    sitter.gathers_the_dangerous_one("sure")
    item = sitter.told().split("<article")[1]
    doubles = item.split('class="feedback-doubles"')[1].split("</div> <p")[0]
    assert "It was badleaf" in doubles
    assert "This is goodleaf" in doubles
    assert doubles.count("<img") == 2
    assert 'class="region-line" x="40" y="28" width="80" height="84"' in doubles  # fractions of 400 × 560
    assert "1: Rim" in item
    assert "rim wavy" in item


def test_each_pair_is_told_in_a_sentence_with_why_and_what_to_practise(sitter, pair):
    question = sitter.gathers_the_dangerous_one("sure")
    told = sitter.told()
    assert f"since badleaf would have been gathered in question {question.position}:" in told
    assert f'href="{reverse("assessments:practice")}?pair={pair.key}"' in told
    assert "Practise these" in told


def test_every_question_can_be_appealed_from_here(sitter):
    for question in Question.objects.all():
        sitter.client.get(sitter.url("question", question.position))
    told = sitter.told()
    for question in Question.objects.all():
        assert f'href="{sitter.url("appeal", question.position)}"' in told
    assert told.count("Its second plant is wrong") == 1


@pytest.mark.parametrize(
    ("kind", "given", "said"),
    [
        ("which_character", {"chosen": "cannot_tell"}, "You said that you cannot tell."),
        ("point_at_it", {"field": "A", "point": "at 0.2000 0.1000"}, "You pointed at a part that decides."),
        ("point_at_it", {"field": "L"}, "You pointed at another part."),
        ("side_by_side", {"chosen": "leave"}, "You left them alone."),
    ],
)
def test_each_kind_says_what_was_answered_and_what_would_have_decided(sitter, kind, given, said):
    sitter.answer(question_of(sitter.paper, kind), **given, go="next")
    told = sitter.told()
    assert said in told
    if kind == "which_character":
        assert "What decides here is Rim: rim" in told


def test_feedback_asks_the_database_as_often_for_two_questions_as_for_five(sitter):
    for question in Question.objects.all():
        sitter.client.get(sitter.url("question", question.position))
    sitter.told()
    counts = []
    for unshown in ([], ["which_character", "name_and_decide"]):
        Question.objects.filter(kind__in=unshown).update(first_shown_at=None)
        with CaptureQueriesContext(connection) as asked:
            page = sitter.client.get(sitter.url("feedback")).content.decode()
        counts.append((page.count("<article"), len(asked)))
    (five, for_five), (two, for_two) = counts
    assert (five, two) == (5, 2)
    assert for_five == for_two
