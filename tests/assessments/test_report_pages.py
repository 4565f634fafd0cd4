"""Who may read the report of a standard, and what everybody may read of it."""

from datetime import timedelta

from django.utils import timezone

from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.people import make_person
from tests.factories.species import SpecimenFactory, give_picture

from .evidence import a_full_record, open_windows
from .reports import the_report, walked

URL = "/standards/participant/1/report/"
PDF = "/standards/participant/1/report.pdf"
SHORT = "/standards/participant/1/in-short/"


def test_organiser_and_tutor_may_read_it_and_nobody_else(client, signed_in, standard, organiser, tutor, participant):
    for url in (URL, PDF):
        assert client.get(url).status_code == 302
        for person, status in ((organiser, 200), (tutor, 200), (participant, 403)):
            assert signed_in(person).get(url).status_code == status
        client.logout()


def test_the_short_form_is_for_everybody_and_tells_of_nobody(client, standard, record, tutor):
    html = client.get(SHORT).content.decode()
    assert faults(html) == []
    assert "ST-1 ·" in html
    assert "ST-10" not in html
    for hidden in ("People who pass every pair", "Most sittings of one person", "Tilda", "Pat Participant"):
        assert hidden not in html
    report = the_report(standard).in_short
    assert all(each.is_public for each in report.counted())
    walked(report)
    assert client.get("/standards/participant/1/in-short.pdf").content.startswith(b"%PDF")


def test_the_short_form_of_a_draft_is_not_public(client, signed_in, pair, organiser):
    make_standard(pair, in_use=False)
    assert client.get(SHORT).status_code == 404
    assert client.get("/standards/participant/1/in-short.pdf").status_code == 404
    assert "is a draft" in signed_in(organiser).get(URL).content.decode()


def test_an_unknown_version_is_not_found(signed_in, organiser, standard):
    assert signed_in(organiser).get("/standards/participant/9/report/").status_code == 404
    assert signed_in(organiser).post(URL).status_code == 405


def test_letters_that_cannot_be_printed_are_said(signed_in, organiser, pair):
    make_standard(pair, purpose="花")
    answer = signed_in(organiser).get(PDF, follow=True)
    assert "the font lacks the letters 花" in answer.content.decode()


def test_more_people_and_plants_ask_no_more_of_the_database(signed_in, organiser, standard, pair, tutor, record):
    def grow() -> None:
        person = make_person("Second Learner", "participant").user
        open_windows(person)
        a_full_record(person, standard, pair, make_person("Third Tutor", "tutor").user)
        give_picture(SpecimenFactory(species=pair.gathered, seen_on=timezone.localdate() - timedelta(days=3)))

    assert same_queries(signed_in(organiser), URL, grow)
