"""Whoever works for the school needs a second factor before it opens (SEC-28); an app is given its key by camera."""

import re
from urllib.parse import parse_qs, urlsplit

import numpy as np
import pytest
import zxingcpp
from allauth.mfa.models import Authenticator
from django.urls import reverse

from courses.documents.qr import QUIET_ZONE, qr_rows, qr_shape
from tests.courses.markup import faults
from tests.courses.pages import queries_of
from tests.factories.courses import SiteFactory


@pytest.fixture
def asked_for(settings) -> None:
    settings.STAFF_NEED_A_SECOND_FACTOR = True


def add_factor(person, kind: str) -> None:
    Authenticator.objects.create(user=person.user, type=kind, data={})


@pytest.mark.parametrize(
    "address", ["/", "/readiness/", "/people/", "/species/", "/bank/", "/standards/", "/readiness.csv"]
)
def test_nothing_of_the_school_opens_to_an_organiser_without_one(asked_for, signed_in, organiser, address) -> None:
    answer = signed_in(organiser).get(address)
    assert answer.status_code == 403
    page = answer.content.decode()
    assert "Protect your sign-in first" in page
    assert "in confidence" not in page  # that is for the tutors of a course alone
    assert faults(page) == []


def test_nor_can_anything_be_done(asked_for, signed_in, organiser, tutor) -> None:
    client = signed_in(organiser)
    client.post(
        reverse("courses:requirement_new"), {"person": tutor.pk, "kind": "insurance", "valid_from": "2026-01-01"}
    )
    assert not tutor.requirement_records.exists()


@pytest.mark.parametrize("kind", ["totp", "webauthn"])
def test_either_kind_opens_it(asked_for, signed_in, organiser, kind) -> None:
    add_factor(organiser, kind)
    assert signed_in(organiser).get("/readiness/").status_code == 200


def test_recovery_codes_alone_are_none(asked_for, signed_in, organiser) -> None:
    add_factor(organiser, "recovery_codes")
    assert signed_in(organiser).get("/readiness/").status_code == 403


@pytest.mark.parametrize("name", ["mfa_index", "account_logout", "account_email"])
def test_the_way_to_one_and_the_way_out_stay_open(asked_for, signed_in, organiser, name) -> None:
    assert signed_in(organiser).get(reverse(name)).status_code == 200


@pytest.mark.parametrize("name", ["data_notice", "check_number"])
def test_what_strangers_may_read_stays_open(asked_for, signed_in, organiser, name) -> None:
    assert signed_in(organiser).get(reverse(f"courses:{name}")).status_code == 200


def test_a_piece_of_a_page_is_not_replaced_by_it(asked_for, signed_in, organiser) -> None:
    """Whoever lost their factor with a page open gets the whole page anew."""
    answer = signed_in(organiser).get("/people/", headers={"HX-Request": "true"})
    assert (answer.status_code, answer["HX-Refresh"]) == (403, "true")


def test_nothing_stands_between_somebody_outdoors_and_the_emergency_card(asked_for, signed_in, organiser) -> None:
    site = SiteFactory()
    client = signed_in(organiser)
    card = client.get(reverse("courses:emergency_print", args=[site.pk]))
    assert (card.status_code, card["Content-Type"]) == (200, "application/pdf")
    assert client.get(reverse("courses:site", args=[site.pk])).status_code == 403


@pytest.mark.parametrize(
    ("role", "why"),
    [
        ("organiser", "decides about certificates"),
        ("tutor", "told in confidence about their health"),
        ("assessor", "answers on which certificates rest"),
    ],
)
def test_each_is_told_why(asked_for, signed_in, request, role, why) -> None:
    person = request.getfixturevalue(role)
    assert why in " ".join(signed_in(person).get("/").content.decode().split())
    add_factor(person, "webauthn")
    assert signed_in(person).get("/").status_code == 200


def test_participants_and_leaders_are_not_asked(asked_for, signed_in, participant) -> None:
    client = signed_in(participant)
    assert client.get("/").status_code == 200
    assert "Protect your sign-in" not in client.get("/").content.decode()


def test_strangers_are_not_asked_and_cost_no_query_more(client, school, settings, certificate_key) -> None:
    before = queries_of(client, certificate_key)
    settings.STAFF_NEED_A_SECOND_FACTOR = True
    assert queries_of(client, certificate_key) == before


@pytest.fixture
def certificate_key() -> str:
    return reverse("courses:check_number")


def test_the_app_reads_its_key_with_the_camera(signed_in, organiser) -> None:
    """Read back by a general library for bar codes, from the path that the page draws."""
    page = signed_in(organiser).get(reverse("mfa_activate_totp"), follow=True)
    html = page.content.decode()
    assert faults(html) == []
    drawn = re.search(r'class="camera-code" viewBox="0 0 (\d+) \1".*?<path d="([^"]+)"', html, re.DOTALL)
    size, dark = int(drawn[1]), re.findall(r"M(\d+) (\d+)h1v1h-1z", drawn[2])
    picture = np.full((size, size), 255, dtype=np.uint8)
    for column, row in dark:
        picture[int(row), int(column)] = 0
    (found,) = zxingcpp.read_barcodes(np.kron(picture, np.ones((6, 6), dtype=np.uint8)))
    read = urlsplit(found.text)
    assert (read.scheme, read.netloc) == ("otpauth", "totp")
    assert parse_qs(read.query)["secret"][0] in html


def test_a_code_has_white_around_it() -> None:
    """ISO/IEC 18004 asks for four modules, from memory."""
    shape, rows = qr_shape("kenspeckle"), qr_rows("kenspeckle")
    assert QUIET_ZONE == 4
    assert shape.size == len(rows) + 8
    corners = [tuple(map(int, each)) for each in re.findall(r"M(\d+) (\d+)h", shape.path)]
    assert min(x for x, _y in corners) == min(y for _x, y in corners) == 4
    assert len(corners) == sum(map(sum, rows))
