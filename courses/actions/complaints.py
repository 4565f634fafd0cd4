"""Complaints about the school: kept apart from appeals, told to the organisers, and answered by letter, once."""

from datetime import datetime

from django.db import transaction
from django.urls import reverse
from django.utils import timezone

from courses.actions.letters import full_address, send_letter, write_to
from courses.models import Complaint, Person, Role


class AlreadyAnswered(Exception):
    """Somebody answered it meanwhile."""


def complain(*, name: str, email: str, text: str, now: datetime) -> Complaint:
    """Keep a complaint, acknowledge it, and write to the organisers."""
    with transaction.atomic():
        complaint = Complaint.objects.create(name=name, email=email, text=text, received_at=now)
        send_letter(email, "complaint_received", {"complaint": complaint})
        link = full_address(reverse("courses:complaint", args=[complaint.key]))
        organisers = Person.objects.here().with_role(Role.ORGANISER, timezone.localdate(now)).select_related("user")
        write_to(organisers, "complaint", {"complaint": complaint, "link": link})
    return complaint


def answer_complaint(complaint: Complaint, text: str, *, by: Person, now: datetime) -> None:
    """Answer once, by letter where there still is an address. Raises AlreadyAnswered."""
    with transaction.atomic():
        mine = Complaint.objects.filter(pk=complaint.pk, answered_at__isnull=True)
        if not mine.update(answer=text, answered_at=now, answered_by=by):
            raise AlreadyAnswered
        if complaint.email:  # whoever complained may have been erased since
            send_letter(complaint.email, "complaint_answer", {"complaint": complaint, "answer": text, "by": by})
