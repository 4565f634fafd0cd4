"""The record of processing: drawn from the inventory, the same on the page, in the table and on paper."""

import csv
from io import BytesIO, StringIO

import pytest
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader

from courses.actions.protection import keep_grounds
from courses.documents.sheet import draw_sheet
from courses.models import LegalGround
from courses.queries.processing import processing_sheet, processing_table, processings
from courses.queries.sentences.inventory import GUARDS, READERS, SENT_TO, TITLES, WHOSE, term_words
from courses.rules.inventory.activities import TERMS, Guard, Reader, SentTo, Whose
from courses.rules.inventory.catalogue import HOLDINGS
from courses.rules.inventory.shape import Activity, Term
from tests.courses.markup import faults
from tests.courses.pages import queries_of
from tests.factories.people import make_person

PAGE, GROUNDS = "/processing/", "/processing/grounds/"


@pytest.mark.parametrize(
    ("words", "keys"),
    [(TITLES, Activity), (WHOSE, Whose), (READERS, Reader), (GUARDS, Guard), (SENT_TO, SentTo), (TERMS, Activity)],
)
def test_everything_that_can_be_said_has_its_words(words, keys) -> None:
    assert set(words) == set(keys)
    assert all(words.values())


@pytest.mark.parametrize("term", Term)
def test_every_term_has_its_words(term: Term) -> None:
    assert term_words(term)


def test_the_terms_are_those_that_the_program_runs_by(settings) -> None:
    settings.HEALTH_NOTES_KEPT_DAYS, settings.ENQUIRIES_KEPT_DAYS = 9, 77
    assert term_words(Term.HEALTH).startswith("9 days")
    assert term_words(Term.ENQUIRY).startswith("77 days")


def test_a_name_on_a_certificate_is_not_said_to_go_by_itself(school) -> None:
    """Only from those who were erased a step of the day takes it."""
    (line,) = [each for each in processings() if each.activity is Activity.CERTIFICATES]
    (held,) = [each for each in line.held if each.what == "Certificates"]
    assert held.term.startswith("for good; the name until the person is erased, and no sooner than 3 years after")
    assert not held.by_itself


PAGES: dict[Activity, str] = {
    Activity.PEOPLE: "courses:person",
    Activity.INVITATIONS: "courses:invitations",
    Activity.LETTERS: "courses:letters",
    Activity.ENQUIRIES: "courses:enquiries",
    Activity.COURSES: "courses:course",
    Activity.SITES: "courses:sites",
    Activity.INCIDENTS: "courses:incidents",
    Activity.LEADING: "courses:readiness",
    Activity.CERTIFICATES: "courses:certificates",
    Activity.COMPLAINTS: "courses:complaints",
    Activity.TESTS: "assessments:standing_of",
    Activity.BANK: "species:bank",
    Activity.PROTECTION: "courses:erasures",
}
READS_AS: dict[str, set[Reader]] = {
    "organiser": {Reader.ORGANISERS, Reader.STAFF},
    "tutor": {Reader.TUTORS, Reader.EVERY_TUTOR, Reader.STAFF},
    "tutor of another course": {Reader.EVERY_TUTOR, Reader.STAFF},
    "assessor": {Reader.ASSESSORS, Reader.STAFF},
    "stranger": set(),
}


@pytest.mark.parametrize("who", READS_AS)
@pytest.mark.parametrize("purpose", PAGES)
def test_the_pages_open_to_those_whom_the_record_names_and_to_nobody_else(
    request, signed_in, participant, course, purpose: Activity, who: str
) -> None:
    reader = make_person("Another Tutor", "tutor") if who.endswith("another course") else request.getfixturevalue(who)
    args = {
        "courses:person": [participant.uuid],
        "courses:course": [course.key],
        "assessments:standing_of": [participant.user_id, course.standard.key],
    }
    answer = signed_in(reader).get(reverse(PAGES[purpose], args=args.get(PAGES[purpose], [])))
    assert (answer.status_code == 200) == bool(READS_AS[who] & set(TERMS[purpose].readers))
    assert answer.status_code in (200, 403, 404)


