"""The people of the school: list, page of one person, correcting what is known of them."""

from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from courses.actions.people import keep_person
from courses.actions.roles import LastOrganiser
from courses.forms.people import PersonForm, RoleForm
from courses.models import Person, Role
from courses.queries.directory import people_listed, person_lines, record_of
from courses.queries.own_leading import leading_record
from courses.queries.visible import people_seen_by

from .access import for_people, for_roles, viewer_for

PEOPLE_PER_PAGE = 50


@require_safe
@for_roles(Role.ORGANISER, Role.TUTOR)
def people(request: HttpRequest) -> HttpResponse:
    """Who is in the school: everybody for organisers, those of their courses for tutors."""
    words, role = request.GET.get("q", ""), request.GET.get("role", "")
    found = people_listed(people_seen_by(viewer_for(request)), timezone.localdate(), words, role)
    page = Paginator(found, PEOPLE_PER_PAGE).get_page(request.GET.get("page"))
    context = {"page": page, "lines": person_lines(page.object_list), "words": words, "role": role}
    return render(request, "courses/people.html", {**context, "roles": Role.choices})


@require_safe
@for_people
def person(request: HttpRequest, uuid: UUID) -> HttpResponse:
    """What the school knows of somebody. Everybody may open their own page."""
    found = get_object_or_404(people_seen_by(viewer_for(request)).select_related("user"), uuid=uuid)
    now = timezone.now()
    context = {
        "record": record_of(found, timezone.localdate()),
        "form": RoleForm(),
        "leading": leading_record(found, now),
    }
    return render(request, "courses/person.html", {**context, "trail": _trail(request)})


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def person_edit(request: HttpRequest, uuid: UUID) -> HttpResponse:
    """Correct what the school knows of somebody, or record that they left."""
    kept = Person.objects.filter(erased_on__isnull=True)  # whoever was erased is not filled in again
    found = get_object_or_404(kept.select_related("user"), uuid=uuid)
    form = PersonForm(request.POST or None, instance=found, today=timezone.localdate())
    if request.method == "POST" and form.is_valid():
        try:
            keep_person(form.save(commit=False), today=timezone.localdate())
        except LastOrganiser:
            form.add_error("left_on", _("Nobody else is an organiser: give somebody that role first."))
        else:
            messages.success(request, _("What you changed is saved."))
            return redirect("courses:person", uuid)
    url = reverse("courses:person", args=[uuid])
    context = {"form": form, "title": form.initial["name"], "back_url": url}
    return render(request, "courses/form.html", {**context, "trail": [*_trail(request), (url, context["title"])]})


def _trail(request: HttpRequest) -> list[tuple[str, str]]:
    is_open = viewer_for(request).is_any(Role.ORGANISER, Role.TUTOR)
    return [(reverse("courses:people"), _("People"))] if is_open else []
