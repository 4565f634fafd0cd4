"""Questions from outside: kept, told to the organisers, answered by letter, closed, and erased on time."""

from datetime import datetime, timedelta

from django.conf import settings
from django.db import transaction
from django.urls import reverse
from django.utils import timezone

from courses.actions.letters import full_address, send_letter, write_to
from courses.models import Course, Enquiry, Person, Role


class AlreadyAnswered(Exception):
    """Somebody answered it meanwhile, or closed it."""


def ask(course: Course | None, *, name: str, email: str, text: str, now: datetime) -> Enquiry:
    """Keep a question and write to the organisers."""
    with transaction.atomic():
        enquiry = Enquiry.objects.create(course=course, name=name, email=email, text=text, asked_at=now)
        link = full_address(reverse("courses:enquiry", args=[enquiry.key]))
        organisers = Person.objects.here().with_role(Role.ORGANISER, timezone.localdate(now)).select_related("user")
        write_to(organisers, "enquiry", {"enquiry": enquiry, "link": link})
    return enquiry


def answer(enquiry: Enquiry, text: str, *, by: Person, now: datetime) -> None:
    """Answer by letter, once. Raises AlreadyAnswered."""
    with transaction.atomic():
        mine = Enquiry.objects.unanswered().filter(pk=enquiry.pk)
        if not mine.update(answer=text, answered_at=now, answered_by=by):
            raise AlreadyAnswered
        send_letter(enquiry.email, "enquiry_answer", {"enquiry": enquiry, "answer": text, "by": by})


def close(enquiry: Enquiry, now: datetime) -> None:
    """Put a question away without an answer: answered by telephone, or none is needed."""
    Enquiry.objects.unanswered().filter(pk=enquiry.pk).update(closed_at=now)


def erase_enquiries(now: datetime) -> int:
    """Erase questions that have reached their term; their number. Safe to run twice."""
    term = now - timedelta(days=settings.ENQUIRIES_KEPT_DAYS)
    count, _each = Enquiry.objects.filter(asked_at__lt=term).delete()
    return count
