"""The wanted list as page, sheet and table: who may see it, and what stands in it."""

import csv
from io import BytesIO, StringIO

import pytest
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader

from assessments.queries.wanted import Wish, wanted_page
from species.rules.vocabulary import Settlement
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.species import determine

from .wanted_bank import add, rosettes_in_april

URL, SHEET, TABLE = "/wanted/", "/wanted.pdf", "/wanted.csv"


@pytest.fixture
def standard(pair):
    return make_standard(pair, required_stages=("rosette",))


@pytest.fixture
def seasons(pair):
    rosettes_in_april(pair)


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


def test_addresses_have_names():
    assert [reverse(f"assessments:{name}") for name in ("wanted", "wanted_sheet", "wanted_table")] == [
        URL,
        SHEET,
        TABLE,
    ]
