"""The page from which archives are taken."""

import pytest
from django.urls import reverse

from species.models import ArchiveRun
from species.queries.archive_people import person_id
from tests.species.darwin.archives import files_of, full_plant, named, photographed, rows_of, specimen

PAGE = reverse("species:archives")
OWN = {"kind": "own", "publisher": "Hedge School"}


@pytest.fixture
def bank(school, assessor):
    sorrel = full_plant()
    for use, seed in (("teaching", 1), ("assessment", 2)):
        row = specimen(sorrel, use=use)
        named(row, sorrel, assessor.user)
        photographed(row, seed)


def taken(response) -> bytes:
    assert response.status_code == 200
    assert response["Content-Type"] == "application/zip", response.content.decode()
    return b"".join(response.streaming_content)


def test_who_works_for_the_school_may_open_the_page_and_nobody_else(client, signed_in, bank, tutor, assessor,
                                                                    organiser, participant):  # fmt: skip
    assert client.get(PAGE).status_code == 302
    found = [signed_in(each).get(PAGE).status_code for each in (tutor, assessor, organiser, participant)]
    assert found == [200, 200, 200, 403]
    assert signed_in(participant).post(PAGE, {"kind": "specimens", "publisher": "x"}).status_code == 403
    assert ArchiveRun.objects.count() == 0


def test_a_tutor_takes_species_and_specimens_for_everybody(signed_in, bank, tutor):
    client = signed_in(tutor)
    species = client.post(PAGE, {"kind": "species", "publisher": "Hedge School"})
    assert "taxon.csv" in files_of(taken(species))
    assert species["Content-Disposition"].startswith('attachment; filename="species-')
    assert species["Cache-Control"] == "private, no-store"
    content = taken(client.post(PAGE, {"kind": "specimens", "publisher": "Hedge School", "pictures": "on"}))
    assert len(rows_of(content, "occurrence.csv")) == 1
    assert "Hedge School" in files_of(content)["eml.xml"].decode()
    assert set(ArchiveRun.objects.values_list("by__email", flat=True)) == {tutor.user.email}


def test_only_those_who_agreed_are_named(signed_in, bank, tutor, assessor):
    values = {"kind": "specimens", "publisher": "x", "agreed": [person_id(assessor.user.email)]}
    row = rows_of(taken(signed_in(tutor).post(PAGE, values)), "identification.csv")[0]
    assert row["identifiedBy"]
    wrong = signed_in(tutor).post(PAGE, {**values, "agreed": ["somebody-else"]})
    assert wrong.status_code == 422


def test_a_tutor_cannot_take_what_is_for_the_school_itself(signed_in, bank, tutor):
    response = signed_in(tutor).post(PAGE, {**OWN, "assessment": "on", "sure": "on"})
    assert response.status_code == 422
    assert ArchiveRun.objects.count() == 0


def test_the_organiser_takes_the_own_archive_without_tests(signed_in, bank, organiser):
    content = taken(signed_in(organiser).post(PAGE, OWN))
    assert [row["use"] for row in rows_of(content, "occurrence.csv")] == ["teaching"]


def test_pictures_of_tests_leave_only_after_a_second_yes(signed_in, bank, organiser):
    client = signed_in(organiser)
    first = client.post(PAGE, {**OWN, "assessment": "on"})
    assert "Nothing has left yet: are you sure?" in first.content.decode()
    assert ArchiveRun.objects.count() == 0
    content = taken(client.post(PAGE, {**OWN, "assessment": "on", "sure": "on"}))
    assert sorted(row["use"] for row in rows_of(content, "occurrence.csv")) == ["assessment", "teaching"]
    assert ArchiveRun.objects.get().with_assessment
    assert "Holds what serves for tests" in client.get(PAGE).content.decode()


def test_tests_never_go_into_an_archive_for_others(signed_in, bank, organiser):
    values = {"kind": "specimens", "publisher": "x", "assessment": "on", "sure": "on"}
    response = signed_in(organiser).post(PAGE, values)
    assert response.status_code == 422
    assert "never goes into an archive for others" in response.content.decode()


def test_the_page_works_before_anything_was_named_or_taken(signed_in, school, organiser):
    html = signed_in(organiser).get(PAGE).content.decode()
    assert "No archive yet" in html
    assert "Who agreed to be named" not in html
