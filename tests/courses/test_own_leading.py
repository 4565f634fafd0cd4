"""What a leader sees of themselves: the walks to come, and whether they can."""

from django.urls import reverse
from django.utils import timezone

from courses.models import Availability, LeadingGrant
from tests.courses.pages import same_queries
from tests.factories.courses import SiteFactory, make_meeting
from tests.factories.people import make_person


def test_the_page_asks_as_often_for_many_walks(signed_in, school, course, organiser) -> None:
    leader = make_person("Lea Leader", "tutor")
    today = timezone.localdate()

    def add(days: int) -> None:
        walk = make_meeting(course, days_ahead=days, is_walk=True, site=SiteFactory())
        make_meeting(course, days_ahead=-days, is_walk=True, site=SiteFactory()).assistants.add(leader)
        Availability.objects.create(person=leader, meeting=walk, can_come=False, said_at=timezone.now())
        LeadingGrant.objects.create(person=leader, granted_by=organiser, valid_from=today)

    add(4)
    assert same_queries(signed_in(leader), reverse("courses:my_leading"), lambda: [add(days) for days in range(5, 9)])


def test_whoever_says_whether_they_can_comes_back_to_that_walk(signed_in, school) -> None:
    walk, client = make_meeting(None, is_walk=True), signed_in(make_person("Lea Leader", "tutor"))
    answer = client.post(reverse("courses:availability", args=[walk.key]), {"can_come": "yes"})
    assert answer["Location"] == f"{reverse('courses:my_leading')}#walk-{walk.key}"
    assert f'id="walk-{walk.key}"' in client.get(reverse("courses:my_leading")).content.decode()
