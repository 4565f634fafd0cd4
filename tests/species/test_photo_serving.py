"""Who is sent which picture, in which kind, and how long it may be kept."""

import re

import pytest
from django.urls import reverse
from django.utils import timezone

from species.actions.importing import Incoming, PhotoImport
from species.actions.outsiders import invite_outsider
from species.documents.pictures import Limits
from species.models import DeterminerLink, Photo, Specimen
from species.rules.manifest import Entry
from species.rules.vocabulary import Use
from tests.bench.importing import made_up_photo
from tests.factories.species import SpecimenFactory, give_picture

CONDITIONS = [
    {},
    {"HTTP_RANGE": "bytes=0-99"},
    {"HTTP_IF_NONE_MATCH": "*"},
    {"HTTP_IF_MODIFIED_SINCE": "Fri, 01 Jan 2100 00:00:00 GMT"},
    {"HTTP_IF_RANGE": '"x"', "HTTP_RANGE": "bytes=10-"},
]


def said(content: bytes, key: str) -> str:
    """The words of a page, without the address that was asked for and the tokens that differ every time."""
    return re.sub(r"\b[A-Za-z0-9]{64}\b", "TOKEN", content.decode().replace(key, "KEY"))


def address(specimen: Specimen) -> str:
    return reverse("species:photo", args=[specimen.photos.get().key, 400])


@pytest.fixture
def specimen(school) -> Specimen:
    made = SpecimenFactory(use=Use.ASSESSMENT.value)
    give_picture(made)
    return made


@pytest.mark.parametrize("method", ["get", "head"])
@pytest.mark.parametrize("conditions", CONDITIONS)
@pytest.mark.parametrize("person", [None, "participant", "stranger"])
def test_an_assessment_picture_is_not_there_for_those_who_do_not_keep_the_bank(
    client, request, specimen, person, conditions, method
):
    if person:
        client.force_login(request.getfixturevalue(person).user)
    response = getattr(client, method)(address(specimen), **conditions)
    unknown = getattr(client, method)(reverse("species:photo", args=["unknown", 400]), **conditions)
    assert response.status_code == unknown.status_code == 404
    assert said(response.content, specimen.photos.get().key) == said(unknown.content, "unknown")


@pytest.mark.parametrize("method", ["get", "head"])
@pytest.mark.parametrize("conditions", CONDITIONS)
@pytest.mark.parametrize("person", ["tutor", "assessor", "organiser"])
def test_those_who_keep_the_bank_are_sent_it_whole_and_nobody_keeps_it(
    client, request, specimen, person, conditions, method
):
    client.force_login(request.getfixturevalue(person).user)
    response = getattr(client, method)(address(specimen), **conditions)
    assert (response.status_code, response["Cache-Control"]) == (200, "private, no-store")
    assert not {"ETag", "Last-Modified", "Content-Range"} & set(response.headers)
    assert response["Content-Disposition"] == "inline"
    assert "sandbox" in response["Content-Security-Policy"]
    assert specimen.key not in str(response.headers)


def test_a_teaching_picture_is_for_everybody_until_it_is_retired(client, specimen):
    Specimen.objects.update(use=Use.TEACHING.value)
    assert "public" in client.get(address(specimen))["Cache-Control"]
    Specimen.objects.update(retired_on=timezone.localdate())
    assert client.get(address(specimen)).status_code == 404


def test_other_methods_are_not_taken(signed_in, tutor, specimen):
    assert signed_in(tutor).post(address(specimen)).status_code == 405


def test_an_outsider_is_sent_only_what_they_were_asked_about(client, organiser, specimen):
    other = SpecimenFactory()
    give_picture(other)
    invite_outsider("Out", "out@example.org", [specimen], organiser.user, timezone.now(), "https://x/{key}")
    link = DeterminerLink.objects.get()
    mine, theirs = (
        reverse("species:photo_by_link", args=[link.key, each.photos.get().key, 400]) for each in (specimen, other)
    )
    assert client.get(mine)["Cache-Control"] == "private, no-store"
    assert client.head(theirs).status_code == client.get(theirs).status_code == 404


@pytest.fixture
def large(school) -> Photo:
    """A noisy picture of twelve megapixels, brought in for teaching."""
    content = made_up_photo(4000, 3000, grain=30)
    entry = Entry(use=Use.TEACHING, stage="flower", part="leaf", photographer="F. Finder", licence="CC0")
    run = PhotoImport(widths=(400, 800, 1200, 1600), limits=Limits(), by=None, now=timezone.now())
    run.take(Incoming("a.jpg", len(content), lambda: content, entry))
    return Photo.objects.get()


def test_a_telephone_is_sent_no_more_than_it_should_be(client, large):
    for width in (400, 800, 1200):
        for accept in ("image/webp,*/*", "image/*"):
            response = client.get(reverse("species:photo", args=[large.key, width]), HTTP_ACCEPT=accept)
            assert len(response.content) <= 150_000
            assert "Accept" in response["Vary"].split(", ")


def test_the_lighter_kind_goes_to_those_who_take_it(client, large):
    wide = reverse("species:photo", args=[large.key, 1200])
    assert client.get(wide, HTTP_ACCEPT="image/webp")["Content-Type"] == "image/webp"
    assert client.get(wide)["Content-Type"] == "image/jpeg"
    widest = reverse("species:photo", args=[large.key, 1600])
    assert client.get(widest, HTTP_ACCEPT="image/webp")["Content-Type"] == "image/jpeg"
