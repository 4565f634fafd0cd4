"""People as this room knows them: what signs in, with a name to call them by."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db.models import Q


def name_of(person: User) -> str:
    """What pages call somebody: the name, or the address where the school has no name for them."""
    return person.get_full_name() or person.email


@dataclass(frozen=True)
class Found:
    """Who was meant by some lines of names and addresses; `unknown` and `unclear` are lines as typed."""

    people: tuple[User, ...]
    unknown: tuple[str, ...]
    unclear: tuple[str, ...]


def people_called(lines: Iterable[str]) -> Found:
    """The people meant by these lines, each an e-mail address or a full name; one query.

    A name that two people bear is unclear: the address tells them apart.
    """
    wanted = list(dict.fromkeys(line.strip() for line in lines if line.strip()))
    by_word: dict[str, list[User]] = {}
    asked = Q(pk__in=[])
    for line in wanted:
        asked |= Q(email__iexact=line) | Q(first_name__iexact=line)
        asked |= Q(first_name__iexact=line.rpartition(" ")[0], last_name__iexact=line.rpartition(" ")[2])
    for person in User.objects.filter(asked, is_active=True).order_by("pk"):
        for word in {person.email.casefold(), person.get_full_name().casefold()}:
            by_word.setdefault(word, []).append(person)
    found = {line: by_word.get(line.casefold(), []) for line in wanted}
    people = {found[line][0].pk: found[line][0] for line in wanted if len(found[line]) == 1}
    return Found(
        tuple(people.values()),
        tuple(line for line in wanted if not found[line]),
        tuple(line for line in wanted if len(found[line]) > 1),
    )


def people_like(text: str, limit: int = 20) -> list[User]:
    """Up to so many people whose name or address holds this text."""
    words = text.split()
    if not words:
        return []
    people = User.objects.filter(is_active=True)
    for word in words:
        people = people.filter(Q(first_name__icontains=word) | Q(last_name__icontains=word) | Q(email__icontains=word))
    return list(people.order_by("first_name", "last_name", "email")[:limit])
