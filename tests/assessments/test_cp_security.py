"""What certification of persons asks of examination security (CP-8), beside `test_nothing_given_away.py`."""

import re

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.actions.handing_in import hand_in, show_result
from assessments.actions.leaks import LeakRefused, withdraw_leaked
from assessments.actions.sittings import Given, open_sitting, save_answer, show_question
from assessments.actions.voiding import VoidingRefused, void_specimen
from assessments.models import Evidence, Notice, Seen, Voiding
from assessments.queries.bank import usable_specimens
from assessments.queries.leaks import leak_of, specimens_shown_in
from assessments.queries.photo_uses import uses_of_photo
from assessments.queries.standings import standings_of
from species.models import Photo, Specimen
from tests.courses.markup import faults
from tests.courses.pages import same_queries
from tests.factories.people import make_person
from tests.factories.species import SpecimenFactory, give_picture


def url(name: str, *args: object) -> str:
    return reverse(f"assessments:{name}", args=args)


def text(answer) -> str:
    return " ".join(answer.content.decode().split())


@pytest.fixture
def answered(paper, sitting) -> Specimen:
    """A plant that the participant would have gathered though it is dangerous, and whose result is out."""
    now = timezone.now()
    for question in sitting.questions.all():
        save_answer(question, Given("gather", "sure", "goodleaf"), now)
    hand_in(sitting, now)
    show_result(sitting, now)
    return Specimen.objects.filter(evidence__person=sitting.seat.person, species__edibility="deadly").first()


# no answer in names, headers, order or sizes


def test_cp_08_of_every_specimen_the_picture_has_the_same_headers_but_its_length(
    signed_in, participant, paper, sitting
):
    client, headers = signed_in(participant), []
    for position in range(1, 5):
        client.get(url("question", paper.key, position))
        answer = client.get(url("question_photo", paper.key, position, 1, 400))
        told = dict(answer.headers)
        assert int(told.pop("Content-Length", len(answer.content))) == len(answer.content)
        headers.append(told)
    assert all(each == headers[0] for each in headers)
    assert headers[0]["Content-Disposition"] == "inline"
    assert not {"ETag", "Last-Modified", "X-Accel-Redirect", "Content-Location"} & set(headers[0])


def test_cp_08_neither_address_nor_stored_name_nor_bytes_of_a_picture_name_its_plant(
    signed_in, participant, paper, sitting
):
    client = signed_in(participant)
    for question in sitting.questions.select_related("specimen__species"):
        page = client.get(url("question", paper.key, question.position)).content.decode()
        (address,) = {each.rpartition("/")[0] for each in re.findall(r'src="([^"]+/\d+/\d+)"', page)}
        assert address == url("question_photo", paper.key, question.position, 1, 400).rpartition("/")[0]
        picture = client.get(f"{address}/400").content
        plant, photo = question.specimen.species, question.specimen.photos.get()
        telling = (plant.key, plant.name, plant.common_name, question.specimen.key, photo.key)
        stored = photo.renditions.get().file.name
        assert not [word for word in telling[:3] if word in stored]
        assert not [word for word in telling if word.encode() in picture]


# exposure is counted


def test_cp_08_exposure_is_counted_by_people_for_every_picture(signed_in, participant, tutor, paper, sitting):
    question = sitting.questions.get(position=1)
    photo = Photo.objects.get(specimen=question.specimen)
    assert uses_of_photo(photo).people == 0
    show_question(question, timezone.now())
    show_question(question, timezone.now())
    assert uses_of_photo(photo).people == 1
    leak = leak_of(Specimen.objects.filter(pk=question.specimen_id))
    assert [plant.seen for plant in leak.plants] == [1]
    assert "1 person has seen it" in text(signed_in(tutor).get(url("plant_leaked", question.specimen.key)))


# what is done when something leaks


def test_cp_08_a_leaked_plant_is_out_of_all_tests_and_what_rests_on_it_is_listed(
    signed_in, tutor, participant, paper, answered
):
    client, address = signed_in(tutor), url("plant_leaked", answered.key)
    shown = client.get(address)
    assert faults(shown.content.decode()) == []
    assert participant.name in text(shown).split("What rests on it")[1]
    assert usable_specimens().filter(pk=answered.pk).exists()
    done = client.post(address, {"reason": "A picture of the screen went round"}, follow=True)
    assert "1 plant is out of all tests now." in text(done)
    assert "Leaked: A picture of the screen went round" in text(done)
    assert not usable_specimens().filter(pk=answered.pk).exists()
    assert Evidence.objects.filter(specimen=answered).count() == 1  # what was answered stays until that is decided
    assert not Voiding.objects.exists()


