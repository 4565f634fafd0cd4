"""The pages of practice: beginning, one look after the other, and the end."""

import re

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from assessments.actions.practice import begin_round
from assessments.models import PracticeRound, PracticeState, PracticeTurn
from species.models import Character, PairCharacter, Photo, Region
from species.rules.vocabulary import Settlement, Trust, Use
from tests.assessments.practising import another_pair, hang_teaching_pictures, turn_of
from tests.factories.species import SpecimenFactory, give_picture

START, BEGIN, FORGET = (reverse(f"assessments:{name}") for name in ("practice", "practice_begin", "practice_forget"))


@pytest.fixture
def teaching(pair, standard) -> None:
    hang_teaching_pictures(pair)


@pytest.fixture
def practice(participant, pair, teaching) -> PracticeRound:
    return begin_round(participant.user, [pair], timezone.now(), seed=3)


@pytest.fixture
def rim_vein(pair) -> Character:
    """The character that decides, framed on every picture there is."""
    made = Character.objects.create(key="rim-vein", name="Vein along the rim", organ="leaf", sense="eye")
    PairCharacter.objects.create(
        pair=pair,
        character=made,
        gathered_text="runs to the notches",
        mistaken_text="stops",
        trust=Trust.DECISIVE.value,
    )
    return made


def look(practice: PracticeRound, position: int = 1) -> str:
    return reverse("assessments:practice_look", args=[practice.key, position])


def end(practice: PracticeRound) -> str:
    return reverse("assessments:practice_end", args=[practice.key])


def main_of(answer) -> str:
    """The main part of a page, its blanks made single."""
    return re.sub(r"\s+", " ", answer.content.decode().split("<main", 1)[1].split("</main>")[0])


def said_of(client: Client, turn: PracticeTurn, said: str) -> str:
    """What the page says after this answer."""
    address = look(turn.round, turn.position)
    assert client.post(address, {"said": said})["Location"] == address
    return main_of(client.get(address))


def queries_of(client: Client, address: str) -> int:
    client.get(address)
    with CaptureQueriesContext(
        connection,
    ) as asked:
        assert client.get(address).status_code == 200
    return len(asked)


def test_the_whole_way_ends_of_itself_and_never_in_a_score(signed_in, participant, standard, teaching) -> None:
    client = signed_in(participant)
    assert "Not met yet" in main_of(client.get(START))
    address = client.post(BEGIN, {"standard": standard.key})["Location"]
    practice = PracticeRound.objects.get()
    for position in range(1, practice.turns.count() + 1):
        assert f"Look {position} of {practice.turns.count()}" in main_of(client.get(address))
        client.post(address, {"said": "leave"})
        address = re.findall(r'class="button" href="([^"]+)"', main_of(client.get(address)))[0]
    last = main_of(client.get(address))
    assert address == end(practice)
    assert "Enough for now" in last
    assert not re.search(r"%|\d+ of \d+|\bscore\b|\bpoints?\b", last)


@pytest.mark.parametrize(
    ("dangerous", "said", "sentence"),
    [
        (True, "mistaken", "Yes, it is."),
        (False, "gathered", "Yes, it is."),
        (True, "gathered", "You took it for goodleaf. That is the mistake this pair is here for"),
        (False, "mistaken", "You took it for badleaf. That is the safe way round"),
        (True, "leave", "You left it, which is safe."),
    ],
)
def test_the_answer_is_told_at_once_with_the_double_beside_it(
    signed_in, participant, pair, practice, dangerous, said, sentence
) -> None:
    main = said_of(signed_in(participant), turn_of(practice, pair, dangerous), said)
    assert sentence in main
    captions = re.findall(r"<span>(\w+) · rosette", main)
    assert captions == (["Badleaf", "Goodleaf"] if dangerous else ["Goodleaf", "Badleaf"])


def test_the_character_that_tells_is_framed_on_both_pictures(signed_in, participant, pair, practice, rim_vein) -> None:
    other = Character.objects.create(key="smell", name="Smell", organ="leaf", sense="nose")
    for photo in Photo.objects.all():
        Region.objects.create(photo=photo, character=other, x="0.5", y="0.5", radius="0.1", drawn_at=timezone.now())
        Region.objects.create(photo=photo, character=rim_vein, x="0.1", y="0.1", radius="0.1", drawn_at=timezone.now())
    main = said_of(signed_in(participant), turn_of(practice, pair, dangerous=True), "leave")
    assert main.count('<circle class="region"') == 2
    assert main.count("1: Vein along the rim") == 3  # on either picture, and in the list
    assert "runs to the notches" in main


