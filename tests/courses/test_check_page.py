"""The page that a stranger opens who holds a certificate in hand."""

import json
import re
from time import perf_counter

import pytest
from django.core.management import CommandError, call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from courses.actions.certificates import issue_certificate, record_event
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


def look_up(client, number: str, name: str):
    return client.post(url("check_number"), {"number": number, "family_name": name})


def test_number_and_family_name_open_the_same_page_without_giving_the_address_away(client, certificate) -> None:
    assert faults(client.get(url("check_number")).content.decode()) == []
    answer = look_up(client, " 2026-0007 ", "participant")
    assert "2026-0007" in text(answer)
    assert certificate.key not in text(answer)
    assert answer["Cache-Control"] == "no-store"


WRONG = (("2026-9999", "Participant"), ("2026-0007", "Stranger"), ("2026-0007", "Pat"), ("7", "Whatever"))


def test_a_wrong_number_and_a_wrong_name_get_the_same_bytes(client, certificate) -> None:
    answers = [look_up(client, *each) for each in WRONG]
    assert {answer.status_code for answer in answers} == {404}
    assert len({answer.content for answer in answers}) == 1
    assert len({str(sorted(answer.headers.items())) for answer in answers}) == 1


def test_a_wrong_number_and_a_wrong_name_take_the_same_queries(client, certificate, organiser, capsys) -> None:
    certificate.events.create(kind="suspended", happened_at=timezone.now(), by=organiser, reason="A doubt")
    look_up(client, "1", "Nobody")  # whatever is asked for once and kept is asked for before the first count
    asked, took = [], {}
    for number, name in WRONG:
        began = perf_counter()
        with CaptureQueriesContext(connection) as seen:
            look_up(client, number, name)
        took[number, name] = perf_counter() - began
        asked.append([re.sub(r"'[^']*'", "?", each["sql"]) for each in seen])
    assert asked.count(asked[0]) == len(asked)
    assert sum("courses_certificate" in each for each in asked[0]) == 1
    with capsys.disabled():  # for the eyes only: times say nothing on a busy machine
        print(
            "\n" + "\n".join(f"{number:>10} {name:<12} {1000 * each:6.1f} ms" for (number, name), each in took.items())
        )


def test_a_thousand_numbers_give_no_name_and_soon_no_answer(client, certificate) -> None:
    answers = [look_up(client, f"2026-{number:04d}", "Smith") for number in range(20)]
    assert [answer.status_code for answer in answers[:10]] == [404] * 10
    assert {answer.status_code for answer in answers[10:]} == {429}
    assert not any("Pat" in text(answer) for answer in answers)


def test_programs_read_the_same_by_header_or_by_address(client, certificate) -> None:
    by_header = client.get(url("check", certificate.key), headers={"accept": "application/json"}).json()
    by_address = client.get(url("check_json", certificate.key)).json()
    assert {**by_header, "as_of": ""} == {**by_address, "as_of": ""}
    assert (by_header["number"], by_header["valid_until"]) == ("2026-0007", certificate.valid_until.isoformat())
    assert "holder" not in by_header
    assert by_header["pairs"][0]["mistaken"] == "Mala folia-1"
    unknown = client.get(url("check_json", "nothing"))
    assert (unknown.status_code, unknown.json()) == (404, {"status": "unknown"})


def test_the_holder_hides_name_and_pairs_from_everybody(client, signed_in, participant, certificate) -> None:
    address = url("certificate_name", certificate.number)
    signed_in(participant).post(address, {"show": "yes"})
    client.post(address, {"pairs": "no"})
    client.logout()
    assert "Pat Participant" in text(check(client, certificate))
    assert "badleaf" not in text(check(client, certificate))
    assert "pairs" not in client.get(url("check_json", certificate.key)).json()


def test_what_is_suspended_supports_no_claim(client, certificate, organiser) -> None:
    certificate.events.create(kind="suspended", happened_at=timezone.now(), by=organiser, reason="A doubt")
    assert "badleaf" not in text(check(client, certificate))


def test_the_command_says_the_same(certificate, capsys) -> None:
    with pytest.raises(SystemExit):  # a bare row has no evidence behind it, so it is under review
        call_command("check_certificate", certificate.number, "--json")
    assert json.loads(capsys.readouterr().out)["status"] == "review"
    with pytest.raises(CommandError, match="no certificate 2026-9999"):
        call_command("check_certificate", "2026-9999")


def test_the_command_reads_a_signed_file(passed, organiser, tmp_path, capsys) -> None:
    issued = issue_certificate(passed, organiser, now=timezone.now())
    file = tmp_path / "shown.jwt"
    file.write_text(issued.credential)
    call_command("check_certificate", str(file), "--json")
    assert json.loads(capsys.readouterr().out)["status"] == "genuine"
    file.write_text(issued.credential[:-9] + "AAAAAAAAA")
    with pytest.raises(SystemExit):
        call_command("check_certificate", str(file))
    assert "do not rely on it" in capsys.readouterr().out


def test_the_command_refuses_in_a_sentence_what_can_be_no_file(school) -> None:
    for what in ("x" * 300, "", "2026-9999"):
        with pytest.raises(CommandError, match="no file of that name"):
            call_command("check_certificate", what)


def test_the_number_may_be_typed_as_it_stands_on_the_paper(client, certificate) -> None:
    typed = {"number": f"No. {certificate.number.replace('-', '–')}", "family_name": "Participant"}
    assert client.post(reverse("courses:check_number"), typed).status_code == 200


@pytest.mark.parametrize("pairs_shown", [True, False])
def test_what_was_taken_from_it_is_said_to_everybody_and_named_where_the_pairs_are(
    client, certificate, organiser, pairs_shown
) -> None:
    first = certificate.facts["pairs"][0]
    lost = {**first, "key": "pair-2", "mistaken": {**first["mistaken"], "common": "lostleaf"}}
    facts = {**certificate.facts, "pairs": [first, lost]}
    Certificate.objects.update(facts=facts, pairs_are_public=pairs_shown)
    assert "Narrowed on" not in text(check(client, certificate))
    certificate.refresh_from_db()
    record_event(certificate, "narrowed", organiser, "Because", now=timezone.now(), keeping=[first["key"]])
    page = text(check(client, certificate))
    assert ("It no longer stands for: Goodleaf 1 told from lostleaf." in page) == pairs_shown
    assert ("It no longer stands for every pair of its standard." in page) != pairs_shown
    assert ("lostleaf" in page) == pairs_shown
    said = client.get(url("check_json", certificate.key)).json()
    assert said["narrowed_on"] == timezone.localdate().isoformat()
    record_event(certificate, "suspended", organiser, "Because", now=timezone.now())
    assert "Narrowed on" not in text(check(client, certificate))  # it says nothing at all now
    assert "narrowed_on" not in client.get(url("check_json", certificate.key)).json()
