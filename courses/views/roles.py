"""Giving somebody a role, and ending one."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from courses.actions.roles import LastOrganiser, end_role, grant_role
from courses.forms.people import RoleForm
from courses.models import Person, Role, RoleGrant

from .access import for_roles, person_of


@require_POST
@for_roles(Role.ORGANISER)
def role_grant(request: HttpRequest, uuid: UUID) -> HttpResponse:
    """Give a role from today on."""
    found = get_object_or_404(Person.objects.here().select_related("user"), uuid=uuid)
    form = RoleForm(request.POST)
    if not form.is_valid():
        context = {"form": form, "title": found.name, "back_url": reverse("courses:person", args=[uuid])}
        return render(request, "courses/form.html", context)
    role, reason = form.cleaned_data["role"], form.cleaned_data["reason"]
    grant = grant_role(found, role, today=timezone.localdate(), by=person_of(request), reason=reason)
    words = {"name": found.name, "role": grant.get_role_display()}
    messages.success(request, _("%(name)s is %(role)s.") % words)
    return redirect("courses:person", uuid)


@require_POST
@for_roles(Role.ORGANISER)
def role_end(request: HttpRequest, pk: int) -> HttpResponse:
    """End a role at once."""
    today = timezone.localdate()
    held = RoleGrant.objects.held_on(today).select_related("person__user")
    grant = get_object_or_404(held, pk=pk)
    words = {"name": grant.person.name, "role": grant.get_role_display()}
    try:
        end_role(grant, today=today)
    except LastOrganiser:
        messages.error(request, _("Nobody else is an organiser: give somebody that role before you end this one."))
    else:
        messages.success(request, _("%(name)s is no longer %(role)s.") % words)
    return redirect("courses:person", grant.person.uuid)
