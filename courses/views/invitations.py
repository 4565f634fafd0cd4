"""Inviting people by e-mail, and the page that the link in the mail opens."""

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import login
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from courses.actions.invitations import (
    AlreadyInvited,
    NotUsable,
    accept_invitation,
    invite,
    resend_invitation,
    withdraw_invitation,
)
from courses.actions.people import AddressTaken
from courses.forms.people import InvitationForm
from courses.models import Invitation, Role
from courses.queries.invitations import invitation_state, invitations_listed

from .access import for_roles, person_of


@require_safe
@for_roles(Role.ORGANISER)
def invitations(request: HttpRequest) -> HttpResponse:
    """Invitations that wait for an answer, and the latest answers."""
    return render(request, "courses/invitations.html", {"invitations": invitations_listed(timezone.now())})


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def invite_by_mail(request: HttpRequest) -> HttpResponse:
    """Write an invitation; its link goes out by e-mail."""
    form = InvitationForm(
        request.POST or None, today=timezone.localdate(), initial={"course": request.GET.get("course")}
    )
    if request.method == "POST" and form.is_valid():
        try:
            invite(**form.cleaned_data, by=person_of(request), now=timezone.now())
        except AddressTaken:
            form.add_error("email", _("Somebody of the school signs in with this address: look for them under People."))
        except AlreadyInvited:
            form.add_error("email", _("An invitation to this address is open: send that one again."))
        else:
            messages.success(request, _("The invitation is on its way to %s.") % form.cleaned_data["email"])
            return redirect("courses:invitations")
    back = reverse("courses:invitations")
    context = {
        "form": form,
        "title": _("Invite somebody"),
        "label": _("Send the invitation"),
        "back_url": back,
    }
    return render(request, "courses/form.html", {**context, "trail": [(back, _("Invitations"))]})


@require_POST
@for_roles(Role.ORGANISER)
def invitation_resend(request: HttpRequest, pk: int) -> HttpResponse:
    """Send the link again, usable for another fourteen days."""
    found = get_object_or_404(Invitation, pk=pk)
    try:
        resend_invitation(found, now=timezone.now())
    except NotUsable:
        messages.error(request, _("This invitation was answered or withdrawn meanwhile: nothing was sent."))
    else:
        messages.success(request, _("The invitation is on its way to %s again.") % found.email)
    return redirect("courses:invitations")


@require_POST
@for_roles(Role.ORGANISER)
def invitation_withdraw(request: HttpRequest, pk: int) -> HttpResponse:
    """Make a link useless."""
    found = get_object_or_404(Invitation, pk=pk)
    try:
        withdraw_invitation(found, now=timezone.now())
    except NotUsable:
        messages.error(request, _("This invitation was answered or withdrawn meanwhile: nothing was changed."))
    else:
        messages.success(request, _("The invitation to %s is withdrawn.") % found.email)
    return redirect("courses:invitations")


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def invitation(request: HttpRequest, key: str) -> HttpResponse:
    """Who invites to what; accepting signs in, because the link proves that the address is theirs."""
    found = get_object_or_404(Invitation.objects.select_related("course", "invited_by"), key=key)
    state = invitation_state(found, timezone.now())
    taken = False
    if request.method == "POST" and state == "open":
        try:
            person = accept_invitation(found, now=timezone.now())
        except NotUsable:
            found.refresh_from_db()
            state = invitation_state(found, timezone.now())
        except AddressTaken:
            taken = True
        else:
            login(request, person.user, backend=settings.AUTHENTICATION_BACKENDS[0])
            messages.success(request, _("Welcome. From now on you sign in with this address and a code sent to it."))
            return redirect("courses:home")
    status = 200 if state == "open" and not taken else 410
    context = {"invitation": found, "state": "taken" if taken else state}
    return render(request, "courses/invitation.html", context, status=status)
