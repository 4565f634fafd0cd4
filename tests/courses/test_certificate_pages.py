"""Pages of certificates: who may open and change what, and what they say."""

import pytest
from django.core import mail
from django.urls import reverse
from django.utils import timezone

from courses.actions.certificates import issue_certificate, record_event
from courses.models import Application, Certificate
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.certificates import make_application, make_certificate
from tests.factories.people import make_person
from tests.factories.species import PairFactory

LIST, MINE = "/certificates/", "/certificates/mine/"


def url(name: str, *args: object) -> str:
    return reverse(f"courses:{name}", args=args)


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


@pytest.fixture
def certificate(participant, standard, organiser) -> Certificate:
    return make_certificate(participant, standard, organiser)


@pytest.fixture
def addresses(certificate, stranger, standard) -> dict[str, str]:
    """Every address of these views, with the method that it takes."""
    waiting = make_application(stranger, standard)
    number = certificate.number
    return {
        LIST: "get",
        MINE: "get",
        url("apply", standard.pk): "post",
        url("application", waiting.pk): "get",
        url("application_decide", waiting.pk): "post",
        url("certificate", number): "get",
        url("certificate_pdf", number): "get",
        url("certificate_event", number): "post",
        url("certificate_name", number): "post",
    }


def test_nobody_comes_in_without_signing_in(client, addresses) -> None:
    for address, method in addresses.items():
        answer = getattr(client, method)(address)
        assert (answer.status_code, "/account/login/" in answer["Location"]) == (302, True), address
    assert not Certificate.objects.filter(events__isnull=False).exists()


def test_the_wrong_method_is_refused(signed_in, organiser, addresses) -> None:
    client = signed_in(organiser)
    for address, method in addresses.items():
        wrong = client.get(address) if method == "post" else client.post(address)
        assert wrong.status_code == 405, address


def test_a_participant_is_kept_out_of_what_others_decide(signed_in, participant, addresses) -> None:
    client = signed_in(participant)
    waiting = Application.objects.get()
    assert client.get(LIST).status_code == 403
    assert client.get(url("application", waiting.pk)).status_code == 403
    assert client.post(url("application_decide", waiting.pk), {"issue": "yes"}).status_code == 403
    held = url("certificate_event", "2026-0007")
    assert client.post(held, {"kind": "withdrawn", "reason": "x"}).status_code == 403


def test_a_tutor_reads_the_list_and_decides_nothing(signed_in, tutor, addresses) -> None:
    client = signed_in(tutor)
    page = text(client.get(LIST))
    assert "Pat Participant" in page
    assert "Look at it and decide" not in page
    assert client.get(url("application", Application.objects.get().pk)).status_code == 403


def test_a_certificate_of_somebody_else_is_not_found(signed_in, stranger, certificate) -> None:
    client = signed_in(stranger)
    assert client.get(url("certificate", certificate.number)).status_code == 404
    assert client.get(url("certificate_pdf", certificate.number)).status_code == 404
    assert client.post(url("certificate_name", certificate.number), {"show": "yes"}).status_code == 404
    assert not Certificate.objects.get().name_is_public


def test_the_list_shows_what_waits_and_what_was_issued(signed_in, organiser, addresses) -> None:
    page = signed_in(organiser).get(LIST)
    assert "Strix Stranger" in text(page)
    assert "2026-0007" in text(page)
    assert faults(page.content.decode()) == []


def test_ones_own_page_lists_what_is_missing_and_offers_no_application_yet(signed_in, participant, standard) -> None:
    page = signed_in(participant).get(MINE)
    assert "badleaf" in text(page)
    assert 'name="statement"' not in text(page)
    assert faults(page.content.decode()) == []


def test_a_long_way_to_a_certificate_begins_with_its_first_steps(signed_in, participant) -> None:
    make_standard(*(PairFactory() for _ in range(4)), key="long")
    first, rest = text(signed_in(participant).get(MINE)).split("Everything else that is missing")
    assert "things are still missing. First of all:" in first
    assert first.split('class="gap-list"')[1].count("<li> <svg") == 5
    assert rest.count("<li> <svg") > 3


