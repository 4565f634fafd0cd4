"""Turning what the tests note for people into letters, once each."""

import logging
from datetime import datetime

from django.db import connection, transaction
from django.utils import translation

from assessments.models import Notice
from courses.models import Person
from courses.queries.people import the_school
from courses.queries.sentences.notices import is_worded, notice_words

from .letters import full_address, send_letter

AT_ONCE = 200
_log = logging.getLogger(__name__)


def write_notices(now: datetime) -> int:
    """Write a letter for every notice that has none yet; their number. Safe to run twice and side by side.

    The letter is queued in the transaction that marks its notice, so neither is there without the other. A
    notice to somebody who has left, or whom the school does not know, is marked and written to nobody. One that
    cannot be worded stops none of the others: it goes to the log, once, since trying it again words it no better.
    """
    school = the_school()
    with transaction.atomic(), translation.override(school.language if school else None):
        rows = Notice.objects.filter(sent_at__isnull=True).order_by("happened_at", "id")
        if connection.features.has_select_for_update_skip_locked:
            rows = rows.select_for_update(skip_locked=True)
        notices = list(rows[:AT_ONCE])
        people = _people_behind({notice.person_id for notice in notices})
        for notice in notices:
            _try_to_write(notice, people.get(notice.person_id))
        Notice.objects.filter(pk__in=[notice.pk for notice in notices]).update(sent_at=now)
    return len(notices)


def _people_behind(users: set[int]) -> dict[int, Person]:
    people = Person.objects.here().filter(user__in=users).select_related("user")
    return {person.user_id: person for person in people}


def _try_to_write(notice: Notice, person: Person | None) -> None:
    try:
        with transaction.atomic():
            _write(notice, person)
    except Exception:  # whatever is wrong with this one, the next person is to hear
        _log.exception("Notice %s of the kind %s cannot be worded", notice.pk, notice.kind)


def _write(notice: Notice, person: Person | None) -> None:
    if person is None:
        return
    if not is_worded(notice.kind):
        _log.error("No words for notices of the kind %s", notice.kind)
        return
    words = notice_words(notice)
    facts = {"person": person, "subject": words.subject, "lines": words.lines, "link": full_address(words.path)}
    send_letter(person.user.email, "notice", facts, person)
