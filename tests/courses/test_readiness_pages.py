"""The readiness list, recording a proof, and the list as a command."""

import json
from datetime import timedelta
from io import StringIO

import pytest
import time_machine
from django.core.management import call_command
from django.utils import timezone

from courses.models import RequirementRecord
from courses.queries.board import BoardAsk, board, board_lines
from courses.queries.board_walks import walk_lines
from courses.queries.readiness import on_the_way
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.certificates import make_certificate, show_proof
from tests.factories.courses import SiteFactory, make_meeting
from tests.factories.people import make_person

LIST, NEW = "/readiness/", "/readiness/proofs/new/"


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


@pytest.fixture
def leader_standard(school, pair):
    return make_standard(pair, key="leader", name="Walk leader", leads_walks=True, valid_months=12)


def assist(person, *days_ago: int) -> None:
    for days in days_ago:
        make_meeting(None, days_ahead=-days, is_walk=True).assistants.add(person)


def make_ready(person, standard, organiser, number: str = "2026-0001") -> None:
    make_certificate(person, standard, organiser, number=number)
    show_proof(person, "first_aid", organiser)
    show_proof(person, "insurance", organiser, None)
    assist(person, 10, 20, 30)


def lines(**ask: str):
    now = timezone.now()
    return board_lines(board(BoardAsk(**ask), on_the_way(), now).found, "leader", now)


def line_of(person):
    return next(each for each in lines() if each.person == person)


def walks_to_come():
    return walk_lines(on_the_way(), timezone.now())


def statuses(person) -> list[str]:
    return [check.status for check in line_of(person).checks]


def test_whoever_meets_everything_is_ready(tutor, leader_standard, organiser) -> None:
    make_ready(tutor, leader_standard, organiser)
    assert line_of(tutor).ready
    assert statuses(tutor) == ["met"] * 4


def test_nobody_is_listed_who_is_not_on_the_way(participant, tutor) -> None:
    assert lines() == []


def test_each_thing_that_is_missing_has_a_reason_and_a_remedy(tutor, organiser) -> None:
    show_proof(tutor, "first_aid", organiser, -1)
    show_proof(tutor, "insurance", organiser, 10)
    assist(tutor, 10)
    line = line_of(tutor)
    assert statuses(tutor) == ["unmet", "unmet", "part", "unmet"]
    assert line.checks[0].sentence == "none yet"
    assert line.checks[1].sentence.startswith("lapsed on")
    assert line.checks[2].sentence.endswith(", soon")
    assert line.checks[3].sentence == "1 of 3 in the last 2 years"
    assert [bool(check.remedy) for check in line.checks] == [True, True, False, True]


def test_a_certificate_of_another_standard_does_not_lead(participant, standard, organiser) -> None:
    make_certificate(participant, standard, organiser)
    show_proof(participant, "insurance", organiser)
    assert statuses(participant)[0] == "unmet"


def test_cancelled_and_coming_walks_and_indoor_meetings_do_not_count(tutor) -> None:
    assist(tutor, 10, -5)
    make_meeting(None, days_ahead=-8, is_walk=False).assistants.add(tutor)
    make_meeting(None, days_ahead=-9, is_walk=True, cancelled_at=timezone.now()).assistants.add(tutor)
    assert line_of(tutor).checks[3].sentence.startswith("1 of 3")


def test_who_has_left_is_not_listed(tutor, organiser) -> None:
    show_proof(tutor, "insurance", organiser)
    tutor.left_on = timezone.localdate()
    tutor.save()
    assert lines() == []


def test_a_suspended_certificate_does_not_count_until_it_is_lifted(tutor, leader_standard, organiser) -> None:
    make_ready(tutor, leader_standard, organiser)
    events = tutor.certificates.get().events
    events.create(kind="suspended", happened_at=timezone.now(), by=organiser, reason="A doubt")
    assert line_of(tutor).checks[0].sentence == "suspended"
    events.create(kind="lifted", happened_at=timezone.now(), by=organiser, reason="Settled")
    assert line_of(tutor).ready


def test_a_walk_asks_for_readiness_on_its_own_day(tutor, leader_standard, organiser) -> None:
    make_ready(tutor, leader_standard, organiser)
    tutor.requirement_records.filter(kind="first_aid").update(valid_until=timezone.localdate() + timedelta(days=5))
    make_meeting(None, days_ahead=4, is_walk=True, leader=tutor)
    make_meeting(None, days_ahead=7, is_walk=True, leader=tutor)
    walks = walks_to_come()
    assert [walk.leader_is_ready for walk in walks] == [True, False]


def test_a_walk_without_a_ready_leader_names_those_who_are(tutor, assessor, leader_standard, organiser) -> None:
    make_ready(assessor, leader_standard, organiser)
    make_meeting(None, days_ahead=4, is_walk=True, leader=tutor)
    walk = walks_to_come()[0]
    assert not walk.leader_is_ready
    assert walk.could_lead == [assessor.name]


