"""The bank: what it holds, one specimen, and the steps with it."""

from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from species.actions.determinations import determine
from species.models import Specimen
from species.rules.vocabulary import Settlement, Use
from tests.factories.assessments import make_live_evidence
from tests.factories.species import SpecimenFactory, give_picture, make_species

BANK = reverse("species:bank")


def make_specimen(use: Use = Use.ASSESSMENT, *, named: bool = True, **fields: object) -> Specimen:
    """A specimen with a picture, confirmed unless it is to have no name."""
    if not named:
        fields = {"species": None, "settlement": Settlement.UNDETERMINED.value, **fields}
    made = SpecimenFactory(use=use.value, **fields)
    give_picture(made)
    return Specimen.objects.get(pk=made.pk)


def step(specimen: Specimen, name: str) -> str:
    return reverse(f"species:specimen_{name}", args=[specimen.key])


def test_the_bank_shows_how_much_of_what_by_stage_and_use(signed_in, tutor):
    plant = make_species("badleaf", deadly=True)
    for use, stage in ((Use.TEACHING, "flower"), (Use.ASSESSMENT, "flower"), (Use.ASSESSMENT, "flower")):
        make_specimen(use, species=plant, stage=stage)
    response = signed_in(tutor).get(BANK)
    row = next(each for each in response.context["counts"] if each.key == plant.key)
    assert [(each.teaching, each.assessment) for each in row.stages] == [(0, 0)] * 3 + [(1, 2)] + [(0, 0)] * 2
    assert "1 / 2" in response.content.decode()


def test_a_name_that_only_one_has_given_does_not_test_anybody(signed_in, tutor):
    plant = make_species("badleaf")
    make_specimen(species=plant, settlement=Settlement.SINGLE.value)
    row = signed_in(tutor).get(BANK).context["counts"][0]
    assert (sum(each.assessment for each in row.stages), row.waiting) == (0, 1)


@pytest.mark.parametrize("query", [{"use": "teaching"}, {"stage": "fruit"}, {"settlement": "single"}])
def test_the_list_can_be_narrowed_down(signed_in, tutor, query):
    wanted = make_specimen(Use.TEACHING, stage="fruit", settlement=Settlement.SINGLE.value)
    other = make_specimen(Use.ASSESSMENT, stage="rosette")
    shown = signed_in(tutor).get(BANK, query).content.decode()
    assert wanted.key in shown
    assert other.key not in shown


def test_words_that_are_no_such_value_find_nothing_and_say_so(signed_in, tutor):
    make_specimen()
    assert "No such specimen" in signed_in(tutor).get(BANK, {"stage": "'; drop"}).content.decode()
    assert signed_in(tutor).get(BANK, {"page": "x"}).status_code == 200


def test_the_bank_asks_the_database_as_often_however_much_there_is(signed_in, tutor):
    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            assert client.get(BANK).status_code == 200
        return len(queries)

    client = signed_in(tutor)
    make_specimen()
    asked()
    few = asked()
    for _each in range(6):
        make_specimen()
    assert asked() == few


def test_the_bank_is_for_its_keepers(client, signed_in, participant, assessor):
    specimen = make_specimen()
    page = reverse("species:specimen", args=[specimen.key])
    for address in (BANK, page):
        assert client.get(address).status_code == 302
        assert signed_in(participant).get(address).status_code == 403
        assert signed_in(assessor).get(address).status_code == 200
        client.logout()


def test_the_page_of_a_specimen_says_who_said_what(signed_in, tutor, assessor):
    specimen = make_specimen(named=False)
    determine(specimen, said="?", by=assessor.user, now=timezone.now())
    shown = signed_in(tutor).get(reverse("species:specimen", args=[specimen.key])).content.decode()
    assert "cannot tell" in shown
    assert signed_in(tutor).get(reverse("species:specimen", args=["unknown"])).status_code == 404


def test_stage_and_day_can_be_corrected(signed_in, tutor):
    specimen = make_specimen()
    signed_in(tutor).post(step(specimen, "mend"), {"stage": "fruit", "seen_on": "2026-03-01", "form": "pale"})
    specimen.refresh_from_db()
    assert (specimen.stage, specimen.seen_on, specimen.form) == ("fruit", date(2026, 3, 1), "pale")


def test_a_correction_that_cannot_be_is_refused_in_words(signed_in, tutor):
    specimen = make_specimen()
    response = signed_in(tutor).post(step(specimen, "mend"), {"stage": "", "seen_on": "2999-03-01"})
    assert response.status_code == 422
    assert "This day lies ahead" in response.content.decode()


def test_an_assessment_specimen_can_be_taught_from_once_and_for_all(signed_in, tutor):
    specimen = make_specimen(named=False)
    client = signed_in(tutor)
    client.post(step(specimen, "use"))
    specimen.refresh_from_db()
    assert specimen.use == Use.TEACHING
    determine(specimen, said="x y", species=make_species("badleaf"), by=tutor.user, now=timezone.now())
    shown = client.post(step(specimen, "use"), follow=True).content.decode()
    assert "photograph another plant" in shown
    specimen.refresh_from_db()
    assert specimen.use == Use.TEACHING


def test_a_specimen_without_stage_tests_nobody(signed_in, tutor):
    specimen = make_specimen(Use.TEACHING, named=False, stage="")
    assert "Say first in which stage" in signed_in(tutor).post(step(specimen, "use"), follow=True).content.decode()


@pytest.mark.parametrize("name", ["use", "mend"])
def test_what_somebody_was_asked_about_stays_as_it_is(signed_in, tutor, participant, name):
    specimen = make_specimen()
    make_live_evidence(participant.user, specimen, "refuse", by=tutor.user)
    shown = signed_in(tutor).post(step(specimen, name), {"stage": "fruit", "seen_on": "2026-03-01"}, follow=True)
    assert "Somebody has been asked about this specimen" in shown.content.decode()
    again = Specimen.objects.get(pk=specimen.pk)
    assert (again.use, again.stage) == (specimen.use, specimen.stage)


def test_a_specimen_is_taken_out_with_a_reason_and_only_once(signed_in, tutor):
    specimen = make_specimen()
    client = signed_in(tutor)
    assert client.post(step(specimen, "retire"), {"why": ""}).status_code == 422
    client.post(step(specimen, "retire"), {"why": "blurred"})
    shown = client.post(step(specimen, "retire"), {"why": "again"}, follow=True).content.decode()
    assert "taken out of the bank already" in shown
    specimen.refresh_from_db()
    assert (specimen.retired_on, specimen.retired_why) == (timezone.localdate(), "blurred")
    assert specimen.key not in client.get(BANK).content.decode()


@pytest.mark.parametrize("name", ["use", "mend", "retire"])
def test_steps_are_for_those_who_may_add_and_never_by_a_link(client, signed_in, tutor, assessor, participant, name):
    specimen = make_specimen()
    address = step(specimen, name)
    assert client.post(address).status_code == 302
    for person in (assessor, participant):
        assert signed_in(person).post(address, {"why": "x"}).status_code == 403
    assert signed_in(tutor).get(address).status_code == 405
    specimen.refresh_from_db()
    assert (specimen.use, specimen.retired_on) == (Use.ASSESSMENT, None)