def test_the_double_stands_beside_it_in_a_stage_in_which_it_is_taken_for_it(signed_in, participant, pair, standard):
    pair.stage_combinations = [["rosette", "dormant"], ["flower", "flower"]]
    pair.save()
    for species, stage in ((pair.gathered, "rosette"), (pair.mistaken, "rosette"), (pair.mistaken, "dormant")):
        give_picture(SpecimenFactory(species=species, stage=stage, use=Use.TEACHING.value))
    practice = begin_round(participant.user, [pair], timezone.now(), seed=3)
    main = said_of(signed_in(participant), turn_of(practice, pair, dangerous=False), "leave")
    assert re.findall(r"<span>(\w+ · \w+)", main) == ["Goodleaf · rosette", "Badleaf · dormant"]


def test_where_nothing_on_the_list_tells_the_page_says_to_leave_both(signed_in, participant, pair, practice) -> None:
    main = said_of(signed_in(participant), turn_of(practice, pair, dangerous=True), "leave")
    assert "No character of this pair" in main


def test_before_the_answer_nothing_names_the_plant(signed_in, participant, pair, practice, rim_vein) -> None:
    Photo.objects.update(alt_full="the plant itself", alt_blind="a leaf")
    client = signed_in(participant)
    pages = [main_of(client.get(look(practice, n))) for n in (1, 2, 3, 4)]
    assert not any("the plant itself" in page or "Vein along the rim" in page for page in pages)
    # apart from the picture's opaque key, the number and the token the four pages are one page
    strip = r'/photos/[^"\s]+|Look \d|csrfmiddlewaretoken" value="\w+"|action="[^"]*"|href="[^"]*"'
    assert len({re.sub(strip, "", page) for page in pages}) == 1


def test_no_choice_is_asked_for_again_in_a_sentence(signed_in, participant, practice) -> None:
    for sent in ({}, {"said": "hemlock"}):
        answer = signed_in(participant).post(look(practice), sent)
        assert answer.status_code == 422
    assert "Leaving it is always an answer" in signed_in(participant).post(look(practice), {}).content.decode()
    assert not PracticeTurn.objects.answered().exists()


def test_a_second_answer_changes_nothing(signed_in, participant, pair, practice) -> None:
    turn, client = turn_of(practice, pair, dangerous=True), signed_in(participant)
    said_of(client, turn, "mistaken")
    assert "Yes, it is." in said_of(client, turn, "gathered")


def test_nobody_else_reads_it_whatever_their_role(
    signed_in, stranger, organiser, tutor, assessor, practice, course
) -> None:
    for person in (stranger, organiser, tutor, assessor):
        client = signed_in(person)
        assert [client.get(page).status_code for page in (look(practice), end(practice))] == [404, 404]
        assert client.post(look(practice), {"said": "leave"}).status_code == 404
    assert not PracticeTurn.objects.answered().exists()


def test_it_asks_for_sign_in_and_for_the_right_verb(client, signed_in, participant, practice) -> None:
    for page in (START, look(practice), end(practice)):
        assert client.get(page).status_code == 302
    assert client.post(BEGIN).status_code == 302
    assert PracticeRound.objects.count() == 1
    assert signed_in(participant).get(BEGIN).status_code == 405
    assert signed_in(participant).post(START).status_code == 405


def test_without_pictures_the_page_says_what_is_lacking(signed_in, participant, standard) -> None:
    client = signed_in(participant)
    assert "There is nothing to look at yet" in main_of(client.get(START))
    answer = client.post(BEGIN, {"standard": standard.key}, follow=True)
    assert "no teaching pictures of both plants" in answer.content.decode()


def test_without_a_standard_there_are_no_pairs_yet(signed_in, participant) -> None:
    assert "There are no pairs yet" in main_of(signed_in(participant).get(START))


def test_pairs_can_be_named_in_the_address(signed_in, participant, pair, standard, teaching) -> None:
    client = signed_in(participant)
    other = another_pair("hedge leaf")
    page = main_of(client.get(f"{START}?pair={other.key}&pair=unheard-of"))
    assert "Good hedge leaf · bad hedge leaf" in page
    assert "Goodleaf" not in page
    assert "Other pairs are mixed in" in page
    client.post(BEGIN, {"pair": [other.key]})
    assert set(PracticeTurn.objects.values_list("pair", flat=True)) == {other.pk, pair.pk}


def test_a_pair_that_does_not_exist_is_said_to_be_none(signed_in, participant, pair, teaching) -> None:
    answer = signed_in(participant).get(f"{START}?pair=unheard-of")
    assert "There is no pair of that name" in answer.content.decode()
    assert "Goodleaf" in main_of(answer)
    assert signed_in(participant).get(f"{START}?standard=unheard-of").status_code == 404


