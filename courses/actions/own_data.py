"""Handing somebody everything that the school holds of them: their results count as seen by that."""

from datetime import datetime
from typing import Any

from assessments.actions.handing_in import note_results_seen, settle_overdue
from courses.actions.health import own_notes
from courses.models import JoiningForm, Person
from courses.queries.own_record import everything_of
from courses.rules.notes import FIELDS


def take_own_data(person: Person, now: datetime) -> dict[str, Any]:
    """The file of `everything_of`, with what they told in confidence in plain words."""
    settle_overdue(now)
    told = everything_of(person, now)
    forms = JoiningForm.objects.filter(enrolment__person=person).select_related("enrolment__course").order_by("pk")
    for form, line in zip(forms, told["school"]["joining_forms"], strict=True):
        notes = own_notes(form)
        line["told"] = {name: getattr(notes, name) for name in FIELDS}
    note_results_seen([person.user_id], now)
    return told
