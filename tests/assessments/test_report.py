"""The technical report of a standard: every figure with its count, whatever the school holds; roles; page and paper."""

from datetime import timedelta
from io import BytesIO

import pikepdf
import pytest
from django.utils import timezone
from pypdf import PdfReader

from assessments.documents.report import draw_report
from assessments.models import Appeal, AppealStep, Seat, Voiding
from assessments.queries.report_figures import share_words
from tests.courses.markup import faults, found
from tests.factories.assessments import make_standard
from tests.factories.people import make_person
from tests.factories.species import SpecimenFactory, determine

from .evidence import PaperTrail, open_windows
from .reports import figure, squeezed, the_report, walked

URL = "/standards/participant/1/report/"
PDF = "/standards/participant/1/report.pdf"
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


def test_the_paper_names_its_language_and_title_and_carries_its_fonts(standard, record):
    report = the_report(standard)
    with pikepdf.open(BytesIO(draw_report(report))) as paper:
        assert str(paper.Root.Lang) == report.language
        assert bool(paper.Root.MarkInfo.Marked)
        assert str(paper.docinfo["/Title"]) == f"{report.title}: {report.standard}"
        fonts = [font for page in paper.pages for font in page.Resources.Font.values()]
        assert fonts
        assert all("/FontFile2" in font.FontDescriptor and "/ToUnicode" in font for font in fonts)


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


def test_appeals_are_counted_with_how_they_ended(standard, record, participant, organiser):
    first, second, third = participant.user.evidence.filter(station__isnull=True)[:3]
    for evidence, end, exception in (
        (first, "voided", ""),
        (second, "dismissed", "one person"),
        (third, "withdrawn", ""),
    ):
        appeal = Appeal.objects.create(
            evidence=evidence,
            ground="poor_photo",
            words="too dark",
            held_for=evidence.specimen.species,
            received_at=timezone.now() - timedelta(days=3),
            decide_by=timezone.localdate(),
        )
        AppealStep.objects.create(appeal=appeal, kind=end, at=timezone.now(), by=organiser.user, exception=exception)
    report = the_report(standard)
    walked(report)
    assert figure(report, "Appeals against").value == "3"
    assert figure(report, "Upheld").value == "1 of 2"
    assert figure(report, "Decided by somebody involved").value == "1 of 2"
    assert (figure(report, "Days from an appeal").value, figure(report, "Withdrawn").value) == ("3.0", "1")


def test_a_voided_plant_is_not_among_the_answers(standard, record, pair, tutor):
    def media() -> dict[str, int]:
        tables = [table for chapter in the_report(standard).chapters for table in chapter.tables]
        table = next(each for each in tables if each.caption.startswith("Dangerous plants that would"))
        return {row[1]: count for row, count in zip(table.rows, table.counts, strict=True)}

    before = media()
    missed = pair.mistaken.specimens.get(evidence__decision="gather")
    Voiding.objects.create(specimen=missed, voided_at=timezone.now(), voided_by=tutor.user, reason="blurred")
    assert media() == {**before, "as photographs": before["as photographs"] - 1}
    assert figure(the_report(standard), "Dangerous plants that somebody").value == "0"


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
