"""What stood in a school before a rule grew stricter follows it."""

from importlib import import_module

import pytest
from django.apps import apps
from django.utils import timezone

from species.actions.determinations import determine
from species.actions.outsiders import invite_outsider
from species.models import Specimen
from species.rules.vocabulary import Settlement
from tests.factories.species import SpecimenFactory

pytestmark = pytest.mark.django_db


def test_what_outsiders_alone_had_confirmed_waits_for_the_school(organiser, tutor):
    of_outsiders, of_school = SpecimenFactory(), SpecimenFactory()
    of_outsiders.determinations.all().delete()
    of_school.determinations.all().delete()
    link = invite_outsider("Out", "out@example.org", [of_outsiders], organiser.user, timezone.now(), "https://x/{key}")
    for specimen, who in ((of_outsiders, {"link": link}), (of_school, {"by": tutor.user})):
        determine(specimen, said="Conium maculatum", now=timezone.now(), **who)
    Specimen.objects.update(settlement=Settlement.CONFIRMED)
    import_module("species.migrations.0006_outsiders_alone_confirm_nothing").await_the_school(apps, None)
    found = dict(Specimen.objects.values_list("pk", "settlement"))
    assert found == {of_outsiders.pk: Settlement.SINGLE, of_school.pk: Settlement.CONFIRMED}
