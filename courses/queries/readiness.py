"""Who is ready to lead on a day, or a given walk; one constant number of queries for everybody."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from courses.models import Meeting, Person
from courses.rules.readiness import Readiness, readiness
from courses.rules.requirements import Asked

from .leader_facts import KnownOfLeaders, asked_of, occasion_of


def leader_readiness(people: Collection[int], day: date) -> dict[int, Readiness]:
    """For each of these people whether they may lead on this day; the same queries, however many people."""
    known, asked = KnownOfLeaders(people), asked_of()
    return {person: readiness(known.on(person, day), day, asked) for person in people}


@dataclass(frozen=True)
class OnTheWay:
    """Everybody in the school who is on the way to leading: what is known of them, and their names by id."""

    known: KnownOfLeaders
    names: dict[int, str]

    def readiness(self, asked: Sequence[Asked], day: date) -> dict[int, Readiness]:
        """Everybody against what is asked, on a day."""
        return {person: readiness(self.known.on(person, day), day, asked) for person in self.names}


def on_the_way() -> OnTheWay:
    """All of them, in a constant number of queries."""
    known = KnownOfLeaders()
    seen = known.on_the_way
    names = {person: name for person, name in Person.objects.here().values_list("pk", "name") if person in seen}
    return OnTheWay(known, names)


def readiness_for(walk: Meeting, people: Collection[int]) -> dict[int, Readiness]:
    """For each of these people whether they may lead this very walk."""
    known, asked, occasion = KnownOfLeaders(people), asked_of(), occasion_of(walk)
    return {person: readiness(known.on(person, occasion.day), occasion, asked) for person in people}


def possible_leaders() -> list[Person]:
    """People of the school who are on the way to leading, as rows."""
    return list(Person.objects.here().filter(pk__in=KnownOfLeaders().on_the_way))
