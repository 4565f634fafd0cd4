"""Letters and notices as pages show them."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import QuerySet

from assessments.models import Notice
from courses.models import Course, Letter, Meeting, Person
from courses.queries.sentences.notices import NoticeWords, is_worded, notice_words
from courses.querysets import PersonQuerySet


@dataclass(frozen=True)
class NoticeLine:
    """One notice to the person who reads it."""

    at: datetime
    words: NoticeWords


@dataclass(frozen=True)
class PostOffice:
    """What waits, what could not be delivered, and what went out last."""

    waiting: int
    stuck: list[Letter]
    undelivered: list[Letter]
    sent: list[Letter]


def notices_to(person: Person, most: int = 50) -> list[NoticeLine]:
    """The latest notices to somebody, newest first; one query."""
    rows = Notice.objects.filter(person=person.user_id).order_by("-happened_at", "-id")[:most]
    return [NoticeLine(row.happened_at, notice_words(row)) for row in rows if is_worded(row.kind)]


def post_office(most: int = 50) -> PostOffice:
    """The state of the school's letters; four queries."""
    waiting: QuerySet[Letter] = Letter.objects.waiting()
    return PostOffice(
        waiting=waiting.count(),
        stuck=list(waiting.filter(attempts__gt=0).order_by("queued_at")[:most]),
        undelivered=list(Letter.objects.undelivered()[:most]),
        sent=list(Letter.objects.filter(sent_at__isnull=False).order_by("-sent_at")[:most]),
    )


def readers_in(course: Course) -> PersonQuerySet:
    """Whom a message to a course goes to: everybody with a place."""
    people = Person.objects.here().filter(
        enrolments__course=course, enrolments__withdrawn_at__isnull=True, enrolments__waiting=False
    )
    return people.select_related("user").order_by("name")


def readers_at(meeting: Meeting) -> PersonQuerySet:
    """Whom a message about a meeting goes to: everybody who would come in vain without it."""
    return Person.objects.here().expected_at(meeting.pk).select_related("user").order_by("name")