def test_every_model_with_people_in_it_stands_in_the_record_once(school) -> None:
    told = [each.what for line in processings() for each in line.held]
    assert len(told) == sum(each.is_personal for each in HOLDINGS)


def test_the_page_says_of_health_notes_what_they_are_and_when_they_go(signed_in, organiser) -> None:
    page = signed_in(organiser).get(PAGE).content.decode()
    assert faults(page) == []
    assert "allergies" in page
    assert "14 days after the last meeting" in page
    assert "encrypted field by field" in page
    assert "Local law decides" in page


def test_a_ground_that_is_not_filled_in_says_so_until_it_is(signed_in, organiser) -> None:
    client = signed_in(organiser)
    empty = client.get(PAGE).content.decode().count("to be filled in by the school")
    assert empty == len(processings())
    answer = client.post(GROUNDS, {"tests": " A contract with the person. ", "practice": ""}, follow=True)
    page = answer.content.decode()
    assert page.count("to be filled in by the school") == empty - 1
    assert "A contract with the person." in page
    client.post(GROUNDS, {"tests": ""})
    assert not LegalGround.objects.exists()


def test_a_ground_that_is_too_long_gets_a_sentence_and_changes_nothing(signed_in, organiser) -> None:
    answer = signed_in(organiser).post(GROUNDS, {"tests": "x" * 501})
    assert answer.status_code == 422
    assert "500" in answer.content.decode()
    assert not LegalGround.objects.exists()


def test_a_purpose_that_is_none_is_refused(school) -> None:
    with pytest.raises(ValueError, match="mischief"):
        keep_grounds({"mischief": "because"})


def test_the_table_says_the_same_as_the_page(school) -> None:
    keep_grounds({"tests": "A contract."})
    rows = list(csv.reader(StringIO(processing_table().decode("utf-8-sig"))))
    lines = processings()
    assert [row[0] for row in rows[1:]] == [each.title for each in lines]
    assert [row[3] for row in rows[1:]] == [each.ground or "to be filled in by the school" for each in lines]
    assert {len(row) for row in rows} == {7}


def test_the_paper_says_the_same_as_the_page(school) -> None:
    paper = draw_sheet(processing_sheet(timezone.localdate()))
    text = " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(paper)).pages).split())
    for line in processings():
        assert line.title in text
    assert "Local law decides" in text


def test_the_files_are_for_whoever_asked_alone(signed_in, organiser) -> None:
    client = signed_in(organiser)
    for name, kind in (("processing_csv", "text/csv; charset=utf-8"), ("processing_pdf", "application/pdf")):
        answer = client.get(reverse(f"courses:{name}"))
        assert (answer.status_code, answer["Content-Type"]) == (200, kind)
        assert "no-store" in answer["Cache-Control"]


def test_the_page_takes_few_queries(signed_in, organiser) -> None:
    assert queries_of(signed_in(organiser), PAGE) < 12


def test_anybody_reads_what_is_kept_and_every_page_leads_there(client, signed_in, participant, course) -> None:
    notice = reverse("courses:data_notice")
    page = client.get(notice).content.decode()
    assert faults(page) == []
    for words in ("Complain to the authority", "14 days after the last meeting", "people decide about certificates"):
        assert words in page
    for url in (reverse("account_login"), reverse("courses:about_certificates"), reverse("courses:learn")):
        assert f'href="{notice}"' in client.get(url).content.decode()
    inside = signed_in(participant)
    assert f'href="{notice}"' in inside.get(reverse("courses:joining", args=[course.key])).content.decode()
    assert reverse("courses:own_data") in inside.get(notice).content.decode()


def test_the_notice_holds_the_grounds_that_are_filled_in_and_no_gap_for_the_others(client, school) -> None:
    keep_grounds({"tests": "A contract with you."})
    page = client.get(reverse("courses:data_notice")).content.decode()
    assert "A contract with you." in page
    assert "to be filled in" not in page
