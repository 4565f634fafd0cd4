"""Who somebody is in the school: the person behind a user, with the roles held today."""

from dataclasses import dataclass
from datetime import date

from allauth.mfa.models import Authenticator
from django.contrib.auth.models import AnonymousUser, User

from courses.models import Person, Role, School


@dataclass(frozen=True)
class Viewer:
    """The person who looks at a page. `person` is None for strangers and for users the school does not know."""

    person: Person | None
    roles: frozenset[str] = frozenset()
    today: date | None = None

    def is_any(self, *roles: str) -> bool:
        return bool(self.roles.intersection(roles))

    @property
    def is_organiser(self) -> bool:
        return Role.ORGANISER in self.roles

    @property
    def is_tutor(self) -> bool:
        return Role.TUTOR in self.roles

    @property
    def is_assessor(self) -> bool:
        return Role.ASSESSOR in self.roles

    @property
    def is_staff(self) -> bool:
        """Somebody who works for the school rather than learning in it."""
        return self.is_any(Role.ORGANISER, Role.TUTOR, Role.ASSESSOR)


def viewer_of(user: User | AnonymousUser, today: date) -> Viewer:
    """The viewer behind a signed-in user, in two queries."""
    if not user.is_authenticated:
        return Viewer(None)
    person = Person.objects.filter(user_id=user.pk, left_on__isnull=True).first()
    if person is None:
        return Viewer(None)
    return Viewer(person, frozenset(person.roles.held_on(today).values_list("role", flat=True)), today)


def lacks_second_factor(viewer: Viewer) -> bool:
    """Whether somebody signs in with a code by e-mail and nothing else; one query."""
    if viewer.person is None:
        return True
    kinds = [Authenticator.Type.TOTP, Authenticator.Type.WEBAUTHN]
    return not Authenticator.objects.filter(user_id=viewer.person.user_id, type__in=kinds).exists()


def the_school() -> School | None:
    """The school that this site belongs to, or None before it is opened."""
    return School.objects.first()
