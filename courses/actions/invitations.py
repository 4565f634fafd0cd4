"""Inviting by e-mail, and taking in whoever follows the link."""

from datetime import datetime, timedelta

from allauth.account.models import EmailAddress
from django.db import transaction
from django.urls import reverse
from django.utils import timezone

from courses.actions.enrolment import enrol
from courses.actions.letters import full_address, send_letter
from courses.actions.people import AddressTaken, take_in
from courses.models import Course, Invitation, Person

USABLE_FOR = timedelta(days=14)


class AlreadyInvited(Exception):
    """An invitation to this address is still open."""


class NotUsable(Exception):
    """The invitation was used, was withdrawn, or its time is over."""


def invite(email: str, name: str, role: str, *, by: Person, now: datetime, course: Course | None = None) -> Invitation:
    """Write an invitation and send its link. Raises AddressTaken or AlreadyInvited."""
    address = email.strip().lower()
    with transaction.atomic():
        if EmailAddress.objects.filter(email__iexact=address).exists():
            raise AddressTaken(address)
        if Invitation.objects.usable(now).filter(email__iexact=address).exists():
            raise AlreadyInvited(address)
        invitation = Invitation.objects.create(
            email=address,
            name=name.strip(),
            role=role,
            course=course,
            invited_by=by,
            invited_at=now,
            closes_at=now + USABLE_FOR,
        )
        _send(invitation)
    return invitation


def resend_invitation(invitation: Invitation, *, now: datetime) -> None:
    """Send the same link again, usable for another fourteen days. Raises NotUsable if it was answered."""
    with transaction.atomic():
        standing = Invitation.objects.unanswered().select_for_update().filter(pk=invitation.pk).first()
        if standing is None:
            raise NotUsable
        standing.closes_at = now + USABLE_FOR
        standing.save(update_fields=["closes_at"])
        _send(standing)


def withdraw_invitation(invitation: Invitation, *, now: datetime) -> None:
    """Make the link useless. Raises NotUsable if it was answered."""
    changed = Invitation.objects.unanswered().filter(pk=invitation.pk).update(withdrawn_at=now)
    if not changed:
        raise NotUsable


def accept_invitation(invitation: Invitation, *, now: datetime) -> Person:
    """Take in whoever followed the link, which proves that the address is theirs.

    Raises NotUsable if the link has served or its time is over, and AddressTaken if somebody signs in with
    the address by now.
    """
    with transaction.atomic():
        open_one = Invitation.objects.usable(now).select_for_update(of=("self",)).filter(pk=invitation.pk).first()
        if open_one is None:
            raise NotUsable
        today = timezone.localdate(now)
        person = take_in(open_one.email, open_one.name, today=today, roles=[open_one.role], by=open_one.invited_by)
        if open_one.course is not None and open_one.course.ends_on >= today:
            enrol(person, open_one.course, now=now)
        open_one.accepted_at = now
        open_one.save(update_fields=["accepted_at"])
    return person


def _send(invitation: Invitation) -> None:
    link = full_address(reverse("courses:invitation", args=[invitation.key]))
    send_letter(invitation.email, "invitation", {"invitation": invitation, "link": link})
