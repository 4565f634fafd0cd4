"""Bringing photographs in from a browser."""

from datetime import date

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from django.utils import timezone

from species.forms.upload import AT_ONCE
from species.models import Determination, Photo, Specimen
from species.rules.vocabulary import Settlement
from tests.factories import pictures
from tests.factories.species import make_species

UPLOAD = reverse("species:upload")


@pytest.fixture
def plants(school):
    return make_species("goodleaf"), make_species("badleaf", deadly=True)


def sent(*files: SimpleUploadedFile, **values: object) -> dict[str, object]:
    return {"photos": list(files), "use": "", "stage": "", **values}


COMPLETE = {"stage": "flower", "part": "leaf", "photographer": "F. Finder", "licence": "CC BY 4.0"}
"""What has to be said with a use."""


def photo(name: str = "IMG_1.jpg", seed: int = 0) -> SimpleUploadedFile:
    return SimpleUploadedFile(name, pictures.jpeg(seed=seed), "image/jpeg")


def test_each_photograph_is_a_specimen_named_by_whoever_brings_it(signed_in, tutor, plants):
    values = sent(
        photo(), photo("b.jpg", 2), said="Bad leaf", use="assessment", **COMPLETE, locality="Long Bank",
        day="2026-05-02", characters="the edge",
    )  # fmt: skip
    response = signed_in(tutor).post(UPLOAD, values)
    assert "2 photographs were taken" in response.content.decode()
    specimen = Specimen.objects.all()[0]
    assert (specimen.use, specimen.stage, specimen.seen_on) == ("assessment", "flower", date(2026, 5, 2))
    assert (specimen.settlement, specimen.species, specimen.added_by) == (Settlement.SINGLE, plants[1], tutor.user)
    assert [each.characters for each in Determination.objects.all()] == ["the edge", "the edge"]
    assert {each.individual.locality.name for each in Specimen.objects.all()} == {"Long Bank"}


def test_pictures_of_one_plant_are_one_specimen(signed_in, tutor, plants):
    signed_in(tutor).post(UPLOAD, sent(photo(), photo("b.jpg", 2), is_one="on"))
    assert Specimen.objects.get().photos.count() == 2


def test_what_is_broken_is_refused_and_the_rest_is_taken(signed_in, tutor, plants):
    broken = SimpleUploadedFile("words.jpg", b"not a picture", "image/jpeg")
    shown = signed_in(tutor).post(UPLOAD, sent(broken, photo())).content.decode()
    assert "1 photograph was taken" in shown
    assert "there is no picture in it" in shown
    assert Photo.objects.count() == 1


def test_twice_adds_nothing_and_leads_to_what_is_there(signed_in, tutor, plants):
    client = signed_in(tutor)
    client.post(UPLOAD, sent(photo()))
    shown = client.post(UPLOAD, sent(photo("other.jpg"))).content.decode()
    assert "Is there already" in shown
    assert reverse("species:specimen", args=[Specimen.objects.get().key]) in shown


@pytest.mark.parametrize(
    ("values", "sentence"),
    [
        ({"photos": []}, "Choose at least one photograph."),
        ({"said": "badlaef"}, "Nearest: badleaf"),
        ({"use": "assessment", **COMPLETE, "stage": ""}, "Say what is showing"),
        ({"use": "teaching", **COMPLETE, "part": ""}, "Say which part the pictures show"),
        ({"use": "teaching", **COMPLETE, "photographer": ""}, "Say whose pictures they are"),
        ({"use": "teaching", **COMPLETE, "licence": ""}, "Say under which licence"),
        ({"day": "2999-01-01"}, "This day lies ahead"),
        ({"photos": [photo(f"{n}.jpg") for n in range(AT_ONCE + 1)]}, f"at most {AT_ONCE} at once"),
    ],
)
def test_a_wrong_answer_is_a_sentence_and_what_was_typed_stays(signed_in, tutor, plants, values, sentence):
    response = signed_in(tutor).post(UPLOAD, {**sent(photo(), locality="Long Bank"), **values})
    assert response.status_code == 422
    assert sentence in response.content.decode()
    assert 'value="Long Bank"' in response.content.decode()
    assert not Photo.objects.exists()


def test_only_those_who_keep_the_bank_bring_photographs_in(client, signed_in, participant, assessor):
    assert client.get(UPLOAD).status_code == 302
    for person in (participant, assessor):
        assert signed_in(person).post(UPLOAD, sent(photo())).status_code == 403
    assert not Photo.objects.exists()


def test_the_name_of_the_file_is_kept_nowhere(signed_in, tutor, plants):
    signed_in(tutor).post(UPLOAD, sent(photo("hemlock by the gate.jpg")))
    kept = Photo.objects.get()
    words = [str(value) for row in (kept, kept.specimen, *kept.renditions.all()) for value in vars(row).values()]
    assert not [word for word in words if "gate" in word]
    assert kept.added_at <= timezone.now()
