"""The page of one walk: what somebody who plans reads first."""

from django.urls import reverse
from django.utils import timezone

from courses.models import Requirement, RequirementRecord
from tests.factories.courses import SiteFactory, enrol, make_meeting
from tests.factories.people import make_person


def ask(kind: str) -> None:
    Requirement.objects.create(key=kind.replace("_", "-"), part="leader", kind="proof", proof=kind, title=kind)


def test_it_begins_with_who_could_lead(signed_in, tutor, course, organiser) -> None:
    today, person = timezone.localdate(), make_person("Ann", "tutor")
    RequirementRecord.objects.create(
        person=person, kind="first_aid", valid_from=today, seen_by=organiser, seen_on=today
    )
    client, walk = signed_in(tutor), make_meeting(course, days_ahead=21, site=SiteFactory())
    address = reverse("courses:walk", args=[walk.key])
    ask("first_aid")
    assert "Could lead it:</strong> Ann</p>" in client.get(address).content.decode()
    ask("insurance")
    assert "Nobody meets everything that is asked for it." in client.get(address).content.decode()


def test_one_person_comes_and_two_come(signed_in, tutor, walk, participant, stranger) -> None:
    address = reverse("courses:walk", args=[walk.key])
    assert "1 person comes; with 10 to one, 1 leader is needed." in signed_in(tutor).get(address).content.decode()
    enrol(stranger, walk.course)
    assert "2 people come; with 10 to one" in signed_in(tutor).get(address).content.decode()


def test_a_meeting_that_nobody_leads_says_where_to_find_who_could(signed_in, organiser, participant, walk) -> None:
    there, link = reverse("courses:meeting", args=[walk.key]), reverse("courses:walk", args=[walk.key])
    assert f'href="{link}"' in signed_in(organiser).get(there).content.decode()
    assert f'href="{link}"' not in signed_in(participant).get(there).content.decode()
