"""What only people outside the school have named is asked in no test, however many of them agree."""

import pytest
from django.utils import timezone

from assessments.queries.bank import usable_specimens
from species.actions.determinations import determine
from species.actions.outsiders import invite_outsider
from species.models import Specimen
from tests.factories.species import SpecimenFactory, give_picture

pytestmark = pytest.mark.django_db


@pytest.fixture
def outside(pair) -> Specimen:
    """A find for tests, with a picture, that nobody has named."""
    specimen = SpecimenFactory(species=pair.mistaken)
    give_picture(specimen)
    specimen.determinations.all().delete()
    return specimen


def named_by(specimen, pair, **who) -> None:
    plant = pair.mistaken
    determine(specimen, said=plant.name, species=plant, now=timezone.now(), **who)


def invited(specimen, email, organiser):
    return invite_outsider("Out", email, [specimen], organiser.user, timezone.now(), "https://x/{key}")


def test_two_who_were_asked_from_outside_do_not_make_it_usable_and_one_of_the_school_does(
    outside, pair, organiser, tutor
):
    for email in ("out@example.org", "off@example.org"):
        named_by(outside, pair, link=invited(outside, email, organiser))
    assert not usable_specimens().filter(pk=outside.pk).exists()
    named_by(outside, pair, by=tutor.user)
    assert usable_specimens().filter(pk=outside.pk).exists()


def test_what_an_archive_says_that_two_of_the_school_said_does_not_make_it_usable(
    outside, pair, organiser, tutor, assessor
):
    for person in (tutor, assessor):
        named_by(outside, pair, by=person.user, brought_by=organiser.user)
    assert not usable_specimens().filter(pk=outside.pk).exists()
    named_by(outside, pair, by=assessor.user)
    assert usable_specimens().filter(pk=outside.pk).exists()


def test_one_of_the_school_and_one_from_outside_are_two(outside, pair, organiser, tutor):
    named_by(outside, pair, by=tutor.user)
    named_by(outside, pair, link=invited(outside, "out@example.org", organiser))
    assert usable_specimens().filter(pk=outside.pk).exists()
