"""The technical report of a standard: every figure with its count, whatever the school holds; roles; page and paper."""

import re
from datetime import timedelta
from importlib import import_module
from io import BytesIO

import pytest
from django.utils import timezone
from pypdf import PdfReader

from assessments.documents.report import draw_report
from assessments.documents.report_words import Figure, Report
from assessments.models import Seat, Standard, Voiding
from assessments.queries.report import report_of
from assessments.queries.report_figures import share_words
from tests.courses.markup import faults, found
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.people import make_person
from tests.factories.species import SpecimenFactory, determine, give_picture

from .evidence import PaperTrail, a_full_record, open_windows

URL = "/standards/participant/1/report/"
PDF = "/standards/participant/1/report.pdf"
SHORT = "/standards/participant/1/in-short/"
CODES = [f"ST-{number}" for number in range(1, 15)]


@pytest.fixture
def large(standard, pair, tutor, assessor):
    """Many specimens and determinations, and twelve people with every sort of answer."""
    for place in range(40):
        specimen = SpecimenFactory(
            species=(pair.mistaken, pair.gathered)[place % 2], stage=("rosette", "flower")[place % 3 > 0]
        )
        determine(specimen, specimen.species, tutor.user)
        determine(specimen, pair.mistaken if place % 9 == 0 else specimen.species, assessor.user)
    for place in range(12):
        person = make_person(f"Learner {place}", "participant").user
        open_windows(person)
        trail = PaperTrail(person, standard, tutor.user, 2 + place)
        for turn in range(6):
            trail.answer(pair.mistaken, "gather" if turn == place else "refuse")
            trail.answer(pair.gathered, "gather")


def the_report(standard: Standard) -> Report:
    return report_of(standard, timezone.now(), "Test School")


def figure(report: Report, label: str) -> Figure:
    return next(each for chapter in report.chapters for each in chapter.figures if each.label.startswith(label))


def walked(report: Report) -> None:
    """Every figure has its count and a query that exists; no paragraph holds a number."""
    for each in report.counted():
        if isinstance(each, Figure):
            assert each.count >= 0
            assert each.value
        else:
            assert len(each.counts) == len(each.rows)
            assert all(len(row) == len(each.headings) for row in each.with_counts)
        assert each.counted
        assert query_exists(each.query)
    assert [text for chapter in report.chapters for text in chapter.paragraphs if re.search(r"\d", text)] == []


def query_exists(name: str) -> bool:
    module, _dot, function = name.partition(".")
    for room in ("assessments.queries", "assessments.rules"):
        try:
            return callable(getattr(import_module(f"{room}.{module}"), function))
        except ModuleNotFoundError:
            continue
    return False


@pytest.mark.parametrize("size", ["empty", "small", "large"])
def test_no_figure_is_printed_without_its_count(request, signed_in, organiser, standard, size):
    if size != "empty":
        request.getfixturevalue({"small": "record", "large": "large"}[size])
    report = the_report(standard)
    walked(report)
    html = signed_in(organiser).get(URL).content.decode()
    assert faults(html) == []
    printed = " ".join(each.text for each in found(html, "dl", "report-figures"))
    assert [each.label for chapter in report.chapters for each in chapter.figures if each.label not in printed] == []
    for each in (one for chapter in report.chapters for one in chapter.figures):
        assert f"n = {each.count} ({each.counted}) · {each.query}" in printed


@pytest.mark.parametrize("size", ["empty", "small", "large"])
def test_every_heading_is_there_on_page_and_paper(request, signed_in, tutor, standard, size):
    if size != "empty":
        request.getfixturevalue({"small": "record", "large": "large"}[size])
    report = the_report(standard)
    assert [chapter.code for chapter in report.chapters] == CODES
    reader = PdfReader(BytesIO(signed_in(tutor).get(PDF).content))
    text = squeezed("".join(page.extract_text() for page in reader.pages))
    for chapter in report.chapters:
        assert squeezed(f"{chapter.code} · {chapter.title}") in text
        for each in chapter.figures:
            assert squeezed(f"{each.label}: {each.value}") in text
            assert squeezed(f"n = {each.count} ({each.counted})") in text


