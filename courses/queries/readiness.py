"""Who is ready to lead on a day, or a given walk; one constant number of queries for everybody."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from django.db.models import Exists, OuterRef

from courses.models import Certificate, LeadingGrant, Meeting, Person, RequirementRecord, WalkPart
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
    """People who are on the way to leading: with any proof, assisted walk, step, leave, or leader certificate."""
    mine = {"person": OuterRef("pk")}
    signs = [
        Exists(RequirementRecord.objects.filter(**mine)),
        Exists(Certificate.objects.filter(**mine, standard__leads_walks=True)),
        Exists(WalkPart.objects.filter(**mine)),
        Exists(LeadingGrant.objects.filter(**mine)),
        Exists(Meeting.assistants.through.objects.filter(**mine)),
    ]
    any_sign = signs[0] | signs[1] | signs[2] | signs[3] | signs[4]
    return list(Person.objects.here().filter(any_sign))
