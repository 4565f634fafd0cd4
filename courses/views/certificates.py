"""Certificates: the list, one's own, applying, deciding, the page and its paper, and what happens afterwards."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from assessments.models import Standard
from courses.actions.certificates import (
    AlreadyApplied,
    AlreadyDecided,
    NotPossibleNow,
    NotYet,
    apply_for,
    decline,
    issue_certificate,
    record_event,
    show_name,
    show_pairs,
)
from courses.actions.conflicts import declare_conflict, end_conflict
from courses.actions.renewals import begin_renewal
from courses.documents.certificate import draw_certificate
from courses.documents.facts import CertificateFacts
from courses.forms.certificates import ApplyForm, ConflictForm, DeclineForm, EventForm
from courses.models import Application, Certificate, Role
from courses.queries.certificate_now import words_now
from courses.queries.certificate_words import certificate_words
from courses.queries.certificates import (
    certificate_lines,
    certificates_seen_by,
    missing_before,
    open_applications,
    pairs_to_keep,
    prospects,
)
from courses.queries.signing_keys import NoSigningKeys
from species.documents.fonts import CannotPrint

from .access import for_people, for_roles, person_of, refused, viewer_for


@require_safe
@for_roles(Role.ORGANISER, Role.TUTOR, Role.ASSESSOR)
def certificates(request: HttpRequest) -> HttpResponse:
    """What waits for a decision, and what was issued."""
    now, viewer = timezone.now(), viewer_for(request)
    lines = certificate_lines(certificates_seen_by(viewer), now)
    applications = open_applications(viewer.person, now)
    return render(request, "courses/certificates/certificates.html", {"lines": lines, "applications": applications})


@require_safe
@for_people
def certificates_mine(request: HttpRequest) -> HttpResponse:
    """The viewer's own certificates, and how far they are towards others."""
    now, person = timezone.now(), person_of(request)
    own = certificates_seen_by(viewer_for(request)).filter(person=person)
    context = {"lines": certificate_lines(own, now), "prospects": prospects(person, now), "form": ApplyForm()}
    return render(request, "courses/certificates/mine.html", context)


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


@require_safe
@for_people
def certificate(request: HttpRequest, number: str) -> HttpResponse:
    """What the certificate says, in the words of the paper, and what became of it."""
    found = get_object_or_404(certificates_seen_by(viewer_for(request)), number=number)
    return _certificate_page(request, found, EventForm(pairs=pairs_to_keep(found)))


def _certificate_page(request: HttpRequest, found: Certificate, form: EventForm, status: int = 200) -> HttpResponse:
    words = certificate_words(CertificateFacts.from_json(found.facts))
    context = {
        "line": certificate_lines([found], timezone.now())[0],
        "words": words,
        "form": form,
        "is_own": found.person == person_of(request),
        "kept": [name for _key, name in pairs_to_keep(found)],
    }
    return render(request, "courses/certificates/certificate.html", context, status=status)


@require_safe
@for_people
def certificate_pdf(request: HttpRequest, number: str) -> HttpResponse:
    """The paper."""
    found = get_object_or_404(certificates_seen_by(viewer_for(request)), number=number)
    try:
        paper = draw_certificate(words_now(found))
    except CannotPrint as error:
        sentence = _(
            "This certificate cannot be printed: the paper has no letters for %(letters)s. Its page is complete."
        )
        return refused(request, sentence % {"letters": error.letters}, status=409)
    response = HttpResponse(paper, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="certificate-{found.number}.pdf"'
    return response


@require_http_methods(["POST"])
@for_roles(Role.ORGANISER)
def certificate_event(request: HttpRequest, number: str) -> HttpResponse:
    """Suspend, lift, withdraw: with a reason."""
    found = get_object_or_404(certificates_seen_by(viewer_for(request)), number=number)
    form = EventForm(request.POST, pairs=pairs_to_keep(found))
    if not form.is_valid():
        return _certificate_page(request, found, form, status=422)
    said, by = form.cleaned_data, person_of(request)
    try:
        record_event(found, said["kind"], by, said["reason"], keeping=said["keeping"], now=timezone.now())
    except NotPossibleNow as error:
        form.add_error(None, str(error))
        return _certificate_page(request, found, form, status=409)
    messages.success(request, _("It is recorded, and the holder is told."))
    return redirect("courses:certificate", number=number)


@require_POST
@for_people
def certificate_name(request: HttpRequest, number: str) -> HttpResponse:
    """What the check page shows, name and pairs: the holder's own choice."""
    own = certificates_seen_by(viewer_for(request)).filter(person=person_of(request))
    found = get_object_or_404(own, number=number)
    if "show" in request.POST:
        show_name(found, request.POST["show"] == "yes")
    if "pairs" in request.POST:
        show_pairs(found, request.POST["pairs"] == "yes")
    return redirect("courses:certificate", number=number)


@require_POST
@for_roles(Role.ORGANISER)
def certificate_renewal(request: HttpRequest, number: str) -> HttpResponse:
    """Begin the period of evidence that the renewal of a certificate will rest on."""
    found = get_object_or_404(certificates_seen_by(viewer_for(request)), number=number)
    try:
        begin_renewal(found, person_of(request), timezone.now())
    except NotPossibleNow as error:
        messages.error(request, str(error))
    else:
        messages.success(request, _("A new period has begun: only tests from now on count for the renewal."))
    return redirect("courses:certificate", number=number)


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
    messages.success(request, _("It is recorded: somebody else decides."))
    return redirect("courses:application", pk=pk)
