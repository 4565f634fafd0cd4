"""The page that a stranger opens who holds a certificate in hand."""

import pytest
from django.urls import reverse
from django.utils import timezone

from courses.actions.certificates import issue_certificate
from courses.models import Certificate
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.certificates import gather_dangerous, make_application, make_certificate
from tests.factories.people import make_person


def url(name: str, *args: object) -> str:
    return reverse(f"courses:{name}", args=args)


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


@pytest.fixture
def certificate(participant, standard, organiser) -> Certificate:
    return make_certificate(participant, standard, organiser)


def more_of_everything(standard, organiser):
    def grow() -> None:
        for number in range(3):
            person = make_person(f"More {number}", "participant")
            make_certificate(person, standard, organiser, number=f"2026-01{number:02d}")
            make_application(make_person(f"Asks {number}", "participant"), standard)

    return grow


def check(client, certificate):
    return client.get(url("check", certificate.key))


def test_it_is_public_and_not_kept_by_anybody(client, certificate) -> None:
    answer = check(client, certificate)
    assert answer.status_code == 200
    assert answer["X-Robots-Tag"] == "noindex, nofollow"
    assert answer["Cache-Control"] == "no-store"
    assert faults(answer.content.decode()) == []


def test_it_says_what_the_certificate_is_worth(client, passed, organiser) -> None:
    issued = issue_certificate(passed, organiser, now=timezone.now())
    page = text(check(client, issued))
    assert "real and valid until" in page
    assert "goodleaf told from badleaf" in page


def test_the_name_shows_only_as_the_holder_allowed(client, certificate) -> None:
    assert "Pat Participant" not in text(check(client, certificate))
    Certificate.objects.update(name_is_public=True)
    assert "Pat Participant" in text(check(client, certificate))


@pytest.mark.parametrize(
    ("kinds", "words"),
    [
        (["suspended"], "is suspended"),
        (["withdrawn"], "was withdrawn"),
        (["suspended", "lifted"], "real and valid until"),
    ],
)
def test_it_follows_what_happened(client, certificate, organiser, kinds, words) -> None:
    for kind in kinds:
        certificate.events.create(kind=kind, happened_at=timezone.now(), by=organiser, reason="Private reason")
    page = text(check(client, certificate))
    assert words in page
    assert "Private reason" not in page


def test_an_expired_one_says_when(client, participant, standard, organiser) -> None:
    today = timezone.localdate()
    first, last = today.replace(year=today.year - 3, day=1), today.replace(year=today.year - 1, day=1)
    old = make_certificate(participant, standard, organiser, valid_from=first, valid_until=last)
    assert "ran out on" in text(check(client, old))


def test_a_later_miss_shows_as_review(client, passed, organiser, participant, pair, tutor) -> None:
    issued = issue_certificate(passed, organiser, now=timezone.now())
    gather_dangerous(participant, pair, tutor)
    assert "under review" in text(check(client, issued))


def test_unknown_keys_all_get_the_same_answer(client, certificate) -> None:
    answers = [client.get(url("check", key)) for key in ("nothing", certificate.number, certificate.key[:-1])]
    assert {answer.status_code for answer in answers} == {404}
    assert all("There is no certificate at this address" in text(answer) for answer in answers)
    assert {answer["Cache-Control"] for answer in answers} == {"no-store"}
    assert {answer["X-Robots-Tag"] for answer in answers} == {"noindex, nofollow"}


def test_nothing_can_be_sent_to_it(client, certificate) -> None:
    assert client.post(url("check", certificate.key)).status_code == 405


def test_it_takes_as_many_queries_however_many_certificates(client, certificate, standard, organiser) -> None:
    assert same_queries(client, url("check", certificate.key), more_of_everything(standard, organiser))