def test_whoever_passed_applies_with_a_statement(signed_in, participant, passed) -> None:
    Application.objects.all().delete()
    client = signed_in(participant)
    assert 'name="statement"' in text(client.get(MINE))
    address = url("apply", passed.standard_id)
    assert "tick it if it is true" in text(client.post(address, follow=True))
    assert not Application.objects.exists()
    assert "with the organisers" in text(client.post(address, {"statement": "on", "agreement": "on"}, follow=True))
    assert Application.objects.get().statement
    assert "applied already" in text(client.post(address, {"statement": "on", "agreement": "on"}, follow=True))
    assert Application.objects.count() == 1


def test_whoever_holds_one_is_not_asked_to_apply_for_what_they_have(signed_in, organiser, participant, passed) -> None:
    issued = issue_certificate(passed, organiser, now=timezone.now())
    client = signed_in(participant)
    page = text(client.get(url("certificates_mine")))
    assert f"You hold certificate {issued.number} under this standard" in page
    assert "You can apply" not in page
    record_event(issued, "withdrawn", organiser, "Because", now=timezone.now())
    page = text(client.get(url("certificates_mine")))
    assert "You hold certificate" not in page
    assert "You can apply" in page


def test_a_standard_that_is_not_in_use_takes_no_application(signed_in, participant, standard) -> None:
    type(standard).objects.update(in_use_since=None)
    answer = signed_in(participant).post(url("apply", standard.pk), {"statement": "on", "agreement": "on"})
    assert answer.status_code == 404


def test_an_organiser_issues_and_the_holder_hears(
    signed_in, organiser, passed, django_capture_on_commit_callbacks
) -> None:
    client = signed_in(organiser)
    page = client.get(url("application", passed.pk))
    assert "Nothing is missing" in text(page)
    assert faults(page.content.decode()) == []
    with django_capture_on_commit_callbacks(execute=True):
        answer = client.post(url("application_decide", passed.pk), {"issue": "yes"})
    issued = Certificate.objects.get()
    assert answer["Location"] == url("certificate", issued.number)
    assert mail.outbox[0].to == [passed.person.user.email]


def test_issuing_what_is_not_passed_is_refused_with_the_list(signed_in, organiser, application) -> None:
    client = signed_in(organiser)
    assert "Issue the certificate" not in text(client.get(url("application", application.pk)))
    answer = client.post(url("application_decide", application.pk), {"issue": "yes"})
    assert answer.status_code == 409
    assert "Nothing was issued" in text(answer)
    assert "badleaf" in text(answer)
    assert not Certificate.objects.exists()


def test_declining_needs_a_reason(signed_in, organiser, application) -> None:
    client, address = signed_in(organiser), url("application_decide", application.pk)
    answer = client.post(address, {"reason": " "})
    assert answer.status_code == 422
    assert "right to the reason" in text(answer)
    assert client.post(address, {"reason": "Not yet"})["Location"] == LIST
    application.refresh_from_db()
    assert (application.granted, application.reason) == (False, "Not yet")
    assert "decided on this application already" in text(client.post(address, {"reason": "x"}, follow=True))
    assert "Not yet" in text(client.get(url("application", application.pk)))


def test_an_application_that_is_not_there_is_not_found(signed_in, organiser) -> None:
    assert signed_in(organiser).get(url("application", 99)).status_code == 404


def test_a_decider_who_taught_reads_that_they_may_not(signed_in, organiser, passed, course) -> None:
    make_person("Otto Other", "organiser")
    course.tutors.add(organiser)
    page = text(signed_in(organiser).get(url("application", passed.pk)))
    assert "You taught this person" in page
    assert "Issue the certificate" not in page


