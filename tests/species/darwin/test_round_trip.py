"""Out, into an empty database, and out again: the same rows."""

from io import StringIO

import pytest
from django.contrib.auth.models import User
from django.core.management import call_command
from django.utils import timezone

from species.actions.determinations import determine
from species.models import Determination, DeterminerLink, Locality, Module, Pair, Photo, Species, Specimen
from species.queries.archive_sentences import sentence_on
from species.rules.vocabulary import Settlement
from tests.species.darwin.archives import (
    brought,
    empty_bank,
    full_plant,
    named,
    photographed,
    plant,
    rows_of,
    species_archive,
    specimen,
    specimen_archive,
    user,
    with_region,
    with_text,
)

pytestmark = pytest.mark.django_db
ENCODED_ANEW = "hashValue"
"""A picture is encoded anew on its way in, so its bytes differ; everything that is said of it stays."""


def same_rows(first: bytes, second: bytes, file: str) -> None:
    def lines(content: bytes) -> list[list[tuple[str, str]]]:
        return sorted(sorted((k, v) for k, v in row.items() if k != ENCODED_ANEW) for row in rows_of(content, file))

    assert lines(first) == lines(second)
    assert lines(first), f"{file} has no rows to compare"


def test_dw_7_species_come_back_as_they_went():
    full_plant()
    plant("mentha-piperita", "Mentha × piperita", place_is_blurred=True)
    plant("daucus-carota-sativus", "Daucus carota subsp. sativus", author="(Hoffm.) Schübl. & G.Martens")
    first = species_archive()
    empty_bank()
    answer = brought(first, user("a@example.org"))
    assert [answer.problems, answer.remarks, answer.aside, answer.added] == [(), (), (), 3]
    for file in ("taxon.csv", "vernacularname.csv", "description.csv"):
        same_rows(first, species_archive(), file)


def test_dw_7_the_plants_that_come_with_the_program_come_back_as_they_went():
    call_command("load_flora", stdout=StringIO())
    number = Species.objects.count()
    first = species_archive()
    Module.objects.all().delete()
    Pair.objects.all().delete()
    Species.objects.all().delete()
    answer = brought(first, user("a@example.org"))
    assert [answer.problems, answer.remarks, answer.aside, answer.added] == [(), (), (), number]
    for file in ("taxon.csv", "vernacularname.csv", "description.csv"):
        same_rows(first, species_archive(), file)


@pytest.fixture
def two_archives() -> tuple[bytes, bytes]:
    """A school with a little of everything, its archives of species and of specimens, and an empty bank."""
    first, second = user("a@example.org", "Ann One"), user("b@example.org", "Bea Two")
    sorrel, lily = full_plant(), plant("convallaria-majalis", "Convallaria majalis", place_is_blurred=True)
    row = specimen(sorrel, form='odd, "red"\nveins', stage="flower")
    named(row, sorrel, first, "cf. Rumex acetosa", 1)
    named(row, sorrel, first, "Rumex acetosa", 2)
    named(row, sorrel, second, day=3)
    photo = photographed(row, 1)
    Photo.objects.filter(pk=photo.pk).update(caption='a "leaf" | two', alt_blind="A leaf", alt_full="Sorrel")
    with_region(photo)
    at_risk = specimen(lily)
    named(at_risk, lily, first)
    photographed(at_risk, 2, part="rhizome", licence="CC0", rights_holder="Bea Two")
    again = Specimen.objects.create(
        individual=row.individual, seen_on="2026-05-05", stage="fruit", use="teaching", added_at=row.added_at
    )
    named(again, sorrel, first)
    named(again, lily, second)
    photographed(again, 3)
    archives = species_archive(), specimen_archive(with_pictures=True)
    empty_bank()
    return archives


def test_dw_7_specimens_come_back_with_determinations_stages_parts_licences_and_blurred_places(two_archives):
    species, specimens = two_archives
    by = user("c@example.org")
    brought(species, by)
    answer = brought(specimens, by, is_own=True)
    assert [answer.problems, answer.remarks, answer.aside] == [(), (), ()]
    assert (answer.added, answer.pictures) == (3, 3)
    second = specimen_archive(with_pictures=True)
    for file in ("occurrence.csv", "identification.csv", "multimedia.csv", "region.csv"):
        same_rows(specimens, second, file)
    assert len(rows_of(specimens, "identification.csv")) == 6


def test_an_archive_brought_in_twice_adds_nothing_the_second_time(two_archives):
    species, specimens = two_archives
    by = user("c@example.org")
    for content in two_archives:
        brought(content, by)
    again = [brought(species, by), brought(specimens, by)]
    assert [(each.added, each.unchanged, each.problems) for each in again] == [(0, 2, ()), (0, 3, ())]
    assert (Specimen.objects.count(), Photo.objects.count()) == (3, 3)


