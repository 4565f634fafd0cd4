"""The end of a photograph: refused with what holds on to it, or gone with all its files."""

import pytest
from django.core.files.base import ContentFile
from django.urls import reverse
from django.utils import timezone

from species.actions.regions import draw_region
from species.models import Character, Photo, PhotoRendition, Region, Specimen
from species.models.photos import photo_storage
from species.rules.regions import Frame
from species.rules.vocabulary import Settlement
from tests.factories.assessments import make_live_evidence
from tests.factories.species import SpecimenFactory, give_picture


def second_picture(specimen: Specimen) -> Photo:
    photo = Photo.objects.create(
        specimen=specimen, original_sha256="f" * 64, width=400, height=560, added_at=timezone.now(), order=1
    )
    file = ContentFile(b"picture", name=f"{photo.key}-400.jpg")
    PhotoRendition.objects.create(photo=photo, width=400, height=560, media_type="image/jpeg", file=file)
    return photo


def delete(client, photo: Photo) -> str:
    return client.post(reverse("species:photo_delete", args=[photo.key]), follow=True).content.decode()


@pytest.fixture
def photo(school) -> Photo:
    specimen = SpecimenFactory()
    give_picture(specimen)
    return second_picture(specimen)


def test_a_photograph_that_nothing_uses_goes_with_its_files_and_frames(
    signed_in, tutor, photo, django_capture_on_commit_callbacks
):
    character = Character.objects.create(key="rim", name="Rim", organ="leaf", sense="eye")
    draw_region(photo, Frame(0, 0, 1, 1), character, by=None, now=timezone.now())
    name = photo.renditions.get().file.name
    assert photo_storage().exists(name)
    with django_capture_on_commit_callbacks(execute=True):
        assert "its files are deleted" in delete(signed_in(tutor), photo)
    assert not photo_storage().exists(name)
    assert (Photo.objects.count(), Region.objects.count(), Specimen.objects.count()) == (1, 0, 1)


def test_what_somebody_was_asked_about_stays_and_the_refusal_lists_why(signed_in, tutor, participant, photo):
    make_live_evidence(participant.user, photo.specimen, "refuse", by=tutor.user)
    client = signed_in(tutor)
    shown = client.get(reverse("species:photo_page", args=[photo.key])).content.decode()
    assert "Delete it and its files" not in shown
    said = delete(client, photo)
    assert "Somebody has been asked about this specimen" in said
    assert "evidence: 1" in said
    assert "stations: 1" in said
    assert photo_storage().exists(photo.renditions.get().file.name)


def test_the_only_picture_of_a_specimen_in_the_bank_stays(signed_in, tutor, school):
    photo = give_picture(SpecimenFactory())
    assert "Take the whole specimen out" in delete(signed_in(tutor), photo)
    assert Photo.objects.count() == 1


def test_the_only_picture_in_the_tray_takes_its_specimen_along(
    signed_in, tutor, school, django_capture_on_commit_callbacks
):
    photo = give_picture(SpecimenFactory(use="", species=None, settlement=Settlement.UNDETERMINED.value))
    with django_capture_on_commit_callbacks(execute=True):
        delete(signed_in(tutor), photo)
    assert (Photo.objects.count(), Specimen.objects.count()) == (0, 0)


def test_files_stay_when_the_row_cannot_be_deleted(signed_in, tutor, photo, monkeypatch):
    name = photo.renditions.get().file.name

    def fail(*_arguments: object, **_more: object) -> None:
        raise RuntimeError

    monkeypatch.setattr(Photo, "delete", fail)
    with pytest.raises(RuntimeError):
        delete(signed_in(tutor), photo)
    assert photo_storage().exists(name)


def test_deleting_is_for_those_who_add_and_never_by_a_link(client, signed_in, participant, assessor, tutor, photo):
    address = reverse("species:photo_delete", args=[photo.key])
    assert client.post(address).status_code == 302
    for person in (participant, assessor):
        assert signed_in(person).post(address).status_code == 403
    assert signed_in(tutor).get(address).status_code == 405
    assert Photo.objects.filter(pk=photo.pk).exists()
