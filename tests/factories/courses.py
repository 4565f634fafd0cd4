"""Makers of sites, courses and meetings."""

from datetime import timedelta

import factory
from django.utils import timezone

from assessments.models import Standard
from courses.models import Course, Enrolment, Meeting, Person, Site, SitePermission
from tests.factories.assessments import make_standard
from tests.factories.species import LocalityFactory


class SiteFactory(factory.django.DjangoModelFactory):
    """A site."""

    class Meta:
        model = Site

    locality = factory.SubFactory(LocalityFactory)


def give_permission(site: Site, **fields: object) -> SitePermission:
    """Leave to walk there, for a year from last month on."""
    today = timezone.localdate()
    facts = {
        "given_by": "The owner",
        "valid_from": today - timedelta(days=30),
        "valid_until": today + timedelta(days=335),
    }
    return SitePermission.objects.create(site=site, **{**facts, **fields})


def make_course(title: str = "Spring course", standard: Standard | None = None, **fields: object) -> Course:
    """A course of eight weeks in its third week."""
    today = timezone.localdate()
    return Course.objects.create(
        **{
            "key": title.lower().replace(" ", "-"),
            "title": title,
            "standard": standard or Standard.objects.filter(key="participant").first() or make_standard(),
            "starts_on": today - timedelta(days=21),
            "ends_on": today + timedelta(days=35),
            "capacity": 12,
            **fields,
        }
    )


def make_meeting(course: Course | None = None, days_ahead: int = 2, **fields: object) -> Meeting:
    """A meeting of three hours, by default two days from now."""
    starts = timezone.now() + timedelta(days=days_ahead)
    return Meeting.objects.create(
        **{
            "course": course,
            "title": "Spring carpets",
            "starts_at": starts,
            "ends_at": starts + timedelta(hours=3),
            "site": SiteFactory(),
            **fields,
        }
    )


def enrol(person: Person, course: Course, *, waiting: bool = False) -> Enrolment:
    """A place, or a turn on the waiting list."""
    return Enrolment.objects.create(course=course, person=person, asked_at=timezone.now(), waiting=waiting)
