"""What an archive for others never says: exact places, names of people who did not agree, pictures of tests."""

import io
from datetime import date
from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from PIL import Image

from species.actions import specimens
from species.actions.exchange.exporting import NotConfirmed
from species.models import ArchiveRun, Individual, Locality, Photo
from species.queries import archive_specimens
from species.queries.archive_people import person_id
from species.queries.archive_specimens import Scope
from tests.species.darwin.archives import (
    NOW,
    files_of,
    full_plant,
    named,
    photographed,
    plant,
    rows_of,
    specimen,
    specimen_archive,
    user,
)

pytestmark = pytest.mark.django_db
DIGITS = (b"54.5123", b"2.3456", b"5123", b"34567")


@pytest.fixture
def rare():
    return plant("convallaria-majalis", "Convallaria majalis", place_is_blurred=True)


@pytest.fixture
def wood() -> Locality:
    return Locality.objects.create(
        name="Secret Wood", habitat="by the third stile", latitude=Decimal("54.51234"), longitude=Decimal("-2.34567"),
        blurred_to_km=0,
    )  # fmt: skip


def everything(content: bytes) -> bytes:
    return b"\n".join(files_of(content).values())


def test_dw_10_no_archive_for_others_holds_the_digits_of_an_at_risk_place(rare, wood):
    row = specimen(rare, place=wood)
    named(row, rare, user("a@example.org"))
    photo = photographed(row)
    Photo.objects.filter(pk=photo.pk).update(latitude=Decimal("54.51234"), longitude=Decimal("-2.34567"))
    content = specimen_archive(with_pictures=True)
    for digits in (*DIGITS, b"Secret", b"stile"):
        assert digits not in everything(content)
    assert b"54.51234" in everything(specimen_archive(is_own=True))


def test_dw_10_another_plant_of_the_same_place_does_not_give_it_away(rare, wood):
    named(specimen(rare, place=wood, use="assessment"), rare, user("b@example.org"))
    common = full_plant()
    named(specimen(common, place=wood), common, user("a@example.org"))
    content = everything(specimen_archive())
    assert not [each for each in (*DIGITS, b"Secret", b"stile") if each in content]


def test_dw_10_an_opinion_that_it_is_at_risk_is_enough(rare, wood):
    common = full_plant()
    row = specimen(common, place=wood)
    named(row, common, user("a@example.org"))
    named(row, rare, user("b@example.org"))
    assert b"Secret" not in everything(specimen_archive())


def test_a_blurred_place_says_so_and_how_far_off_it_may_be(wood):
    common = full_plant()
    named(specimen(common, place=wood), common, user("a@example.org"))
    row = rows_of(specimen_archive(), "occurrence.csv")[0]
    assert row["dataGeneralizations"] == "Position given as the middle of a square of 1 km."
    assert row["informationWithheld"] == "The school holds the exact position."
    assert (row["locality"], row["geodeticDatum"]) == ("Secret Wood", "EPSG:4326")
    assert 700 <= int(row["coordinateUncertaintyInMeters"]) <= 720
    assert float(row["decimalLatitude"]) == pytest.approx(54.51234, abs=0.005)


def test_a_place_without_a_position_has_no_uncertainty_instead_of_nought():
    specimen(full_plant(), place=Locality.objects.create(name="Somewhere"))
    row = rows_of(specimen_archive(), "occurrence.csv")[0]
    assert [row[each] for each in ("decimalLatitude", "geodeticDatum", "coordinateUncertaintyInMeters")] == ["", "", ""]


def test_determiners_are_named_only_where_they_agreed():
    sorrel = full_plant()
    row = specimen(sorrel)
    ann, bea = user("ann@example.org", "Ann One"), user("bea@example.org", "Bea Two")
    named(row, sorrel, ann)
    named(row, sorrel, bea)
    silent = everything(specimen_archive())
    assert not [each for each in (b"Ann One", b"Bea Two", b"example.org") if each in silent]
    content = specimen_archive(agreed=frozenset({person_id(ann.email)}))
    opinions = rows_of(content, "identification.csv")
    assert [each["identifiedBy"] for each in opinions] == ["Ann One", ""]
    assert len({each["identifiedByID"] for each in opinions}) == 2
    assert ArchiveRun.objects.latest("at", "id").named == [person_id(ann.email)]


def test_what_serves_for_tests_stays_out_of_an_archive_for_others():
    sorrel = full_plant()
    for use, seed in (("teaching", 1), ("assessment", 2), ("", 3)):
        photographed(specimen(sorrel, use=use), seed)
    specimen(sorrel, retired_on=date(2026, 5, 1))
    content = specimen_archive(with_pictures=True)
    assert len(rows_of(content, "occurrence.csv")) == len(rows_of(content, "multimedia.csv")) == 1
    assert b"assessment" not in everything(content)
    assert len([name for name in files_of(content) if name.startswith("pictures/")]) == 1


def test_what_serves_for_tests_leaves_only_when_a_known_person_confirms_it_and_that_is_written_down():
    photographed(specimen(full_plant(), use="assessment"))
    by = user("keeper@example.org")
    with pytest.raises(ValueError, match="never public"):
        Scope(with_assessment=True)
    for values in ({"by": by}, {"confirmed": True}):
        with pytest.raises(NotConfirmed):
            specimen_archive(is_own=True, with_assessment=True, **values)
    assert ArchiveRun.objects.count() == 0
    content = specimen_archive(by=by, confirmed=True, is_own=True, with_assessment=True, with_pictures=True)
    run = ArchiveRun.objects.get()
    assert (run.by, run.with_assessment, run.counts["for assessment"], run.at) == (by, True, 1, NOW)
    assert rows_of(content, "occurrence.csv")[0]["use"] == "assessment"


def test_a_drawing_is_no_observation():
    specimen(full_plant(), drawing_seed=7)
    assert rows_of(specimen_archive(), "occurrence.csv") == []


def test_pictures_in_an_archive_hold_no_metadata():
    photographed(specimen(full_plant()))
    files = files_of(specimen_archive(with_pictures=True))
    (picture,) = [content for name, content in files.items() if name.startswith("pictures/")]
    assert Image.open(io.BytesIO(picture)).getexif() == {}


def test_notes_labels_and_forms_of_use_are_for_the_school_alone():
    row = specimen(full_plant(), note="by the gate of Mr. Hill")
    Individual.objects.filter(pk=row.individual_id).update(label="gate plant")
    public, own = everything(specimen_archive()), everything(specimen_archive(is_own=True))
    assert b"gate" not in public
    assert b"by the gate of Mr. Hill" in own
    assert b"gate plant" in own


def test_the_archive_asks_the_database_as_often_for_many_specimens_as_for_few():
    sorrel, by = full_plant(), user("a@example.org")
    counts = []
    for number in (1, 2, 3):
        row = specimen(sorrel)
        named(row, sorrel, by)
        photographed(row, number)
        with CaptureQueriesContext(connection) as asked:
            specimen_archive(with_pictures=True)
        counts.append(len(asked))
    assert counts[0] == counts[2]


def test_a_place_that_nobody_recorded_goes_out_without_a_name():
    assert archive_specimens.PLACE_UNKNOWN == specimens.PLACE_UNKNOWN
    specimen(full_plant(), place=Locality.objects.create(name=specimens.PLACE_UNKNOWN))
    row = rows_of(specimen_archive(), "occurrence.csv")[0]
    assert (row["locality"], row["informationWithheld"]) == ("", "")
