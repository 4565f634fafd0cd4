"""The package of questions as a stranger reads it: each thing that the format asks, under its number in our list.

The grammar beside the reference tests is our own, for the part of the format that we write.
"""

import csv
from io import StringIO
from pathlib import Path
from posixpath import normpath

import pytest
from django.conf import settings
from lxml import etree

from assessments.actions.packages import NotConfirmed
from assessments.documents.package.shape import BadItem, Choice, Item, Picture, Place
from assessments.models import PackageRun
from assessments.queries.packages.bank import Scope
from species.rules.names import normalise
from tests.assessments.packages import ITEM, PACKAGE, Taken, fill_bank, may_leave, plant, take

GRAMMAR = Path(__file__).parents[1] / "reference" / "item_subset.rng"


@pytest.fixture
def bank(pair, tutor, assessor):
    return fill_bank(pair, (tutor.user, assessor.user))


@pytest.fixture
def taken(bank, organiser) -> Taken:
    return take(by=organiser.user)


def manifest(taken: Taken):
    return etree.fromstring(taken.files["imsmanifest.xml"])


def rows(taken: Taken) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(taken.table.decode("utf-8-sig"), newline="")))


def with_hotspot(taken: Taken):
    return next(item for item in taken.items if item.find(f".//{ITEM}qti-hotspot-interaction") is not None)


def test_q1_the_list_of_contents_names_every_item_and_every_picture_that_it_needs(taken):
    root = manifest(taken)
    assert root.tag == f"{PACKAGE}manifest"
    said = [root.findtext(f"{PACKAGE}metadata/{PACKAGE}{each}") for each in ("schema", "schemaversion")]
    assert said == ["QTI Package", "3.0.1"]
    assert len(root.find(f"{PACKAGE}organizations")) == 0
    resources = {each.get("identifier"): each for each in root.iter(f"{PACKAGE}resource")}
    files = [each.find(f"{PACKAGE}file").get("href") for each in resources.values()]
    assert sorted([*files, "imsmanifest.xml"]) == sorted(taken.files)
    items = [each for each in resources.values() if each.get("type") == "imsqti_item_xmlv3p0"]
    assert len(items) == len(taken.items) == len(taken.packaged.questions)
    for item in items:
        needed = [resources[each.get("identifierref")] for each in item.iter(f"{PACKAGE}dependency")]
        assert {each.get("type") for each in needed} == {"webcontent"}
        shown = {img.get("src") for img in etree.fromstring(taken.files[item.get("href")]).iter(f"{ITEM}img")}
        assert {each.get("href") for each in needed} == shown


def test_q2_an_item_declares_one_response_with_its_right_answer_and_a_score(taken):
    for item in taken.items:
        assert item.tag == f"{ITEM}qti-assessment-item"
        assert item.get("time-dependent") == "false"
        assert item.get("title")
        assert item.get("{http://www.w3.org/XML/1998/namespace}lang") == settings.LANGUAGE_CODE
        response, outcome = item.find(f"{ITEM}qti-response-declaration"), item.find(f"{ITEM}qti-outcome-declaration")
        wanted = {"identifier": "RESPONSE", "cardinality": "single", "base-type": "identifier"}
        assert dict(response.attrib) == wanted
        assert len(response.findall(f"{ITEM}qti-correct-response/{ITEM}qti-value")) == 1
        assert dict(outcome.attrib) == {"identifier": "SCORE", "cardinality": "single", "base-type": "float"}
        address = item.find(f"{ITEM}qti-response-processing").get("template")
        assert address == "https://purl.imsglobal.org/spec/qti/v3p0/rptemplates/match_correct.xml"


def test_q3_of_a_choice_one_answer_is_chosen_and_leaving_it_is_one_of_them(taken):
    choices = [each for item in taken.items for each in item.iter(f"{ITEM}qti-choice-interaction")]
    assert {each.get("max-choices") for each in choices} == {"1"}
    for each in choices:
        offered = [choice.get("identifier") for choice in each.iter(f"{ITEM}qti-simple-choice")]
        assert offered[-1] in ("leave", "cannot_tell")
        assert each.findtext(f"{ITEM}qti-prompt")
    orders = {tuple(c.get("identifier") for c in each.iter(f"{ITEM}qti-simple-choice")) for each in choices}
    assert ("gather", "refuse", "leave") in orders


def test_q4_places_are_rectangles_in_px_of_a_picture_that_says_its_size(taken):
    asked = with_hotspot(taken).find(f".//{ITEM}qti-hotspot-interaction")
    assert asked.get("max-choices") == "1"
    img = asked.find(f"{ITEM}img")
    assert (img.get("width"), img.get("height")) == ("400", "560")
    places = {each.get("identifier"): each for each in asked.iter(f"{ITEM}qti-hotspot-choice")}
    assert len(places) == 12
    right = with_hotspot(taken).findtext(f".//{ITEM}qti-value")
    left, top, far, bottom = map(int, places[right].get("coords").split(","))
    # the region's middle is at 0.45, 0.35 of the picture
    assert left <= 180 < far
    assert top <= 196 < bottom
    assert {each.get("shape") for each in places.values()} == {"rect"}


def test_q5_values_name_answers_references_hold_and_nothing_leads_out(taken):
    for item in taken.items:
        declared = [each.get("identifier") for each in item.iter(f"{ITEM}qti-response-declaration")]
        asked = [each.get("response-identifier") for each in item.iter() if each.get("response-identifier")]
        assert asked == declared
        answers = [
            each.get("identifier") for each in item.iter(f"{ITEM}qti-simple-choice", f"{ITEM}qti-hotspot-choice")
        ]
        assert item.findtext(f".//{ITEM}qti-value") in answers
    used = [each.get("href") for each in manifest(taken).iter() if each.get("href")]
    used += [img.get("src") for item in taken.items for img in item.iter(f"{ITEM}img")]
    for href in used:
        assert href in taken.files
        assert normpath(href) == href
        assert not href.startswith(("/", ".."))


