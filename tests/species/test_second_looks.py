"""A second look at a plant with a settled name: asked for once, given by somebody else, changing nothing by itself."""

from datetime import date

import pytest
from django.urls import reverse
from django.utils import timezone

from species.actions.determinations import determine
from species.actions.second_looks import NothingToLookAt, NotInTheBank, ask_second_look
from species.models import SecondLook, Specimen
from species.rules.vocabulary import Settlement
from tests.factories.people import make_person
from tests.factories.species import SpecimenFactory, give_picture, make_species

WHY = "Those who did best agree on another plant."


@pytest.fixture
def hemlock(school):
    return make_species("hemlock", deadly=True)


@pytest.fixture
def specimen(hemlock, tutor, assessor):
    """Confirmed by the assessor and somebody else."""
    made = SpecimenFactory(species=hemlock)
    give_picture(made)
    for person in (assessor, make_person("Una Other", "assessor")):
        determine(made, said=hemlock.name, species=hemlock, by=person.user, now=timezone.now())
    return made


def ask(specimen, person):
    return ask_second_look(specimen, by=person.user, why=WHY, now=timezone.now())


def waiting_for(person):
    return list(Specimen.objects.waiting_for_determination_by(person.user_id))


def test_a_confirmed_plant_waits_again_for_everybody_but_whoever_asked(specimen, tutor, assessor, organiser) -> None:
    assert waiting_for(organiser) == []
    ask(specimen, tutor)
    assert waiting_for(organiser) == waiting_for(assessor) == [specimen]
    assert waiting_for(tutor) == []


def test_asking_twice_is_asking_once(specimen, tutor, organiser) -> None:
    first, made = ask(specimen, tutor)
    again, made_again = ask(specimen, organiser)
    assert (made, made_again, again) == (True, False, first)


def test_the_name_stays_until_somebody_disagrees(specimen, tutor, organiser, hemlock) -> None:
    ask(specimen, tutor)
    specimen.refresh_from_db()
    assert (specimen.settlement, specimen.species) == (Settlement.CONFIRMED, hemlock)
    other = make_species("cow parsley")
    determine(specimen, said=other.name, species=other, by=organiser.user, now=timezone.now())
    assert specimen.settlement == Settlement.DISPUTED


def test_a_look_that_agrees_answers_it(specimen, tutor, organiser, hemlock) -> None:
    ask(specimen, tutor)
    made = determine(specimen, said=hemlock.name, species=hemlock, by=organiser.user, now=timezone.now())
    assert SecondLook.objects.get().answer == made
    assert waiting_for(organiser) == waiting_for(make_person("Third", "assessor")) == []
    assert ask(specimen, organiser)[1], "it can be asked for again"


def test_what_an_archive_brings_along_is_no_look(specimen, tutor, organiser, hemlock) -> None:
    ask(specimen, tutor)
    args = {"said": hemlock.name, "species": hemlock, "now": timezone.now(), "brought_by": tutor.user}
    determine(specimen, by=organiser.user, **args)
    assert SecondLook.objects.waiting().count() == 1


def test_a_plant_that_was_taken_out_is_not_asked_about(specimen, tutor) -> None:
    Specimen.objects.filter(pk=specimen.pk).update(retired_on=date(2026, 1, 1))
    with pytest.raises(NotInTheBank):
        ask(specimen, tutor)
    assert not SecondLook.objects.exists()


def test_a_plant_without_a_picture_is_not_asked_about(specimen, tutor) -> None:
    specimen.photos.all().delete()
    with pytest.raises(NothingToLookAt):
        ask(specimen, tutor)


def test_it_is_shown_to_be_named_without_a_word_of_name_or_reason(signed_in, specimen, tutor, organiser) -> None:
    ask(specimen, tutor)
    page = signed_in(organiser).get(reverse("species:to_name")).content.decode()
    assert specimen.key in page
    assert WHY not in page


def test_the_page_of_the_plant_says_who_asked_and_why(signed_in, specimen, tutor, organiser) -> None:
    ask(specimen, tutor)
    url = reverse("species:specimen", args=[specimen.key])
    page = signed_in(tutor).get(url).content.decode()
    assert "Tilda Tutor asked for a second look" in page
    assert "It waits for somebody else" in page
    determine(specimen, said="?", by=organiser.user, now=timezone.now())
    assert "It was given." in signed_in(tutor).get(url).content.decode()
