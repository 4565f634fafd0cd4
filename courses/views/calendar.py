"""One's calendar address, and the feed behind it."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.cache import patch_cache_control
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from courses.actions.calendar import end_address, renew_address
from courses.documents.calendar import write_calendar
from courses.models import CalendarAddress
from courses.queries.calendar import calendar_entries, has_ended, own_calendar
from courses.queries.people import the_school

from .access import for_people, person_of
from .limits import limited


@require_safe
@for_people
def calendar(request: HttpRequest) -> HttpResponse:
    """The address for the viewer's own calendar, and what stands in it."""
    return render(request, "courses/calendar.html", {"calendar": own_calendar(person_of(request), timezone.now())})


@require_POST
@for_people
def calendar_renew(request: HttpRequest) -> HttpResponse:
    """A new address; the old one is gone."""
    renew_address(person_of(request), timezone.now())
    messages.success(request, _("Here is your new address. An older one no longer works."))
    return redirect("courses:calendar")


@require_POST
@for_people
def calendar_end(request: HttpRequest) -> HttpResponse:
    """No address any more."""
    end_address(person_of(request), timezone.now())
    messages.success(request, _("The address no longer works."))
    return redirect("courses:calendar")


@require_safe
@limited("calendar", 60)
def calendar_feed(request: HttpRequest, key: str) -> HttpResponse:
    """The feed, read by a calendar program that signs nobody in. An address that is not known says only that."""
    now = timezone.now()
    found = CalendarAddress.objects.filter(key=key, ended_at__isnull=True).select_related("person").first()
    if found is None:
        raise Http404
    if has_ended(found.person, now):
        gone = HttpResponse(_("This calendar has ended."), status=410, content_type="text/plain; charset=utf-8")
        return _guarded(gone)
    school = the_school()
    content = write_calendar(school.name if school else "", calendar_entries(found.person, now))
    answer = HttpResponse(content, content_type="text/calendar; charset=utf-8")
    answer["Content-Disposition"] = 'inline; filename="meetings.ics"'
    return _guarded(answer)


def _guarded(answer: HttpResponse) -> HttpResponse:
    patch_cache_control(answer, private=True, no_store=True)
    answer["X-Robots-Tag"] = "noindex"
    return answer
