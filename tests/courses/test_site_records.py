"""Permissions, plants seen, reviews and incidents: written down, shown to the next planner, printed."""

from datetime import timedelta
from io import BytesIO

import pytest
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader

from courses.models import Incident, SitePermission, SiteRecord, SiteReview
from courses.queries.sites import site_page
from courses.rules.risk import HEADINGS
from tests.factories.courses import SiteFactory, give_permission, make_meeting
from tests.factories.species import PairFactory, make_species


@pytest.fixture
def site(school):
    return SiteFactory(emergency_place="North gate, beck road", access_gate="Second gate", who_calls="The leader")


def text_of(content: bytes) -> str:
    return " ".join("".join(page.extract_text() for page in PdfReader(BytesIO(content)).pages).split())


def review(**fields) -> dict[str, str]:
    values = {f"on_{name}": f"about {name}" for name in HEADINGS}
    ahead = (timezone.localdate() + timedelta(days=300)).isoformat()
    return {
        **values,
        "walked_on": "",
        "review_again_by": ahead,
        "residual_risk": "low",
        "decision": "go",
        "reason": "",
        **fields,
    }


def test_a_permission_is_written_down_by_somebody_and_taken_back(signed_in, tutor, site) -> None:
    client = signed_in(tutor)
    client.post(
        reverse("courses:permission_new", args=[site.pk]),
        {"given_by": "The estate", "walking": "on", "valid_from": "2026-01-01", "conditions": "Dogs on leads"},
    )
    row = SitePermission.objects.get()
    assert (row.given_by, row.recorded_by) == ("The estate", tutor)
    client.post(reverse("courses:permission_end", args=[row.pk]))
    page = client.get(reverse("courses:site", args=[site.pk])).content.decode()
    assert "taken back on" in page
    assert "Permission ended" in page


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        (
            {"given_by": "A", "valid_from": "2026-02-01", "valid_until": "2026-01-01", "walking": "on"},
            "before the first",
        ),
        ({"valid_from": "2026-02-01"}, "at least one of the three"),
    ],
)
def test_a_wrong_permission_is_refused_in_words(signed_in, tutor, site, typed, words) -> None:
    answer = signed_in(tutor).post(reverse("courses:permission_new", args=[site.pk]), {"given_by": "A", **typed})
    assert answer.status_code == 422
    assert words in answer.content.decode()


def test_a_plant_seen_today_stands_on_the_page_and_tomorrow_is_refused(signed_in, tutor, site) -> None:
    plant, url = make_species("badleaf", deadly=True), reverse("courses:plant_seen", args=[site.pk])
    client, today = signed_in(tutor), timezone.localdate()
    typed = {"species": plant.pk, "stage": "rosette", "seen_on": today.isoformat(), "note": ""}
    client.post(url, typed)
    assert SiteRecord.objects.get().seen_by == tutor
    assert "Badleaf" in client.get(reverse("courses:site", args=[site.pk])).content.decode()
    assert client.post(url, {**typed, "seen_on": (today + timedelta(days=1)).isoformat()}).status_code == 422


def test_what_can_kill_stands_first_among_what_grows_at_a_site(tutor, site) -> None:
    plants = [make_species("anise"), make_species("zinnia", deadly=True), make_species("mallow")]
    for plant in plants:
        SiteRecord.objects.create(
            site=site, species=plant, stage="rosette", seen_on=timezone.localdate(), seen_by=tutor
        )
    page = site_page(site, timezone.now(), timezone.localdate())
    assert page.plants[0].species == plants[1]
    assert {met.species for met in page.plants[1:]} == {plants[0], plants[2]}


def test_a_review_is_begun_from_the_last_and_says_what_changed(signed_in, tutor, site) -> None:
    client, url = signed_in(tutor), reverse("courses:review_new", args=[site.pk])
    client.post(url, review())
    assert "about ground" in client.get(url).content.decode()
    client.post(url, review(on_ground="flooded"))
    assert SiteReview.objects.count() == 2
    page = client.get(reverse("courses:site", args=[site.pk])).content.decode()
    assert "<del>about ground</del> <ins>flooded</ins>" in page


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"decision": "cancel"}, "why you do not go"),
        ({"on_plants": ""}, "Never empty"),
        ({"walked_on": "2999-01-01"}, "lies ahead"),
        ({"review_again_by": "2020-01-01"}, "Choose a day ahead"),
    ],
)
def test_a_wrong_review_is_refused_and_nothing_typed_is_lost(signed_in, tutor, site, typed, words) -> None:
    answer = signed_in(tutor).post(reverse("courses:review_new", args=[site.pk]), review(**typed))
    assert answer.status_code == 422
    assert words in answer.content.decode()
    assert "about ticks_and_stings" in answer.content.decode()
    assert not SiteReview.objects.exists()


def test_the_review_is_printed_with_every_heading_and_the_decision(signed_in, tutor, site) -> None:
    client = signed_in(tutor)
    client.post(reverse("courses:review_new", args=[site.pk]), review(decision="change", reason="Other path"))
    content = client.get(reverse("courses:review_print", args=[SiteReview.objects.get().pk])).content
    text = text_of(content)
    assert all(f"about {name}" in text for name in HEADINGS)
    assert "Other path" in text
    assert PdfReader(BytesIO(content)).trailer["/Root"]["/MarkInfo"]["/Marked"]


def test_the_emergency_card_has_the_numbers_and_the_place_on_one_small_page(signed_in, tutor, site, school) -> None:
    content = signed_in(tutor).get(reverse("courses:emergency_print", args=[site.pk])).content
    text, pages = text_of(content), PdfReader(BytesIO(content)).pages
    for words in (school.emergency_number, "North gate, beck road", "Second gate", "The leader"):
        assert words in text
    assert len(pages) <= 2
    assert float(pages[0].mediabox.width) < 300


def test_a_near_miss_is_noted_and_shown_to_the_next_planner(signed_in, tutor, course, site) -> None:
    pair = PairFactory()
    meeting = make_meeting(course, site=site)
    client = signed_in(tutor)
    client.post(
        reverse("courses:incident_new") + f"?meeting={meeting.key}",
        {
            "kind": "near_miss", "happened_at": "2026-01-02T10:00", "account": "Taken for the good one",
            "pair": pair.pk, "picked": "", "stage": "rosette", "noticed_by": "picker", "sign": "the smell", "site": "",
        },
    )  # fmt: skip
    incident = Incident.objects.get()
    assert (incident.site, incident.noted_by) == (site, tutor)
    day = client.get(reverse("courses:meeting_day", args=[meeting.key])).content.decode()
    assert "Taken for the good one" in day
    client.post(reverse("courses:incident", args=[incident.key]), {"lesson": "Smell first"})
    assert "Smell first" in client.get(reverse("courses:incidents")).content.decode()


def test_an_incident_ahead_is_refused(signed_in, tutor) -> None:
    typed = {"kind": "near_miss", "happened_at": "2999-01-02T10:00", "account": "x"}
    assert signed_in(tutor).post(reverse("courses:incident_new"), typed).status_code == 422


@pytest.mark.parametrize("who", ["participant", "stranger", "assessor"])
def test_others_are_kept_out(signed_in, request, site, who) -> None:
    client = signed_in(request.getfixturevalue(who))
    give_permission(site)
    for name in ("permission_new", "plant_seen", "review_new", "emergency_print"):
        assert client.get(reverse(f"courses:{name}", args=[site.pk])).status_code == 403
    assert client.get(reverse("courses:incidents")).status_code == 403
    assert client.get(reverse("courses:incident_new")).status_code == 302
