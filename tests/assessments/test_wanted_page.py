"""The wanted list as page, sheet, table and command: who may see it, and what stands in it."""

import csv
import json
from datetime import date
from io import BytesIO, StringIO

import pytest
from django.core.management import CommandError, call_command
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader

from assessments.models import Seen
from assessments.queries.wanted import Wish, wanted_page
from species.models import Individual, Showing
from species.rules.vocabulary import Settlement
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.species import LocalityFactory, SpecimenFactory, determine, give_picture

URL, SHEET, TABLE = "/wanted/", "/wanted.pdf", "/wanted.csv"
APRIL = date(2031, 4, 12)
ALL_YEAR = list(range(1, 13))


@pytest.fixture
def standard(pair):
    return make_standard(pair, required_stages=("rosette",))


@pytest.fixture
def seasons(pair):
    """Rosettes show in April and May, flowers in June."""
    for species in (pair.gathered, pair.mistaken):
        Showing.objects.create(species=species, stage="rosette", months=[4, 5])
        Showing.objects.create(species=species, stage="flower", months=[6])


def add(species, number=1, **facts):
    return [give_picture(SpecimenFactory(species=species, **facts)).specimen for _each in range(number)]


def asked(standard, papers=1, questions=5, **more):
    return wanted_page(Wish(standard, papers, questions, **more), APRIL)


def lines_of(page):
    return {(line.plant.common_name, line.stage): line for line in page.lines}


def test_an_empty_bank_lacks_the_whole_paper_dangerous_plants_first(standard, seasons):
    page = asked(standard)
    assert page.short == 5
    assert [line.is_dangerous for line in page.lines] == sorted(
        (line.is_dangerous for line in page.lines), reverse=True
    )
    assert page.lines[0].shows_now
    assert [line.stage for line in page.for_later] == ["flower"]


def test_a_bank_that_can_fill_the_papers_lacks_nothing(standard, bank):
    assert asked(standard, papers=2).is_enough


def test_what_lacks_a_second_name_is_told_apart_from_what_has_to_be_photographed(standard, pair, seasons):
    add(pair.gathered, 6)
    add(pair.mistaken, 1, settlement=Settlement.SINGLE.value)
    line = lines_of(asked(standard))["badleaf", "rosette"]
    assert (line.to_name, line.to_settle, line.to_photograph, line.in_bank) == (1, 0, 1, 0)


def test_a_disputed_specimen_counts_for_what_somebody_said_it_is(standard, pair, seasons, tutor, assessor):
    add(pair.gathered, 6)
    (specimen,) = add(None, settlement=Settlement.DISPUTED.value)
    determine(specimen, pair.mistaken, tutor.user)
    determine(specimen, pair.gathered, assessor.user)
    line = lines_of(asked(standard))["badleaf", "rosette"]
    assert (line.to_settle, line.to_photograph) == (1, 1)


def test_specimens_without_any_name_are_counted(standard):
    add(None, 2, settlement=Settlement.UNDETERMINED.value)
    assert asked(standard).not_named == 2


def test_what_one_of_the_people_has_seen_counts_for_nobody(standard, bank, pair, participant):
    for specimen in pair.mistaken.specimens.all():
        Seen.objects.create(person=participant.user, specimen=specimen, seen_at=timezone.now(), why=Seen.QUESTION)
    assert asked(standard).is_enough
    page = asked(standard, people=(participant.user_id,))
    assert [line.plant.common_name for line in page.lines] == ["badleaf"]


def test_retired_and_teaching_specimens_fill_no_paper(standard, pair):
    add(pair.gathered, 6)
    add(pair.mistaken, 3, use="teaching")
    add(pair.mistaken, 3, retired_on=APRIL)
    assert not asked(standard).is_enough


def test_places_of_the_stage_come_before_other_places_of_the_species(standard, pair, seasons):
    for name, stage, days_late in (("Alder Wood", "flower", 0), ("Beck", "rosette", 0), ("Cold Hill", "rosette", 60)):
        plant = Individual.objects.create(locality=LocalityFactory(name=name, days_late=days_late))
        SpecimenFactory(species=pair.mistaken, stage=stage, individual=plant, use="teaching")
    places = lines_of(asked(standard))["badleaf", "rosette"].places
    assert [(place.name, place.in_this_stage, place.shows_now) for place in places] == [
        ("Beck", True, True),
        ("Cold Hill", True, False),
        ("Alder Wood", False, True),
    ]


def test_a_stage_that_the_standard_never_counts_is_said_to_need_another_version(pair):
    standard = make_standard(pair, in_use=False)
    standard.pairs.update(edible_stages=[])
    page = asked(standard)
    assert [plant.common_name for plant in page.never] == ["goodleaf"]
    assert not page.is_enough


def test_too_few_questions_for_every_stage_are_said_to_be_too_few(standard):
    assert not asked(standard, questions=1).asks_all
    assert asked(standard).asks_all


def test_a_standard_without_pairs_asks_for_nothing(school):
    page = asked(make_standard())
    assert not page.has_pairs
    assert not page.is_enough


# the page