def squeezed(text: str) -> str:
    return "".join(text.split())


def test_the_paper_can_be_read_aloud_and_is_the_same_twice(standard, large):
    report = the_report(standard)
    drawn = draw_report(report)
    assert drawn == draw_report(report)
    reader = PdfReader(BytesIO(drawn))
    assert len(reader.pages) > 3
    elements = [each.get_object() for each in reader.root_object["/StructTreeRoot"]["/K"].get_object()["/K"]]
    roles = [each["/S"] for each in elements]
    assert roles.count("/H1") == 1
    assert roles.count("/H2") == len(CODES)
    tables = sum(bool(table.rows) for chapter in report.chapters for table in chapter.tables)
    assert roles.count("/Table") == tables
    lowest = []
    for page in reader.pages:
        page.extract_text(visitor_text=lambda text, _cm, tm, *_rest: text.strip() and lowest.append(tm[5]))
    assert min(lowest) > 25


def test_the_figures_of_a_small_school_are_those_of_its_records(standard, record):
    report = the_report(standard)
    assert figure(report, "Sittings opened").count == 3
    assert figure(report, "Most sittings of one person").value == "3"
    assert figure(report, "Shown and not answered").value.startswith("1 of ")
    assert figure(report, "Periods with a second").value == "1 of 1"
    assert figure(report, "People with evidence").count == 1


def test_determiners_who_agree_are_counted_by_their_first_opinions(standard, large):
    report = the_report(standard)
    agreed = figure(report, "Two determiners agreed")
    crossed = figure(report, "One named an edible")
    assert agreed.count == 40
    assert agreed.value.startswith("38 of 40; 95 % interval")
    assert crossed.value.startswith("2 of 40")


def test_what_was_voided_and_adjusted_is_counted(standard, record, tutor, participant):
    seat = Seat.objects.first()
    seat.time_factor, seat.adjustment = 2, "large letters"
    seat.save()
    evidence = participant.user.evidence.first()
    Voiding.objects.create(specimen=evidence.specimen, voided_at=timezone.now(), voided_by=tutor.user, reason="blurred")
    report = the_report(standard)
    assert figure(report, "Seats with an adjustment").value == "1 of 3"
    assert figure(report, "People whose answers they concerned").value == "1"
    assert figure(report, "Voidings of specimens").value == "1"


def test_a_new_version_shows_what_it_would_change_before_it_takes_effect(standard, pair, large):
    draft = make_standard(pair, version=2, follows=standard, miss_limit="0.10", in_use=False)
    report = the_report(draft)
    walked(report)
    assert figure(report, "pass under neither").count == 12
    assert "draft" in report.dated
    with pytest.raises(StopIteration):
        figure(the_report(standard), "pass under neither")


def test_a_standard_without_dangerous_pairs_still_has_a_report(school):
    walked(the_report(make_standard(in_use=False)))


def test_near_the_cut_the_rule_speaks_for_itself(standard):
    """At the limit of one in five 5.5 % pass within 13, by exact recursion, and decide alike in 90 %."""
    tables = [table for chapter in the_report(standard).chapters for table in chapter.tables]
    table = next(each for each in tables if each.caption.startswith("The decision after 13"))
    rows = [[cell.replace("\N{NO-BREAK SPACE}", " ") for cell in row] for row in table.rows]
    assert ["20 %", "5.5 %", "passes", "5.5 %", "90 %"] in rows


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


@pytest.mark.parametrize(
    ("part", "whole", "words"),
    [
        (0, 0, "nothing to count yet"),
        (3, 7, "3 of 7; too few to say more"),
        (9, 12, "9 of 12; 95 % interval 43 % to 95 %"),
    ],
)
def test_a_share_is_never_printed_without_its_counts(part, whole, words):
    """9 of 12 has the exact interval 43 to 95 % (Clopper & Pearson 1934)."""
    assert share_words(part, whole).replace("\N{NO-BREAK SPACE}", " ") == words
