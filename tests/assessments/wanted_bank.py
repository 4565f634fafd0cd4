"""What tests of the wanted list share: a bank to fill, and when its plants show."""

from datetime import date

from assessments.queries.wanted import Wish, wanted_page
from species.models import Showing
from tests.factories.species import SpecimenFactory, give_picture

APRIL = date(2031, 4, 12)


def rosettes_in_april(pair):
    """Rosettes show in April and May, flowers in June."""
    for species in (pair.gathered, pair.mistaken):
        Showing.objects.create(species=species, stage="rosette", months=[4, 5])
        Showing.objects.create(species=species, stage="flower", months=[6])


def add(species, number=1, **facts):
    """Specimens with a picture each."""
    return [give_picture(SpecimenFactory(species=species, **facts)).specimen for _each in range(number)]


def asked(standard, papers=1, questions=5, **more):
    """The wanted list of a day in April."""
    return wanted_page(Wish(standard, papers, questions, **more), APRIL)
