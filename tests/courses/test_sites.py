"""Sites: list, page, a new one, changing one."""

import pytest
from django.urls import reverse

from courses.models import Site
from species.models import Locality
from tests.courses.pages import same_queries
from tests.factories.courses import SiteFactory, give_permission, make_meeting
from tests.factories.species import LocalityFactory

LIST, NEW = "/sites/", "/sites/new/"
TYPED = {
    "locality": "", "name": "Quarry Bank", "latitude": "", "longitude": "", "days_late": "-5", "habitat": "scrub",
    "access": "Bus 7", "meeting_point": "", "hazards": "Loose edge", "emergency_place": "", "phone_signal": "",
}  # fmt: skip


def page_of(site: Site) -> str:
    return reverse("courses:site", args=[site.pk])


def edit_of(site: Site) -> str:
    return reverse("courses:site_edit", args=[site.pk])


def test_a_new_site_makes_its_place(signed_in, tutor) -> None:
    answer = signed_in(tutor).post(NEW, TYPED)
    made = Site.objects.get()
    assert answer["Location"] == page_of(made)
    assert (made.locality.name, made.locality.days_late, made.hazards) == ("Quarry Bank", -5, "Loose edge")


def test_a_site_is_made_at_a_place_that_the_bank_knows(signed_in, tutor) -> None:
    known = LocalityFactory(name="Known wood")
    assert 'value="Known wood"' in signed_in(tutor).get(NEW, {"locality": known.pk}).content.decode()
    signed_in(tutor).post(NEW, {**TYPED, "locality": known.pk, "name": "Known wood"})
    assert Site.objects.get().locality == known
    assert Locality.objects.count() == 1


def test_a_place_has_one_site(signed_in, tutor) -> None:
    taken = SiteFactory().locality
    page = signed_in(tutor).post(NEW, {**TYPED, "locality": taken.pk, "name": taken.name})
    assert page.status_code == 200
    assert Site.objects.count() == 1


@pytest.mark.parametrize(("field", "value"), [("name", ""), ("latitude", "north"), ("group_size", "many")])
def test_a_wrong_site_is_refused_and_nothing_typed_is_lost(signed_in, tutor, field: str, value: str) -> None:
    page = signed_in(tutor).post(NEW, {**TYPED, field: value}).content.decode()
    assert "Bus 7" in page
    assert "Loose edge" in page
    assert not Site.objects.exists()
    assert not Locality.objects.exists()


def test_a_name_is_used_once(signed_in, tutor) -> None:
    SiteFactory(locality=LocalityFactory(name="Quarry Bank"))
    assert signed_in(tutor).post(NEW, TYPED).status_code == 200
    assert Site.objects.count() == 1


def test_a_site_is_changed_with_its_place(signed_in, organiser) -> None:
    site = SiteFactory()
    signed_in(organiser).post(edit_of(site), TYPED)
    site.refresh_from_db()
    assert (site.locality.name, site.access) == ("Quarry Bank", "Bus 7")


def test_the_page_says_all_that_is_known(signed_in, tutor) -> None:
    site = SiteFactory(hazards="Loose edge", emergency_place="North gate")
    give_permission(site, given_by="The estate")
    make_meeting(site=site, title="Hemlock morning")
    page = signed_in(tutor).get(page_of(site)).content.decode()
    for words in ("Loose edge", "North gate", "The estate", "Hemlock morning"):
        assert words in page


def test_a_site_of_which_nothing_is_known_says_what_to_do(signed_in, tutor) -> None:
    page = signed_in(tutor).get(page_of(SiteFactory())).content.decode()
    assert "Ask whoever owns the land" in page
    assert "That does not mean that there are none" in page


def test_an_empty_list_says_what_a_site_is(signed_in, tutor) -> None:
    assert "No site yet" in signed_in(tutor).get(LIST).content.decode()


def test_the_list_takes_as_many_queries_however_many(signed_in, tutor) -> None:
    SiteFactory()
    assert same_queries(signed_in(tutor), LIST, lambda: [make_meeting() for _ in range(4)])


def test_participants_and_strangers_are_kept_out(client, signed_in, participant, assessor) -> None:
    site = SiteFactory()
    assert client.get(page_of(site)).status_code == 302
    for person in (participant, assessor):
        assert signed_in(person).get(page_of(site)).status_code == 403
        assert signed_in(person).post(edit_of(site), TYPED).status_code == 403
    site.refresh_from_db()
    assert site.access == ""
    assert signed_in(participant).post(LIST).status_code == 405
