"""An organiser's first page: who is ready, and what is overdue."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from courses.models import (
    Application,
    Complaint,
    DecisionAppeal,
    Enquiry,
    Invitation,
    Letter,
    Meeting,
    Person,
    RequirementRecord,
)
from courses.rules.requirements import LAPSES_SOON_DAYS

from .invitations import InvitationLine, invitation_state
from .meetings import MeetingLine, meeting_lines
from .readiness import leader_readiness, possible_leaders

LEADERLESS_SHOWN = 8


@dataclass(frozen=True)
class Lapse:
    """The latest proof of a requirement that somebody showed, which has lapsed or lapses soon."""

    record: RequirementRecord
    has_lapsed: bool


@dataclass(frozen=True)
class Leaders:
    """Who may lead a walk today, and who is on the way there."""

    ready: tuple[Person, ...]
    not_yet: tuple[Person, ...]


@dataclass(frozen=True)
class InTray:
    """How many appeals, questions and complaints wait for an answer, and how many letters could not be delivered."""

    appeals: int
    questions: int
    complaints: int
    undelivered: int

    @property
    def is_empty(self) -> bool:
        return not (self.appeals or self.questions or self.complaints or self.undelivered)


@dataclass(frozen=True)
class OrganiserHome:
    """Who is ready, what is overdue."""

    leaders: Leaders
    leaderless: tuple[MeetingLine, ...]
    lapses: tuple[Lapse, ...]
    applications: tuple[Application, ...]
    invitations: tuple[InvitationLine, ...]
    tray: InTray

    @property
    def is_clear(self) -> bool:
        waits = self.leaderless or self.lapses or self.applications or self.invitations
        return not waits and self.tray.is_empty


def organiser_home(now: datetime, today: date) -> OrganiserHome:
    """The first page of an organiser, in a constant number of queries."""
    leaderless = Meeting.objects.coming(now).walks().without_leader().order_by("starts_at").values("pk")
    lines = meeting_lines(Meeting.objects.filter(pk__in=leaderless[:LEADERLESS_SHOWN]), now)
    applications = Application.objects.undecided().select_related("person", "standard").order_by("applied_at")
    invitations = Invitation.objects.unanswered().select_related("course", "invited_by")
    return OrganiserHome(
        leaders=leaders_on(today),
        leaderless=tuple(lines),
        lapses=tuple(lapses(today)),
        applications=tuple(applications),
        invitations=tuple(InvitationLine(each, invitation_state(each, now)) for each in invitations),
        tray=in_tray(),
    )


def in_tray() -> InTray:
    """What came in and waits; four queries."""
    return InTray(
        appeals=DecisionAppeal.objects.undecided().count(),
        questions=Enquiry.objects.unanswered().count(),
        complaints=Complaint.objects.filter(answered_at__isnull=True).count(),
        undelivered=Letter.objects.undelivered().count(),
    )


def leaders_on(day: date) -> Leaders:
    """Who is ready to lead on a day, among those who are on the way to leading."""
    people = possible_leaders()
    found = leader_readiness([person.pk for person in people], day)
    return Leaders(
        tuple(person for person in people if found[person.pk].ready),
        tuple(person for person in people if not found[person.pk].ready),
    )


def lapses(today: date) -> list[Lapse]:
    """Requirements whose latest proof lapsed, or lapses within sixty days, soonest first; one query."""
    latest: dict[tuple[int, str], RequirementRecord] = {}
    rows = RequirementRecord.objects.filter(person__left_on__isnull=True).select_related("person")
    for row in rows:
        key = (row.person_id, row.kind)
        if key not in latest or _end(row) > _end(latest[key]):
            latest[key] = row
    soon = today + timedelta(days=LAPSES_SOON_DAYS)
    due = [row for row in latest.values() if _end(row) <= soon]
    return [Lapse(row, _end(row) < today) for row in sorted(due, key=_end)]


def _end(record: RequirementRecord) -> date:
    return record.valid_until or date.max
