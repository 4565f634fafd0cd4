"""Photographs to look at again: with eight answers and not with seven, and one press has one named again."""

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.models import Evidence, Seen
from courses.queries.course_items import items_page
from species.actions.determinations import determine
from species.models import SecondLook, Specimen
from tests.assessments.evidence import PaperTrail
from tests.courses.cohorts import make_pair_of, sit_class
from tests.factories.people import make_person
from tests.factories.species import SpecimenFactory, give_picture


@pytest.fixture
def pair(course):
    return make_pair_of(course)


@pytest.fixture
def specimen(pair):
    """A goodleaf that two people named."""
    made = SpecimenFactory(species=pair.gathered)
    give_picture(made)
    for name in ("First Namer", "Second Namer"):
        by = make_person(name, "assessor").user
        determine(made, said=pair.gathered.name, species=pair.gathered, by=by, now=timezone.now())
    return made


def doubt(course, tutor, pair, specimen, people: int) -> None:
    """Everybody knows another plant; all but two call this one by another name."""
    for number, trail in enumerate(sit_class(course, tutor, people)):
        trail.answer(pair.mistaken, "refuse" if number > 1 else "leave")
        trail.answer(pair.gathered, "gather", specimen=specimen, named=pair.mistaken if number > 1 else None)


def url(course, name="items", *args) -> str:
    return reverse(f"courses:{name}", args=[course.key, *args])


def press(client, course, specimen) -> str:
    answer = client.post(url(course, "item_again", specimen.key), follow=True)
    assert answer.redirect_chain == [(url(course), 302)]
    return answer.content.decode()


def test_eight_answers_raise_doubt_with_the_picture_and_the_reasons(signed_in, tutor, course, pair, specimen) -> None:
    doubt(course, tutor, pair, specimen, 8)
    page = signed_in(tutor).get(url(course)).content.decode()
    assert "call it the same other plant" in page
    assert specimen.photos.get().key in page
    assert "2 of 8 named it rightly; of a hundred like them it would be 3 to 66." in page
    assert "Badleaf: 6 (" in page


def test_seven_are_too_few_to_say(signed_in, tutor, course, pair, specimen) -> None:
    doubt(course, tutor, pair, specimen, 7)
    page = signed_in(tutor).get(url(course)).content.decode()
    assert "Too few to say: nothing was answered by 8 people" in page
    assert "2 of 7" in page
    assert "too few to say" in page


def test_a_tutor_who_named_it_otherwise_is_reason_enough(signed_in, tutor, course, pair, specimen) -> None:
    doubt(course, tutor, pair, specimen, 2)
    PaperTrail(tutor.user, course.standard, tutor.user, 30).answer(
        pair.gathered, "refuse", specimen=specimen, named=pair.mistaken
    )
    page = signed_in(tutor).get(url(course)).content.decode()
    assert "A tutor of this course called it another plant." in page


def test_one_press_puts_it_into_the_queue_and_changes_no_mark(
    signed_in, tutor, organiser, course, pair, specimen
) -> None:
    doubt(course, tutor, pair, specimen, 8)
    before = list(Evidence.objects.values())
    page = press(signed_in(tutor), course, specimen)
    assert "It waits to be named by somebody else" in page
    assert "A second look was asked for on" in page
    assert list(Specimen.objects.waiting_for_determination_by(organiser.user_id)) == [specimen]
    specimen.refresh_from_db()
    assert (specimen.settlement, specimen.species) == ("confirmed", pair.gathered)
    assert list(Evidence.objects.values()) == before
    assert "call it the same other plant" in SecondLook.objects.get().why


def test_a_second_press_asks_nothing_more(signed_in, tutor, course, pair, specimen) -> None:
    doubt(course, tutor, pair, specimen, 8)
    press(signed_in(tutor), course, specimen)
    assert "It was asked for already" in press(signed_in(tutor), course, specimen)
    assert SecondLook.objects.count() == 1


def test_what_nothing_speaks_against_is_not_asked_about(signed_in, tutor, course, pair, specimen) -> None:
    doubt(course, tutor, pair, specimen, 7)
    assert "Nothing speaks against that photograph any more" in press(signed_in(tutor), course, specimen)
    assert "any more" in press(signed_in(tutor), course, SpecimenFactory(key="no-such-one"))
    assert not SecondLook.objects.exists()


def test_what_was_taken_out_of_the_bank_is_not_asked_about(signed_in, tutor, course, pair, specimen) -> None:
    doubt(course, tutor, pair, specimen, 8)
    Specimen.objects.filter(pk=specimen.pk).update(retired_on=timezone.localdate())
    assert "was taken out of the bank" in press(signed_in(tutor), course, specimen)


def test_a_plant_without_a_photograph_cannot_be_named_from_one(signed_in, tutor, course, pair, specimen) -> None:
    doubt(course, tutor, pair, specimen, 8)
    specimen.photos.all().delete()
    page = signed_in(tutor).get(url(course)).content.decode()
    assert "It has no photograph from which somebody could name it again." in page
    assert "Have it named again" not in page
    assert "has no photograph: add one" in press(signed_in(tutor), course, specimen)


def test_what_one_person_answered_stands_in_the_file_alone(signed_in, tutor, course, pair, specimen) -> None:
    doubt(course, tutor, pair, specimen, 5)
    client = signed_in(tutor)
    page = client.get(url(course)).content.decode()
    assert page.count('<th scope="row">') == 1
    assert "5 specimens that fewer than four people answered stand in the table alone." in page
    assert len(client.get(url(course, "items_csv")).content.splitlines()) == 7


@pytest.mark.parametrize(("who", "status"), [("participant", 403), ("stranger", 403), ("assessor", 403)])
def test_nobody_else_can_ask(client, signed_in, request, tutor, course, pair, specimen, who, status) -> None:
    doubt(course, tutor, pair, specimen, 8)
    address = url(course, "item_again", specimen.key)
    assert client.post(address).status_code == 302
    assert signed_in(request.getfixturevalue(who)).post(address).status_code == status
    assert signed_in(make_person("Other Tutor", "tutor")).post(address).status_code == 404
    assert signed_in(tutor).get(address).status_code == 405
    assert not SecondLook.objects.exists()


def test_whoever_saw_the_picture_with_its_name_is_never_set_it(signed_in, tutor, course, pair, specimen) -> None:
    doubt(course, tutor, pair, specimen, 8)
    signed_in(tutor).get(url(course))
    assert Seen.objects.filter(person=tutor.user, specimen=specimen, why=Seen.PREVIEW).exists()


def test_a_disputed_plant_drops_out_by_itself(tutor, organiser, course, pair, specimen) -> None:
    doubt(course, tutor, pair, specimen, 8)
    assert [item.line.specimen for item in items_page(course).to_look_at] == [specimen.key]
    other = pair.mistaken
    determine(specimen, said=other.name, species=other, by=organiser.user, now=timezone.now())
    assert items_page(course).to_look_at == ()


def test_words_that_mean_no_plant_stand_as_they_were_typed_and_safe_in_the_file(
    signed_in, tutor, course, pair, specimen
) -> None:
    for trail in sit_class(course, tutor, 2):
        trail.answer(pair.gathered, "refuse", specimen=specimen, words="=Dragon wort")
    (item,) = items_page(course).items
    assert [(said.words, said.total) for said in item.said] == [("=Dragon wort", 2)]
    table = signed_in(tutor).get(url(course, "items_csv")).content.decode("utf-8-sig")
    assert ",'=Dragon wort 2," in table
    assert table.splitlines()[1].startswith(("'", specimen.key))
