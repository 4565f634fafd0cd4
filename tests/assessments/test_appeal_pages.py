"""The pages of appeals: who opens which, what they say, and that nothing typed is lost."""

from datetime import timedelta
from html import unescape

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.actions.deciding_appeals import ask_for_names
from assessments.models import Appeal, Seen, Voiding
from assessments.rules.appeals import Step
from courses.actions.roles import grant_role
from tests.courses.pages import same_queries

from .appeals import WORDS, appeal_page, decided, kinds, make_appeal, page
from .evidence import PaperTrail

EVERYBODY = ("participant", "stranger", "tutor", "assessor", "organiser")


@pytest.fixture
def made(miss) -> Appeal:
    return make_appeal(miss)


def text_of(answer) -> str:
    return unescape(answer.content.decode())


def opened_by(request, signed_in, url: str) -> dict[str, int]:
    """What each of the cast gets on opening an address."""
    return {who: signed_in(request.getfixturevalue(who)).get(url).status_code for who in EVERYBODY}


def test_only_the_person_appeals_their_answer(request, signed_in, client, miss):
    assert opened_by(request, signed_in, appeal_page(miss)) == {
        "participant": 200,
        "stranger": 404,
        "tutor": 404,
        "assessor": 404,
        "organiser": 404,
    }


def test_one_appeal_opens_for_the_person_and_for_those_who_decide(request, signed_in, made):
    assert opened_by(request, signed_in, page("one_appeal", made.key)) == {
        "participant": 200,
        "stranger": 404,
        "tutor": 404,
        "assessor": 200,
        "organiser": 200,
    }


def test_what_waits_opens_for_those_who_decide_alone(request, signed_in, made):
    assert opened_by(request, signed_in, page("appeals_to_decide")) == {
        "participant": 403,
        "stranger": 403,
        "tutor": 403,
        "assessor": 200,
        "organiser": 200,
    }


@pytest.mark.parametrize("name", ["appeal_take_up", "appeal_ask_for_names", "appeal_decide"])
def test_steps_of_deciding_are_refused_to_everybody_else(request, signed_in, made, name):
    for who, status in {"participant": 403, "stranger": 403, "tutor": 403}.items():
        client = signed_in(request.getfixturevalue(who))
        answer = client.post(page(name, made.key), {"outcome": "voided", "reasons": "x", "why": "x"})
        assert (who, answer.status_code) == (who, status)
    assert made.steps.count() == 1
    assert not Voiding.objects.exists()


def test_pages_ask_for_a_sign_in(client, made, miss):
    for url in (appeal_page(miss), page("appeals"), page("appeals_to_decide"), page("one_appeal", made.key)):
        assert client.get(url)["Location"].startswith(reverse("account_login"))


def test_the_result_leads_to_the_appeal_and_the_appeal_back(signed_in, participant, miss):
    client = signed_in(participant)
    feedback = page("feedback", miss.sitting.seat.paper.key)
    assert appeal_page(miss) in text_of(client.get(feedback))
    assert feedback in text_of(client.get(appeal_page(miss)))


def test_the_form_says_until_when_and_in_how_many_days(signed_in, participant, miss):
    text = text_of(signed_in(participant).get(appeal_page(miss)))
    assert "You can appeal this answer until" in text
    assert "within 28 days" in text
    assert "never counts against you" in text


def test_an_appeal_is_sent_and_can_be_followed(signed_in, participant, miss):
    client = signed_in(participant)
    answer = client.post(appeal_page(miss), WORDS, follow=True)
    assert "Your appeal is received" in text_of(answer)
    assert WORDS["words"] in text_of(answer)
    assert page("one_appeal", Appeal.objects.get().key) in text_of(client.get(page("appeals")))


def test_without_words_nothing_is_sent_and_what_was_chosen_stays(signed_in, participant, miss):
    answer = signed_in(participant).post(appeal_page(miss), {"ground": "two_right", "words": " "})
    assert answer.status_code == 422
    assert "Say in your own words" in text_of(answer)
    assert 'value="two_right"' in text_of(answer)
    assert "checked" in text_of(answer)
    assert not Appeal.objects.exists()


def test_appealing_twice_leads_to_the_first(signed_in, participant, miss):
    client = signed_in(participant)
    first = client.post(appeal_page(miss), WORDS)
    assert client.post(appeal_page(miss), WORDS).url == client.get(appeal_page(miss)).url == first.url
    assert Appeal.objects.count() == 1


def test_the_key_of_the_sitting_leads_to_the_same_page(signed_in, participant, miss):
    assert signed_in(participant).get(page("appeal", miss.sitting.key, miss.position)).status_code == 200


def test_too_late_is_a_sentence(signed_in, participant, miss, standard):
    miss.sitting.result_shown_at -= timedelta(days=standard.appeal_days + 1)
    miss.sitting.save()
    answer = signed_in(participant).get(appeal_page(miss))
    assert answer.status_code == 409
    assert "The last day to appeal this answer was" in text_of(answer)


def test_an_answer_that_is_not_there_is_not_found(signed_in, participant, miss):
    client = signed_in(participant)
    assert client.get(page("appeal", miss.sitting.seat.paper.key, 99)).status_code == 404
    assert client.get(page("appeal", "no-such-test", 1)).status_code == 404