def test_the_holder_reads_and_prints_the_certificate(signed_in, participant, certificate) -> None:
    client = signed_in(participant)
    page = client.get(url("certificate", certificate.number))
    assert "goodleaf 1 told from badleaf 1" in text(page)
    assert "Suspend, lift, narrow or withdraw" not in text(page)
    assert faults(page.content.decode()) == []
    paper = client.get(url("certificate_pdf", certificate.number))
    assert (paper["Content-Type"], paper.content[:5]) == ("application/pdf", b"%PDF-")
    assert paper["Content-Disposition"] == 'inline; filename="certificate-2026-0007.pdf"'


def test_a_paper_that_lacks_letters_is_refused_in_a_sentence(signed_in, participant, certificate) -> None:
    Certificate.objects.update(facts={**certificate.facts, "holder": "花"})
    answer = signed_in(participant).get(url("certificate_pdf", certificate.number))
    assert answer.status_code == 409
    assert "no letters for 花" in text(answer)


def test_an_organiser_suspends_with_a_reason(signed_in, organiser, certificate) -> None:
    client, address = signed_in(organiser), url("certificate_event", certificate.number)
    refused = client.post(address, {"kind": "suspended", "reason": ""})
    assert refused.status_code == 422
    assert "right to the reason" in text(refused)
    page = text(client.post(address, {"kind": "suspended", "reason": "A doubt"}, follow=True))
    assert "the holder is told" in page
    assert "A doubt" in page
    again = client.post(address, {"kind": "suspended", "reason": "Again"}, follow=True)
    assert "is suspended: lift" in text(again)
    assert certificate.events.count() == 1


def test_an_organiser_narrows_by_saying_what_it_loses(signed_in, organiser, participant, certificate) -> None:
    first = certificate.facts["pairs"][0]
    lost = {**first, "key": "pair-2", "mistaken": {**first["mistaken"], "common": "lostleaf"}}
    Certificate.objects.update(facts={**certificate.facts, "pairs": [first, lost]})
    client, address = signed_in(organiser), url("certificate_event", certificate.number)
    typed = {"kind": "narrowed", "reason": "The photographs were of another plant"}
    for ticked, refusal in (([], "Every pair would be left"), ([first["key"], "pair-2"], "No pair would be left")):
        refused = client.post(address, {**typed, "losing": ticked})
        assert refused.status_code == 409
        assert refusal in text(refused)
    assert not certificate.events.exists()
    client.post(address, {**typed, "losing": ["pair-2"]})
    assert certificate.events.get().facts["pairs"] == [first["key"]]
    for person in (organiser, participant):
        page = text(signed_in(person).get(url("certificate", certificate.number)))
        assert "It no longer stands for: Goodleaf 1 told from lostleaf." in page
        assert "which are not every dangerous pair of the standard" in page
        assert f"<strong>{first['gathered']['common']} told from lostleaf" not in page


def test_a_step_that_does_not_exist_is_refused(signed_in, organiser, certificate) -> None:
    address = url("certificate_event", certificate.number)
    assert signed_in(organiser).post(address, {"kind": "prolonged", "reason": "x"}).status_code == 422


def test_only_the_holder_decides_whether_the_name_shows(signed_in, organiser, participant, certificate) -> None:
    address = url("certificate_name", certificate.number)
    assert signed_in(organiser).post(address, {"show": "yes"}).status_code == 404
    client = signed_in(participant)
    client.post(address, {"show": "yes"})
    assert Certificate.objects.get().name_is_public
    client.post(address, {"show": "no"})
    assert not Certificate.objects.get().name_is_public


def more_of_everything(standard, organiser):
    def grow() -> None:
        for number in range(3):
            person = make_person(f"More {number}", "participant")
            make_certificate(person, standard, organiser, number=f"2026-01{number:02d}")
            make_application(make_person(f"Asks {number}", "participant"), standard)

    return grow


def test_the_list_takes_as_many_queries_for_more_rows(signed_in, organiser, standard, addresses) -> None:
    assert same_queries(signed_in(organiser), LIST, more_of_everything(standard, organiser))
