"""Questions from outside, for those who answer them."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from courses.actions.enquiries import AlreadyAnswered, answer, close
from courses.forms.enquiries import AnswerForm
from courses.models import Enquiry, Role

from .access import for_roles, person_of

MOST = 100


@require_safe
@for_roles(Role.ORGANISER)
def enquiries(request: HttpRequest) -> HttpResponse:
    """Those that wait for an answer, oldest first; then the others."""
    rows = Enquiry.objects.select_related("course", "answered_by")
    waiting = list(rows.unanswered().order_by("asked_at"))
    done = list(rows.exclude(pk__in=[each.pk for each in waiting])[:MOST])
    return render(request, "courses/enquiries.html", {"waiting": waiting, "done": done})


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def enquiry(request: HttpRequest, key: str) -> HttpResponse:
    """One question, and its answer."""
    found = get_object_or_404(Enquiry.objects.select_related("course", "answered_by"), key=key)
    form = AnswerForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        try:
            answer(found, form.cleaned_data["text"], by=person_of(request), now=timezone.now())
        except AlreadyAnswered:
            messages.error(request, _("This was answered or closed meanwhile: nothing was sent."))
        else:
            messages.success(request, _("The answer is on its way to %s.") % found.email)
        return redirect("courses:enquiries")
    trail = [(reverse("courses:enquiries"), _("Questions from outside"))]
    context = {"enquiry": found, "form": form, "trail": trail}
    return render(request, "courses/enquiry.html", context, status=422 if form.errors else 200)


@require_POST
@for_roles(Role.ORGANISER)
def enquiry_close(request: HttpRequest, key: str) -> HttpResponse:
    """Put a question away without a letter."""
    close(get_object_or_404(Enquiry, key=key), timezone.now())
    messages.success(request, _("Put away."))
    return redirect("courses:enquiries")