def test_a_decision_with_reasons_is_read_by_the_person(signed_in, participant, assessor, made):
    url = page("appeal_decide", made.key)
    signed_in(assessor).post(url, {"outcome": "dismissed", "reasons": "Blotches low on the stem."})
    text = text_of(signed_in(participant).get(page("one_appeal", made.key)))
    assert "Decided" in text
    assert "Blotches low on the stem." in text
    assert "Asa Assessor" in text


def test_without_reasons_nothing_is_decided_and_the_choice_stays(signed_in, assessor, made):
    answer = signed_in(assessor).post(page("appeal_decide", made.key), {"outcome": "voided", "reasons": ""})
    assert answer.status_code == 422
    assert "Write down your reasons" in text_of(answer)
    assert not Voiding.objects.exists()


def test_the_second_of_two_deciders_reads_that_it_is_decided(signed_in, organiser, assessor, made):
    decided(made, assessor, Step.DISMISSED)
    answer = signed_in(organiser).post(page("appeal_decide", made.key), {"outcome": "voided", "reasons": "Mine"})
    assert answer.status_code == 409
    assert "has been decided already" in text_of(answer)


def test_the_list_says_who_may_decide_and_why_one_may_not(signed_in, organiser, standard, participant, made):
    PaperTrail(participant.user, standard, organiser.user, 4)
    text = text_of(signed_in(organiser).get(page("appeals_to_decide")))
    assert "You assessed this person" in text
    assert "May decide: Asa Assessor" in text


def test_where_nobody_may_decide_the_remedy_is_named(signed_in, organiser, assessor, standard, participant, made):
    for person in (organiser, assessor):
        PaperTrail(participant.user, standard, person.user, 5 + person.pk)
    assert "an organiser makes somebody an assessor" in text_of(signed_in(organiser).get(page("appeals_to_decide")))


def test_taking_up_twice_is_once_and_the_person_sees_it(signed_in, participant, assessor, made):
    for _each in range(2):
        signed_in(assessor).post(page("appeal_take_up", made.key))
    assert made.steps.filter(kind="taken_up").count() == 1
    assert "Being looked at" in text_of(signed_in(participant).get(page("appeals")))


def test_looking_at_an_appeal_keeps_its_plant_out_of_ones_own_tests(signed_in, assessor, made):
    signed_in(assessor).get(page("one_appeal", made.key))
    assert Seen.objects.filter(person=assessor.user, specimen=made.evidence.specimen).exists()


def test_the_plant_is_named_anew_without_being_told(signed_in, tutor, assessor, pair, made):
    ask_for_names(made, assessor.user, "No blotches.", timezone.now())
    client = signed_in(tutor)
    assert page("appeal_name", made.key) in text_of(client.get(page("appeals")))
    text = text_of(client.get(page("appeal_name", made.key)))
    assert WORDS["words"] not in text
    assert "A plant with a name" not in text
    client.post(page("appeal_name", made.key), {"said": "goodleaf", "characters": "stem"})
    assert made.evidence.specimen.determinations.last().species == pair.gathered
    assert page("appeal_name", made.key) not in text_of(client.get(page("appeals")))


def test_naming_anew_is_closed_to_participants_and_to_the_person(request, signed_in, participant, assessor, made):
    ask_for_names(made, assessor.user, "No blotches.", timezone.now())
    assert signed_in(request.getfixturevalue("stranger")).get(page("appeal_name", made.key)).status_code == 403
    grant_role(participant, "tutor", today=timezone.localdate())
    assert signed_in(participant).get(page("appeal_name", made.key)).status_code == 404


def test_withdrawing_is_the_persons_alone_and_stays_in_the_record(signed_in, participant, assessor, made):
    assert signed_in(assessor).post(page("appeal_withdraw", made.key)).status_code == 404
    answer = signed_in(participant).post(page("appeal_withdraw", made.key), follow=True)
    assert "Withdrawn" in text_of(answer)
    assert made.steps.filter(kind="withdrawn").exists()


def test_everybody_concerned_reads_what_changed_in_words(signed_in, stranger, refused, assessor, made):
    decided(made, assessor, Step.VOIDED)
    text = text_of(signed_in(stranger).get(page("appeals")))
    assert "it counts for nobody, for or against" in text
    assert "Question 1 of “Paper of day 2”." in text
    assert "Goodleaf told from badleaf: missing before" in text
    assert kinds(stranger) == ["plant_void"]


def test_more_appeals_ask_no_more_of_the_database(signed_in, organiser, participant, standard, tutor, pair, made):
    def grow() -> None:
        trail = PaperTrail(participant.user, standard, tutor.user, 98)
        for _each in range(3):
            make_appeal(trail.answer(pair.mistaken, "gather"))

    assert same_queries(signed_in(organiser), page("appeals_to_decide"), grow)


def test_the_page_of_a_standard_tells_anybody_how_to_appeal(client, standard):
    text = text_of(client.get(page("standard", standard.key, standard.version)))
    assert "within 28 days of seeing it" in text
