"""Every kind of question, from setting the test to its evidence: drawn, shown, answered, handed in."""

import re

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.actions.papers import BankTooSmall, PaperRefused
from assessments.actions.sittings import open_sitting
from assessments.models import Answer, Evidence, Question, Seen
from assessments.queries.standings import standings_of

from .asking import EACH_KIND_ONCE, ask, mark_what_decides, question_of

ANSWERS = {
    "which_character": {"chosen": "0"},
    "point_at_it": {"field": "A", "point": "at 0.2000 0.1000"},
    "side_by_side": {"chosen": "neither", "confidence": "fairly"},
}


@pytest.fixture
def marked(pair, bank) -> None:
    mark_what_decides(pair)


@pytest.fixture
def mixed(marked, standard, pair, participant, tutor):
    """A test of every kind, opened."""
    paper = ask(EACH_KIND_ONCE, standard, pair, participant, tutor)
    open_sitting(paper.seats.get(), timezone.now())
    return paper


def url(paper, question=None, name: str = "question") -> str:
    return reverse(f"assessments:{name}", args=[paper.key, *([question.position] if question else [])])


def finish(client, paper) -> None:
    client.post(url(paper, name="hand_in"))
    client.post(url(paper, name="show_now"))


def two_plants(paper, first, second) -> Question:
    """The question side by side, with plants of these species put into it."""
    question = question_of(paper, "side_by_side")
    elsewhere = Question.objects.exclude(pk=question.pk).values("specimen")
    plants = [each.specimens.exclude(pk__in=elsewhere).order_by("pk") for each in (first, second)]
    Question.objects.filter(pk=question.pk).update(specimen=plants[0][0], beside=plants[1].last())
    return question_of(paper, "side_by_side")


def test_a_test_holds_so_many_of_each_kind_as_were_set_and_shows_no_plant_twice(mixed):
    kinds = sorted(Question.objects.values_list("kind", flat=True))
    assert kinds == ["name_and_decide", "name_and_decide", "point_at_it", "side_by_side", "which_character"]
    shown = [each for question in Question.objects.all() for each in question.specimen_ids]
    assert len(shown) == len(set(shown)) == 6


@pytest.mark.parametrize("kind", ANSWERS)
def test_an_answer_of_each_kind_is_kept_and_shown_again(signed_in, participant, mixed, kind):
    client, question = signed_in(participant), question_of(mixed, kind)
    assert client.get(url(mixed, question)).status_code == 200
    assert client.post(url(mixed, question), {**ANSWERS[kind], "go": "next"}).status_code == 302
    page = client.get(url(mixed, question)).content.decode()
    chosen = ANSWERS[kind].get("chosen") or ANSWERS[kind]["field"]
    assert re.search(rf'<input[^>]*value="{chosen}"[^>]*checked', page)
    assert Answer.objects.get().chosen == ANSWERS[kind].get("point", chosen)


@pytest.mark.parametrize(
    ("kind", "given", "said"),
    [
        ("which_character", {}, "Choose one of these."),
        ("which_character", {"chosen": "17"}, "Choose one of these."),
        ("point_at_it", {"point": "at 0.2000 0.1000"}, "Tap the picture, or choose a field."),
        ("point_at_it", {"field": "Z"}, "Z is not one of the available choices"),
        ("side_by_side", {"confidence": "sure"}, "Choose one of the five."),
        ("side_by_side", {"chosen": "first"}, "Say how sure you are."),
    ],
)
def test_what_is_missing_in_an_answer_is_said_and_nothing_is_kept(signed_in, participant, mixed, kind, given, said):
    answer = signed_in(participant).post(url(mixed, question_of(mixed, kind)), {**given, "go": "next"})
    assert answer.status_code == 422
    assert said in answer.content.decode()
    assert not Answer.objects.exists()


@pytest.mark.parametrize("point", ["at 0.9000 0.9000", "at 1.2000 0.1000", "over there", "at 0.2 0.1"])
def test_a_point_that_is_none_or_lies_in_another_field_leaves_the_field_that_was_chosen(
    signed_in, participant, mixed, point
):
    signed_in(participant).post(url(mixed, question_of(mixed, "point_at_it")), {"field": "A", "point": point})
    assert Answer.objects.get().chosen == "field A"


def test_only_what_is_named_and_decided_is_evidence(signed_in, participant, standard, mixed):
    client = signed_in(participant)
    for kind, given in ANSWERS.items():
        client.post(url(mixed, question_of(mixed, kind)), {**given, "go": "next"})
    finish(client, mixed)
    assert Evidence.objects.count() == 4  # two plants side by side
    treatments = standings_of([participant.user.pk], standard, timezone.now())[participant.user.pk].treatments
    assert treatments
    assert {str(each.effect) for each in treatments} == {"none"}
    assert Seen.objects.filter(person=participant.user).count() == 4


@pytest.mark.parametrize(("places", "chosen"), [((0, 1), "second"), ((0, 1), "both"), ((1, 0), "first")])
def test_gathering_the_dangerous_of_two_plants_is_a_miss(signed_in, participant, standard, pair, mixed, places, chosen):
    client, species = signed_in(participant), (pair.gathered, pair.mistaken)
    question = two_plants(mixed, *(species[place] for place in places))
    client.post(url(mixed, question), {"chosen": chosen, "confidence": "sure", "go": "next"})
    finish(client, mixed)
    where = standings_of([participant.user.pk], standard, timezone.now())[participant.user.pk]
    missed = [each for each in where.treatments if each.effect == "miss"]
    assert [each.answer.specimen.species for each in missed] == [pair.mistaken.key]
    assert [each.answer.kind for each in missed] == ["side_by_side"]


@pytest.mark.parametrize("chosen", ["first", "neither"])
def test_leaving_the_dangerous_of_two_plants_proves_nothing(signed_in, participant, standard, pair, mixed, chosen):
    client, question = signed_in(participant), two_plants(mixed, pair.gathered, pair.mistaken)
    client.post(url(mixed, question), {"chosen": chosen, "confidence": "sure", "go": "next"})
    finish(client, mixed)
    where = standings_of([participant.user.pk], standard, timezone.now())[participant.user.pk]
    assert {str(each.effect) for each in where.treatments} == {"none"}


def test_a_kind_that_nobody_knows_or_a_test_without_a_question_that_counts_is_refused(
    bank, standard, pair, participant, tutor
):
    for kinds, said in (({"guess_it": 1}, "no such kind"), ({"point_at_it": -1}, "fewer than no questions")):
        with pytest.raises(PaperRefused, match=said):
            ask(kinds, standard, pair, participant, tutor)
    with pytest.raises(PaperRefused, match="only those count"):
        ask({"point_at_it": 1}, standard, pair, participant, tutor, counting=0)


def test_where_nothing_is_marked_nobody_is_asked_to_point_and_the_setter_is_told(
    bank, standard, pair, participant, tutor
):
    with pytest.raises(BankTooSmall, match="Point at it"):
        ask({"point_at_it": 1}, standard, pair, participant, tutor)
