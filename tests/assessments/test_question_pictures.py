"""The pictures of a sitting: sent to the person sitting, once the question is shown, and kept by nobody."""

import pytest
from django.urls import reverse

from species.models import Photo, PhotoRendition

CONDITIONS = [
    {},
    {"HTTP_RANGE": "bytes=0-9"},
    {"HTTP_IF_NONE_MATCH": "*"},
    {"HTTP_IF_MODIFIED_SINCE": "Fri, 01 Jan 2100"},
]


def picture(paper, position: int = 1, width: int = 400) -> str:
    return reverse("assessments:question_photo", args=[paper.key, position, 1, width])


def show(client, paper, position: int = 1) -> None:
    assert client.get(reverse("assessments:question", args=[paper.key, position])).status_code == 200


@pytest.mark.parametrize("method", ["get", "head"])
@pytest.mark.parametrize("conditions", CONDITIONS)
def test_it_is_sent_whole_to_the_person_sitting_and_kept_by_nobody(
    signed_in, participant, paper, sitting, method, conditions
):
    client = signed_in(participant)
    show(client, paper)
    response = getattr(client, method)(picture(paper), **conditions)
    assert (response.status_code, response["Cache-Control"]) == (200, "private, no-store")
    assert not {"ETag", "Last-Modified", "Content-Range", "Accept-Ranges"} & set(response.headers)
    assert response["Content-Disposition"] == "inline"


@pytest.mark.parametrize("method", ["get", "head"])
@pytest.mark.parametrize("conditions", CONDITIONS)
@pytest.mark.parametrize("person", ["stranger", "tutor", "assessor", "organiser"])
def test_nobody_else_is_sent_it_by_the_address_of_the_sitting(
    client, request, signed_in, participant, paper, sitting, person, method, conditions
):
    show(signed_in(participant), paper)
    client.force_login(request.getfixturevalue(person).user)
    assert getattr(client, method)(picture(paper), **conditions).status_code == 404
    client.logout()
    assert getattr(client, method)(picture(paper), **conditions).status_code == 302


@pytest.mark.parametrize("method", ["get", "head"])
def test_before_a_question_is_shown_its_picture_is_not_there(signed_in, participant, paper, sitting, method):
    client = signed_in(participant)
    show(client, paper, 1)
    assert getattr(client, method)(picture(paper, 2)).status_code == 404


def test_the_person_sitting_is_not_sent_it_by_the_address_of_the_bank(signed_in, participant, paper, sitting):
    client = signed_in(participant)
    show(client, paper)
    photo = sitting.questions.get(position=1).specimen.photos.get()
    assert client.get(reverse("species:photo", args=[photo.key, 400])).status_code == 404
    assert photo.key not in client.get(reverse("assessments:question", args=[paper.key, 1])).content.decode()


@pytest.mark.parametrize("width", [399, 1, 10_000])
def test_other_widths_than_the_few_are_not_there(signed_in, participant, paper, sitting, width):
    client = signed_in(participant)
    show(client, paper)
    assert client.get(picture(paper, width=width)).status_code == 404


def test_a_lighter_kind_that_is_not_wide_enough_is_no_substitute(signed_in, participant, paper, sitting):
    client = signed_in(participant)
    show(client, paper)
    photo: Photo = sitting.questions.get(position=1).specimen.photos.get()
    for width, kind in ((800, "image/jpeg"), (800, "image/webp"), (1600, "image/jpeg")):
        file = photo.renditions.get(width=400).file.name
        PhotoRendition.objects.create(photo=photo, width=width, height=9, media_type=kind, file=file)
    asked = {
        w: client.get(picture(paper, width=w), HTTP_ACCEPT="image/webp")["Content-Type"] for w in (800, 1200, 1600)
    }
    assert asked == {800: "image/webp", 1200: "image/jpeg", 1600: "image/jpeg"}
