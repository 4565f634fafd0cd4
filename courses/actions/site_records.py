"""What is written down of a site: permissions, plants seen, reviews, and what went wrong there."""

from collections.abc import Mapping
from datetime import date, datetime

from django.db import transaction

from courses.models import Incident, Meeting, Person, Site, SitePermission, SiteRecord, SiteReview
from species.models import Species


def keep_permission(permission: SitePermission, *, by: Person, today: date) -> SitePermission:
    """Write a permission down."""
    permission.recorded_by, permission.recorded_on = by, today
    permission.save()
    return permission


def end_permission(permission: SitePermission, today: date) -> None:
    """It was taken back, and does not hold from today on."""
    SitePermission.objects.filter(pk=permission.pk, ended_on__isnull=True).update(ended_on=today)


def note_plant(site: Site, species: Species, stage: str, *, seen_on: date, note: str, by: Person) -> SiteRecord:
    """A plant was seen at a site in a stage."""
    return SiteRecord.objects.create(site=site, species=species, stage=stage, seen_on=seen_on, note=note, seen_by=by)


def review_site(
    site: Site, headings: Mapping[str, str], *, meeting: Meeting | None, by: Person, today: date, **fields: object
) -> SiteReview:
    """A new review; the one before stays as it was written."""
    with transaction.atomic():
        return SiteReview.objects.create(
            site=site, headings=dict(headings), meeting=meeting, reviewed_by=by, reviewed_on=today, **fields
        )


def note_incident(incident: Incident, *, by: Person, now: datetime) -> Incident:
    """Write down what happened, without blame. The site is that of the meeting where none is named."""
    incident.noted_by, incident.noted_at = by, now
    if incident.site is None and incident.meeting is not None:
        incident.site = incident.meeting.site
    incident.save()
    return incident


def draw_lesson(incident: Incident, lesson: str, by: Person) -> None:
    """What is done differently now."""
    incident.lesson, incident.lesson_by = lesson, by
    incident.save(update_fields=["lesson", "lesson_by"])
