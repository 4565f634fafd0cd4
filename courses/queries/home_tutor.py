"""A tutor's first page: what is next, and who needs me."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.utils import timezone

from assessments.models import Paper
from assessments.queries.evidence import answers_of
from assessments.queries.flora import Flora, the_flora
from assessments.queries.standards import facts_of, standards_with_parts
from assessments.rules.evidence import AnswerFacts
from assessments.rules.standing import misses_since
from courses.models import Course, Enrolment, Meeting, Person
from species.models import Specimen

from .course_page import PaperLine, lines_of_papers
from .meetings import MeetingLine, meeting_lines

LATELY = timedelta(days=60)
REGISTERS_LOOKED_BACK = timedelta(days=90)


@dataclass(frozen=True)
class PlantMissed:
    """A dangerous plant that somebody would have gathered lately: taken for what, how often, when last."""

    plant: str
    taken_for: str
    times: int
    last_on: date


@dataclass(frozen=True)
class Confused:
    """Somebody who would have gathered dangerous plants lately, the most often missed first."""

    person: Person
    course: Course
    plants: tuple[PlantMissed, ...]

    @property
    def times(self) -> int:
        return sum(each.times for each in self.plants)


@dataclass(frozen=True)
class PaperWatched:
    """An open paper of a course that somebody has still to hand in."""

    course: Course
    line: PaperLine

    @property
    def missing(self) -> int:
        return self.line.seats - self.line.handed_in


@dataclass(frozen=True)
class TutorHome:
    """What is next, and who needs me."""

    next_meeting: MeetingLine | None
    registers: tuple[MeetingLine, ...]
    confused: tuple[Confused, ...]
    papers: tuple[PaperWatched, ...]


def tutor_home(person: Person, now: datetime, today: date) -> TutorHome:
    """The first page of a tutor, in a constant number of queries."""
    meetings = Meeting.objects.of_tutor(person.pk).standing()
    coming = meetings.coming(now).order_by("starts_at", "id").values("pk")[:1]
    over = meetings.over(now).filter(ends_at__gte=now - REGISTERS_LOOKED_BACK).values("pk")
    wanted = [line for line in meeting_lines(Meeting.objects.filter(pk__in=over), now) if line.register_is_wanted]
    running = list(Course.objects.taught_by(person.pk).running_on(today))
    return TutorHome(
        next_meeting=next(iter(meeting_lines(Meeting.objects.filter(pk__in=coming), now)), None),
        registers=tuple(reversed(wanted)),
        confused=tuple(confused_in(running, now)),
        papers=tuple(_papers_open(person, now)),
    )


def confused_in(courses: list[Course], now: datetime) -> list[Confused]:
    """People of these courses who would have gathered a dangerous plant in the last sixty days, worst first."""
    enrolments = Enrolment.objects.with_a_place().filter(course__in=courses).select_related("person", "course")
    placed = list(enrolments.order_by("course_id", "person_id"))
    facts = facts_of(standards_with_parts().filter(courses__in=courses).distinct())
    answers = answers_of({each.person.user_id for each in placed})
    flora = the_flora()
    found = []
    for each in placed:
        mine = answers[each.person.user_id]
        misses = misses_since(facts[each.course.standard_id], mine, now - LATELY)
        if misses:
            found.append(Confused(each.person, each.course, _plants_of(misses, flora)))
    return sorted(found, key=lambda each: each.times, reverse=True)


def _plants_of(misses: Iterable[AnswerFacts], flora: Flora) -> tuple[PlantMissed, ...]:
    by_species: dict[str, list[AnswerFacts]] = defaultdict(list)
    for miss in misses:
        by_species[miss.specimen.species or ""].append(miss)
    plants = [
        PlantMissed(
            flora.common(species),
            ", ".join(dict.fromkeys(flora.common(m.named_species) for m in mine if m.named_species)),
            len(mine),
            timezone.localdate(mine[-1].shown_at),
        )
        for species, mine in by_species.items()
    ]
    return tuple(sorted(plants, key=lambda each: (each.times, each.last_on), reverse=True))


def _papers_open(person: Person, now: datetime) -> list[PaperWatched]:
    papers = Paper.objects.filter(courses__tutors=person.pk).distinct().prefetch_related("courses__tutors")
    open_now = [line for line in lines_of_papers(papers, now) if line.when == "open" and line.handed_in < line.seats]
    return [
        PaperWatched(course, line)
        for line in open_now
        for course in line.paper.courses.all()
        if person in course.tutors.all()
    ]


def specimens_to_name(person: Person) -> int:
    """How many specimens of the bank have one name and wait for a second, which this person may give."""
    waiting = Specimen.objects.waiting_for_determination_by(person.user_id)
    return waiting.filter(determinations__isnull=False).distinct().count()
