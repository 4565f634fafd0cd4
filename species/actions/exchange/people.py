"""Those who named the specimens of an archive: people of the school by their id, others as outsiders."""

import hashlib
import re
from datetime import datetime

from django.contrib.auth.models import User
from django.utils import timezone

from species.models import DeterminerLink
from species.queries.archive_people import ARCHIVE_DOMAIN, UNNAMED, person_id
from species.rules.darwin.facts import OpinionFacts
from species.rules.darwin.layouts import IDENTIFICATIONS
from species.rules.darwin.slips import KeptAside, Notes
from species.rules.darwin.terms import DWC
from species.rules.names import squeezed

_PLAIN = re.compile(r"[a-z0-9-]{1,48}$")
_TERM = DWC + "identifiedByID"
NOBODY = "unknown"
"""All opinions of which nobody knows the author are one person's: they never confirm each other."""


class PeopleOfArchive:
    """Finds who speaks. An id that an archive of this school gave somebody means that person again."""

    def __init__(self, by: User, now: datetime, notes: Notes) -> None:
        self.by, self.now, self.notes = by, now, notes
        self.users = {person_id(user.email, user.pk): user for user in User.objects.all()}
        self.links = {person_id(link.email): link for link in DeterminerLink.objects.order_by("-pk")}

    def speaker(self, facts: OpinionFacts) -> tuple[User | None, DeterminerLink | None]:
        """The user or the outsider; an outsider who is new gets an invitation that opens nothing."""
        key = id_in_school(facts)
        if facts.by_id and key != facts.by_id:
            self.notes.aside.append(KeptAside(IDENTIFICATIONS.file, facts.row, key, _TERM, facts.by_id))
        if user := self.users.get(key):
            return user, None
        if key not in self.links:
            self.links[key] = self._outsider(key, facts.by)
        return None, self.links[key]

    def _outsider(self, key: str, name: str) -> DeterminerLink:
        today = timezone.localdate(self.now)
        return DeterminerLink.objects.create(
            name=name or UNNAMED,
            email=f"{key}{ARCHIVE_DOMAIN}",
            invited_by=self.by,
            invited_at=self.now,
            closes_on=today,
            withdrawn_on=today,
        )


def id_in_school(facts: OpinionFacts) -> str:
    """The id of whoever speaks, as this school writes it; of a stranger's id something that an address can hold."""
    if _PLAIN.match(facts.by_id):
        return facts.by_id
    if name := facts.by_id or squeezed(facts.by):
        return hashlib.sha256(name.encode()).hexdigest()[:24]
    return NOBODY
