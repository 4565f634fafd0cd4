"""How a certificate is had, used, appealed and complained about, for anybody; and complaints for who answers them."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from courses.actions.complaints import AlreadyAnswered, answer_complaint, complain
from courses.forms.complaints import ComplaintForm
from courses.forms.enquiries import AnswerForm
from courses.models import Complaint, Role

from .access import for_roles, person_of
from .limits import asked_too_often, too_often

COMPLAINTS_AN_HOUR, HOUR = 5, 3600


@require_http_methods(["GET", "HEAD", "POST"])
def about_certificates(request: HttpRequest) -> HttpResponse:
    """What anybody may know without asking, and the way to complain."""
    form = ComplaintForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        if asked_too_often(request, "complaint", COMPLAINTS_AN_HOUR, HOUR):
            return too_often(request, HOUR)
        complain(**form.cleaned_data, now=timezone.now())
        messages.success(request, _("Your complaint is received; the answer comes by e-mail."))
        return redirect("courses:about_certificates")
    return render(request, "courses/certificates/about.html", {"form": form}, status=422 if form.errors else 200)


@require_safe
@for_roles(Role.ORGANISER)
def complaints(request: HttpRequest) -> HttpResponse:
    """All of them, those without an answer first."""
    rows = Complaint.objects.select_related("answered_by").order_by("answered_at", "received_at")
    waiting, done = rows.filter(answered_at__isnull=True), rows.filter(answered_at__isnull=False)
    return render(request, "courses/complaints.html", {"waiting": waiting, "done": done})


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def complaint(request: HttpRequest, key: str) -> HttpResponse:
    """One complaint, and its answer."""
    found = get_object_or_404(Complaint.objects.select_related("answered_by"), key=key)
    form = AnswerForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        try:
            answer_complaint(found, form.cleaned_data["text"], by=person_of(request), now=timezone.now())
        except AlreadyAnswered:
            messages.error(request, _("Somebody answered meanwhile: nothing was sent."))
        return redirect("courses:complaints")
    trail = [(reverse("courses:complaints"), _("Complaints"))]
    context = {"complaint": found, "form": form, "trail": trail}
    return render(request, "courses/complaint.html", context, status=422 if form.errors else 200)
