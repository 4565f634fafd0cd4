"""What a certificate shows (CP-12): on the page, on the paper, on the check page and in the signed file alike."""

import base64
import json
from io import BytesIO

import pytest
from django.urls import reverse
from django.utils import timezone
from django.utils.formats import date_format
from pypdf import PdfReader

from courses.actions.certificates import issue_certificate
from courses.documents.facts import CertificateFacts
from courses.models import Certificate
from courses.queries.certificate_words import certificate_words
from tests.factories.certificates import make_certificate

OWNED = "This certificate stays the property of Test School of Wild Food."


def url(name: str, *args: object) -> str:
    return reverse(f"courses:{name}", args=args)


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


def printed(answer) -> str:
    pages = PdfReader(BytesIO(answer.content)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def said(token: str) -> dict[str, object]:
    part = token.split(".")[1]
    return json.loads(base64.urlsafe_b64decode(part + "=" * (-len(part) % 4)))


@pytest.fixture
def issued(passed, organiser) -> Certificate:
    return issue_certificate(passed, organiser, now=timezone.now())


@pytest.fixture
def shown(signed_in, participant, issued) -> dict[str, str]:
    """What page, paper and check page say of one certificate."""
    client = signed_in(participant)
    found = {"page": text(client.get(url("certificate", issued.number)))}
    found["paper"] = printed(client.get(url("certificate_pdf", issued.number)))
    client.post(url("certificate_name", issued.number), {"show": "yes"})
    client.logout()
    found["check page"] = text(client.get(url("check", issued.key)))
    return found


def test_cp_12_everything_asked_stands_on_page_paper_and_check_page(shown, issued) -> None:
    facts = CertificateFacts.from_json(issued.facts)
    words, (pair,) = certificate_words(facts), facts.pairs
    wanted = [facts.holder, facts.number, facts.school, facts.standard, OWNED, *pair.stages, *facts.remarks]
    wanted.append(f"{pair.gathered.common} told from {pair.mistaken.common}")
    for place, said_there in shown.items():
        assert [each for each in wanted if each.lower() not in said_there.lower()] == [], place
    for place in ("page", "paper"):
        lines = [value for _label, value in words.lines]
        assert [each for each in (words.standard, *lines) if each not in shown[place]] == [], place
    assert date_format(facts.valid_until, "DATE_FORMAT") in shown["check page"]


def test_cp_12_the_signed_file_says_the_same_but_for_the_name_which_it_hides(issued) -> None:
    facts, told = CertificateFacts.from_json(issued.facts), said(issued.credential)
    subject = told["credentialSubject"]
    achieved = subject["achievement"]
    assert told["description"].endswith(OWNED)
    assert told["issuer"]["name"] == facts.school
    assert (subject["licenseNumber"], achieved["version"]) == (facts.number, str(facts.version))
    assert facts.standard in achieved["name"]
    assert len(subject["result"]) == len(achieved["resultDescription"]) == len(facts.pairs)
    assert all(stage in subject["result"][0]["value"] for stage in facts.pairs[0].stages)
    assert facts.holder not in json.dumps(told)


def test_cp_12_whose_property_it_is_is_frozen_with_the_other_words(school, issued, signed_in, participant) -> None:
    type(school).objects.update(name="Another Name")
    client = signed_in(participant)
    assert OWNED in text(client.get(url("certificate", issued.number)))
    assert OWNED in printed(client.get(url("certificate_pdf", issued.number)))


def test_cp_12_a_certificate_from_before_the_sentence_still_shows_and_prints(
    client, signed_in, participant, standard, organiser
) -> None:
    old = make_certificate(participant, standard, organiser)
    facts = {name: value for name, value in old.facts.items() if name != "ownership"}
    Certificate.objects.update(facts=facts)
    signed_in(participant)
    paper = printed(client.get(url("certificate_pdf", old.number)))
    assert old.facts["holder"] in paper
    for words in (paper, text(client.get(url("certificate", old.number))), text(client.get(url("check", old.key)))):
        assert "property" not in words


@pytest.mark.parametrize("kind", ["suspended", "withdrawn"])
def test_cp_12_it_stays_the_property_of_the_school_whatever_became_of_it(client, issued, organiser, kind) -> None:
    issued.events.create(kind=kind, happened_at=timezone.now(), by=organiser, reason="Because")
    assert OWNED in text(client.get(url("check", issued.key)))
