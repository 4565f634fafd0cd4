"""Taking people into the school."""

from collections.abc import Iterable
from datetime import date

from allauth.account.models import EmailAddress
from django.contrib.auth.models import User
from django.db import transaction

from courses.actions.roles import grant_role
from courses.models import Person


class AddressTaken(Exception):
    """Somebody else signs in with this e-mail address."""


def take_in(
    email: str, name: str, *, today: date, roles: Iterable[str], by: Person | None = None, phone: str = ""
) -> Person:
    """A new person who signs in with this address. Raises AddressTaken; nothing is half done.

    The address is marked as verified: the invitation, or the command line, proved it. Otherwise sign-in
    would ask for two codes in a row.
    """
    address = email.strip().lower()
    with transaction.atomic():
        if EmailAddress.objects.filter(email__iexact=address).exists():
            raise AddressTaken(address)
        user = User(username=f"p-{address}"[:150], email=address)
        user.set_unusable_password()
        user.save()
        EmailAddress.objects.create(user=user, email=address, primary=True, verified=True)
        person = Person.objects.create(
            user=user, name=name.strip(), family_name=name.strip().split(" ")[-1], phone=phone, joined_on=today
        )
        for role in roles:
            grant_role(person, role, today=today, by=by)
    return person
