"""The readiness board: filters, pages of fifty, what lapses soon, the shortest way, assistants, and how it is taken
away."""

import csv
from datetime import timedelta
from io import BytesIO, StringIO

import pytest
from django.utils import timezone
from pypdf import PdfReader

from assessments.models import Standard
from courses.actions.certificates import record_event
from courses.models import Availability, Requirement
from courses.queries.board import BoardAsk, board, board_lines
from courses.queries.readiness import on_the_way
from courses.queries.readiness_tables import readiness_sheet
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.assessments import make_standard
from tests.factories.certificates import give_pass, make_application, make_certificate, make_facts, show_proof
from tests.factories.courses import make_meeting
from tests.factories.people import make_person

LIST = "/readiness/"


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


@pytest.fixture
def leader_standard(school, pair) -> Standard:
    return make_standard(pair, key="leader", name="Walk leader", leads_walks=True, valid_months=12)


@pytest.fixture
def asked(leader_standard):
    """What the school asks of leaders: a certificate and first aid."""
    Requirement.objects.create(key="certificate", part="leader", kind="certificate", title="Certificate", order=1)
    Requirement.objects.create(
        key="aid", part="leader", kind="proof", proof="first_aid", title="First aid ticket", order=2
    )


@pytest.fixture
def people(asked, leader_standard, organiser):
    """Rea is ready, Lapo too but not for long, Nono lacks the certificate and Nona first aid."""
    rea, lapo, nono, nona = (make_person(name, "tutor") for name in ("Rea", "Lapo", "Nono", "Nona"))
    for number, person in enumerate((rea, lapo, nona)):
        make_certificate(person, leader_standard, organiser, number=f"2026-000{number}")
    show_proof(rea, "first_aid", organiser)
    show_proof(lapo, "first_aid", organiser, 59)
    show_proof(nono, "first_aid", organiser)
    return rea, lapo, nono, nona


def names(**ask: str) -> list[str]:
    everybody = on_the_way()
    return [everybody.names[person] for person, _found in board(BoardAsk(**ask), everybody, timezone.now()).found]


def moves(person, part: str = "leader") -> tuple[str, ...]:
    now = timezone.now()
    lines = board_lines(board(BoardAsk(part), on_the_way(), now).found, part, now)
    return next(line.way.moves for line in lines if line.person == person)


@pytest.mark.parametrize(
    ("ask", "found"),
    [
        ({}, ["Lapo", "Rea", "Nona", "Nono"]),
        ({"state": "ready"}, ["Lapo", "Rea"]),
        ({"state": "not_yet"}, ["Nona", "Nono"]),
        ({"state": "lapsing"}, ["Lapo"]),
        ({"missing": "first_aid"}, ["Nona"]),
        ({"missing": "certificate"}, ["Nono"]),
        ({"words": "no"}, ["Nona", "Nono"]),
        ({"words": "NO", "missing": "certificate"}, ["Nono"]),
        ({"pair": "pair-1"}, ["Lapo", "Rea", "Nona"]),
        ({"pair": "no-such-pair"}, []),
    ],
)
def test_every_filter_leaves_whom_it_says(people, ask, found) -> None:
    assert names(**ask) == found


def test_the_counts_are_of_everybody_whatever_is_filtered(people) -> None:
    found = board(BoardAsk(state="lapsing"), on_the_way(), timezone.now())
    assert (found.everybody, found.ready, found.lapsing) == (4, 2, 1)


def test_a_pair_is_led_among_only_while_a_current_certificate_stands_for_it(people, organiser) -> None:
    rea, lapo, _nono, nona = people
    facts = make_facts(3).as_json()
    for person in (rea, lapo, nona):
        person.certificates.all().delete()
    held = [
        make_certificate(person, Standard.objects.get(key="leader"), organiser, number=f"2027-{n}", facts=facts)
        for n, person in enumerate((rea, lapo, nona))
    ]
    now = timezone.now()
    record_event(held[0], "narrowed", organiser, "Because", now=now, keeping=["pair-1"])
    record_event(held[1], "suspended", organiser, "Because", now=now)
    assert names(pair="pair-1") == ["Rea", "Nona"]
    assert names(pair="pair-2") == ["Nona"]
    line = next(
        each for each in board_lines(board(BoardAsk(), on_the_way(), now).found, "leader", now) if each.person == rea
    )
    assert line.checks[0].sentence.endswith("for 1 of its 3 pairs")


def test_there_are_fifty_to_a_page_and_the_filters_stay_on_the_next(signed_in, asked, organiser) -> None:
    for number in range(53):
        show_proof(make_person(f"Person {number:02d}", "tutor"), "first_aid", organiser)
    inside = signed_in(organiser)
    first = text(inside.get(LIST, {"state": "not_yet"}))
    assert first.count('<tr role="row">') - 1 == 50
    assert "?state=not_yet&amp;page=2" in first
    assert text(inside.get(LIST, {"state": "not_yet", "page": "2"})).count('<tr role="row">') - 1 == 3


def test_a_filter_that_is_none_shows_everybody_and_nobody_found_says_so(signed_in, people, organiser) -> None:
    inside = signed_in(organiser)
    nonsense = inside.get(LIST, {"state": "asleep", "missing": "wings", "pair": "x", "page": "99"})
    assert text(nonsense).count('<tr role="row">') - 1 == 4
    assert "asleep is not one of the available choices" in text(nonsense)
    empty = text(inside.get(LIST, {"q": "zzz"}))
    assert "Nobody answers to that" in empty
    assert 'value="zzz"' in empty
    assert faults(nonsense.content.decode()) == []


