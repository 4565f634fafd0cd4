"""Putting on record who is trusted to assess before anybody could hold a certificate, and why."""

from datetime import date

from django.db import IntegrityError, transaction
from django.utils.translation import gettext as _

from assessments.actions.refusals import Refused
from courses.models import FoundingAssessor, Person, Role


class FounderRefused(Refused):
    """Nothing was put on record."""


def record_founder(person: Person, reason: str, *, by: Person, today: date) -> FoundingAssessor:
    """Trust somebody from today on, for ever and with a reason that the report prints. Raises FounderRefused.

    Nobody vouches for themselves where another organiser can.
    """
    if not reason.strip():
        raise FounderRefused(_("Say why this person is trusted: the reason is printed in the technical report."))
    others = Person.objects.here().with_role(Role.ORGANISER, today).exclude(pk=by.pk)
    if person.pk == by.pk and others.exists():
        raise FounderRefused(_("Nobody vouches for themselves: ask another organiser to put you on record."))
    try:
        with transaction.atomic():
            return FoundingAssessor.objects.create(
                person=person, reason=reason.strip(), recorded_by=by, recorded_on=today
            )
    except IntegrityError as error:
        raise FounderRefused(_("This person is on record already, and the reason stays what it was.")) from error
