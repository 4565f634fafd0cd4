"""Who may read which joining forms, what was asked, and who has read one's own."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.conf import settings
from django.db.models import Max, Q, QuerySet
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from courses.models import Consent, Course, Enrolment, HealthReading, JoiningForm, Meeting
from courses.querysets import EnrolmentQuerySet

from .people import Viewer

WORDS = {
    Consent.Kind.HEALTH: _(
        "The tutors of this course may read what I write here about my health, to keep me safe outdoors. It is erased "
        "after the course, or as soon as I take this back."
    ),
    Consent.Kind.TASTING: _(
        "I may be offered small tastes. Tasting is always a choice: I taste nothing without the tutor's word, and only "
        "one new plant at a time."
    ),
    Consent.Kind.PICTURES: _("Pictures on which I can be recognised may be taken and used by the school."),
}
"""What is agreed to. A change of these words is a new version."""
WORDS_VERSION = 1


@dataclass(frozen=True)
class OwnForm:
    """One's own form: what was kept, what is agreed to, until when, and who read it."""

    enrolment: Enrolment
    form: JoiningForm | None
    agreed: frozenset[str]
    erased_after: date
    readings: tuple[HealthReading, ...]


def own_form(enrolment: Enrolment) -> OwnForm:
    """Everything about one's own form but its texts; three queries."""
    form = JoiningForm.objects.filter(enrolment=enrolment).first()
    standing = enrolment.consents.filter(withdrawn_at__isnull=True)
    readings = HealthReading.objects.filter(form=form).select_related("reader", "meeting")[:50] if form else ()
    return OwnForm(
        enrolment,
        form,
        frozenset(standing.values_list("kind", flat=True)),
        erased_after(enrolment.course),
        tuple(readings),
    )


def erased_after(course: Course) -> date:
    """The day after which the notes of a course are erased."""
    last: datetime | None = course.meetings.aggregate(last=Max("ends_at"))["last"]
    end = max(course.ends_on, timezone.localdate(last)) if last else course.ends_on
    return end + timedelta(days=settings.HEALTH_NOTES_KEPT_DAYS)


def reads_notes_of(viewer: Viewer) -> QuerySet[Course]:
    """The courses whose notes somebody may read: those they teach, while they are a tutor. Nobody else's."""
    if viewer.person is None or not viewer.is_tutor:
        return Course.objects.none()
    return Course.objects.filter(tutors=viewer.person)


def meetings_with_notes_for(viewer: Viewer, now: datetime) -> QuerySet[Meeting]:
    """The meetings for which somebody may read notes: those of their courses, and, on its day, one they stand in at."""
    if viewer.person is None:
        return Meeting.objects.none()
    today = timezone.localdate(now)
    standing_in = Q(stand_ins__person=viewer.person, stand_ins__taken_back_at__isnull=True, starts_at__date=today)
    return Meeting.objects.filter(Q(course__in=reads_notes_of(viewer).values("pk")) | standing_in).distinct()


def places_with_forms(course: Course) -> EnrolmentQuerySet:
    """Everybody with a place in a course, with their form where there is one, by name."""
    rows = course.enrolments.with_a_place().select_related("person", "joining_form").prefetch_related("consents")
    placed: EnrolmentQuerySet = rows.order_by("person__name")
    return placed
