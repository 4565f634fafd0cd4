"""The page of one walk: what somebody who plans reads first."""

from django.urls import reverse
from django.utils import timezone

from courses.models import Requirement, RequirementRecord
from tests.factories.courses import SiteFactory, make_meeting
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
