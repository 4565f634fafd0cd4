"""Taking the name of somebody who is erased off the certificates that they held or decided."""

from collections.abc import Iterable
from typing import Any

from django.db.models import Q

from courses.models import (
    Application,
    Certificate,
    CertificateEvent,
    Conflict,
    FoundingAssessor,
    Person,
    ReviewOpened,
)


def names_left(person: Person) -> list[Certificate]:
    """Certificates that still say who somebody was: as their holder, or as who decided. The person is a code by now."""
    rows = Certificate.objects.filter(Q(person=person) | Q(decided_by=person)).order_by("valid_until", "pk")
    return [each for each in rows if _without_name(each.facts, each, person) != each.facts]


def take_names(certificates: Iterable[Certificate], person: Person) -> None:
    """Let the code stand on these, in every version that was kept of them; what was written about the holder goes.

    The signed credential goes too: it holds the address behind a salt. Its place in the status list stays taken.
    """
    for each in certificates:
        facts = _without_name(each.facts, each, person)
        own: dict[str, Any] = {"credential": ""} if each.person_id == person.pk else {}
        Certificate.objects.filter(pk=each.pk).update(facts=facts, **own)
        versions = Certificate.history.filter(id=each.pk)
        for version in versions:
            kept = _without_name(version.facts, each, person)
            versions.filter(history_id=version.history_id).update(facts=kept, **own)
        if own:
            CertificateEvent.objects.filter(certificate=each).update(reason="")
            ReviewOpened.objects.filter(certificate=each).update(reason="")
    if not names_left(person):
        Application.objects.filter(person=person).update(reason="")
        FoundingAssessor.objects.filter(person=person).update(reason="")
        Conflict.objects.filter(Q(decider=person) | Q(about=person)).delete()


def _without_name(facts: dict[str, Any], certificate: Certificate, person: Person) -> dict[str, Any]:
    """What a certificate says, with the code of the person wherever it named them."""
    said = dict(facts)
    if certificate.person_id == person.pk:
        said["holder"] = person.name
    if certificate.decided_by_id == person.pk:
        said["decider"] = person.name
    return said
