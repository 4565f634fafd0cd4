"""Results and lists as files: whose they are, what is in them, and that spreadsheets and programs read them."""

import csv
import json
from io import StringIO

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from assessments.actions.appeals import Complaint, appeal
from assessments.models import Answer, Evidence, SpotTest
from assessments.queries.flora import the_flora
from assessments.queries.own_record import own_record
from assessments.queries.results import results_of
from assessments.queries.standards import standards_with_parts
from assessments.rules.appeals import Ground
from species.models import Species
from tests.assessments.evidence import PaperTrail, open_windows
from tests.factories.assessments import make_live_evidence
from tests.factories.species import SpecimenFactory

MINE, RECORD = reverse("assessments:my_results"), reverse("assessments:my_record")
OF_ALL = [reverse(f"assessments:{name}") for name in ("papers_table", "spot_tests_table")]


def rows(response) -> list[dict[str, str]]:
    assert response.status_code == 200
    assert response["Content-Type"] == "text/csv; charset=utf-8"
    assert response["Content-Disposition"].startswith("attachment; ")
    assert "no-store" in response["Cache-Control"]
    assert response.content.startswith(b"\xef\xbb\xbf")
    return list(csv.DictReader(StringIO(response.content.decode("utf-8-sig"), newline="")))


def test_the_own_table_says_of_every_answer_what_it_counts_as_and_why(signed_in, participant, record):
    found = rows(signed_in(participant).get(MINE))
    assert len(found) == Evidence.objects.filter(person=participant.user).count()
    gathered = next(row for row in found if row["decision"] == "Gather it" and row["plant"] == "badleaf")
    assert gathered["Participant 1: counts as"] == "a miss"
    assert gathered["Participant 1: why"].startswith("Dangerous, and it would have been gathered")
    assert {row["how"] for row in found} == {"photograph", "live"}
    assert found[0]["test"] == "Paper of day -5"


def test_nobody_has_the_results_of_somebody_else_by_this_address(client, signed_in, stranger, record):
    assert client.get(MINE).status_code == 302
    assert rows(signed_in(stranger).get(MINE)) == []
    record_of_stranger = signed_in(stranger).get(RECORD).json()
    assert (record_of_stranger["answers"], record_of_stranger["tests"]) == ([], [])


def test_a_name_that_a_spreadsheet_would_run_is_text(signed_in, participant, standard, pair, tutor):
    open_windows(participant.user)
    trail = PaperTrail(participant.user, standard, tutor.user)
    said = Species(pk=pair.mistaken.pk, key=pair.mistaken.key, name='=HYPERLINK("x")')
    trail.answer(pair.mistaken, "refuse", named=said)
    assert rows(signed_in(participant).get(MINE))[0]["said"] == '\'=HYPERLINK("x")'


def test_a_sitting_under_way_has_no_answers_in_any_file(signed_in, participant, sitting):
    question = sitting.questions.order_by("position").first()
    now = timezone.now()
    Answer.objects.create(question=question, decision="refuse", said="badleaf", saved_at=now)
    client = signed_in(participant)
    assert rows(client.get(MINE)) == []
    record = client.get(RECORD).json()
    assert record["answers"] == []
    assert record["tests"][0]["sitting"]["handed_in_at"] is None


def test_the_record_holds_everything_that_was_handed_in_and_no_picture_key_or_name_of_others(
    signed_in, participant, record, tutor, stranger
):
    response = signed_in(participant).get(RECORD)
    assert response["Content-Disposition"] == 'attachment; filename="my-record.json"'
    plain = json.loads(response.content)
    answers = Evidence.objects.filter(person=participant.user)
    assert len(plain["answers"]) == answers.count()
    assert {each["title"] for each in plain["tests"]} >= {"Paper of day 1", "Paper of day 40"}
    assert plain["standings"][0]["passed"] is False
    assert plain["standings"][0]["missing"]
    assert [each["number"] for each in plain["periods"][0]["windows"]] == [1, 2]
    text = response.content.decode()
    for row in answers.select_related("specimen"):
        assert row.specimen.key not in text
        assert not any(photo.key in text for photo in row.specimen.photos.all())
    assert tutor.user.email not in text
    assert tutor.name not in text


def test_the_record_holds_appeals_with_the_reasons_that_were_given(participant, miss):
    appeal(miss, Complaint(Ground.OTHER, "The picture is of something else."), timezone.now())
    (told,) = own_record(participant.user, timezone.now())["appeals"]
    assert told["words"] == "The picture is of something else."
    assert told["steps"][0]["step"] == "received"


def test_what_an_annulled_sitting_showed_stays_untold(signed_in, participant, miss, organiser):
    sitting = miss.sitting
    sitting.annulled_at, sitting.annulled_by, sitting.annulled_why = timezone.now(), organiser.user, "seen before"
    sitting.save()
    (row,) = rows(signed_in(participant).get(MINE))
    assert (row["plant"], row["decision"]) == ("", "Gather it")
    plain = signed_in(participant).get(RECORD).json()
    assert plain["tests"][0]["sitting"]["annulled_because"] == "seen before"
    assert plain["answers"][0]["plant"] is None


