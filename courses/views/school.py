"""What the school says of itself."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from courses.forms.school import SchoolForm
from courses.models import Role
from courses.queries.people import the_school

from .access import for_roles


@require_http_methods(["GET", "HEAD", "POST"])
@for_roles(Role.ORGANISER)
def school_edit(request: HttpRequest) -> HttpResponse:
    """Change the name, the addresses and the numbers to call."""
    school = the_school()
    if school is None:
        raise Http404
    form = SchoolForm(request.POST or None, instance=school)
    if request.method == "POST" and form.is_valid():
        form.save()
        messages.success(request, _("What the school says of itself is saved."))
        return redirect("courses:school_edit")
    context = {"form": form, "title": _("The school"), "back_url": reverse("courses:home")}
    note = _("Public address, time zone and language are set where the site runs, in .var/settings.env.")
    return render(request, "courses/form.html", {**context, "intro": note})
