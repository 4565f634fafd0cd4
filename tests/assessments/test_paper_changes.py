"""A paper that is set: changed or withdrawn before it opens, and added to later."""

from datetime import timedelta
from decimal import Decimal

import pytest
from django.utils import timezone

from assessments.actions.adjustments import Agreed, adjust_seat
from assessments.actions.papers import set_paper
from assessments.actions.sittings import open_sitting
from assessments.models import Notice, Paper, Seat
from courses.queries.sentences.notices import is_worded, notice_words
from species.models import Specimen
from tests.factories.people import make_person

from .setting import address, moment, plan, pressed, typed


@pytest.fixture
def coming(standard, bank, pair, participant, tutor):
    """A paper that opens tomorrow."""
    return set_paper(plan(standard, pair), [participant.user], tutor.user, 7, timezone.now())


def pages(paper):
    return [address(name, paper.key) for name in ("paper_change", "paper_withdraw", "paper_add_sitters")]


def test_the_page_of_a_paper_says_what_every_paper_holds(signed_in, tutor, coming):
    text = signed_in(tutor).get(address("paper", coming.key)).content.decode()
    assert "Name it and decide: 4. 2 of these are dangerous plants." in text
    assert "At least: badleaf 1; goodleaf 1. The rest is drawn by chance." in text
    assert all(page in text for page in pages(coming))


def test_a_paper_whose_plan_nobody_wrote_down_has_a_page_all_the_same(signed_in, tutor, coming):
    Paper.objects.update(blueprint={})
    coming.pairs.clear()
    client = signed_in(tutor)
    assert "What every paper holds" not in client.get(address("paper", coming.key)).content.decode()
    assert client.get(address("paper_change", coming.key)).status_code == 200


def test_the_form_begins_with_the_paper_as_it_is(signed_in, tutor, coming, pair):
    form = signed_in(tutor).get(address("paper_change", coming.key)).context["form"]
    assert (form["title"].value(), form["questions"].value(), form["pairs"].value()) == ("A test", 4, [pair.pk])
    assert (form["dangerous_each"].value(), form["each_stage"].value()) == (None, False)


def test_a_paper_is_changed_for_the_same_people_with_the_same_seed(
    signed_in, tutor, participant, coming, standard, pair
):
    opens = timezone.now() + timedelta(days=3)
    data = typed(standard, pair, title="Another title", questions="6", opens_at=moment(opens), closes_at="")
    assert signed_in(tutor).post(address("paper_change", coming.key), data).status_code == 302
    paper, seat = Paper.objects.get(), Seat.objects.get()
    assert (paper.title, paper.questions, paper.seed, paper.closes_at) == ("Another title", 6, 7, None)
    assert (seat.person, seat.closes_at) == (participant.user, None)
    assert moment(seat.opens_at) == moment(paper.opens_at) == moment(opens)


def test_who_is_to_sit_it_is_told_of_new_dates_and_of_nothing_else(signed_in, tutor, coming, standard, pair):
    same = {"opens_at": moment(coming.opens_at), "closes_at": moment(coming.closes_at)}
    Paper.objects.update(opens_at=coming.opens_at.replace(second=0, microsecond=0),
                         closes_at=coming.closes_at.replace(second=0, microsecond=0))  # fmt: skip
    client = signed_in(tutor)
    client.post(address("paper_change", coming.key), typed(standard, pair, questions="6", **same))
    assert not Notice.objects.filter(kind="paper_changed").exists()
    client.post(address("paper_change", coming.key), typed(standard, pair, **{**same, "closes_at": ""}))
    assert "was changed before it opens" in notice_words(Notice.objects.get(kind="paper_changed")).lines[0]


def test_a_later_end_that_was_granted_stays(signed_in, tutor, coming, standard, pair):
    later = coming.closes_at + timedelta(days=9)
    Seat.objects.update(closes_at=later)
    data = typed(standard, pair, opens_at=moment(coming.opens_at), closes_at=moment(coming.closes_at))
    signed_in(tutor).post(address("paper_change", coming.key), data)
    assert Seat.objects.get().closes_at == later


def test_a_change_that_the_bank_cannot_meet_changes_nothing_and_offers_what_can_be(
    signed_in, tutor, coming, standard, pair
):
    client, url = signed_in(tutor), address("paper_change", coming.key)
    page = client.post(url, typed(standard, pair, questions="30"))
    assert page.status_code == 422
    assert Paper.objects.get().questions == 4
    assert client.post(url, pressed(page)).status_code == 302
    assert Paper.objects.get().questions == 12


def test_looking_at_a_change_changes_nothing(signed_in, tutor, coming, standard, pair):
    page = signed_in(tutor).post(address("paper_change", coming.key), typed(standard, pair, questions="8", step="look"))
    assert "It can be set" in page.content.decode()
    assert Paper.objects.get().questions == 4