def test_whoever_takes_results_has_seen_them(signed_in, participant, miss):
    miss.sitting.result_shown_at = None
    miss.sitting.save()
    signed_in(participant).get(MINE)
    miss.sitting.refresh_from_db()
    assert miss.sitting.result_shown_at is not None


def test_results_take_as_many_queries_for_many_people_and_answers_as_for_few(
    participant, stranger, standard, pair, tutor, record, django_assert_num_queries
):
    flora, now = the_flora(), timezone.now()
    standards = list(standards_with_parts().filter(pk=standard.pk))
    with CaptureQueriesContext(connection) as few:
        results_of([stranger.user.pk], standards, flora, now)
    with django_assert_num_queries(len(few)):
        found = results_of([participant.user.pk, stranger.user.pk], standards, flora, now)
    assert len(found[participant.user.pk]) > 10
    with CaptureQueriesContext(connection) as empty:
        own_record(stranger.user, now)
    with CaptureQueriesContext(connection) as full:
        own_record(participant.user, now)
    # what hangs on seats and periods is read only where there are any
    assert len(full) - len(empty) <= 2


def test_the_standing_is_a_row_a_pair_for_oneself_and_for_those_who_assess(
    signed_in, participant, stranger, tutor, record
):
    own = rows(signed_in(participant).get(reverse("assessments:standing_table", args=["participant"])))
    assert [(row["gathered"], row["taken for it"], row["passed"]) for row in own] == [("goodleaf", "badleaf", "no")]
    assert int(own[0]["misses, dangerous side"]) >= 1
    of = reverse("assessments:standing_table_of", args=[participant.user_id, "participant"])
    assert rows(signed_in(tutor).get(of)) == own
    assert signed_in(stranger).get(of).status_code == 403
    assert signed_in(tutor).get(reverse("assessments:standing_table", args=["none"])).status_code == 404


def test_lists_of_tests_are_for_those_who_set_them(client, signed_in, participant, tutor, assessor, paper):
    sitters = reverse("assessments:seats_table", args=[paper.key])
    for url in (*OF_ALL, sitters):
        assert client.get(url).status_code == 302
    for url in (*OF_ALL, sitters):
        assert signed_in(participant).get(url).status_code == 403
    (row,) = rows(signed_in(tutor).get(OF_ALL[0]))
    assert (row["title"], row["may sit it"], row["handed in"]) == ("A paper", "1", "0")
    (seat,) = rows(signed_in(assessor).get(sitters))
    assert (seat["name"], seat["state"], seat["begun at"]) == ("Pat Participant", "open now", "")


def test_the_own_list_of_tests_is_the_own_one(signed_in, participant, stranger, paper):
    mine = reverse("assessments:my_papers_table")
    (row,) = rows(signed_in(participant).get(mine))
    assert (row["title"], row["state"]) == ("A paper", "open now")
    assert rows(signed_in(stranger).get(mine)) == []


def test_a_table_of_stations_hides_the_first_name_from_the_second_person(signed_in, tutor, assessor, participant, pair):
    make_live_evidence(participant.user, SpecimenFactory(species=pair.mistaken), "refuse", by=tutor.user)
    test = SpotTest.objects.get()
    (row,) = rows(signed_in(assessor).get(reverse("assessments:stations_table", args=[test.key])))
    assert (row["number"], row["plant"]) == ("1", "")
    (listed,) = rows(signed_in(tutor).get(OF_ALL[1]))
    assert (listed["title"], listed["set by"]) == ("Live check", "Tilda Tutor")


@pytest.mark.parametrize(
    ("page", "target"),
    [
        ("assessments:papers", "assessments:papers_table"),
        ("assessments:papers", "assessments:my_papers_table"),
        ("assessments:spot_tests", "assessments:spot_tests_table"),
    ],
)
def test_every_table_is_linked_from_its_page(signed_in, tutor, paper, participant, pair, page, target):
    make_live_evidence(participant.user, SpecimenFactory(species=pair.mistaken), "refuse", by=tutor.user)
    paper.seats.create(person=tutor.user, opens_at=paper.opens_at)
    assert reverse(target) in signed_in(tutor).get(reverse(page)).content.decode()


def test_the_own_standing_page_offers_results_for_people_and_for_programs(signed_in, participant, tutor, record):
    own = signed_in(participant).get(reverse("assessments:my_standing")).content.decode()
    assert MINE in own
    assert RECORD in own
    of = reverse("assessments:standing_of", args=[participant.user_id, "participant"])
    assert MINE not in signed_in(tutor).get(of).content.decode()