def test_what_was_broken_off_can_be_gone_on_with(signed_in, participant, practice) -> None:
    client = signed_in(participant)
    client.post(look(practice), {"said": "leave"})
    assert look(practice, 2) in main_of(client.get(START))
    assert "3 looks are left" in main_of(client.get(end(practice)))


def test_somebody_who_stops_before_the_first_look_is_told_that_nothing_changed(
    signed_in, participant, practice
) -> None:
    assert "nothing has changed" in main_of(signed_in(participant).get(end(practice)))


def test_a_picture_that_became_one_of_a_test_is_never_shown_again(signed_in, participant, pair, practice) -> None:
    client = signed_in(participant)
    turn = turn_of(practice, pair, dangerous=True)
    said_of(client, turn, "leave")
    pair.mistaken.specimens.update(use=Use.ASSESSMENT.value)
    answer = client.get(look(practice, turn.position), follow=True)
    assert "One picture has left practice meanwhile" in answer.content.decode()
    assert turn.photo.key not in answer.content.decode()


def test_a_round_all_of_whose_pictures_left_ends(signed_in, participant, pair, practice) -> None:
    pair.mistaken.specimens.update(settlement=Settlement.DISPUTED.value)
    pair.gathered.specimens.update(settlement=Settlement.DISPUTED.value)
    answer = signed_in(participant).post(look(practice), {"said": "leave"})
    assert answer["Location"] == end(practice)


def test_a_deleted_picture_leaves_no_hole(signed_in, participant, practice) -> None:
    client, second = signed_in(participant), practice.turns.all()[1]
    client.post(look(practice), {"said": "leave"})
    second.delete()
    assert look(practice, 3) in main_of(client.get(look(practice)))
    assert client.get(look(practice, 2))["Location"] == look(practice, 3)
    assert client.get(look(practice, 99)).status_code == 302


def test_every_page_asks_as_often_for_many_as_for_few(signed_in, participant, pair, standard, practice) -> None:
    client = signed_in(participant)
    client.post(look(practice), {"said": "leave"})
    for each in (START, look(practice), look(practice, 2), end(practice)):
        client.get(each)
    pages = (START, look(practice), look(practice, 2), end(practice), f"{START}?pair={pair.key}")
    few = [queries_of(client, page) for page in pages]
    hang_teaching_pictures(pair, 6)
    more = [another_pair(f"number {n}", pictures=3) for n in range(4)]
    for turn in begin_round(participant.user, more, timezone.now(), 1).turns.all():
        client.post(look(turn.round, turn.position), {"said": "leave"})
    pages = (*pages[:-1], START + "?" + "&".join(f"pair={each.key}" for each in (pair, *more)))
    assert [queries_of(client, page) for page in pages] == few


def test_what_was_practised_can_be_forgotten_by_whoever_it_is(signed_in, participant, stranger, pair, practice) -> None:
    hers = begin_round(stranger.user, [pair], timezone.now(), seed=3)
    for person, mine in ((stranger, hers), (participant, practice)):
        signed_in(person).post(look(mine), {"said": "leave"})
    client = signed_in(participant)
    assert "Begin afresh" in main_of(client.get(START))
    answer = client.post(FORGET, follow=True)
    assert "is forgotten" in answer.content.decode()
    assert "Not met yet" in main_of(answer)
    assert list(PracticeRound.objects.all()) == [hers]
    assert PracticeState.objects.get().person == stranger.user


def test_pages_where_somebody_learns_what_they_lack_lead_to_practice(signed_in, participant, pair, standard) -> None:
    client = signed_in(participant)
    for page in (reverse("species:pair", args=[pair.key]), reverse("assessments:my_standing")):
        assert f"{START}?pair={pair.key}" in client.get(page).content.decode()
    assert START in client.get(reverse("assessments:papers")).content.decode()


def test_the_standing_of_somebody_else_does_not(signed_in, tutor, participant, standard, course) -> None:
    page = reverse("assessments:standing_of", args=[participant.user.pk, standard.key])
    assert "Practise" not in main_of(signed_in(tutor).get(page))


def test_feedback_leads_to_the_pairs_that_were_not_told(signed_in, participant, paper, sitting, pair) -> None:
    client = signed_in(participant)
    client.get(reverse("assessments:question", args=[paper.key, 1]))  # looked at, and left open
    for name in ("hand_in", "show_now"):
        client.post(reverse(f"assessments:{name}", args=[paper.key]))
    assert f"{START}?pair={pair.key}" in client.get(reverse("assessments:feedback", args=[paper.key])).content.decode()
