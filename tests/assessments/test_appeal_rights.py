"""What somebody who appeals can rely on: CP-16 and DP-7; and appealing either plant of a question that shows two."""

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.actions.appeals import AppealRefused
from assessments.models import Evidence, Question
from assessments.queries.appeals import answer_at, eligibility_of
from assessments.queries.feedback import feedback_on
from assessments.rules.appeals import Bar, Step
from tests.factories.species import SpecimenFactory, give_picture

from .appeals import appeal_page, counts, decided, make_appeal, page


def test_cp_16_an_appeal_is_followed_from_receipt_to_an_end_by_somebody_with_no_part_in_it(
    signed_in, miss, refused, participant, stranger, standard, pair, tutor, assessor
):
    """CP-16: acknowledged with a day, tracked, setter and namer barred, reasons given, everybody computed again."""
    tutor.user.user_permissions.add(*assessor.user.groups.get().permissions.filter(codename="decide_appeal"))
    made = make_appeal(miss)
    assert "It is decided by" in signed_in(participant).get(page("one_appeal", made.key)).content.decode()
    barred = eligibility_of(type(tutor.user).objects.get(pk=tutor.user.pk), made)
    assert barred.bars == (Bar.SET_THE_TEST, Bar.NAMED_THE_PLANT)
    with pytest.raises(AppealRefused, match="You set this test"):
        decided(made, type(tutor).objects.get(pk=tutor.pk), Step.DISMISSED)
    assert counts(participant, standard, pair) == (0, 1)  # appealing has changed nothing
    decided(made, assessor, Step.VOIDED, reasons="Nothing that decides can be seen.")
    text = signed_in(participant).get(page("one_appeal", made.key)).content.decode()
    assert "Nothing that decides can be seen." in text
    assert "upheld: the plant counts for nobody" in text
    assert counts(participant, standard, pair) == counts(stranger, standard, pair) == (0, 0)


def test_dp_7_an_opinion_is_not_corrected_but_the_objection_stays_beside_it(signed_in, miss, participant, assessor):
    """DP-7: the answer as it was given and marked stays, with the objection and what was said of it."""
    before = Evidence.objects.values().get(pk=miss.pk)
    decided(make_appeal(miss, words="The stem is smooth."), assessor, Step.DISMISSED, reasons="It is blotched below.")
    assert Evidence.objects.values().get(pk=miss.pk) == before
    assert Evidence.objects.get(pk=miss.pk).appeal.words == "The stem is smooth."
    feedback = signed_in(participant).get(reverse("assessments:feedback", args=[miss.sitting.seat.paper.key]))
    assert "Your appeal: Decided" in feedback.content.decode()
    whole = signed_in(participant).get(appeal_page(miss), follow=True).content.decode()
    assert "The stem is smooth." in whole
    assert "It is blotched below." in whole


def test_a_question_that_was_not_appealed_offers_to(miss, participant):
    item = feedback_on(miss.sitting, participant.user, timezone.now()).items[0]
    assert item.appeals == ("",)
    make_appeal(miss)
    assert feedback_on(miss.sitting, participant.user, timezone.now()).items[0].appeals == ("Received",)


@pytest.fixture
def two_plants(miss, pair) -> Evidence:
    """The question of the miss showed a second plant beside it; the answer to that one."""
    second = SpecimenFactory(species=pair.gathered)
    give_picture(second)
    Question.objects.filter(sitting=miss.sitting, position=1).update(kind="side_by_side", beside=second)
    row = Evidence(
        **{**Evidence.objects.values().get(pk=miss.pk), "id": None, "specimen_id": second.pk, "decision": "refuse"}
    )
    row.save()
    return row


def test_either_plant_of_a_question_that_shows_two_is_appealed_by_itself(
    signed_in, two_plants, miss, participant, assessor
):
    key = miss.sitting.seat.paper.key
    assert answer_at(participant.user.pk, key, 1, 2) == two_plants
    assert answer_at(participant.user.pk, key, 1, 3) is None
    client = signed_in(participant)
    client.post(f"{appeal_page(miss)}?plant=2", {"ground": "two_right", "words": "Both are right."})
    assert two_plants.appeal.words == "Both are right."
    assert not hasattr(Evidence.objects.get(pk=miss.pk), "appeal")
    text = client.get(reverse("assessments:feedback", args=[key])).content.decode()
    assert "Your appeal: Received" in text
    assert "This question is wrong" in text


def test_the_page_of_an_appeal_shows_the_picture_of_the_plant_that_it_is_about(
    signed_in, two_plants, miss, participant
):
    first, second = make_appeal(miss), make_appeal(two_plants)
    client = signed_in(participant)
    shown = [client.get(page("one_appeal", each.key)).context["page"].answer.pictures for each in (first, second)]
    assert [len(pictures) for pictures in shown] == [1, 1]
    numbers = [pictures[0].src.split("/")[-2] for pictures in shown]
    assert sorted(numbers) == ["1", "2"]
    assert client.get(shown[1][0].src).status_code == 200
