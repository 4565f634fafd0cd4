"""Makers of people."""

from datetime import date, timedelta

import factory
from django.contrib.auth.models import User
from django.utils import timezone

from courses.actions.people import take_in
from courses.models import Person, Role, School

TODAY = date(2026, 5, 12)


class UserFactory(factory.django.DjangoModelFactory):
    """Somebody who signs in and is otherwise unknown."""

    class Meta:
        model = User

    username = factory.Sequence(lambda n: f"user-{n}")
    email = factory.LazyAttribute(lambda user: f"{user.username}@example.org")


def make_person(name: str, *roles: str) -> Person:
    """A person of the school with these roles, held since a month ago."""
    slug = name.lower().replace(" ", ".")
    since = timezone.localdate() - timedelta(days=30)
    return take_in(f"{slug}@example.org", name, today=since, roles=roles or (Role.PARTICIPANT,))


def make_school(**fields: object) -> School:
    """The school of the tests."""
    return School.objects.create(
        **{
            "name": "Test School of Wild Food",
            "region": "The Test Coast",
            "address": "http://testserver",
            "emergency_number": "112",
            "poisons_number": "0800 000 000",
            **fields,
        }
    )