def test_the_page_offers_what_lapses_within_sixty_days(signed_in, people, organiser) -> None:
    page = text(signed_in(organiser).get(LIST))
    assert "4 people are on the way to leading, 2 ready today." in page
    assert '<a href="?state=lapsing">For 1 of them something lapses within 60 days.</a>' in page


def test_the_way_names_the_pairs_left_then_applying_then_waiting(
    asked, leader_standard, pair, organiser, setter, assessor
) -> None:
    person = make_person("Nono", "tutor")
    show_proof(person, "first_aid", organiser)
    assert moves(person) == ("Pass 1 more of the 1 dangerous pairs that are asked, then apply.",)
    give_pass(person, leader_standard, pair, set_by=setter, checked_by=assessor)
    assert moves(person) == ("Apply for the certificate: every dangerous pair is passed.",)
    make_application(person, leader_standard)
    assert moves(person) == ("Wait for the decision on the certificate.",)


def test_whom_a_paper_alone_is_missing_could_be_ready_today(people) -> None:
    now = timezone.now()
    lines = board_lines(board(BoardAsk(), on_the_way(), now).found, "leader", now)
    line = next(each for each in lines if each.person == people[3])
    assert line.way.ready_from == "Could be ready today."
    assert line.way.day == timezone.localdate(now)


def test_the_way_names_the_next_walks_to_which_somebody_can_go(tutor, school) -> None:
    Requirement.objects.create(
        key="walks", part="leader", kind="walks", title="Walks", number=3, within_months=24, order=1
    )
    first, second, third = (make_meeting(None, days_ahead=days, is_walk=True) for days in (3, 5, 9))
    Availability.objects.create(person=tutor, meeting=second, can_come=False, said_at=timezone.now())
    make_meeting(None, days_ahead=-4, is_walk=True).assistants.add(tutor)
    now = timezone.now()
    line = board_lines(board(BoardAsk(), on_the_way(), now).found, "leader", now)[0]
    days = [timezone.localdate(walk.starts_at) for walk in (first, third)]
    assert line.way.day == days[1] + timedelta(days=1)
    assert line.way.moves[0].startswith("Assist at 2 more walks. Soonest:")


def test_nothing_is_asked_of_assistants_until_the_school_says_so(signed_in, people, organiser) -> None:
    inside = signed_in(organiser)
    assert 'name="part"' not in text(inside.get(LIST))
    assert names(part="assistant", state="not_yet") == []
    Requirement.objects.create(
        key="care", part="assistant", kind="proof", proof="safeguarding", title="Safeguarding", order=1
    )
    assert 'name="part"' in text(inside.get(LIST))
    assert names(part="assistant", state="not_yet") == ["Lapo", "Nona", "Nono", "Rea"]
    show_proof(people[0], "safeguarding", organiser)
    assert names(part="assistant", state="ready") == ["Rea"]


def test_the_standard_that_a_requirement_names_is_the_one_that_counts(people, standard, organiser) -> None:
    Requirement.objects.filter(kind="certificate").update(standard=standard)
    assert names(state="ready") == []
    make_certificate(people[0], standard, organiser, number="2026-0099")
    assert names(state="ready") == ["Rea"]


def test_table_and_paper_hold_what_the_filters_leave(signed_in, people, organiser) -> None:
    inside = signed_in(organiser)
    table = inside.get("/readiness.csv", {"missing": "certificate"}).content.decode("utf-8-sig")
    rows = list(csv.reader(StringIO(table)))
    assert rows[0] == ["name", "ready", "Leader's certificate", "First aid", "shortest way"]
    assert [row[:2] for row in rows[1:]] == [["Nono", "no"]]
    assert rows[1][4].startswith("Pass 1 more of the 1")
    pages = PdfReader(BytesIO(inside.get("/readiness.pdf", {"state": "ready"}).content)).pages
    printed = " ".join(page.extract_text() for page in pages)
    assert "Rea: ready" in printed
    assert "Nono" not in printed


def test_the_board_takes_as_many_queries_for_a_page_of_people(signed_in, people, leader_standard, organiser) -> None:
    def grow() -> None:
        for number in range(4):
            person = make_person(f"More {number}", "tutor")
            show_proof(person, "first_aid", organiser, 10)
            make_certificate(person, leader_standard, organiser, number=f"2028-{number}")
            show_proof(make_person(f"Less {number}", "tutor"), "insurance", organiser)
            make_meeting(None, days_ahead=number + 1, is_walk=True, leader=person)

    make_meeting(None, days_ahead=4, is_walk=True)
    assert same_queries(signed_in(organiser), LIST, grow)


@pytest.mark.parametrize("address", ["/readiness.csv", "/readiness.pdf"])
def test_others_are_kept_out(client, signed_in, participant, address) -> None:
    assert "/account/login/" in client.get(address)["Location"]
    assert signed_in(participant).get(address).status_code == 403


def test_the_paper_says_whose_it_is_and_that_it_is_no_whole_list(people, school) -> None:
    whole, part = (readiness_sheet(BoardAsk(words=words), timezone.now()).subtitle for words in ("", "a"))
    assert whole.startswith(school.name)
    assert part == f"{whole} · not everybody: only whom the filters of the list left"