def test_q5_no_name_of_a_plant_stands_in_names_of_files_or_beside_a_picture(bank, pair):
    may_leave(bank[0].photos.get(), alt_blind="Leaves of Goodleaf in a wood")
    taken = take()
    assert taken.packaged.reworded == 1
    names = (pair.gathered.name, pair.mistaken.name, "goodleaf", "badleaf")
    alts = [img.get("alt") for item in taken.items for img in item.iter(f"{ITEM}img")]
    assert "Photograph of a plant" in alts
    for text in (*alts, *taken.files):
        assert not any(normalise(name) in normalise(text) for name in names)
    photos = [photo.key for specimen in bank for photo in specimen.photos.all()]
    assert not any(key in name for key in (*photos, *(each.key for each in bank)) for name in taken.files)


@pytest.mark.parametrize(
    "wrong",
    [
        {"right": "c"},
        {"identifier": "1"},
        {"choices": (Choice("a", "x"), Choice("a", "y"))},
        {"choices": ()},
        {"places": (Place("p", 0, 0, 1, 1),)},
        {"pictures": (Picture("../a.jpg", 1, 1, ""),)},
        {"pictures": (Picture("/a.jpg", 1, 1, ""),)},
    ],
)
def test_q5_an_item_that_nobody_could_answer_is_never_made(wrong):
    sound = {"identifier": "q-1", "title": "t", "prompt": "p", "pictures": (), "right": "a"}
    sound |= {"choices": (Choice("a", "x"), Choice("b", "y"))}
    assert Item(**sound).file == "q-1.xml"
    with pytest.raises(BadItem, match=r"q-1|1"):
        Item(**(sound | wrong))


def test_q6_what_the_format_cannot_say_stands_in_the_table_by_item(taken, bank, pair):
    found = {row["item"]: row for row in rows(taken)}
    assert set(found) == {item.get("identifier") for item in taken.items}
    mine = [row for row in found.values() if row["kind"] == "Name it and decide" and row["specimen"] == bank[2].key]
    (row,) = mine
    assert (row["right_answer"], row["harm_if_wrong"]) == ("refuse", "gather: deadly")
    assert row["confidence_asked"] == "sure; fairly sure; unsure"
    assert (row["species"], row["determined_by"]) == (pair.mistaken.name, "2")
    assert row["determined_on"] == bank[2].determinations.first().determined_at.date().isoformat()
    assert row["credit"] == "Fern Frond, CC BY 4.0"
    assert not any(name.endswith(".csv") for name in taken.files)


def test_q6_harm_is_said_of_every_answer_that_would_gather_the_dangerous_plant(taken, bank):
    couples = [row for row in rows(taken) if row["kind"] == "Side by side"]
    dangerous = {bank[2].key, bank[3].key}
    assert couples
    for row in couples:
        shown = [key in dangerous for key in row["specimen"].split(" | ")]
        harmful = {each.split(":")[0] for each in row["harm_if_wrong"].split("; ") if each}
        first, second = shown
        assert harmful == {
            name for name, takes in {"first": first, "second": second, "both": first or second}.items() if takes
        }
        assert row["right_answer"] not in harmful


def test_q7_every_item_fits_our_grammar_and_a_broken_one_does_not(taken):
    grammar = etree.RelaxNG(etree.parse(str(GRAMMAR)))
    for item in taken.items:
        assert grammar.validate(item), grammar.error_log
    broken = with_hotspot(taken)
    broken.find(f".//{ITEM}qti-hotspot-choice").set("coords", "here")
    assert not grammar.validate(broken)


def test_q8_what_serves_for_tests_leaves_only_when_somebody_stands_for_it(bank, organiser):
    whole = Scope(with_assessment=True)
    for said in ({}, {"by": organiser.user}, {"confirmed": True}):
        with pytest.raises(NotConfirmed):
            take(whole, **said)
    assert PackageRun.objects.count() == 0
    for_tests = bank[4].key.encode()
    assert for_tests not in take(by=organiser.user).table
    taken = take(whole, by=organiser.user, confirmed=True)
    assert for_tests in taken.table
    assert (taken.run.by, taken.run.with_assessment) == (organiser.user, True)
    assert taken.run.counts["for assessment"] >= 2
    assert taken.run.counts["questions"] == len(taken.items)


def test_the_same_bank_gives_the_same_bytes(bank):
    first, second = take(), take()
    assert first.content == second.content
    assert first.table == second.table


def test_kinds_of_question_have_each_its_items(taken):
    kinds = {each: n for each, n in taken.packaged.counts.items() if "_" in each}
    assert kinds == {"name_and_decide": 4, "point_at_it": 1, "side_by_side": 2, "which_character": 4}


def test_neither_order_nor_offer_tells_the_two_plants_apart(bank, pair):
    for _each in range(10):
        plant(pair.gathered)
        plant(pair.mistaken)
    items = [each.item for each in take().packaged.questions if each.kind == "name_and_decide"]
    assert len({each.choices for each in items}) == 1
    assert len({(each.title, each.prompt) for each in items}) == 1
    assert [each.identifier for each in items] == sorted(each.identifier for each in items)
    assert [each.right for each in items] != sorted(each.right for each in items)