@pytest.mark.parametrize("name", ["paper_change", "paper_withdraw"])
def test_a_paper_that_has_opened_stays_as_it_is(signed_in, tutor, coming, standard, pair, name):
    Paper.objects.update(opens_at=timezone.now() - timedelta(minutes=1))
    page = signed_in(tutor).post(address(name, coming.key), {**typed(standard, pair, questions="6"), "why": "Rain"})
    assert page.status_code == 409
    assert "This paper has opened: it stays as it is" in page.content.decode()
    assert (Paper.objects.get().questions, Paper.objects.get().withdrawn_at) == (4, None)


def test_who_is_to_sit_a_paper_neither_changes_nor_looks_at_it(signed_in, coming, standard, pair):
    colleague = make_person("Col League", "tutor")
    Seat.objects.create(paper=coming, person=colleague.user, opens_at=coming.opens_at)
    page = signed_in(colleague).post(address("paper_change", coming.key), typed(standard, pair, step="look"))
    assert "ask somebody else to change it" in page.content.decode()
    assert not colleague.user.seen_specimens.exists()


def test_a_withdrawn_paper_is_sat_by_nobody_and_stays_on_record(signed_in, tutor, participant, coming):
    client = signed_in(tutor)
    assert client.post(address("paper_withdraw", coming.key), {"why": "The meadow was mown"}).status_code == 302
    paper = Paper.objects.get()
    assert (paper.withdrawn_by, paper.withdrawn_why, paper.seats.count()) == (tutor.user, "The meadow was mown", 0)
    assert "The meadow was mown" in client.get(address("paper", coming.key)).content.decode()
    words = notice_words(Notice.objects.get(person=participant.user, kind="paper_withdrawn"))
    assert words.lines[1] == "The reason: The meadow was mown"
    assert signed_in(participant).get(address("sit", coming.key)).status_code == 404


def test_withdrawing_takes_a_reason(signed_in, tutor, coming):
    assert signed_in(tutor).post(address("paper_withdraw", coming.key), {"why": " "}).status_code == 422
    assert Paper.objects.get().withdrawn_at is None


def test_a_withdrawn_paper_is_neither_changed_nor_withdrawn_again_nor_added_to(signed_in, tutor, stranger, coming):
    client = signed_in(tutor)
    client.post(address("paper_withdraw", coming.key), {"why": "Rain"})
    for url in pages(coming):
        page = client.post(url, {"why": "Again", "people": stranger.user.email})
        assert "withdrawn" in page.content.decode()
    assert (Paper.objects.get().withdrawn_why, Seat.objects.count()) == ("Rain", 0)


def test_somebody_who_comes_later_sits_the_same_plan(signed_in, tutor, stranger, coming):
    Paper.objects.update(opens_at=timezone.now() - timedelta(minutes=1))
    url = address("paper_add_sitters", coming.key)
    assert signed_in(tutor).post(url, {"people": stranger.user.email}).status_code == 302
    seat = Seat.objects.get(person=stranger.user)
    assert open_sitting(seat, timezone.now()).questions.count() == 4
    assert Notice.objects.filter(person=stranger.user, kind="paper_set").exists()


def test_later_sitters_who_cannot_be_are_refused_with_a_sentence(signed_in, tutor, participant, stranger, coming):
    client, url = signed_in(tutor), address("paper_add_sitters", coming.key)
    for person, said in (
        (participant, "There is a seat already for"),
        (tutor, "Nobody sits a paper that they set"),
    ):
        page = client.post(url, {"people": person.user.email})
        assert (page.status_code, said in page.content.decode()) == (422, True)
    Specimen.objects.update(retired_on=timezone.localdate())
    assert "asked for, 0 left in the bank" in client.post(url, {"people": stranger.user.email}).content.decode()
    Paper.objects.update(closes_at=timezone.now())
    assert "closed already" in client.post(url, {"people": stranger.user.email}).content.decode()
    assert Seat.objects.count() == 1


def test_others_neither_change_nor_withdraw_nor_add(client, signed_in, participant, stranger, coming):
    assert [client.get(url).status_code for url in pages(coming)] == [302, 302, 302]
    for url in pages(coming):
        for person in (participant, stranger):
            assert signed_in(person).post(url, {"why": "Mine", "people": person.user.email}).status_code == 403
    assert (Paper.objects.get().withdrawn_at, Seat.objects.count()) == (None, 1)


def test_what_was_agreed_for_one_person_outlives_a_change(signed_in, tutor, coming, standard, pair):
    agreed = Agreed(what="Half as long again", why="Asked for it", time_factor=Decimal("1.5"))
    adjust_seat(Seat.objects.get(), agreed, tutor.user, timezone.now())
    signed_in(tutor).post(address("paper_change", coming.key), typed(standard, pair, questions="6"))
    assert (Seat.objects.get().time_factor, Seat.objects.get().adjustments.count()) == (1.5, 1)


def test_both_notices_have_words():
    assert is_worded("paper_changed")
    assert is_worded("paper_withdrawn")