def test_organisers_and_tutors_read_the_list(signed_in, tutor, organiser, leader_standard) -> None:
    make_ready(tutor, leader_standard, organiser)
    make_meeting(None, days_ahead=4, is_walk=True)
    page = signed_in(tutor).get(LIST)
    assert "Tilda Tutor" in text(page)
    assert "Nobody is ready" not in text(page)
    assert NEW not in text(page)
    assert faults(page.content.decode()) == []
    assert NEW in text(signed_in(organiser).get(LIST))


def test_an_empty_list_says_how_somebody_comes_onto_it(signed_in, organiser) -> None:
    assert "Nobody is on the way to leading yet" in text(signed_in(organiser).get(LIST))


def test_others_are_kept_out(client, signed_in, participant, tutor) -> None:
    for address in (LIST, NEW):
        assert "/account/login/" in client.get(address)["Location"]
    inside = signed_in(participant)
    assert inside.get(LIST).status_code == 403
    assert inside.get(NEW).status_code == 403
    assert signed_in(tutor).post(NEW, {}).status_code == 403


def test_the_wrong_method_is_refused(signed_in, organiser) -> None:
    client = signed_in(organiser)
    assert client.post(LIST).status_code == 405
    assert client.put(NEW).status_code == 405


def proof(person, **changed: object) -> dict[str, object]:
    typed = {"kind": "first_aid", "valid_from": "2026-01-01", "valid_until": "2028-12-31", "note": "Two days"}
    return {"person": person.pk, **typed, **changed}


def test_an_organiser_records_a_proof_with_who_saw_it_and_when(signed_in, organiser, tutor) -> None:
    with time_machine.travel("2026-06-01T10:00Z", tick=False):
        organiser.roles.update(since="2026-01-01")
        answer = signed_in(organiser).post(NEW, proof(tutor))
    assert answer["Location"] == LIST
    record = RequirementRecord.objects.get()
    assert (record.person, record.seen_by, record.seen_on.isoformat()) == (tutor, organiser, "2026-06-01")
    assert record.note == "Two days"


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"valid_until": "2025-12-31"}, "This day lies before the first one"),
        ({"valid_from": ""}, "required"),
        ({"kind": "swimming"}, "not one of the available choices"),
    ],
)
def test_a_wrong_proof_is_refused_and_what_was_typed_stays(signed_in, organiser, tutor, changed, words) -> None:
    answer = signed_in(organiser).post(NEW, proof(tutor, **changed))
    assert answer.status_code == 422
    assert words in text(answer)
    assert "Two days" in text(answer)
    assert not RequirementRecord.objects.exists()


def test_an_induction_is_recorded_with_its_site_and_nothing_else_has_one(signed_in, organiser, tutor) -> None:
    client, site = signed_in(organiser), SiteFactory()
    assert "An induction is for one site" in text(client.post(NEW, proof(tutor, kind="induction")))
    client.post(NEW, proof(tutor, kind="induction", site=site.pk))
    client.post(NEW, proof(tutor, site=site.pk))
    assert dict(RequirementRecord.objects.values_list("kind", "site")) == {"induction": site.pk, "first_aid": None}


def test_who_has_left_cannot_be_chosen(signed_in, organiser, tutor) -> None:
    tutor.left_on = timezone.localdate()
    tutor.save()
    assert signed_in(organiser).post(NEW, proof(tutor)).status_code == 422


def test_the_form_can_be_opened_for_one_person(signed_in, organiser, tutor) -> None:
    page = text(signed_in(organiser).get(NEW, {"person": tutor.pk, "kind": "insurance"}))
    assert f'<option value="{tutor.pk}" selected>' in page
    assert '<option value="insurance" selected>' in page


def test_the_list_takes_as_many_queries_for_more_people_and_walks(signed_in, organiser, tutor, leader_standard) -> None:
    make_ready(tutor, leader_standard, organiser)
    make_meeting(None, days_ahead=4, is_walk=True, leader=tutor)

    def grow() -> None:
        for number in range(3):
            person = make_person(f"More {number}", "tutor")
            make_ready(person, leader_standard, organiser, f"2026-01{number:02d}")
            make_meeting(None, days_ahead=4, is_walk=True, leader=person)

    assert same_queries(signed_in(organiser), LIST, grow)


def command(**options: bool) -> str:
    out = StringIO()
    call_command("readiness", stdout=out, **options)
    return out.getvalue()


def test_the_command_says_the_same_as_the_page(tutor, assessor, leader_standard, organiser) -> None:
    assert command() == "Nobody is on the way to leading yet.\n"
    make_ready(tutor, leader_standard, organiser)
    show_proof(assessor, "first_aid", organiser, -1)
    told = command()
    assert "Tilda Tutor: ready" in told
    assert "Asa Assessor: not yet" in told
    plain = json.loads(command(json=True))
    assert [(line["person"], line["ready"]) for line in plain] == [("Tilda Tutor", True), ("Asa Assessor", False)]
    assert plain[1]["requirements"]["first_aid"]["status"] == "unmet"
