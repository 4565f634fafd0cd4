"""What the page of one meeting shows."""

from dataclasses import dataclass
from datetime import datetime

from courses.models import Meeting, MeetingModule, Person

from .meetings import meeting_when
from .people import Viewer
from .plan import ModulePlan, plan_of
from .register import Register, register_of
from .visible import meetings_planned_by, meetings_run_by
from .walks import candidates_of


@dataclass(frozen=True)
class MeetingPage:
    """One meeting. The register, and whether the leader is ready on the day, are for those who keep it alone."""

    meeting: Meeting
    when: str
    is_planned: bool
    assistants: tuple[Person, ...]
    plan: tuple[ModulePlan, ...]
    taught: tuple[MeetingModule, ...]
    register: Register | None
    leader_is_ready: bool | None

    @property
    def place(self) -> str:
        return self.meeting.site.locality.name if self.meeting.site else self.meeting.place

    @property
    def lacks_leader(self) -> bool:
        return self.meeting.is_walk and self.meeting.leader is None and self.when == "coming"


def meeting_page(meeting: Meeting, viewer: Viewer, now: datetime) -> MeetingPage:
    """All that the page shows, in a constant number of queries."""
    is_kept = meetings_run_by(viewer).filter(pk=meeting.pk).exists()
    return MeetingPage(
        meeting=meeting,
        when=meeting_when(meeting, now),
        is_planned=meetings_planned_by(viewer).filter(pk=meeting.pk).exists(),
        assistants=tuple(meeting.assistants.all()),
        plan=tuple(plan_of(meeting)),
        taught=tuple(meeting.modules_in_order.select_related("module")) if is_kept else (),
        register=register_of(meeting, now) if is_kept else None,
        leader_is_ready=_leader_is_ready(meeting, now) if is_kept else None,
    )


def _leader_is_ready(meeting: Meeting, now: datetime) -> bool | None:
    """Whether the leader of a walk meets what is asked on its day and tells every pair apart that can be met there;
    None where no leader is asked for."""
    if not meeting.is_walk or meeting.leader is None:
        return None
    lines, _pairs = candidates_of([meeting], now, [meeting.leader])
    return lines[meeting.pk][0].is_ready
