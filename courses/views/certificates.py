"""Certificates: the list, one's own, the page and its paper, and what happens afterwards."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from courses.actions.certificates import NotPossibleNow, record_event
from courses.actions.check_page import show_name, show_pairs
from courses.actions.renewals import begin_renewal
from courses.documents.certificate import draw_certificate
from courses.forms.certificates import ApplyForm, EventForm
from courses.models import Certificate, Role
from courses.queries.certificate_now import narrowed_sentence, words_now
from courses.queries.certificates import (
    certificate_lines,
    certificates_seen_by,
    open_applications,
    pairs_to_keep,
    prospects,
)
from courses.queries.deciding import steps_open
from courses.queries.decision_appeals import declined_of, steps_of
from courses.queries.sentences.life import step_sentence
from courses.rules.life import RENEWAL_DAYS
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
    context = {
        "lines": certificate_lines(own, now),
        "prospects": prospects(person, now),
        "declined": declined_of(person, now),
        "form": ApplyForm(),
        "renewal_days": RENEWAL_DAYS,
    }
    return render(request, "courses/certificates/mine.html", context)


@require_safe
@for_people
def certificate(request: HttpRequest, number: str) -> HttpResponse:
    """What the certificate says, in the words of the paper, and what became of it."""
    found = get_object_or_404(certificates_seen_by(viewer_for(request)), number=number)
    return _certificate_page(request, found, None)


def _certificate_page(
    request: HttpRequest, found: Certificate, form: EventForm | None, status: int = 200
) -> HttpResponse:
    words, now, person = words_now(found), timezone.now(), person_of(request)
    is_own = found.person == person
    trail = [(reverse("courses:certificates"), _("Certificates"))]
    if is_own:
        trail = [(reverse("courses:certificates_mine"), _("My certificates"))]
    context = {
        "line": certificate_lines([found], now)[0],
        "words": words,
        "narrowed": narrowed_sentence(found),
        "is_own": is_own,
        "trail": trail,
        "decisions": list(steps_of(found, now).values()) if is_own else [],
    }
    if viewer_for(request).is_organiser:
        can = steps_open(found, person, now)
        context["form"] = form or EventForm(pairs=pairs_to_keep(found), kinds=can.steps)
        context["bar"] = step_sentence(can.refusal) if can.refusal else ""
        context["steps"] = can.steps
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
