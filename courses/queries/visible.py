"""What a viewer may see, as querysets to find things in. What is not in them does not exist for that viewer.

An organiser sees the school. A tutor sees the courses that they teach, while they hold the role. Leaders and
assistants see the meetings they were named for. Participants see the courses they have a place or a turn in.
"""

from django.db.models import Q

from courses.models import Course, Meeting, Person
from courses.querysets import CourseQuerySet, MeetingQuerySet, PersonQuerySet

from .people import Viewer


def courses_run_by(viewer: Viewer) -> CourseQuerySet:
    """Courses whose places, meetings and papers the viewer looks after."""
    if viewer.person is None:
        return Course.objects.none()
    if viewer.is_organiser:
        return Course.objects.all()
    return Course.objects.taught_by(viewer.person.pk) if viewer.is_tutor else Course.objects.none()


def courses_seen_by(viewer: Viewer) -> CourseQuerySet:
    """Courses whose page the viewer may open."""
    if viewer.person is None or viewer.is_organiser:
        return courses_run_by(viewer)
    own = Course.objects.attended_by(viewer.person.pk).values("pk")
    return Course.objects.filter(Q(pk__in=own) | Q(pk__in=courses_run_by(viewer).values("pk")))


def meetings_run_by(viewer: Viewer) -> MeetingQuerySet:
    """Meetings whose register the viewer keeps: of their courses, led or assisted at, or handed to them on its day."""
    if viewer.person is None:
        return Meeting.objects.none()
    if viewer.is_organiser:
        return Meeting.objects.all()
    named = Meeting.objects.led_or_assisted_by(viewer.person.pk).values("pk")
    standing_in = Meeting.objects.handed_to(viewer.person.pk, viewer.today).values("pk")
    return Meeting.objects.filter(
        Q(pk__in=named) | Q(pk__in=standing_in) | Q(course__in=courses_run_by(viewer).values("pk"))
    )


def meetings_planned_by(viewer: Viewer) -> MeetingQuerySet:
    """Meetings that the viewer may move, cancel or plan anew."""
    if viewer.person is None:
        return Meeting.objects.none()
    if viewer.is_organiser:
        return Meeting.objects.all()
    return Meeting.objects.filter(course__in=courses_run_by(viewer).values("pk"))


def meetings_seen_by(viewer: Viewer) -> MeetingQuerySet:
    """Meetings whose page the viewer may open."""
    if viewer.person is None or viewer.is_organiser:
        return meetings_run_by(viewer)
    return Meeting.objects.filter(
        Q(pk__in=meetings_run_by(viewer).values("pk")) | Q(course__in=courses_seen_by(viewer).values("pk"))
    )


def people_seen_by(viewer: Viewer) -> PersonQuerySet:
    """People whose page the viewer may open: all, those of the courses they teach, or themselves."""
    if viewer.person is None:
        return Person.objects.none()
    if viewer.is_organiser:
        return Person.objects.all()
    taught = courses_run_by(viewer).values("pk")
    return Person.objects.filter(
        Q(pk=viewer.person.pk)
        | Q(pk__in=Person.objects.attending(taught).values("pk"))
        | Q(pk__in=Person.objects.teaching(taught).values("pk"))
    )
