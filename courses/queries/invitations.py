"""How invitations stand."""

from dataclasses import dataclass
from datetime import datetime

from courses.models import Invitation

LATEST_ANSWERS = 20


@dataclass(frozen=True)
class InvitationLine:
    """An invitation and how it stands: open, expired, accepted or withdrawn."""

    invitation: Invitation
    state: str


@dataclass(frozen=True)
class Invitations:
    """Those that wait for an answer, latest first, and the latest of the others."""

    waiting: tuple[InvitationLine, ...]
    answered: tuple[InvitationLine, ...]


def invitation_state(invitation: Invitation, now: datetime) -> str:
    """open, expired, accepted or withdrawn."""
    if invitation.accepted_at is not None:
        return "accepted"
    if invitation.withdrawn_at is not None:
        return "withdrawn"
    return "open" if invitation.closes_at > now else "expired"


def invitations_listed(now: datetime) -> Invitations:
    """All that wait for an answer and the latest answers, in two queries."""
    rows = Invitation.objects.select_related("course", "invited_by")
    waiting = rows.unanswered()
    answered = rows.exclude(pk__in=waiting.values("pk"))[:LATEST_ANSWERS]
    return Invitations(
        tuple(InvitationLine(each, invitation_state(each, now)) for each in waiting),
        tuple(InvitationLine(each, invitation_state(each, now)) for each in answered),
    )
