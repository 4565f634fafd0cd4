"""Taking people into the school."""

from collections.abc import Iterable
from datetime import date

from allauth.account.models import EmailAddress
from django.contrib.auth.models import User
from django.db import transaction

from courses.actions.roles import end_role, grant_role
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
        _call(user, name)
        user.set_unusable_password()
        user.save()
        EmailAddress.objects.create(user=user, email=address, primary=True, verified=True)
        person = Person.objects.create(
            user=user,
            name=name.strip(),
            family_name=name.strip().split(" ")[-1],
            phone=phone,
            joined_on=today,
        )
        for role in roles:
            grant_role(person, role, today=today, by=by)
    return person


def keep_person(person: Person, *, today: date) -> None:
    """Save what was corrected. Somebody who has left loses every role, cannot sign in, and may come back.

    Raises LastOrganiser if the school would be left without an organiser; nothing is saved then.
    """
    with transaction.atomic():
        person.save()
        here = person.left_on is None
        if not here:
            for grant in person.roles.held_on(today):
                end_role(grant, today=today)
        person.user.is_active = here
        _call(person.user, person.name)
        person.user.save(update_fields=["is_active", "first_name", "last_name"])


def _call(user: User, name: str) -> None:
    """The rooms below call people by the name of the user, which follows the name of the person."""
    first, _space, last = name.strip().rpartition(" ")
    user.first_name, user.last_name = (first, last) if first else (last, "")
