"""From the pages of the school to those of the plants, and to what the bank lacks."""

from django.urls import reverse

from species.models import Module, ModulePair
from tests.factories.certificates import make_certificate
from tests.factories.courses import SiteFactory, make_meeting
from tests.factories.species import PairFactory


def test_the_page_of_a_site_leads_to_the_year_at_its_place(signed_in, tutor) -> None:
    site = SiteFactory()
    page = signed_in(tutor).get(reverse("courses:site", args=[site.pk])).content.decode()
    assert f'href="{reverse("species:place", args=[site.locality.pk])}"' in page


def test_each_module_of_a_meeting_leads_to_its_year_on_paper(signed_in, tutor, course) -> None:
    module = Module.objects.create(key="first-leaves", title="First leaves")
    ModulePair.objects.create(module=module, pair=PairFactory())
    meeting = make_meeting(course)
    meeting.modules.add(module, through_defaults={"order": 1})
    page = signed_in(tutor).get(reverse("courses:meeting", args=[meeting.key])).content.decode()
    address = f"{reverse('species:calendar')}?module=first-leaves"
    assert f'href="{address}"' in page
    assert signed_in(tutor).get(address)["Content-Type"] == "application/pdf"


def test_where_a_paper_is_set_stands_the_way_to_what_the_bank_lacks_for_the_course(signed_in, tutor, course) -> None:
    page = signed_in(tutor).get(reverse("courses:course_paper_new", args=[course.key])).content.decode()
    assert f'href="{reverse("courses:course_wanted", args=[course.key])}"' in page


def test_a_page_of_a_certificate_leads_back_to_the_list_that_the_reader_has(
    signed_in, organiser, participant, standard
) -> None:
    number = make_certificate(participant, standard, organiser).number
    for reader, name in ((organiser, "certificates"), (participant, "certificates_mine")):
        page = signed_in(reader).get(reverse("courses:certificate", args=[number])).content.decode()
        assert f'class="trail" aria-label="Where this page is"><ol><li><a href="{reverse(f"courses:{name}")}"' in page


def test_whoever_begins_to_note_what_happened_can_go_back(signed_in, tutor, course) -> None:
    meeting = make_meeting(course)
    client, new = signed_in(tutor), reverse("courses:incident_new")
    assert f'href="{reverse("courses:incidents")}">Go back' in client.get(new).content.decode()
    page = client.get(f"{new}?meeting={meeting.key}").content.decode()
    assert f'href="{reverse("courses:meeting", args=[meeting.key])}">Go back' in page


def test_a_number_that_is_not_known_can_be_tried_again(client, db) -> None:
    answer = client.get(reverse("courses:check", args=["no-such-key"]))
    assert answer.status_code == 404
    assert f'href="{reverse("courses:check_number")}"' in answer.content.decode()
