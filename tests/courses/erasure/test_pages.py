"""The page of one's own data, the requests for organisers: who opens them, what they say, what every bad input gets."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.actions.erasure import ask_to_be_erased
from courses.models import ErasureRequest, Person
from courses.queries.erasure import past_keeping
from tests.courses.erasure.traces import ADDRESS, NAME, erase_now
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.certificates import make_certificate
from tests.factories.people import make_person

OWN = "/your-data/"


def url(name: str, *args: object) -> str:
    return reverse(f"courses:{name}", args=args)


@pytest.fixture
def asked(participant: Person, organiser: Person) -> ErasureRequest:
    return ask_to_be_erased(participant, now=timezone.now())


def test_everybody_finds_their_own_data_and_asks_by_typing_their_address(signed_in, participant, organiser) -> None:
    client = signed_in(participant)
    page = client.get(OWN).content.decode()
    assert faults(page) == []
    assert url("own_data_file") in page
    answer = client.post(OWN, {"address": f" {ADDRESS.upper()} "}, follow=True)
    assert answer.redirect_chain == [(OWN, 302)]
    assert ErasureRequest.objects.get().person == participant
    assert "Take it back" in answer.content.decode()


@pytest.mark.parametrize(
    ("typed", "words"),
    [("", "This field is required"), ("somebody@else.example", "not the address"), ("yes", "not the address")],
)
def test_another_address_asks_for_nothing_and_says_so(signed_in, participant, typed: str, words: str) -> None:
    answer = signed_in(participant).post(OWN, {"address": typed})
    assert answer.status_code == 422
    assert words in answer.content.decode()
    assert not ErasureRequest.objects.exists()


def test_asking_twice_says_that_it_waits(signed_in, participant, asked) -> None:
    page = signed_in(participant).post(OWN, {"address": ADDRESS}, follow=True).content.decode()
    assert "You have asked already" in page
    assert ErasureRequest.objects.count() == 1


def test_it_is_taken_back_by_whoever_asked_alone(signed_in, participant, stranger, asked) -> None:
    page = signed_in(stranger).post(url("erasure_take_back"), follow=True).content.decode()
    assert "no request to take back" in page
    page = signed_in(participant).post(url("erasure_take_back"), follow=True).content.decode()
    assert "nothing is erased" in page
    asked.refresh_from_db()
    assert asked.taken_back_at is not None


def test_the_page_of_own_data_asks_for_sign_in(client, school) -> None:
    assert client.get(OWN).status_code == 302


def test_the_page_says_until_when_a_certificate_keeps_the_name(signed_in, participant, standard, organiser) -> None:
    made = make_certificate(participant, standard, organiser)
    page = signed_in(participant).get(OWN).content.decode()
    assert f"{made.number}, until" in page
    assert str(made.valid_until.year + 3) in page


ORGANISER_PAGES = ["erasures", "processing", "processing_csv", "processing_pdf", "processing_grounds"]


@pytest.mark.parametrize("who", ["tutor", "participant", "assessor"])
def test_nobody_but_organisers_sees_or_answers_requests(request, signed_in, who: str, asked, course) -> None:
    client = signed_in(request.getfixturevalue(who))
    statuses = {client.get(url(name)).status_code for name in ORGANISER_PAGES}
    statuses |= {client.get(url("erasure", asked.key)).status_code}
    statuses |= {client.post(url(name, asked.key)).status_code for name in ("erasure_grant", "erasure_decline")}
    statuses |= {client.post(url("erasure_record", asked.person.uuid)).status_code}
    assert statuses == {403}
    asked.person.refresh_from_db()
    assert asked.person.name == NAME


def test_strangers_are_asked_to_sign_in(client, asked) -> None:
    assert {client.get(url(name)).status_code for name in ORGANISER_PAGES} == {302}
    assert client.post(url("erasure_grant", asked.key)).status_code == 302
    asked.refresh_from_db()
    assert asked.decided_at is None


def test_the_list_shows_the_deadline_and_its_source(signed_in, organiser, asked) -> None:
    page = signed_in(organiser).get(url("erasures")).content.decode()
    assert faults(page) == []
    assert "article 12(3)" in page
    assert "to be answered by" in page
    ErasureRequest.objects.update(decide_by=timezone.localdate() - timedelta(days=1))
    assert "Overdue" in signed_in(organiser).get(url("erasures")).content.decode()


def test_the_page_says_what_goes_and_what_stays_and_erases(signed_in, organiser, life) -> None:
    asked = ask_to_be_erased(life, now=timezone.now())
    client = signed_in(organiser)
    page = client.get(url("erasure", asked.key)).content.decode()
    assert faults(page) == []
    for words in ("What goes at once", "Answers in tests", "Where the name stays for a time", "Local law decides"):
        assert words in page
    answer = client.post(url("erasure_grant", asked.key), follow=True)
    assert "but for the name on certificates" in answer.content.decode()
    assert NAME not in client.get(url("erasure", asked.key)).content.decode()
    again = client.post(url("erasure_grant", asked.key), follow=True).content.decode()
    assert "nothing was done" in again


def test_declining_needs_a_reason_and_is_told(signed_in, organiser, participant, asked) -> None:
    client = signed_in(organiser)
    assert client.post(url("erasure_decline", asked.key), {"reason": " "}).status_code == 422
    client.post(url("erasure_decline", asked.key), {"reason": "A court has asked for it."})
    assert "A court has asked for it." in client.get(url("erasure", asked.key)).content.decode()
    assert "A court has asked for it." in signed_in(participant).get(OWN).content.decode()


def test_ones_own_request_is_answered_by_another(signed_in, organiser) -> None:
    asked = ask_to_be_erased(organiser, now=timezone.now())
    client = signed_in(organiser)
    assert "another organiser answers it" in client.get(url("erasure", asked.key)).content.decode()
    page = client.post(url("erasure_grant", asked.key), follow=True).content.decode()
    assert "This is your own request" in page


def test_a_request_by_letter_is_recorded_with_the_day_on_which_it_came(signed_in, organiser, participant) -> None:
    client, today = signed_in(organiser), timezone.localdate()
    came = today - timedelta(days=3)
    answer = client.post(url("erasure_record", participant.uuid), {"came_on": came.isoformat()})
    made = ErasureRequest.objects.get()
    assert answer["Location"] == url("erasure", made.key)
    assert (timezone.localdate(made.asked_at), made.recorded_by) == (came, organiser)


@pytest.mark.parametrize("came", ["", "soon", "2999-01-01"])
def test_a_day_that_is_none_records_nothing(signed_in, organiser, participant, came: str) -> None:
    assert signed_in(organiser).post(url("erasure_record", participant.uuid), {"came_on": came}).status_code == 422
    assert not ErasureRequest.objects.exists()


def test_somebody_erased_cannot_be_asked_for_again(signed_in, organiser, participant) -> None:
    erase_now(participant, organiser)
    participant.refresh_from_db()
    answer = signed_in(organiser).post(
        url("erasure_record", participant.uuid), {"came_on": timezone.localdate().isoformat()}
    )
    assert answer.status_code == 422
    assert "or the person is erased" in answer.content.decode()


@pytest.mark.parametrize("name", ["erasure_grant", "erasure_decline", "erasure_take_back"])
def test_a_link_changes_nothing(signed_in, organiser, asked, name: str) -> None:
    args = [] if name == "erasure_take_back" else [asked.key]
    assert signed_in(organiser).get(url(name, *args)).status_code == 405


def test_the_list_takes_as_many_queries_however_many_ask(signed_in, organiser, asked) -> None:
    def grow() -> None:
        for number in range(4):
            ask_to_be_erased(make_person(f"Asks {number}", "participant"), now=timezone.now())

    assert same_queries(signed_in(organiser), url("erasures"), grow)


def test_a_page_takes_as_many_queries_however_much_is_held(signed_in, organiser, asked, standard) -> None:
    def grow() -> None:
        for number in range(4):
            make_certificate(asked.person, standard, organiser, number=f"2026-01{number:02d}")

    make_certificate(asked.person, standard, organiser)
    assert same_queries(signed_in(organiser), url("erasure", asked.key), grow)


def test_who_left_three_years_ago_is_proposed_unless_a_certificate_still_names_them(
    signed_in, organiser, participant, stranger, standard
) -> None:
    today = timezone.localdate()
    Person.objects.exclude(pk=organiser.pk).update(left_on=today - timedelta(days=3 * 366))
    assert set(past_keeping(today)) == {participant, stranger}
    made = make_certificate(participant, standard, organiser)
    assert past_keeping(today) == [stranger]
    assert set(past_keeping(made.valid_until + timedelta(days=3 * 366))) == {participant, stranger}
    page = signed_in(organiser).get(url("erasures")).content.decode()
    assert url("erasure_record", stranger.uuid) in page
    assert url("erasure_record", participant.uuid) not in page


def test_who_is_here_or_left_lately_is_not_proposed(organiser, participant, stranger) -> None:
    today = timezone.localdate()
    Person.objects.filter(pk=stranger.pk).update(left_on=today - timedelta(days=3 * 365))
    assert past_keeping(today) == []
