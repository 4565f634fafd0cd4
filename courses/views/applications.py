"""Applications for certificates: asking, taking back, and the decision with what may stand in its way."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from assessments.models import Standard
from courses.actions.certificates import (
    AlreadyApplied,
    AlreadyDecided,
    NotImpartial,
    NotPossibleNow,
    NotYet,
    apply_for,
    decline,
    issue_certificate,
    take_back,
)
from courses.actions.conflicts import declare_conflict, end_conflict
from courses.forms.certificates import ApplyForm, ConflictForm, DeclineForm
from courses.models import Application, Role
from courses.queries.certificates import certificates_seen_by, missing_before
from courses.queries.signing_keys import NoSigningKeys

from .access import for_people, for_roles, person_of, viewer_for


@require_POST
@for_people
def apply(request: HttpRequest, pk: int) -> HttpResponse:
    """Apply for a certificate under one standard in use."""
    standard = get_object_or_404(Standard.objects.in_use(), pk=pk)
    form = ApplyForm(request.POST)
    if not form.is_valid():
        messages.error(request, " ".join(str(each[0]) for each in form.errors.values()))
        return redirect("courses:certificates_mine")
    person, renews = person_of(request), None
    if request.POST.get("renews"):
        own = certificates_seen_by(viewer_for(request)).filter(person=person)
        renews = get_object_or_404(own, number=request.POST["renews"])
    try:
        apply_for(person, standard, statement=True, agreed=True, renews=renews, now=timezone.now())
    except NotPossibleNow as error:
        messages.error(request, str(error))
    except AlreadyApplied:
        messages.info(request, _("You have applied already; an organiser will decide."))
    else:
        messages.success(request, _("Your application is with the organisers; you will hear by e-mail."))
    return redirect("courses:certificates_mine")


@require_safe
@for_roles(Role.ORGANISER)
def application(request: HttpRequest, pk: int) -> HttpResponse:
    """One application: what is missing, or the two decisions."""
    found = get_object_or_404(Application.objects.select_related("person__user", "standard"), pk=pk)
    return _application_page(request, found, DeclineForm())


@require_POST
@for_roles(Role.ORGANISER)
def application_decide(request: HttpRequest, pk: int) -> HttpResponse:
    """Issue, or decline with a reason."""
    found = get_object_or_404(Application.objects.select_related("person__user", "standard"), pk=pk)
    now, decider = timezone.now(), person_of(request)
    try:
        if "issue" in request.POST:
            certificate = issue_certificate(found, decider, now=now)
            messages.success(request, _("Certificate %(number)s is issued.") % {"number": certificate.number})
            return redirect("courses:certificate", number=certificate.number)
        form = DeclineForm(request.POST)
        if not form.is_valid():
            return _application_page(request, found, form, status=422)
        decline(found, decider, form.cleaned_data["reason"], now=now)
        messages.success(request, _("The application is declined; the person is told why."))
    except NotYet:
        messages.error(request, _("Nothing was issued: read below what is missing."))
        return _application_page(request, found, DeclineForm(), status=409)
    except NotImpartial:
        messages.error(request, _("Nothing was declined: read below why you do not decide about this person."))
        return _application_page(request, found, DeclineForm(), status=409)
    except AlreadyDecided:
        messages.info(request, _("Somebody decided on this application already."))
    except NoSigningKeys as error:
        messages.error(request, _("Nothing was issued, since it could not be signed. %(fault)s") % {"fault": error})
    return redirect("courses:certificates")


def _application_page(request: HttpRequest, found: Application, form: DeclineForm, status: int = 200) -> HttpResponse:
    certification, missing = missing_before(found, person_of(request), timezone.now())
    context = {
        "application": found,
        "found": certification,
        "missing": missing,
        "form": form,
        "conflict_form": ConflictForm(auto_id="conflict-%s"),
    }
    return render(request, "courses/certificates/application.html", context, status=status)


@require_http_methods(["GET", "HEAD", "POST"])
@for_people
def application_take_back(request: HttpRequest, pk: int) -> HttpResponse:
    """Take back one's own application: asks once more before it is done."""
    mine = Application.objects.filter(person=person_of(request)).select_related("standard")
    found, back_url = get_object_or_404(mine, pk=pk), reverse("courses:certificates_mine")
    if request.method != "POST":
        context = {"application": found, "back_url": back_url, "trail": [(back_url, _("My certificates"))]}
        return render(request, "courses/certificates/take_back.html", context)
    try:
        take_back(found, timezone.now())
    except AlreadyDecided:
        messages.info(request, _("Nothing was changed: it was decided, or taken back before."))
    else:
        messages.success(request, _("Your application is taken back. You can apply again whenever you like."))
    return redirect(back_url)


@require_POST
@for_roles(Role.ORGANISER)
def application_conflict(request: HttpRequest, pk: int) -> HttpResponse:
    """Declare that one should not decide about the person who applied, or that this is over."""
    found = get_object_or_404(Application.objects.select_related("person__user", "standard"), pk=pk)
    today, by = timezone.localdate(), person_of(request)
    if "over" in request.POST:
        end_conflict(by, found.person, today)
        return redirect("courses:application", pk=pk)
    form = ConflictForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("Say in a few words what connects you with this person."))
        return redirect("courses:application", pk=pk)
    declare_conflict(by, found.person, form.cleaned_data["reason"], today)
    messages.success(request, _("It is recorded: read above who may decide now."))
    return redirect("courses:application", pk=pk)
