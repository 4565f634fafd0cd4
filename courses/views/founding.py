"""Putting a founding assessor on record."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from courses.actions.founders import FounderRefused, record_founder
from courses.forms.people import FoundingForm
from courses.models import Person, Role

from .access import for_roles, person_of


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def founding(request: HttpRequest, uuid: UUID) -> HttpResponse:
    """Why somebody is trusted to assess before anybody could hold a certificate."""
    found = get_object_or_404(Person.objects.here(), uuid=uuid)
    form = FoundingForm(request.POST if request.method == "POST" else None)
    url = reverse("courses:person", args=[uuid])
    if request.method == "POST" and form.is_valid():
        reason, today = form.cleaned_data["reason"], timezone.localdate()
        try:
            record_founder(found, reason, by=person_of(request), today=today)
        except FounderRefused as refusal:
            form.add_error(None, refusal.sentence)
        else:
            messages.success(request, _("%(name)s is on record as a founding assessor.") % {"name": found.name})
            return redirect(url)
    title = _("%(name)s as a founding assessor") % {"name": found.name}
    context = {"form": form, "title": title, "back_url": url, "trail": [(url, found.name)]}
    return render(request, "courses/form.html", context, status=422 if form.errors else 200)