def test_a_specimen_that_is_there_stays_and_what_the_archive_says_beyond_is_remarked(two_archives):
    species, specimens = two_archives
    by = user("c@example.org")
    brought(species, by)
    brought(specimens, by)
    more = with_text(with_text(specimens, "identification.csv", "cf. Rumex", "aff. Rumex"), "occurrence.csv",
                     "2026-05-05", "2026-05-06")  # fmt: skip
    answer = brought(more, by)
    assert (answer.added, answer.unchanged, answer.problems) == (0, 3, ())
    said = " ".join(sentence_on(each) for each in answer.remarks)
    assert "the archive says otherwise in identification.csv." in said
    assert "the archive says otherwise in occurrence.csv." in said
    assert Determination.objects.count() == 6


def test_a_person_of_the_school_is_found_again_and_an_outsider_stays_one_person(two_archives):
    User.objects.get(email="b@example.org").delete()
    for content in two_archives:
        brought(content, user(f"{len(content)}@example.org"))
    speakers = {(each.determiner, each.link) for each in Determination.objects.all()}
    link = DeterminerLink.objects.get()
    assert link.withdrawn_on is not None
    assert speakers == {(User.objects.get(email="a@example.org"), None), (None, link)}


def test_settlements_follow_from_the_determinations_that_came_along(two_archives):
    for content in two_archives:
        brought(content, user(f"{len(content)}@example.org"), is_own=True)
    found = {row.stage: row.settlement for row in Specimen.objects.all()}
    assert found == {"flower": Settlement.CONFIRMED, "leafy": Settlement.SINGLE, "fruit": Settlement.DISPUTED}


def test_an_archive_of_others_confirms_nothing_though_it_names_people_of_the_school(two_archives):
    for content in two_archives:
        brought(content, user(f"{len(content)}@example.org"))
    flower = Specimen.objects.get(stage="flower")
    ann = User.objects.get(email="a@example.org")
    assert (flower.settlement, flower.determinations.count()) == (Settlement.SINGLE, 3)
    assert flower in Specimen.objects.waiting_for_determination_by(ann.pk)
    determine(flower, said=flower.species.name, species=flower.species, by=ann, now=timezone.now())
    assert flower.settlement == Settlement.CONFIRMED
    assert flower not in Specimen.objects.waiting_for_determination_by(user("e@example.org").pk)


def test_nobody_is_two_people_because_an_archive_named_them_too(two_archives):
    for content in two_archives:
        brought(content, user(f"{len(content)}@example.org"))
    leafy, ann = Specimen.objects.get(stage="leafy"), User.objects.get(email="a@example.org")
    determine(leafy, said=leafy.species.name, species=leafy.species, by=ann, now=timezone.now())
    assert leafy.settlement == Settlement.SINGLE


def test_what_two_strangers_agree_on_waits_for_somebody_of_the_school():
    sorrel = full_plant()
    row = specimen(sorrel)
    for email in ("a@example.org", "b@example.org"):
        named(row, sorrel, user(email))
    content = specimen_archive(by=user("c@example.org"), confirmed=True, is_own=True, with_assessment=True)
    species = species_archive()
    empty_bank()
    User.objects.filter(email__in=["a@example.org", "b@example.org"]).delete()
    of_school = user("d@example.org")
    brought(species, of_school)
    brought(content, of_school)
    back = Specimen.objects.get()
    assert (back.settlement, back.determinations.count()) == (Settlement.SINGLE, 2)
    determine(back, said=sorrel.name, species=Species.objects.get(key=sorrel.key), by=of_school, now=timezone.now())
    assert back.settlement == Settlement.CONFIRMED


def test_two_finds_of_one_plant_stay_one_plant(two_archives):
    for content in two_archives:
        brought(content, user(f"{len(content)}@example.org"))
    assert len(set(Specimen.objects.values_list("individual", flat=True))) == 2


def test_the_own_archive_brings_exact_places_back():
    sorrel = full_plant()
    row = specimen(sorrel, use="assessment", note="seen from the road")
    named(row, sorrel, user("a@example.org"))
    by = user("c@example.org")
    content = specimen_archive(by=by, confirmed=True, is_own=True, with_assessment=True)
    species = species_archive()
    empty_bank()
    brought(species, by)
    brought(content, by, is_own=True)
    back, place = Specimen.objects.get(), Locality.objects.get()
    assert (back.use, back.note, str(place.latitude), str(place.longitude)) == (
        "assessment", "seen from the road", "54.51234", "-2.34567",
    )  # fmt: skip
