"""People in archives: told apart by an id that names nobody, named only where they agreed."""

from dataclasses import dataclass

from django.contrib.auth.models import User
from django.utils.crypto import salted_hmac

from species.models import Determination, DeterminerLink

ARCHIVE_DOMAIN = "@archive.invalid"
"""The e-mail of somebody whom only an archive knows: their id, and a domain that can belong to nobody."""
UNNAMED = "somebody outside"
_SALT = "species.archive.person"


@dataclass(frozen=True)
class Determiner:
    """Somebody who named a specimen, as the page asks whether they agreed to be named."""

    id: str
    name: str


def person_id(email: str, user_id: int | None = None) -> str:
    """The same id for the same person in every archive of this school; nobody else can tell whose it is."""
    address = email.strip().lower()
    if address.endswith(ARCHIVE_DOMAIN):
        return address.removesuffix(ARCHIVE_DOMAIN)
    return salted_hmac(_SALT, address or f"user {user_id}").hexdigest()[:24]


def id_of(row: Determination) -> str:
    """The id of whoever made a determination; reads its determiner and its link."""
    email = row.determiner.email if row.determiner else row.link.email if row.link else ""
    return person_id(email, row.determiner_id)


def name_of(row: Determination) -> str:
    """Their name; empty where only an archive knows them, and did not name them."""
    if row.determiner:
        return name_of_user(row.determiner)
    return row.link.name if row.link and row.link.name != UNNAMED else ""


def name_of_user(user: User) -> str:
    return user.get_full_name() or user.email


def has_agreed(row: Determination, agreed: frozenset[str]) -> bool:
    """Whether this person may be named: they said so, or an archive that came in named them already."""
    return came_in(row) or id_of(row) in agreed


def came_in(row: Determination) -> bool:
    """Whether it is the opinion of somebody whom only an archive knows."""
    return row.link is not None and row.link.email.endswith(ARCHIVE_DOMAIN)


def determiners() -> list[Determiner]:
    """Everybody who named a specimen, by name; two queries."""
    found: dict[str, str] = {}
    for user in User.objects.filter(determinations__isnull=False).distinct():
        found[person_id(user.email, user.pk)] = name_of_user(user)
    links = DeterminerLink.objects.filter(determinations__isnull=False).exclude(email__endswith=ARCHIVE_DOMAIN)
    for link in links.distinct():
        found.setdefault(person_id(link.email), link.name)
    return sorted((Determiner(key, name) for key, name in found.items()), key=lambda each: each.name)