@pytest.mark.parametrize("url", [URL, SHEET, TABLE])
def test_setters_and_determiners_may_see_it(url, signed_in, standard, tutor, assessor, organiser):
    for person in (tutor, assessor, organiser):
        assert signed_in(person).get(url).status_code == 200


@pytest.mark.parametrize("url", [URL, SHEET, TABLE])
def test_nobody_else_may(url, client, signed_in, standard, participant, stranger):
    assert client.get(url).status_code == 302
    for person in (participant, stranger):
        assert signed_in(person).get(url).status_code == 403
    assert client.post(url).status_code == 405


def test_the_page_says_what_is_short_and_leads_to_the_sheet(signed_in, tutor, standard, seasons):
    html = signed_in(tutor).get(URL, {"papers": 2, "questions": 5}).content.decode()
    assert "The bank is 10 specimens short of 2 different papers of 5 questions." in html
    assert f"{SHEET}?standard=participant&amp;papers=2&amp;questions=5" in html
    assert faults(html) == []


def test_an_empty_list_says_that_the_bank_has_enough(signed_in, tutor, standard, bank):
    html = signed_in(tutor).get(URL, {"papers": 1, "questions": 5}).content.decode()
    assert "The bank has enough for 1 paper of 5 questions." in html
    assert SHEET not in html


def test_a_school_without_a_standard_is_told_so(signed_in, tutor):
    answer = signed_in(tutor).get(URL)
    assert answer.status_code == 200
    assert "No standard is in use yet" in answer.content.decode()


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        ({"papers": 0}, "greater than or equal to 1"),
        ({"papers": "many"}, "Enter a whole number"),
        ({"questions": 61}, "less than or equal to 60"),
        ({"standard": "none"}, "Select a valid choice"),
    ],
)
@pytest.mark.parametrize("url", [URL, SHEET, TABLE])
def test_nonsense_is_refused_with_a_sentence(url, signed_in, tutor, standard, said, sentence):
    answer = signed_in(tutor).get(url, said)
    assert answer.status_code == 422
    assert "text/html" in answer["Content-Type"]
    assert sentence in answer.content.decode()


def test_the_page_takes_as_many_queries_with_a_larger_bank(signed_in, tutor, assessor, standard, pair, seasons):
    def grow():
        add(pair.gathered, 4)
        add(pair.mistaken, 3, settlement=Settlement.SINGLE.value)
        for specimen in add(None, 3, settlement=Settlement.DISPUTED.value):
            determine(specimen, pair.mistaken, tutor.user)

    grow()
    assert same_queries(signed_in(tutor), URL, grow)


def test_the_sheet_names_every_plant_and_asks_for_place_and_day(signed_in, tutor, standard, pair, seasons):
    answer = signed_in(tutor).get(SHEET, {"papers": 3, "questions": 10})
    assert answer["Content-Type"] == "application/pdf"
    pages = [page.extract_text() for page in PdfReader(BytesIO(answer.content)).pages]
    text = " ".join(pages)
    assert all(word in text for word in ("Badleaf", "Goodleaf", pair.mistaken.name, "Place and day:", "leave it"))
    assert f"Page 1 of {len(pages)}" in pages[0]


def test_the_table_is_read_back_as_the_page_has_it(signed_in, tutor, standard, seasons):
    content = signed_in(tutor).get(TABLE, {"papers": 1, "questions": 5}).content
    rows = list(csv.DictReader(StringIO(content.decode("utf-8-sig"))))
    page = wanted_page(Wish(standard, 1, 5), timezone.localdate())
    assert [(row["common name"], int(row["to photograph"])) for row in rows] == [
        (line.plant.common_name, line.to_photograph) for line in page.lines
    ]
    assert rows[0]["side"] == "dangerous"


# the command


def said_by(*arguments):
    out = StringIO()
    call_command("wanted", *arguments, stdout=out)
    return out.getvalue()


def test_the_command_prints_the_list_of_the_page(standard, seasons):
    text = said_by("participant", "--papers", "1", "--questions", "5")
    assert text.startswith("The bank is 5 specimens short of 1 paper of 5 questions.")
    assert "badleaf (dangerous)" in text


def test_the_command_gives_plain_values(standard, seasons):
    plain = json.loads(said_by("Participant", "--papers=1", "--questions=5", "--json"))
    assert (plain["papers"], plain["questions"], plain["enough"]) == (1, 5, False)
    assert sum(line["to_photograph"] for line in plain["lines"]) == 5


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["none"], "In use: participant"),
        (["participant", "--papers", "0"], "from 1 to 60"),
        (["participant", "--papers", "x"], "from 1 to 60"),
        (["participant", "--questions", "99"], "from 1 to 60"),
    ],
)
def test_the_command_refuses_nonsense_in_a_sentence(standard, arguments, sentence):
    with pytest.raises(CommandError, match=sentence):
        said_by(*arguments)


def test_the_command_needs_a_standard_in_use(db):
    with pytest.raises(CommandError, match="No standard is in use yet"):
        said_by("participant")


def test_addresses_have_names():
    assert [reverse(f"assessments:{name}") for name in ("wanted", "wanted_sheet", "wanted_table")] == [
        URL,
        SHEET,
        TABLE,
    ]
