"""A participant's first page: when, where, and how far am I."""

from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.db.models import F

from assessments.models import Seat, Standard
from assessments.queries.flora import Flora, PlantName, the_flora
from assessments.queries.sentences.gaps import pair_sentence, standing_sentence
from assessments.queries.standards import standards_with_parts
from assessments.queries.standings import standings_under
from assessments.rules.standing import Standing
from courses.models import Course, Meeting, Person
from courses.rules.progress import Progress, progress_on

from .meetings import MeetingLine, meeting_lines


@dataclass(frozen=True)
class OpenPaper:
    """A paper that may be sat now; `begun` when a sitting is under way."""

    seat: Seat
    begun: bool


@dataclass(frozen=True)
class PairSoFar:
    """One pair: how far, and the sentence about it."""

    gathered: PlantName
    mistaken: PlantName
    progress: Progress
    sentence: str


@dataclass(frozen=True)
class StandardSoFar:
    """How far somebody is under one standard: the nearest pairs first, the passed ones apart."""

    standard: Standard
    sentence: str
    passed: tuple[PairSoFar, ...]
    ahead: tuple[PairSoFar, ...]

    @property
    def nearest(self) -> PairSoFar | None:
        """The pair for which least is missing."""
        return self.ahead[0] if self.ahead else None


@dataclass(frozen=True)
class ParticipantHome:
    """When, where, and how far am I."""

    next_meeting: MeetingLine | None
    papers: tuple[OpenPaper, ...]
    waiting_for: tuple[Course, ...]
    standards: tuple[StandardSoFar, ...]


def participant_home(person: Person, now: datetime) -> ParticipantHome:
    """The first page of a participant, in a constant number of queries."""
    coming = Meeting.objects.of_people_in(person.pk).coming(now).order_by("starts_at", "id").values("pk")[:1]
    waiting = person.enrolments.waiting_in_order().select_related("course")
    return ParticipantHome(
        next_meeting=next(iter(meeting_lines(Meeting.objects.filter(pk__in=coming), now)), None),
        papers=tuple(papers_open_for(person.user, now)),
        waiting_for=tuple(each.course for each in waiting),
        standards=tuple(progress_of(person, now)),
    )


def papers_open_for(user: User, now: datetime) -> list[OpenPaper]:
    """Papers that somebody may begin, or go on with, now; those that close first come first."""
    seats = (
        Seat.objects.of(user.pk)
        .open_at(now)
        .select_related("paper", "sitting")
        .order_by(F("closes_at").asc(nulls_last=True), "id")
    )
    found = [OpenPaper(seat, hasattr(seat, "sitting")) for seat in seats if _may_still_be_sat(seat)]
    return sorted(found, key=lambda each: not each.begun)


def _may_still_be_sat(seat: Seat) -> bool:
    sitting = getattr(seat, "sitting", None)
    return sitting is None or (sitting.handed_in_at is None and sitting.annulled_at is None)


def progress_of(person: Person, now: datetime) -> list[StandardSoFar]:
    """How far somebody is under the standards of the courses they have or had a place in."""
    standards = list(standards_with_parts().filter(courses__enrolments__in=person.enrolments.with_a_place()).distinct())
    if not standards:
        return []
    flora = the_flora()
    standings = standings_under(person.user, standards, now, flora)
    return [_so_far(standard, standings[standard.pk], flora) for standard in standards]


def _so_far(standard: Standard, standing: Standing, flora: Flora) -> StandardSoFar:
    pairs = [
        PairSoFar(
            flora.plant(verdict.pair.gathered),
            flora.plant(verdict.pair.mistaken),
            progress_on(verdict),
            pair_sentence(verdict, standing.gaps, flora),
        )
        for verdict in standing.pairs
    ]
    ahead = sorted((pair for pair in pairs if not pair.progress.passed), key=lambda pair: pair.progress.missing)
    passed = tuple(pair for pair in pairs if pair.progress.passed)
    return StandardSoFar(standard, standing_sentence(standing), passed, tuple(ahead))