def test_cp_08_a_leaked_paper_takes_out_every_plant_that_was_drawn_for_anybody(
    signed_in, organiser, paper, answered, stranger
):
    shown = specimens_shown_in(paper)
    assert shown.count() == 4
    client, address = signed_in(organiser), url("paper_leaked", paper.key)
    assert address in text(client.get(url("paper", paper.key)))
    assert text(client.get(address)).count("1 answer rests on it") == 4
    client.post(address, {"reason": "The paper was copied"})
    assert {each.retired_why for each in shown} == {"Leaked: The paper was copied"}
    assert "Nothing is left to withdraw" in text(client.post(address, {"reason": "Again"}))
    assert {each.retired_why for each in shown} == {"Leaked: The paper was copied"}


def test_cp_08_whether_the_answers_count_is_decided_apart_by_a_named_person_with_reasons(
    signed_in, assessor, participant, standard, answered
):
    client, address = signed_in(assessor), url("plant_void", answered.key)
    assert client.post(address, {"why": " "}).status_code == 422
    assert not Voiding.objects.exists()
    misses = _misses(participant, standard)
    done = client.post(address, {"why": "Everybody had seen it"}, follow=True)
    assert "No answer to it counts, for or against." in text(done)
    made = Voiding.objects.get()
    assert (made.specimen, made.voided_by, made.reason) == (answered, assessor.user, "Everybody had seen it")
    assert _misses(participant, standard) == misses - 1
    assert Notice.objects.filter(person=participant.user, kind="plant_void").count() == 1
    again = client.post(address, {"why": "Again"})
    assert "void already" in text(again)
    assert Voiding.objects.count() == 1


def _misses(person, standard) -> int:
    standing = standings_of([person.user_id], standard, timezone.now())[person.user_id]
    return standing.dangerous[0].windows[0].counts.misses


def test_cp_08_nobody_decides_about_an_answer_of_their_own_and_nothing_is_done_without_a_reason(
    participant, tutor, answered
):
    with pytest.raises(VoidingRefused, match="yourself"):
        void_specimen(answered, participant.user, "I saw it before", timezone.now())
    with pytest.raises(VoidingRefused, match="Write down"):
        void_specimen(answered, tutor.user, " ", timezone.now())
    with pytest.raises(LeakRefused, match="how it got out"):
        withdraw_leaked([answered], " ", timezone.now())
    assert not Voiding.objects.exists()


def test_cp_08_tests_that_are_under_way_are_named_and_an_unopened_one_draws_something_else(
    signed_in, tutor, paper, sitting, stranger
):
    specimen = sitting.questions.get(position=1).specimen
    assert "1 question about it stands in a test that is under way" in text(
        signed_in(tutor).get(url("plant_leaked", specimen.key))
    )
    withdraw_leaked([specimen], "Seen on a wall", timezone.now())
    seat = paper.seats.create(person=stranger.user, opens_at=paper.opens_at)
    assert specimen.pk not in open_sitting(seat, timezone.now()).questions.values_list("specimen", flat=True)


def test_cp_08_the_pages_are_for_named_roles_and_a_picture_for_teaching_has_none(
    client, signed_in, tutor, assessor, participant, stranger, paper, answered
):
    addresses = [url("plant_leaked", answered.key), url("paper_leaked", paper.key)]
    for address in addresses:
        client.logout()
        assert client.get(address).status_code == 302
        for person in (participant, stranger):
            assert signed_in(person).get(address).status_code == 403
            assert signed_in(person).post(address, {"reason": "Mine"}).status_code == 403
    assert signed_in(tutor).post(url("plant_void", answered.key), {"why": "Mine"}).status_code == 403
    assert signed_in(assessor).get(addresses[0]).status_code == 200
    teaching = SpecimenFactory(use="teaching")
    assert signed_in(tutor).get(url("plant_leaked", teaching.key)).status_code == 404
    assert signed_in(tutor).get(url("paper_leaked", "nothing")).status_code == 404
    assert Specimen.objects.filter(retired_on__isnull=False).count() == 0


def test_cp_08_the_pages_take_as_many_queries_however_many_answers(signed_in, assessor, paper, answered, pair):
    def grow() -> None:
        for number in range(3):
            person = make_person(f"More {Seen.objects.count()} {number}", "participant")
            seat = paper.seats.create(person=person.user, opens_at=paper.opens_at)
            give_picture(SpecimenFactory(species=pair.mistaken))
            sitting = open_sitting(seat, timezone.now())
            sitting.questions.filter(position=1).update(specimen=answered)
            Seen.objects.create(person=person.user, specimen=answered, seen_at=timezone.now(), why=Seen.QUESTION)
            hand_in(sitting, timezone.now())
            show_result(sitting, timezone.now())

    client = signed_in(assessor)
    assert same_queries(client, url("plant_leaked", answered.key), grow)
    assert same_queries(client, url("paper_leaked", paper.key), grow)
