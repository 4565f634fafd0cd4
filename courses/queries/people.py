"""Who somebody is in the school: the person behind a user, with the roles held today."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from allauth.account.models import EmailAddress
from allauth.mfa.models import Authenticator
from django.contrib.auth.models import AnonymousUser, User
from django.db.models import Q, QuerySet

from courses.models import Letter, Person, Role, School


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


def addresses_of(person: Person) -> tuple[str, ...]:
    """Every address that is or was somebody's own, in lower case: proved by a code, or written to as theirs.

    Not one that somebody else signs in with by now, nor one that was only claimed. Four queries.
    """
    proved = EmailAddress.objects.filter(user=person.user_id, verified=True).values_list("email", flat=True)
    written_to = Letter.objects.filter(person=person).values_list("to", flat=True)
    own = {each.lower() for each in (person.user.email, *proved, *written_to.distinct())} - {""}
    others = {
        each.lower()
        for rows in (EmailAddress.objects.filter(verified=True).exclude(user=person.user_id), _other_users(person))
        for each in rows.filter(at_any("email", own)).values_list("email", flat=True)
    }
    return tuple(sorted(own - others))


def _other_users(person: Person) -> QuerySet[User]:
    return User.objects.exclude(pk=person.user_id)


def at_any(field: str, addresses: Iterable[str]) -> Q:
    """Rows that hold one of these addresses in a field, however it is written there; none where there are none."""
    found = Q(pk__in=())
    for each in addresses:
        found |= Q(**{f"{field}__iexact": each})
    return found


def borne_by_another(name: str, person: Person) -> bool:
    """Whether somebody else of the school is called so: in a text it may mean either."""
    return Person.objects.filter(name__iexact=name).exclude(pk=person.pk).exists()


def lacks_second_factor(viewer: Viewer) -> bool:
    """Whether somebody signs in with a code by e-mail and nothing else; one query."""
    if viewer.person is None:
        return True
    kinds = [Authenticator.Type.TOTP, Authenticator.Type.WEBAUTHN]
    return not Authenticator.objects.filter(user_id=viewer.person.user_id, type__in=kinds).exists()


def the_school() -> School | None:
    """The school that this site belongs to, or None before it is opened."""
    return School.objects.first()
